package mix

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/peroxide"
	"plait/internal/shade"
)

// The two scales of a salon: one shows tenths of a gram, one whole grams.
var (
	tenth = measure.Grams(exact.Of(1, 10))
	whole = measure.Grams(exact.One)
)

func number(t testing.TB, text string) exact.Number {
	t.Helper()
	n, err := exact.Parse(text)
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return n
}

func grams(t testing.TB, text string) measure.Mass { return measure.Grams(number(t, text)) }

// formula builds a bowl from a short text: the doses of shades of the level in front
// of their names, the ratio, the developers with their parts where there are
// several, and the size. "2 5A + 1 7B | 1:1.5 | 20 vol | 45 colour" is two shades
// with 45 g of colour; additives go last, "5 % bond" or "3 g bond".
func formula(t testing.TB, text string) Formula {
	t.Helper()
	fields := strings.Split(text, "|")
	var f Formula
	for _, dose := range strings.Split(fields[0], "+") {
		share, code, _ := strings.Cut(strings.TrimSpace(dose), " ")
		f.Shades = append(f.Shades, Shade{Code: shade.Bare(code), Share: number(t, share)})
	}
	if ratio := strings.TrimSpace(fields[1]); ratio != "none" {
		one, other, _ := strings.Cut(ratio, ":")
		f.Ratio = measure.Ratio{Colour: number(t, one), Developer: number(t, other)}
		for _, d := range strings.Split(fields[2], "+") {
			f.Developers = append(f.Developers, developer(t, strings.TrimSpace(d)))
		}
	}
	size, of, _ := strings.Cut(strings.TrimSpace(fields[3]), " ")
	f.Size = grams(t, size)
	if of == "mixed" {
		f.SizeOf = OfMixed
	}
	for _, a := range fields[4:] {
		dose := strings.Fields(a)
		add := Additive{Name: dose[2]}
		if dose[1] == "%" {
			add.PerColour = number(t, dose[0]).Mul(exact.Of(1, 100))
		} else {
			add.Mass = grams(t, dose[0])
		}
		f.Additives = append(f.Additives, add)
	}
	return f
}

// developer reads "20 vol" or, with its parts, "2 of 20 vol".
func developer(t testing.TB, text string) Developer {
	t.Helper()
	d := Developer{Share: exact.One}
	if parts, strength, ok := strings.Cut(text, " of "); ok {
		d.Share, text = number(t, parts), strength
	}
	s, err := peroxide.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	d.Strength = s
	return d
}

func compute(t testing.TB, text string, step measure.Mass) Bowl {
	t.Helper()
	b, err := Compute(formula(t, text), step)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return b
}

// weights prints the exact weights of all parts, "30 + 60".
func weights(b Bowl) string {
	return list(b, func(p Part) measure.Mass { return p.Exact })
}

// weighed prints the weights on the scale.
func weighed(b Bowl) string {
	return list(b, func(p Part) measure.Mass { return p.Weighed })
}

func list(b Bowl, mass func(Part) measure.Mass) string {
	out := make([]string, len(b.Parts))
	for i, p := range b.Parts {
		out[i] = mass(p).Grams().String()
	}
	return strings.Join(out, " + ")
}

// expectWeights holds the exact weights of a bowl's parts and its total.
func expectWeights(t *testing.T, text, want, total string) {
	t.Helper()
	b := compute(t, text, tenth)
	if got := weights(b); got != want || b.Mixed.Grams().String() != total {
		t.Errorf("%s: got %s, %s in all; want %s, %s", text, got, b.Mixed, want, total)
	}
}

// Derived by proportion.
func TestComputeWeights(t *testing.T) {
	expectWeights(t, "1 6N | 1:1 | 6 % | 60 mixed", "30 + 30", "60")
	expectWeights(t, "1 6N | 1:1.5 | 6 % | 75 mixed", "30 + 45", "75")
	expectWeights(t, "1 6N | 1:2 | 6 % | 90 mixed", "30 + 60", "90")
	expectWeights(t, "1 6N | 1:3 | 6 % | 100 mixed", "25 + 75", "100")
	expectWeights(t, "1 6N | 1:2 | 6 % | 70 mixed", "70/3 + 140/3", "70")
	expectWeights(t, "1 6N | 1:1.2 | 6 % | 55 mixed", "25 + 30", "55")
	expectWeights(t, "1 6N | 1:2.5 | 6 % | 105 mixed", "30 + 75", "105")
	expectWeights(t, "1 6N | 1:1.5 | 6 % | 40 colour", "40 + 60", "100")
	expectWeights(t, "1 6N | 1:2 | 6 % | 35 colour", "35 + 70", "105")
	expectWeights(t, "1 6N | 1:1.25 | 6 % | 28 colour", "28 + 35", "63")
	expectWeights(t, "1 6N | 1:1.5 | 6 % | 22.5 colour", "22.5 + 33.75", "56.25")
	expectWeights(t, "2 6N + 1 6G | 1:1.5 | 6 % | 45 colour", "30 + 15 + 67.5", "112.5")
	expectWeights(t, "3 6A + 1 6B + 1 6C | 1:1 | 6 % | 50 colour", "30 + 10 + 10 + 50", "100")
	expectWeights(t, "3 6A + 1 6B | 1:2 | 6 % | 120 mixed", "30 + 10 + 80", "120")
	expectWeights(t, "90 6N + 10 0V | 1:1 | 6 % | 60 colour", "54 + 6 + 60", "120") // a mixer held to 10 % of the colour
	expectWeights(t, "1 6N + 1 6G | 1:1 | 6 % | 60 colour", "30 + 30 + 60", "120")  // half natural, half fashion
	expectWeights(t, "1/3 6N + 2/3 6G | 1:1 | 6 % | 45 colour", "15 + 30 + 45", "90")
	expectWeights(t, "2 6N + 1 6G | 1:1 | 6 % | 60 colour", "40 + 20 + 60", "120")
	expectWeights(t, "1 6N | none | | 25 colour", "25", "25")
	expectWeights(t, "1 6N | none | | 25 mixed", "25", "25")
}

// A recipe in US fluid ounces, 1½ of colour of 1.00 g/mL (derived from the gallon of
// 231 cubic inches).
func TestComputeFromOunces(t *testing.T) {
	f := formula(t, "1 6N | 1:2 | 6 % | 1 colour")
	f.Size = measure.Grams(number(t, "1.5").Mul(measure.USFluidOunce))
	b, err := Compute(f, tenth)
	if err != nil || b.Developer.Grams().Decimal(3) != "88.721" {
		t.Errorf("got %s of developer, %v; want 88.721 g", b.Developer.Grams().Decimal(3), err)
	}
}

func TestComputeAdditives(t *testing.T) {
	expectWeights(t, "1 6N | 1:1 | 6 % | 40 colour | 5 % bond", "40 + 2 + 40", "82")
	expectWeights(t, "1 6N | 1:1 | 6 % | 82 mixed | 5 % bond", "40 + 2 + 40", "82")
	expectWeights(t, "1 6N | 1:1 | 6 % | 83 mixed | 3 g drops", "40 + 3 + 40", "83")
	expectWeights(t, "1 6N | 1:1 | 6 % | 85 mixed | 5 % bond | 3 g drops", "40 + 2 + 3 + 40", "85")

	b := compute(t, "1 6N | 1:1 | 6 % | 40 colour | 5 % bond", tenth)
	if got := b.Strength.Percent(); !got.Equal(number(t, "240/82")) {
		t.Errorf("an additive thins the peroxide: got %s, want 240/82", got)
	}
	if b.Additives.String() != "2 g" || b.Parts[1].Name != "bond" || b.Parts[1].Role != AdditiveRole {
		t.Errorf("got %s of %+v", b.Additives, b.Parts[1])
	}
}

// Derived by mass balance of the peroxide, with colour that holds none.
func TestComputeStrength(t *testing.T) {
	expect := func(text, bottle, inBowl string) {
		t.Helper()
		b := compute(t, text, tenth)
		if b.Bottle.Percent().String() != bottle || b.Strength.Percent().String() != inBowl {
			t.Errorf("%s: bottle %s, bowl %s; want %s and %s", text, b.Bottle, b.Strength, bottle, inBowl)
		}
	}
	expect("1 6N | 1:1 | 6 % | 60 mixed", "6", "3")
	expect("1 6N | 1:1.5 | 6 % | 60 mixed", "6", "3.6")
	expect("1 6N | 1:2 | 6 % | 60 mixed", "6", "4")
	expect("1 6N | 1:1 | 9 % | 60 mixed", "9", "4.5")
	expect("1 6N | 1:1.5 | 9 % | 60 mixed", "9", "5.4")
	expect("1 10N | 1:1 | 12 % | 60 mixed", "12", "6")
	expect("1 10N | 1:2 | 12 % | 60 mixed", "12", "8")
	expect("1 10N | 1:3 | 12 % | 60 mixed", "12", "9")
	expect("1 6N | 1:1 | 3 % | 60 mixed", "3", "1.5")
	expect("1 8V | 1:2 | 1.9 % | 90 mixed", "1.9", "19/15")
	expect("30 powder | 1:2 | 6 % | 30 colour", "6", "4") // lightener powder is weighed like colour
	expect("25 powder | 1:3 | 9 % | 25 colour", "9", "6.75")
	expect("1 6N | 1:2 | 3 of 30 vol + 17 of 10 vol | 50 colour", "3.9", "2.6") // 13 vol
	expect("1 6N | 1:1 | 30 of 12 % + 20 of 6 % + 10 of 3 % | 60 colour", "8.5", "4.25")
	expect("1 6N | none | | 25 colour", "0", "0")
}

// At twice the developer the bowl is stronger by a third while it holds a third of
// dye in place of a half (derived).
func TestColourShare(t *testing.T) {
	for text, want := range map[string]string{
		"1 6N | 1:1 | 6 % | 60 mixed": "0.5",
		"1 6N | 1:2 | 6 % | 60 mixed": "1/3",
		"1 6N | none | | 60 mixed":    "1",
	} {
		if got := compute(t, text, tenth).ColourShare(); got.String() != want {
			t.Errorf("%s: colour is %s of the bowl, want %s", text, got, want)
		}
	}
}

// The clear and mixers weigh but carry no level (common practice, no source).
func TestComputeLevel(t *testing.T) {
	for text, want := range map[string]string{
		"2 5N + 1 7N | 1:1 | 6 % | 45 colour":        "17/3",
		"1 4N + 1 7N | 1:1 | 6 % | 45 colour":        "5.5",
		"3 6N + 1 8N | 1:1 | 6 % | 45 colour":        "6.5",
		"1 5N + 2 6N + 1 8N | 1:1 | 6 % | 45 colour": "6.25",
		"30 7N + 20 9N | 1:1 | 6 % | 50 colour":      "7.8",
		"30 6.0 + 10 CL | 1:1 | 6 % | 40 colour":     "6",
	} {
		if b := compute(t, text, tenth); !b.HasLevel || b.Level.Mean.String() != want {
			t.Errorf("%s: level %s, want %s", text, b.Level.Mean, want)
		}
	}
	if b := compute(t, "1 CL | 1:1 | 6 % | 40 colour", tenth); b.HasLevel {
		t.Errorf("a clear alone has the level %s", b.Level.Mean)
	}
	if got := compute(t, "30 6.0 + 10 CL | 1:1 | 6 % | 40 colour", tenth).DyeShare(); got.String() != "0.75" {
		t.Errorf("30 g of shade with 10 g of clear is %s dye, want 0.75", got)
	}
}

func TestComputeRefuses(t *testing.T) {
	good := formula(t, "1 6N | 1:1 | 6 % | 60 colour")
	expect := func(want error, change func(*Formula)) {
		t.Helper()
		f := good
		change(&f)
		if b, err := Compute(f, tenth); !errors.Is(err, want) || len(b.Parts) != 0 {
			t.Errorf("got %v and %d parts, want %v", err, len(b.Parts), want)
		}
	}
	minus := exact.Int(-1)
	expect(ErrNoShade, func(f *Formula) { f.Shades = nil })
	expect(ErrShare, func(f *Formula) { f.Shades = []Shade{{}} })
	expect(ErrShare, func(f *Formula) { f.Shades = []Shade{{Share: minus}} })
	expect(ErrShare, func(f *Formula) { f.Developers = []Developer{{}} })
	expect(ErrShare, func(f *Formula) { f.Developers = []Developer{{Share: minus}, {Share: exact.Int(2)}} })
	expect(ErrShare, func(f *Formula) { f.Additives = []Additive{{Name: "nothing"}} })
	expect(ErrShare, func(f *Formula) { f.Additives = []Additive{{PerColour: minus}} })
	expect(ErrShare, func(f *Formula) { f.Additives = []Additive{{Mass: measure.Grams(minus)}} })
	expect(ErrSize, func(f *Formula) { f.Size = measure.Mass{} })
	expect(ErrSize, func(f *Formula) { f.Size = measure.Grams(minus) })
	expect(ErrNoRatio, func(f *Formula) { f.Ratio = measure.Ratio{} })
	expect(ErrNoRatio, func(f *Formula) { f.Ratio.Developer = exact.Zero })
	expect(ErrNoRatio, func(f *Formula) { f.Ratio.Colour = minus })
	expect(ErrAdditives, func(f *Formula) {
		f.SizeOf, f.Additives = OfMixed, []Additive{{Name: "drops", Mass: f.Size}}
	})
	for _, step := range []measure.Mass{{}, measure.Grams(minus)} {
		if _, err := Compute(good, step); !errors.Is(err, ErrScale) {
			t.Errorf("a scale of %s: %v, want %v", step, err, ErrScale)
		}
	}
}

// A developer that a blend leaves nothing of is not there to weigh.
func TestComputeLeavesOutNothing(t *testing.T) {
	b := compute(t, "1 6N | 1:1 | 0 of 12 % + 3 of 3 % | 40 colour", tenth)
	if weights(b) != "40 + 40" || b.Bottle.String() != "3 %" {
		t.Errorf("got %s with %s", weights(b), b.Bottle)
	}
	without := formula(t, "1 6N | none | | 40 colour")
	without.Ratio = measure.Ratio{Colour: exact.One, Developer: exact.One}
	if b, err := Compute(without, tenth); err != nil || !b.Ratio.IsZero() {
		t.Errorf("without a developer the ratio is %s, %v; want none", b.Ratio, err)
	}
}

// drawnFormula yields bowls as authors write them, and some that they would not.
func drawnFormula(t *rapid.T) Formula {
	share := rapid.Custom(func(t *rapid.T) exact.Number {
		return exact.Of(rapid.Int64Range(1, 400).Draw(t, "share"), rapid.Int64Range(1, 12).Draw(t, "parts"))
	})
	f := Formula{
		Size:   measure.Grams(share.Draw(t, "size")).Add(whole),
		SizeOf: Size(rapid.IntRange(0, 1).Draw(t, "size of")),
	}
	for range rapid.IntRange(1, 4).Draw(t, "shades") {
		level := shade.Level(rapid.IntRange(0, 10).Draw(t, "level"))
		f.Shades = append(f.Shades, Shade{Code: shade.Code{Level: level}, Share: share.Draw(t, "shade")})
	}
	for range rapid.IntRange(0, 2).Draw(t, "additives") {
		f.Additives = append(f.Additives, Additive{PerColour: exact.Of(rapid.Int64Range(1, 30).Draw(t, "per cent"), 100)})
	}
	for range rapid.IntRange(0, 3).Draw(t, "developers") {
		strength := peroxide.Percent(exact.Of(rapid.Int64Range(0, 120).Draw(t, "strength"), 10))
		f.Developers = append(f.Developers, Developer{Strength: strength, Share: share.Draw(t, "developer")})
	}
	if len(f.Developers) > 0 {
		f.Ratio = measure.Ratio{Colour: exact.One, Developer: exact.One.Add(share.Draw(t, "ratio"))}
	}
	return f
}

func drawnBowl(t *rapid.T) Bowl {
	step := rapid.SampledFrom([]measure.Mass{tenth, whole, measure.Grams(exact.Half)}).Draw(t, "step")
	b, err := Compute(drawnFormula(t), step)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestBowlAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawnFormula(t)
		b, err := Compute(f, tenth)
		if err != nil {
			t.Fatal(err)
		}
		var sum measure.Mass
		peroxideIn := exact.Zero
		for _, p := range b.Parts {
			sum = sum.Add(p.Exact)
			peroxideIn = peroxideIn.Add(p.Exact.Grams().Mul(p.Strength.Percent()))
		}
		if sum.Cmp(b.Mixed) != 0 {
			t.Fatalf("parts add up to %s, the bowl is %s", sum, b.Mixed)
		}
		size := map[Size]measure.Mass{OfColour: b.Colour, OfMixed: b.Mixed}[f.SizeOf]
		if size.Cmp(f.Size) != 0 {
			t.Fatalf("the bowl was to be %s and is %s", f.Size, size)
		}
		if got := b.Mixed.Grams().Mul(b.Strength.Percent()); !got.Equal(peroxideIn) {
			t.Fatalf("%s of peroxide went in and %s is there", peroxideIn, got)
		}
		if len(f.Developers) > 0 && !measure.NewRatio(b.Colour, b.Developer).Equal(f.Ratio) {
			t.Fatalf("the ratio was to be %s: %s + %s", f.Ratio, b.Colour, b.Developer)
		}
	})
}

// Only the proportion of the shades counts, so parts, grams and per cent mix the
// same bowl.
func TestSharesAreProportions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawnFormula(t)
		a, err := Compute(f, tenth)
		if err != nil {
			t.Fatal(err)
		}
		factor := exact.Of(rapid.Int64Range(1, 100).Draw(t, "factor"), 7)
		for i := range f.Shades {
			f.Shades[i].Share = f.Shades[i].Share.Mul(factor)
		}
		for i := range f.Developers {
			f.Developers[i].Share = f.Developers[i].Share.Mul(factor)
		}
		b, err := Compute(f, tenth)
		if err != nil {
			t.Fatal(err)
		}
		if weights(a) != weights(b) || weighed(a) != weighed(b) || a.HasLevel && !a.Level.Mean.Equal(b.Level.Mean) {
			t.Fatalf("%s became %s", weights(a), weights(b))
		}
	})
}

func BenchmarkCompute(b *testing.B) {
	f := formula(b, "2 6N + 1 7B + 0.5 8V | 1:1.5 | 3 of 30 vol + 17 of 10 vol | 45 colour | 5 % bond")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Compute(f, tenth); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleCompute() {
	gloss := Formula{
		Shades: []Shade{
			{Code: shade.Code{Text: "8N", Level: 8}, Share: exact.Int(2)},
			{Code: shade.Code{Text: "8V", Level: 8}, Share: exact.Int(1)},
		},
		Developers: []Developer{{Strength: peroxide.Volumes(exact.Int(6)), Share: exact.One}},
		Ratio:      measure.Ratio{Colour: exact.One, Developer: exact.Int(2)},
		Size:       measure.Grams(exact.Int(25)),
		SizeOf:     OfColour,
	}
	bowl, err := Compute(gloss, measure.Grams(exact.Of(1, 10)))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range bowl.Parts {
		fmt.Println(p.Name, p.Exact, "on the scale", p.Weighed)
	}
	fmt.Println(bowl.Strength, "on the hair, reads", bowl.Level.Low)
	// Output:
	// 8N 16.67 g on the scale 16.7 g
	// 8V 8.33 g on the scale 8.3 g
	//  50 g on the scale 50 g
	// 1.2 % on the hair, reads 8
}
