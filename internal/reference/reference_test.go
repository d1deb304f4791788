package reference

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"plait/internal/amount"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/formula"
	"plait/internal/hair"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/internal/source"
	"plait/internal/timing"
)

// entry is one outside figure. Not says why it is not computed here, where it is
// not.
type entry struct {
	problem string
	source  string
	want    string
	got     func(t *testing.T) string
	not     string
}

// Sources, in words.
const (
	chemistry  = "chemistry teaching pages on volume strength"
	britishPh  = "British Pharmacopoeia, hydrogen peroxide solution (6 per cent)"
	law        = "Regulation (EU) 2019/831, Annex III entry 12; Regulation (EC) No 1223/2009"
	pharmacy   = "pharmacy technician tutorials and slides on alligation"
	textbook   = "Practical Modern Hair Science (2012), ch. 4, p. 125"
	guide      = "self-training guide for formulating colour"
	educators  = "trade educators' averaging rule"
	whiteHair  = "trade-press article on covering grey"
	committee  = "SCCP opinion on toluene-2,5-diamine, 2 October 2007: 100 g of mix, about 30 minutes"
	college    = "Hair Colour for Hairstylists: Level 2, BCcampus 2021"
	alertTest  = "2023 European allergy-alert recommendation; US FDA, hair dyes: 48 hours"
	arithmetic = "derived by arithmetic"
	practice   = "common practice, no source"
	ounces     = "US gallon of 231 cubic inches, UK gallon of 4.54609 L, pound of 0.45359237 kg"
)

func TestTable(t *testing.T) {
	passed, left := 0, 0
	for _, e := range table() {
		t.Run(e.problem, func(t *testing.T) {
			if e.not != "" {
				left++
				t.Logf("%s: not computed here: %s", e.source, e.not)
				return
			}
			got := e.got(t)
			if got != e.want {
				t.Errorf("%s: got %s, want %s", e.source, got, e.want)
				return
			}
			passed++
			t.Logf("%s: %s", e.source, got)
		})
	}
	t.Logf("%d figures hold, %d are not computed here", passed, left)
}

// bowl takes a bowl in its short form all the way to the scale.
func bowl(t *testing.T, line, step string) mix.Bowl {
	t.Helper()
	text := source.Text{Value: line, Span: source.NewFile("bowl", []byte(line)).Whole()}
	block, found := formula.ParseLine(text)
	m, err := measure.ParseMass(step)
	if err != nil {
		t.Fatal(err)
	}
	c, faults := derive.Bowl(block, nil, m)
	if !c.OK {
		var b strings.Builder
		_ = diag.WriteText(&b, append(found, faults...), diag.TextOptions{})
		t.Fatalf("%s: %s", line, b.String())
	}
	return c.Bowl
}

// weights prints the weights on the scale, "13.3 + 6.7 + 30".
func weights(b mix.Bowl) string {
	var out []string
	for _, p := range b.Parts {
		out = append(out, p.Weighed.Grams().String())
	}
	return strings.Join(out, " + ")
}

func mixed(name, from, line, want string) entry {
	return entry{problem: name, source: from, want: want, got: func(t *testing.T) string { return weights(bowl(t, line, "0.1 g")) }}
}

func onScale(name, line, step, want string) entry {
	return entry{problem: name, source: arithmetic, want: want, got: func(t *testing.T) string { return weights(bowl(t, line, step)) }}
}

func inBowl(name, from, line, want string) entry {
	return entry{problem: name, source: from, want: want, got: func(t *testing.T) string {
		return bowl(t, line, "0.1 g").Strength.Percent().Decimal(4) + " %"
	}}
}

func reads(name, line, want string) entry {
	return entry{problem: name, source: arithmetic, want: want, got: func(t *testing.T) string {
		b := bowl(t, line, "0.1 g")
		return b.Level.Mean.Decimal(3) + ": " + derive.Reading(b.Level)
	}}
}

func told(name, from, want string, got func(t *testing.T) string) entry {
	return entry{problem: name, source: from, want: want, got: got}
}

func not(name, from, why string) entry { return entry{problem: name, source: from, not: why} }

func percent(n int64) peroxide.Strength { return peroxide.Percent(exact.Int(n)) }

// blend prints the grams of a strong and a weak developer for a whole.
func blend(name, from, strong, weak, wanted string, grams int64, want string) entry {
	return told(name, from, want, func(t *testing.T) string {
		parse := func(s string) peroxide.Strength {
			v, err := peroxide.Parse(s)
			if err != nil {
				t.Fatal(err)
			}
			return v
		}
		a, b, err := peroxide.Blend(parse(strong), parse(weak), parse(wanted))
		if err != nil {
			return "refused"
		}
		whole := exact.Int(grams).Quo(a.Add(b))
		return whole.Mul(a).String() + " + " + whole.Mul(b).String()
	})
}

func pair(name, from, a, b string, want bool) entry {
	return told(name, from, fmt.Sprint(want), func(t *testing.T) string {
		x, err := peroxide.Parse(a)
		if err != nil {
			t.Fatal(err)
		}
		y, err := peroxide.Parse(b)
		if err != nil {
			t.Fatal(err)
		}
		return fmt.Sprint(x.Agrees(y))
	})
}

// refused says whether a formula is turned away while it is read.
func refused(name, from, line string) entry {
	return told(name, from, "refused", func(t *testing.T) string {
		_, found := formula.ParseLine(source.Text{Value: line, Span: source.NewFile("bowl", []byte(line)).Whole()})
		if diag.HasErrors(found) {
			return "refused"
		}
		return "taken"
	})
}

func digits(t *testing.T) *shade.Range {
	t.Helper()
	tones := map[string]shade.Tone{}
	var names []string
	for _, c := range "01234" {
		tones[string(c)] = shade.Tone{Code: string(c)}
		names = append(names, string(c))
	}
	return &shade.Range{
		Name: "sample", Darkest: 1, Lightest: 12, Tones: tones,
		Grammar: shade.Grammar{Style: shade.Digits, Separators: []string{".", "/", "-"}, Tones: names},
		Shades:  []string{"6.34", "6.3", "10.1", "6.03", "6.33", "0.11"},
	}
}

func code(text, want string) entry {
	return told("shade "+text, practice, want, func(t *testing.T) string {
		c, err := digits(t).Find(text)
		if err != nil {
			return "refused"
		}
		return fmt.Sprintf("%d %v", c.Level, c.Tones)
	})
}

// schoolVolume is the molar volume of a gas that school books use, in litres.
const schoolVolume = 22.4

func table() []entry {
	day := func(d, h, m int) time.Time { return time.Date(2026, 3, d, h, m, 0, 0, time.UTC) }
	return []entry{
		// Peroxide: chemistry and law.
		told("30 volumes in grams per litre, with 22.4 L", chemistry, "91.1", func(*testing.T) string {
			return fmt.Sprintf("%.1f", peroxide.GramsPerLitre(30, schoolVolume))
		}),
		told("10 volumes are 3.03 % w/v as printed, to 0.01", chemistry, "true", func(*testing.T) string {
			return fmt.Sprint(math.Abs(peroxide.GramsPerLitre(10, schoolVolume)/10-3.03) < 0.01)
		}),
		told("1.701 mg of peroxide give 0.56 mL of oxygen, to 0.1 %", britishPh, "true", func(*testing.T) string {
			ml := peroxide.Oxygen(0.001701, peroxide.MolarVolumeAtmosphere) * 1000
			return fmt.Sprint(math.Abs(ml-0.56)/0.56 < 0.001)
		}),
		told("60 g of 6 % give about 1186 mL of oxygen", arithmetic, "1186", func(*testing.T) string {
			return fmt.Sprintf("%.0f", peroxide.Oxygen(3.6, peroxide.MolarVolumeAtmosphere)*1000)
		}),
		pair("3 % is about 10 volumes", "A Handbook of Useful Drugs (American Medical Association)", "10 vol", "3 %", true),
		pair("12 % is 40 volumes", law, "40 vol", "12 %", true),
		pair("20 vol is not 9 %", arithmetic, "20 vol", "9 %", false),
		pair("13 vol and 4 % are near enough", arithmetic, "13 vol", "4 %", true),
		pair("6.5 vol and 1.9 % are near enough", arithmetic, "6.5 vol", "1.9 %", true),
		pair("7 vol and 1.9 % are not", arithmetic, "7 vol", "1.9 %", false),
		told("a bottle of 12 % keeps the ceiling", law, "true", func(*testing.T) string { return fmt.Sprint(peroxide.Ceiling.Cmp(percent(12)) >= 0) }),
		told("a bottle of 13 % does not, whatever the ratio", law, "false", func(*testing.T) string { return fmt.Sprint(peroxide.Ceiling.Cmp(percent(13)) >= 0) }),
		not("12 % by weight in per cent by volume", "web page on the density of peroxide", "everything is weighed at density 1.00; the page says so"),

		// Blending and dilution.
		blend("70 % and 20 % to 30 %", pharmacy, "70 %", "20 %", "30 %", 50, "10 + 40"),
		blend("90 % and 10 % to 50 %", pharmacy, "90 %", "10 %", "50 %", 80, "40 + 40"),
		blend("100 mL of 20 % from 30 % and 10 %", pharmacy, "30 %", "10 %", "20 %", 100, "50 + 50"),
		blend("300 g of 4 % from 2 % and 5 %", pharmacy, "2 %", "5 %", "4 %", 300, "100 + 200"),
		blend("120 mL of 1 % from 3 % and water", pharmacy, "3 %", "0 %", "1 %", 120, "40 + 80"),
		blend("120 mL of 0.02 % from 2 % and water", pharmacy, "2 %", "0 %", "0.02 %", 120, "1.2 + 118.8"),
		blend("4 L of 0.05 % from 10 % and water", pharmacy, "10 %", "0 %", "0.05 %", 4000, "20 + 3980"),
		told("3000 of 40 %, 1000 of 60 %, 1000 of 70 %", pharmacy, "50 %", func(*testing.T) string {
			g := func(n int64) measure.Mass { return measure.Grams(exact.Int(n)) }
			return peroxide.Mixed(peroxide.Amount{Mass: g(3000), Strength: percent(40)}, peroxide.Amount{Mass: g(1000), Strength: percent(60)},
				peroxide.Amount{Mass: g(1000), Strength: percent(70)}).String()
		}),
		told("20 parts of 95 % with 25 of 50 %", pharmacy, "70 %", func(*testing.T) string {
			g := func(n int64) measure.Mass { return measure.Grams(exact.Int(n)) }
			return peroxide.Mixed(peroxide.Amount{Mass: g(20), Strength: percent(95)}, peroxide.Amount{Mass: g(25), Strength: percent(50)}).String()
		}),
		blend("90 g of 6 % from 12 % and 3 %", arithmetic, "12 %", "3 %", "6 %", 90, "30 + 60"),
		blend("100 g of 9 % from 12 % and water", arithmetic, "12 %", "0 %", "9 %", 100, "75 + 25"),
		blend("80 g of 9 % from 12 % and 6 %", arithmetic, "12 %", "6 %", "9 %", 80, "40 + 40"),
		blend("60 g of 1.9 % from 6 % and water", arithmetic, "6 %", "0 %", "1.9 %", 60, "19 + 41"),
		blend("82 g of 3 % from 6 % and 1.9 %", arithmetic, "6 %", "1.9 %", "3 %", 82, "22 + 60"),
		mixed("13 vol from 30 vol and 10 vol, in a bowl", arithmetic, "100 g 6N, 13 vol from 30 vol and 10 vol at 1:1", "100 + 15 + 85"),
		mixed("25 vol from 40 vol and 20 vol, in a bowl", arithmetic, "100 g 6N, 25 vol from 40 vol and 20 vol at 1:1", "100 + 25 + 75"),
		blend("9 % from 3 % and 6 %", arithmetic, "6 %", "3 %", "9 %", 90, "refused"),

		// Strength in the bowl.
		inBowl("40 vol at 1:1: extra-high-lift blonde", textbook, "30 g 10N, 40 vol at 1:1", "6 %"),
		inBowl("40 vol at 1:2: extra-high-lift blonde", textbook, "30 g 10N, 40 vol at 1:2", "8 %"),
		inBowl("30 vol at 1:1: light blonde", textbook, "30 g 8N, 30 vol at 1:1", "4.5 %"),
		inBowl("20 vol at 1:1: medium blonde and darker", textbook, "30 g 6N, 20 vol at 1:1", "3 %"),
		inBowl("3 % at 1:2.5", arithmetic, "30 g 6N, 3 % at 1:2.5", "2.1429 %"),
		inBowl("6 % at 1:1.5", arithmetic, "30 g 6N, 6 % at 1:1.5", "3.6 %"),
		inBowl("9 % at 1:1.5", arithmetic, "30 g 6N, 9 % at 1:1.5", "5.4 %"),
		inBowl("12 % at 1:3", arithmetic, "30 g 6N, 12 % at 1:3", "9 %"),
		inBowl("1.9 % at 1:2", arithmetic, "30 g 6N, 1.9 % at 1:2", "1.2667 %"),
		inBowl("30 g of powder with 60 g of 6 %", arithmetic, "30 g PW, 6 % at 1:2", "4 %"),
		inBowl("25 g of powder with 75 g of 9 %", arithmetic, "25 g PW, 9 % at 1:3", "6.75 %"),
		told("a precursor of 3.6 % in the tube at 1:1", law, "1.8 %", func(t *testing.T) string {
			i := shade.Ingredient{Content: exact.Of(36, 1000)}
			return i.InBowl(bowl(t, "30 g 6N, 20 vol at 1:1", "0.1 g").ColourShare()).Mul(exact.Int(100)).String() + " %"
		}),
		not("a bowl with less developer than colour", law, "a ratio whose first number is the larger is refused before it is computed"),

		// Levels, codes and the wheel.
		reads("two parts of 5 and one of 7", "2 parts 5N + 1 part 7N, 6 vol at 1:2, 30 g", "5.667: 6"),
		reads("one part of 4 and one of 7", "1 part 4N + 1 part 7N, 6 vol at 1:2, 30 g", "5.5: between 5 and 6"),
		reads("three parts of 6 and one of 8", "3 parts 6N + 1 part 8N, 6 vol at 1:2, 30 g", "6.5: between 6 and 7"),
		reads("one of 5, two of 6, one of 8", "1 part 5N + 2 parts 6N + 1 part 8N, 6 vol at 1:2, 30 g", "6.25: 6"),
		reads("30 g of 7 and 20 g of 9", "30 g 7N + 20 g 9N, 6 vol at 1:2", "7.8: 8"),
		reads("30 g of 6 with 10 g of clear", "30 g 6N + 10 g CL, 6 vol at 1:2", "6: 6"),
		code("6.34", "6 [3 4]"), code("6/3", "6 [3]"), code("6-3", "6 [3]"), code("10.1", "10 [1]"), code("6.03", "6 [0 3]"),
		code("6.33", "6 [3 3]"), code("0.11", "0 [1 1]"), code("13.1", "refused"), code("6,3", "refused"),
		told("six pairs of opposites on the wheel", college, "red green, red-orange blue-green, orange blue, yellow-orange blue-violet, yellow violet, yellow-green red-violet", func(*testing.T) string {
			var out []string
			for h := shade.Red; h <= shade.YellowGreen; h++ {
				out = append(out, h.String()+" "+h.Opposite().String())
			}
			return strings.Join(out, ", ")
		}),
		told("warmth at 4, 6 and 9", "level charts, which differ by up to two levels; the safe reading", "red, orange, yellow", func(*testing.T) string {
			return fmt.Sprintf("%s, %s, %s", shade.Undertone(4), shade.Undertone(6), shade.Undertone(9))
		}),
		not("colour difference of two measured heads of hair", "Journal of Cosmetic Science 51(5), 2000", "screen colours are illustrations and nothing is computed from them"),
		not("an anthropologist's scale of hair colours", "encyclopaedia", "no mapping to levels is published"),

		// Lift, white hair, filling.
		told("natural 4, target 7", guide, "10", func(*testing.T) string { return fmt.Sprint(hair.ShadeFor(4, 7)) }),
		told("natural 2, shade 6", educators, "4", func(*testing.T) string { return derive.Reading(hair.Result(2, 6)) }),
		told("natural 5, target 7", arithmetic, "9", func(*testing.T) string { return fmt.Sprint(hair.ShadeFor(5, 7)) }),
		told("natural 6, target 9 lies off a scale of ten", arithmetic, "true", func(*testing.T) string {
			return fmt.Sprint(hair.Judge(hair.Natural, 6, 9, 10) == hair.OffScale)
		}),
		told("natural 3, target 8 is too far for colour", practice, "true", func(*testing.T) string {
			return fmt.Sprint(hair.Judge(hair.Natural, 3, 8, 10) == hair.TooFar)
		}),
		told("developers for 1, 3 and 4 levels", practice, "20 vol, 30 vol, 40 vol", func(*testing.T) string {
			var out []string
			for _, lift := range []int{1, 3, 4} {
				s, _ := hair.DeveloperFor(lift, false)
				out = append(out, s.VolumesString())
			}
			return strings.Join(out, ", ")
		}),
		told("no developer for 5 levels", practice, "false", func(*testing.T) string {
			_, ok := hair.DeveloperFor(5, false)
			return fmt.Sprint(ok)
		}),
		told("40 vol on 6 for 6 is three levels too strong", arithmetic, "3", func(*testing.T) string {
			return fmt.Sprint(hair.ExcessOf(6, 6, peroxide.Volumes(exact.Int(40))).Levels)
		}),
		told("20 vol on 5 for 7 is not", arithmetic, "false", func(*testing.T) string {
			return fmt.Sprint(hair.ExcessOf(5, 7, peroxide.Volumes(exact.Int(20))).Levels > 0)
		}),
		told("half white, rest 3, shade 7", educators, "7 and 5", func(*testing.T) string {
			white, rest := hair.OnWhite(3, 7)
			return fmt.Sprintf("%d and %s", white, derive.Reading(rest))
		}),
		told("half of 60 g from the natural series at 50 % white", whiteHair, "30 g", func(*testing.T) string {
			least, _ := hair.NaturalShare(exact.Half)
			return measure.Grams(exact.Int(60)).Times(least).String()
		}),
		told("a third of 45 g at 30 % white", practice, "15 g", func(*testing.T) string {
			least, _ := hair.NaturalShare(exact.Of(30, 100))
			return measure.Grams(exact.Int(45)).Times(least).String()
		}),
		told("two thirds of 60 g at 80 % white", practice, "40 g", func(*testing.T) string {
			least, _ := hair.NaturalShare(exact.Of(80, 100))
			return measure.Grams(exact.Int(60)).Times(least).String()
		}),
		told("lightened 9 to 5 is filled with red-orange", practice, "true red-orange", func(*testing.T) string {
			return fmt.Sprint(hair.NeedsFilling(hair.Lightened, 9, 5, hair.FillBeyond), " ", hair.FillingFor(9, 5, shade.Undertone).Hue)
		}),
		told("lightened 7 to 5 is not filled", practice, "false", func(*testing.T) string {
			return fmt.Sprint(hair.NeedsFilling(hair.Lightened, 7, 5, hair.FillBeyond))
		}),

		// Ratios, grams and the scale.
		refused("a bare 2:1 is refused", "a textbook prints demi as 2:1, others as 1:2", "30 g 8N, 6 vol at 2:1"),
		refused("an ounce is refused", ounces, "2 oz 6N, 20 vol at 1:1"),
		told("two US and two UK fluid ounces in mL", ounces, "59.1471 and 56.8261", func(*testing.T) string {
			two := exact.Int(2)
			return measure.USFluidOunce.Mul(two).Decimal(4) + " and " + measure.UKFluidOunce.Mul(two).Decimal(4)
		}),
		told("two ounces of mass", ounces, "56.699 g", func(*testing.T) string {
			return measure.Ounce.Times(exact.Int(2)).Grams().Decimal(3) + " g"
		}),
		onScale("70 g at 1:2 in tenths", "1 part 6N, 20 vol at 1:2, 70 g mixed", "0.1 g", "23.3 + 46.7"),
		onScale("70 g at 1:2 in grams", "1 part 6N, 20 vol at 1:2, 70 g mixed", "1 g", "23 + 47"),
		onScale("45 g at 1:1.5 in grams", "1 part 6N, 20 vol at 1:1.5, 45 g mixed", "1 g", "18 + 27"),
		onScale("37 g at 1:1.5 in tenths", "1 part 6N, 20 vol at 1:1.5, 37 g mixed", "0.1 g", "14.8 + 22.2"),
		onScale("37 g at 1:1.5 in grams", "1 part 6N, 20 vol at 1:1.5, 37 g mixed", "1 g", "15 + 22"),
		onScale("50 g of 2 + 1 + 4.5 in tenths", "2 parts 6N + 1 part 7B, 20 vol at 1:1.5, 50 g mixed", "0.1 g", "13.3 + 6.7 + 30"),
		onScale("50 g of 2 + 1 + 4.5 in grams", "2 parts 6N + 1 part 7B, 20 vol at 1:1.5, 50 g mixed", "1 g", "13 + 7 + 30"),
		onScale("100 g of three equal parts in tenths", "1 part 6N + 1 part 7N + 1 part 8N, no developer, 100 g", "0.1 g", "33.4 + 33.3 + 33.3"),
		onScale("100 g of three equal parts in grams", "1 part 6N + 1 part 7N + 1 part 8N, no developer, 100 g", "1 g", "34 + 33 + 33"),
		onScale("80 g of 3 + 2 + 7.5 in tenths", "3 parts 6N + 2 parts 7N, 20 vol at 1:1.5, 80 g mixed", "0.1 g", "19.2 + 12.8 + 48"),
		onScale("80 g of 3 + 2 + 7.5 in grams", "3 parts 6N + 2 parts 7N, 20 vol at 1:1.5, 80 g mixed", "1 g", "19 + 13 + 48"),
		mixed("60 g at 1:1", arithmetic, "1 part 6N, 20 vol at 1:1, 60 g mixed", "30 + 30"),
		mixed("75 g at 1:1.5", arithmetic, "1 part 6N, 20 vol at 1:1.5, 75 g mixed", "30 + 45"),
		mixed("90 g at 1:2", arithmetic, "1 part 6N, 20 vol at 1:2, 90 g mixed", "30 + 60"),
		mixed("100 g at 1:3", arithmetic, "1 part 6N, 20 vol at 1:3, 100 g mixed", "25 + 75"),
		mixed("55 g at 1:1.2", arithmetic, "1 part 6N, 20 vol at 1:1.2, 55 g mixed", "25 + 30"),
		mixed("105 g at 1:2.5", arithmetic, "1 part 6N, 20 vol at 1:2.5, 105 g mixed", "30 + 75"),
		mixed("40 g of cream at 1:1.5", arithmetic, "40 g 6N, 20 vol at 1:1.5", "40 + 60"),
		mixed("28 g of cream at 1:1.25", arithmetic, "28 g 6N, 20 vol at 1:1.25", "28 + 35"),
		mixed("2 + 1 parts, 45 g, at 1:1.5", arithmetic, "2 parts 6N + 1 part 6G, 20 vol at 1:1.5, 45 g", "30 + 15 + 67.5"),
		mixed("3 + 1 + 1 parts, 50 g, at 1:1", arithmetic, "3 parts 6N + 1 part 6G + 1 part 6B, 20 vol at 1:1, 50 g", "30 + 10 + 10 + 50"),
		mixed("120 g at 1:2, 3 parts to 1", arithmetic, "3 parts 6N + 1 part 6G, 20 vol at 1:2, 120 g mixed", "30 + 10 + 80"),
		told("40 g with 60 g at 1:1.5 agree", arithmetic, "same", func(*testing.T) string { return verdict(60, 60) }),
		told("40 g with 55 g at 1:1.5 do not", arithmetic, "wrong", func(*testing.T) string { return verdict(55, 60) }),
		told("30 g with 46 g at 1:1.5 are near on a scale of grams", arithmetic, "near", func(*testing.T) string { return verdict(46, 45) }),

		// Amounts and time.
		told("12 heads of 60 g at 1:1.5 with 10 % waste", arithmetic, "316.8 g in 6 × 60 g, 475.2 g in 1 × 1000 g", func(t *testing.T) string {
			return plan(t, "24 g 6N, 20 vol at 1:1.5", 12, exact.Of(1, 10), 60)
		}),
		told("8 heads of 100 g at 1:2 with 5 % waste", arithmetic, "280 g in 3 × 100 g, 560 g in 1 × 1000 g", func(t *testing.T) string {
			return plan(t, "1 part 6N, 20 vol at 1:2, 100 g mixed", 8, exact.Of(5, 100), 100)
		}),
		told("a head to the shoulder, permanent", committee, "true", func(*testing.T) string {
			e, ok := amount.PerHead(amount.Head{Length: amount.Shoulder, Density: amount.Medium})
			hundred := measure.Grams(exact.Int(100))
			return fmt.Sprint(ok && e.Least.Cmp(hundred) <= 0 && e.Most.Cmp(hundred) >= 0)
		}),
		told("permanent stays 30 to 40 minutes or the committee's 30", college, "true", func(*testing.T) string {
			usual, ok := timing.Usual(shade.Permanent)
			return fmt.Sprint(ok && usual.Min <= 30*time.Minute && usual.Max >= 40*time.Minute)
		}),
		told("tested Monday 14:00, visit Wednesday 13:30", alertTest, "30 min too early", func(*testing.T) string {
			return measure.Minutes(timing.TooEarly(day(2, 14, 0), day(4, 13, 30))) + " too early"
		}),
		told("tested Monday 14:00, visit Wednesday 14:00", alertTest, "0 min too early", func(*testing.T) string {
			return measure.Minutes(timing.TooEarly(day(2, 14, 0), day(4, 14, 0))) + " too early"
		}),
		told("18 min of application, 35 min from its end: the first section", arithmetic, "53 min", func(t *testing.T) string {
			line, err := timing.Bowl{Name: "root", Sections: []timing.Section{{Name: "all", Takes: 18 * time.Minute}},
				Stays: measure.Span{Min: 35 * time.Minute, Max: 35 * time.Minute}, From: timing.LastSection}.Timeline()
			if err != nil {
				t.Fatal(err)
			}
			return measure.Minutes(line.Rinse.Max)
		}),
		not("wet hair stretches by half, dry by a fifth", "web notes on elasticity", "a step tells it; nothing is computed"),
		not("elevation, over-direction, texturising", "haircutting handbooks", "cutting has no notation yet"),
	}
}

func verdict(claimed, truth int64) string {
	step := measure.Grams(exact.One)
	v := mix.CompareMass(measure.Grams(exact.Int(claimed)), measure.Grams(exact.Int(truth)), step)
	return map[mix.Verdict]string{mix.Same: "same", mix.Near: "near", mix.Wrong: "wrong"}[v]
}

// plan prints what a class buys of the colour, in tubes, and of the developer, in
// bottles of 1000 g.
func plan(t *testing.T, line string, heads int, waste exact.Number, tube int64) string {
	t.Helper()
	needs := amount.NeedsOf("sample", bowl(t, line, "0.1 g"), heads)
	packs := map[amount.Item]shade.Pack{}
	for i, n := range needs {
		size := tube
		if i == len(needs)-1 {
			size = 1000
		}
		packs[n.Item] = shade.Pack{Size: measure.Grams(exact.Int(size))}
	}
	lines, err := amount.Plan(needs, packs, nil, waste)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, l := range lines {
		out = append(out, fmt.Sprintf("%s in %d × %s", l.Buy, l.Packs, l.Pack.Size))
	}
	return strings.Join(out, ", ")
}
