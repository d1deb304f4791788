package measure

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"plait/internal/exact"
)

func TestParseMass(t *testing.T) {
	for in, want := range map[string]string{
		"30 g":      "30",
		"30g":       "30",
		" 22.5 g ":  "22.5",
		"1 gram":    "1",
		"2 Grams":   "2",
		"0.5 kg":    "500",
		"20/3 g":    "20/3",
		"0 g":       "0",
		"1000 kg":   "1000000", // the heaviest that is taken
		"000030 g":  "30",
		"0.0001 kg": "0.1",
	} {
		m, err := ParseMass(in)
		if err != nil {
			t.Errorf("ParseMass(%q): %v", in, err)
		}
		expectNumber(t, m.Grams(), want)
	}
	for in, word := range map[string]string{
		"":               "not a weight",
		"g":              "not a weight",
		"½ g":            "not a weight",
		"30":             "write 30 g",
		"30 gr":          "has no unit plait knows",
		"1 1/2 g":        "has no unit plait knows",
		"-1 g":           "negative",
		"1,5 g":          "as in 1.5",
		"60 mL":          "bowls are weighed",
		"1 l":            "bowls are weighed",
		"1/0 g":          "not a number",
		"1000.001 kg":    "more than a tonne",
		"123456789012 g": "more digits",
	} {
		_, err := ParseMass(in)
		expectErr(t, in, err, word)
	}
}

// An ounce has three readings. The figures are those of the definitions beside
// the constants.
func TestParseMassShowsTheReadingsOfAnOunce(t *testing.T) {
	for _, in := range []string{"2 oz", "2 ounces", "2 OZ"} {
		_, err := ParseMass(in)
		expectErr(t, in, err, "56.7 g", "59.15 mL", "56.83 mL", "write grams")
	}
}

// A fluid ounce is never a mass, and the two that there are differ.
func TestParseMassTakesNoFluidOunces(t *testing.T) {
	for _, in := range []string{"2 fl oz", "2 US fl oz", "2 UK fl oz"} {
		_, err := ParseMass(in)
		expectErr(t, in, err, "is a volume", "59.15 mL", "56.83 mL", "write grams")
	}
}

// Conversions printed to four places (general unit tables derived from NIST
// definitions; Weights and Measures Act 1985, Schedule 1).
func TestOunces(t *testing.T) {
	expect := func(got exact.Number, want float64) {
		t.Helper()
		if math.Abs(got.Float()-want) > 0.00005 {
			t.Errorf("got %s, want %v", got.Decimal(6), want)
		}
	}
	expect(USFluidOunce.Mul(exact.Int(2)), 59.1471)
	expect(UKFluidOunce.Mul(exact.Int(2)), 56.8261)
	expect(exact.Int(60).Quo(USFluidOunce), 2.0288)
	expect(exact.Int(60).Quo(UKFluidOunce), 2.1117)
	expect(USFluidOunce.Mul(exact.Int(16)), 473.1765)
	expect(USFluidOunce.Mul(exact.Int(32)), 946.3529)
	expect(exact.Int(1000).Quo(USFluidOunce), 33.8140)
	expect(exact.Int(1000).Quo(UKFluidOunce), 35.1951)
	expect(Ounce.Times(exact.Int(2)).Grams(), 56.6990)
	expect(USFluidOunce.Quo(UKFluidOunce), 1.0408)

	// 231 cubic inches over 128, the inch being 2.54 cm exactly.
	inch := exact.Of(254, 100)
	gallon := exact.Int(231).Mul(inch).Mul(inch).Mul(inch)
	expectNumber(t, gallon.Quo(exact.Int(128)).Sub(USFluidOunce), "0")
	expectNumber(t, exact.Of(454_609, 100).Quo(exact.Int(160)).Sub(UKFluidOunce), "0")
	expectNumber(t, exact.Of(45_359_237, 100_000).Quo(exact.Int(16)).Sub(Ounce.Grams()), "0")
}

// Weights keep nothing back: whatever is split in equal parts adds up again.
func TestMassIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Grams(exact.Of(rapid.Int64Range(0, 1_000_000).Draw(t, "hundredths"), 100))
		n := rapid.Int64Range(1, 40).Draw(t, "heads")
		each := m.Times(exact.Of(1, n))
		var sum Mass
		for range n {
			sum = sum.Add(each)
		}
		if sum.Cmp(m) != 0 {
			t.Fatalf("%s in %d parts of %s adds up to %s", m, n, each, sum)
		}
	})
}

func FuzzParseMass(f *testing.F) {
	for _, s := range []string{"30 g", "0.5 kg", "20/3 g", "2 fl oz", "1,000 g", "60 ml", "-0 g"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		m, err := ParseMass(s)
		if err != nil {
			expectNothing(t, s, err, m.IsZero())
			return
		}
		back, err := ParseMass(typed(m.Grams()) + " g")
		if err != nil || back.Cmp(m) != 0 || m.Grams().Sign() < 0 {
			t.Fatalf("ParseMass(%q) = %s, printed and read again %s, %v", s, m, back, err)
		}
	})
}

func ExampleParseMass() {
	m, _ := ParseMass("0.07 kg")
	fmt.Println(m, "in three bowls is", m.Times(exact.Of(1, 3)), "each")

	_, err := ParseMass("2 oz")
	fmt.Println(err)
	// Output:
	// 70 g in three bowls is 23.33 g each
	// "2 oz" could be a mass (56.7 g), US fluid ounces (59.15 mL) or UK ones (56.83 mL); weigh it and write grams
}
