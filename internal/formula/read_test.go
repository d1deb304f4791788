package formula

import (
	"fmt"
	"strings"
	"testing"

	"plait/internal/diag"
	"plait/internal/mix"
	"plait/internal/source"
)

// rest is a block's other keys, so that a test can name the one it is about.
var rest = map[string]string{"kind": "demi", "colour": "2 parts 8N + 1 part 8V", "developer": "6 vol"}

// blockWith reads a block whose first line is the given one and whose other keys are
// fine.
func blockWith(line string) (*Block, []diag.Diagnostic) {
	body := line + "\n"
	key, _, _ := strings.Cut(line, ":")
	for _, k := range []string{"kind", "colour", "developer"} {
		if k != key {
			body += k + ": " + rest[k] + "\n"
		}
	}
	return readBlock(body)
}

func readBlock(body string) (*Block, []diag.Diagnostic) {
	const fence = "```formula gloss\n"
	file := source.NewFile("lesson.md", []byte(fence+body))
	name := source.Text{Value: "gloss", Span: file.Span(11, 16)}
	return Read(name, source.NewFragment(file.Span(0, 16), file.Span(len(fence), len(fence)+len(body))))
}

func show(list []diag.Diagnostic) string {
	var lines []string
	for _, d := range list {
		start, end := d.Span.Start(), d.Span.End()
		lines = append(lines, fmt.Sprintf("%d:%d-%d %s: %s; %s", start.Line, start.Column, end.Column, d.Rule, d.Message, d.Help))
	}
	return strings.Join(lines, "\n")
}

// expectFault reads a block with the given first line, which stands on line 2 of
// its file, and expects one diagnostic.
func expectFault(t *testing.T, line, want string) {
	t.Helper()
	b, found := blockWith(line)
	if got := show(found); got != want {
		t.Errorf("%q\n got %s\nwant %s", line, got, want)
	}
	if !b.Broken {
		t.Errorf("%q: a block with an error is not broken", line)
	}
}

func TestColour(t *testing.T) {
	for in, want := range map[string]string{
		"2 parts 8N + 1 part 8V":                 "2 parts 8N + 1 part 8V",
		"2parts 8N+1 Part 8V":                    "2 parts 8N + 1 part 8V",
		"20 g 8N + 10 g 8V":                      "20 g 8N + 10 g 8V",
		"20g of 8N + 0.01 kg of 8V":              "20 g 8N + 10 g 8V",
		"60 % 7N + 40% 7G":                       "60 % 7N + 40 % 7G",
		"60 per cent 7N + 40 percent 7G":         "60 % 7N + 40 % 7G",
		"8N":                                     "1 part 8N",
		"8N + 8V":                                "1 part 8N + 1 part 8V",
		"1/3 parts 8N":                           "1/3 parts 8N",
		"2 parts 8N (20 g) + 1 part 8V ( 10 g )": "2 parts 8N [20 g] + 1 part 8V [10 g]",
	} {
		b, found := blockWith(`colour: "` + in + `"`)
		if len(found) > 0 {
			t.Errorf("%q: %s", in, show(found))
		}
		if got := colourWithClaims(b); got != want {
			t.Errorf("%q is read as %q, want %q", in, got, want)
		}
	}
}

func colourWithClaims(b *Block) string {
	items := make([]string, len(b.Colour))
	for i, it := range b.Colour {
		items[i] = it.dose() + " " + it.Code.Value
		if it.Claim.Set() {
			items[i] += " [" + it.Claim.Value.String() + "]"
		}
	}
	return strings.Join(items, " + ")
}

func TestColourFaults(t *testing.T) {
	const dose = "write parts or grams before a shade and a plus between shades, as in 2 parts 8N + 1 part 8V or 20 g 8N + 10 g 8V"
	expectFault(t, `colour: ""`, "2:10-10 formula/no-shade: a formula needs at least one shade; write the shades with parts or grams, as in 2 parts 8N + 1 part 8V")
	expectFault(t, "colour: 8N + + 8V", "2:14-14 formula/no-shade: there is no shade here; write a dose and a shade on each side of the plus, as in 20 g 8N + 10 g 8V")
	expectFault(t, "colour: 2 parts 8N + 0 parts 8V", "2:22-32 formula/parts: 0 parts of 8V: every shade needs more than nothing; leave the shade out, or give it a dose")
	expectFault(t, "colour: 2 parts 8N + -1 part 8V", `2:22-32 formula/parts: "-1" is negative; write it without the minus, or leave it out`)
	expectFault(t, "colour: 2 parts 8N + 10 g 8V", "2:22-29 formula/parts: grams beside parts: dose all shades of a bowl the same way; give all shades in parts, all in grams or all in per cent")
	expectFault(t, "colour: 2 oz 8N", `2:9-16 formula/unit: "2 oz" could be a mass (56.7 g), US fluid ounces (59.15 mL) or UK ones (56.83 mL); `+dose)
	expectFault(t, "colour: 20 8N", `2:9-14 formula/unit: "20" has no unit; `+dose)
	expectFault(t, `colour: "? 8N + 2 parts 8V"`, "2:10-14 text/open: how much 8N is an open question; write parts or grams before the shade, as in 2 parts 8N")
	expectFault(t, "colour: two parts 8N", `2:9-21 formula/unit: "two parts" is no dose of a shade; `+dose)
	expectFault(t, "colour: 1,5 parts 8N", `2:9-21 formula/parts: "1,5" has a comma; write the decimal point, as in 1.5`)
	expectFault(t, "colour: 8N and 8V", `2:9-18 formula/unit: "8N and" has no unit plait knows; `+dose)
	expectFault(t, "colour: 2 parts 8N (20 g", `2:9-25 formula/syntax: the bracket in "2 parts 8N (20 g" is not closed at the end; put the closing bracket last, as in 2 parts 8N (20 g)`)
	expectFault(t, "colour: 20 g 8N (20 g)", "2:18-22 formula/syntax: the weight of 8N stands there twice; keep one of the two")
	expectFault(t, "colour: 2 parts 8N (20 ml)", `2:21-26 formula/unit: "20 ml" is a volume and bowls are weighed; write grams (creams are near 1 g per mL)`)
	expectFault(t, "colour: [8N]", "2:9-13 text/wrong-kind: `colour` is a list, want a single value; write one value, in double quotes if it has a bracket, a brace or a colon")
}

func TestDeveloper(t *testing.T) {
	for in, want := range map[string]string{
		"6 vol":                         "6 vol",
		"20VOL":                         "20 vol",
		"1.8 %":                         "1.8 %",
		"6%":                            "6 %",
		"none":                          "no developer",
		"60 g of 6 vol":                 "60 g of 6 vol",
		"13 vol from 30 vol and 10 vol": "13 vol from 30 vol and 10 vol",
	} {
		b, found := blockWith("developer: " + in)
		if len(found) > 0 {
			t.Errorf("%q: %s", in, show(found))
		}
		if got := b.ShortDeveloper(); got != want {
			t.Errorf("%q is read as %q, want %q", in, got, want)
		}
	}
	b, _ := blockWith("developer: 20 vol (6 %)")
	if !b.Developer.Pair.Set() || b.Developer.Pair.Value.Cmp(b.Developer.Strength.Value) != 0 || b.Developer.Pair.Span.Text() != "6 %" {
		t.Errorf("the pair is %v", b.Developer.Pair)
	}
}

func TestDeveloperFaults(t *testing.T) {
	const strength = " is not a developer strength; write volumes or per cent, as in 20 vol or 6 %"
	expectFault(t, "developer: 20", `2:12-14 formula/developer: "20"`+strength)
	expectFault(t, "developer: strong", `2:12-18 formula/developer: "strong"`+strength)
	expectFault(t, "developer: -20 vol", `2:12-19 formula/developer: "-20" is negative; write it without the minus, or leave it out`)
	expectFault(t, "developer: 20 vol (6)", `2:20-21 formula/developer: "6"`+strength)
	expectFault(t, "developer: 0 g of 6 vol", "2:12-15 formula/parts: no developer at all; write developer: none for a colour used as it is")
	expectFault(t, "developer: 2 oz of 6 vol", `2:12-16 formula/unit: "2 oz" could be a mass (56.7 g), US fluid ounces (59.15 mL) or UK ones (56.83 mL); weigh it and write grams`)
	expectFault(t, "developer: 13 vol from 30 vol", "2:24-30 formula/developer: a developer is blended from two; write 13 vol from 30 vol and 10 vol")
	expectFault(t, "developer: 13 vol from 30 vol and ten", `2:35-38 formula/developer: "ten"`+strength)
}

func TestRatioFaults(t *testing.T) {
	expectFault(t, "ratio: 2:1", `2:8-11 formula/ratio: ratio "2:1" is ambiguous: plait reads colour:developer, and colour is never the larger; if you mean 2 of developer to 1 of colour, write 1:2`)
	expectFault(t, "ratio: 1", `2:8-9 formula/ratio: "1" is not a ratio; write colour:developer, as in 1:1.5`)
	expectFault(t, "ratio: 0:1", `2:8-11 formula/ratio: ratio "0:1" has no colour in it; write colour:developer, as in 1:1.5`)
	expectFault(t, "ratio: 1:0", `2:8-11 formula/ratio: ratio "1:0" has no developer in it; write developer: none for colour used as it is`)
}

func TestAmount(t *testing.T) {
	for in, want := range map[string]Amount{
		"30 g colour":   {Of: mix.OfColour},
		"30g   colour":  {Of: mix.OfColour},
		"90 g mixed":    {Of: mix.OfMixed},
		"0.09 kg Mixed": {Of: mix.OfMixed},
		"by section":    {BySection: true},
	} {
		b, found := blockWith("amount: " + in)
		if len(found) > 0 {
			t.Errorf("%q: %s", in, show(found))
		}
		if a := b.Amount; a.Of != want.Of || a.BySection != want.BySection || a.Mass.Set() == a.BySection {
			t.Errorf("%q is read as %+v", in, a)
		}
	}
}

func TestAmountFaults(t *testing.T) {
	expectFault(t, "amount: 30 g", "2:9-13 formula/amount: 30 g of what? a bowl's size is the weight of its colour or of everything in it; write 30 g colour or 30 g mixed")
	expectFault(t, "amount: 30 g total", "2:9-19 formula/amount: 30 g of what? a bowl's size is the weight of its colour or of everything in it; write 30 g colour or 30 g mixed")
	expectFault(t, "amount: 2 oz colour", `2:9-13 formula/unit: "2 oz" could be a mass (56.7 g), US fluid ounces (59.15 mL) or UK ones (56.83 mL); weigh it and write grams`)
	expectFault(t, "amount: 0 g colour", "2:9-12 formula/amount: an amount of nothing; write how much to mix, as in 30 g colour")
	expectFault(t, "amount: some", `2:9-13 formula/unit: "some" is not a weight; write a number and the unit, as in 30 g`)
	expectFault(t, "amount: 2000 kg colour", `2:9-16 formula/unit: "2000 kg" is more than a tonne; write what goes into one bowl`)
}

func TestAdditiveFaults(t *testing.T) {
	expectFault(t, "add: bond cream", `2:6-16 formula/syntax: "bond cream" is not an additive with its dose; write 5 % of colour bond cream, or 3 g bond cream`)
	expectFault(t, "add: 0 g bond cream", "2:6-20 formula/parts: nothing of bond cream; leave it out, or give it a dose")
	expectFault(t, "add: [3 g drops, 5 of colour bond cream]", `2:18-19 formula/unit: "5" is not a share; write a number and the sign, as in 30 %`)
}

func TestServiceFaults(t *testing.T) {
	expectFault(t, "kind: semi-demi", `2:7-16 formula/kind: "semi-demi" is not a kind of colour; the kinds are: permanent, demi, toner, acid toner, alkaline toner, high-lift, lightener, filler, direct`)
	expectFault(t, "kind: toners", `2:7-13 formula/kind: "toners" is not a kind of colour; did you mean toner? the kinds are: permanent, demi, toner, acid toner, alkaline toner, high-lift, lightener, filler, direct`)
	expectFault(t, "time: 35", `2:7-9 formula/time: "35" has no unit of time; write minutes, as in 15 min`)
	expectFault(t, "time: 0 min", "2:7-12 formula/time: no time at all; write how long it stays on, as in 15 min from last section")
	expectFault(t, "time: 35 min from noon", `2:19-23 formula/time: "noon" is no moment a time can count from; write from last section (the end of application) or from first touch`)
	expectFault(t, "time: 45-30 min", `2:7-16 formula/time: "45-30 min" ends before it begins; write the shorter time first, as in 30-45 min`)
	expectFault(t, "hair: 8 bleached", `2:9-17 formula/hair: "bleached" is not a state of hair; write natural, coloured or lightened`)
	expectFault(t, "hair: 6 natural, 130 % white", "2:18-29 formula/hair: 130 % white is more than all of it; write a share of 100 % or less")
	expectFault(t, "hair: 6 natural, grey", `2:18-22 formula/hair: "grey" is not a share of white hair; write 6 natural, 30 % white`)
	expectFault(t, "target: 0", `2:9-10 formula/level: "0" is not a level; levels run from 1 (black) to 10 (lightest blonde)`)
	expectFault(t, "target: 11", "2:9-11 formula/level: a target of 11 lies beyond the scale; targets run from 1 (black) to 10 (lightest blonde)")
	expectFault(t, "target: blonde", `2:9-15 formula/level: "blonde" is not a level; levels run from 1 (black) to 10 (lightest blonde)`)
	expectFault(t, "level: 14", `2:8-10 formula/level: "14" is not a level; levels run from 1 (black) to 10 (lightest blonde)`)
	expectFault(t, "strength: 1.2", `2:11-14 formula/developer: "1.2" is not a developer strength; write volumes or per cent, as in 20 vol or 6 %`)
	expectFault(t, "mixed: 90", `2:8-10 formula/unit: "90" has no unit; write 90 g`)
}

// A lightener is at work from the first touch, so its time counts from there where
// nothing is said. Source: common practice, as makers' directions for lightener
// limit the time on hair; no source for the others.
func TestTimeCountsFromTheLastSectionUnlessItLightens(t *testing.T) {
	for kind, want := range map[string]Zero{"demi": LastSection, "permanent": LastSection, "lightener": FirstTouch} {
		b, found := readBlock("kind: " + kind + "\ncolour: 30 g 8N\ndeveloper: 6 vol\ntime: 30 min\n")
		if len(found) > 0 || b.Time.Zero != want || b.Time.ZeroStated {
			t.Errorf("%s: %v, %s", kind, b.Time, show(found))
		}
	}
	b, _ := readBlock("kind: lightener\ncolour: 30 g powder\ndeveloper: 6 vol\ntime: 30 min from the last section\n")
	if b.Time.Zero != LastSection || !b.Time.ZeroStated {
		t.Errorf("what is said holds: %v", b.Time)
	}
}

// Values over lines, in quotes and behind letters beyond ASCII keep their places.
func TestPlacesInOddText(t *testing.T) {
	b, found := readBlock("on: [\"Längen 长\", 'x' ]\r\nkind:\tdemi\r\ncolour: >-\r\n  2 parts 8N +\r\n  0 parts 8V\r\ndeveloper: \"6\\x20vol\"\r\n")
	if got, want := show(found), "4:9-6:13 "; !strings.Contains(got, "0 parts of 8V") || len(found) != 1 {
		t.Errorf("got %s, want one fault %s", got, want)
	}
	if s := found[0].Span.Start(); s.Line != 4 || s.Column != 9 {
		t.Errorf("the fault stands at %v, want the start of the folded value, 4:9", s)
	}
	if got := b.Developer.Strength.Value.VolumesString(); got != "6 vol" {
		t.Errorf("the developer is %s", got)
	}
}

// expectSections reads an application and expects its sections as "name wait+takes".
func expectSections(t *testing.T, apply, want string) {
	t.Helper()
	b, found := blockWith("apply: " + apply)
	if len(found) > 0 {
		t.Errorf("%s: %s", apply, show(found))
		return
	}
	var got []string
	for _, s := range b.Apply.Sections {
		got = append(got, fmt.Sprintf("%s %s+%s", s.Name.Value, s.Wait, s.Takes))
	}
	got = append(got, "in all "+b.Apply.Value.String())
	if text := strings.Join(got, ", "); text != want {
		t.Errorf("%s: got %s, want %s", apply, text, want)
	}
}

func TestSections(t *testing.T) {
	expectSections(t, "18 min", "in all 18m0s")
	expectSections(t, "{nape: 3 min, crown: 90 s}", "nape 0s+3m0s, crown 0s+1m30s, in all 4m30s")
	expectSections(t, "{lengths: 12 min, wait: 8 min, roots: 5 min}", "lengths 0s+12m0s, roots 8m0s+5m0s, in all 25m0s")

	const parts = "; write a time for each section in the order of work, as in apply: {nape: 3 min, crown: 4 min}, or one for all of them"
	expectFault(t, "apply: {}", "2:1-6 formula/sections: an application without a section"+parts)
	expectFault(t, "apply: {wait: 3 min, nape: 4 min}", "2:9-13 formula/sections: a wait before the first section; nothing is on the hair yet: begin the bowl later, as in start: 10 min")
	expectFault(t, "apply: {nape: 4 min, wait: 3 min}", "2:22-26 formula/sections: a wait after the last section; how long the bowl stays on is said by time")
	expectFault(t, "apply: {nape: 0 min}", "2:15-20 formula/time: an application that takes no time; write how long the brush is at work, as in 18 min, or leave it out")
	expectFault(t, "apply: {nape: 4}", `2:15-16 formula/time: "4" has no unit of time; write minutes, as in 15 min`)
	expectFault(t, "apply: {nape: 4 min}\non: [nape, crown]", `3:12-17 formula/sections: apply does not say how long "crown" takes; give it a time in apply, or take it out of on`)
	expectFault(t, "apply: {nape: 4 min, crwn: 3 min, crown: 4 min}\non: [nape, crown]",
		`2:22-26 formula/sections: the bowl does not go on "crwn"; did you mean crown? it goes on: nape, crown`)
}

// expectOf reads one shade and expects its dose, its code and the range it is said to
// be of.
func expectOf(t *testing.T, in, want string) {
	t.Helper()
	b, found := blockWith("colour: " + in)
	if len(found) > 0 {
		t.Errorf("%s: %s", in, show(found))
		return
	}
	it := b.Colour[0]
	if got := strings.TrimSpace(it.dose() + " | " + it.Code.Value + " | " + it.Range.Value); got != want {
		t.Errorf("%s: got %s, want %s", in, got, want)
	}
}

func TestShadeOfAnotherRange(t *testing.T) {
	expectOf(t, "1 part 8.2 of saltmarsh", "1 part | 8.2 | saltmarsh")
	expectOf(t, "8.2 of saltmarsh", "1 part | 8.2 | saltmarsh")
	expectOf(t, "2 parts of 8.2 of saltmarsh", "2 parts | 8.2 | saltmarsh")
	expectOf(t, "20 g CL of meadow", "20 g | CL | meadow")
	expectOf(t, "20 g 6G of meadow", "20 g | 6G | meadow")
	expectOf(t, "60 % 7 of saltmarsh", "60 % | 7 | saltmarsh")

	// Where "of" only stands behind the dose, nothing is said about a range.
	expectOf(t, "2 parts of 8N", "2 parts | 8N |")
	expectOf(t, "2parts of 8N", "2 parts | 8N |")
	expectOf(t, "20 g of CL", "20 g | CL |")
	expectOf(t, "20g of 8N", "20 g | 8N |")
	expectOf(t, "0.02 kg of 8N", "20 g | 8N |")
	expectOf(t, "60% of 7N", "60 % | 7N |")

	expectLine(t, "2 parts 8N + 1 part 8.2 of saltmarsh, 6 vol at 1:2, 30 g", "2 parts 8N + 1 part 8.2 of saltmarsh, 6 vol at 1:2, 30 g colour")
}

func TestTarget(t *testing.T) {
	for in, want := range map[string]Target{
		"6":                   {Level: 6},
		"8 cool":              {Level: 8, Tone: "cool"},
		"6 cover":             {Level: 6, Cover: true},
		"6 cover white":       {Level: 6, Cover: true},
		"6, cover white":      {Level: 6, Cover: true},
		"6 cool, cover white": {Level: 6, Tone: "cool", Cover: true},
	} {
		b, found := blockWith("target: " + in)
		if len(found) > 0 || b.Target.Value != want {
			t.Errorf("%s: got %+v (%s), want %+v", in, b.Target.Value, show(found), want)
		}
	}
}
