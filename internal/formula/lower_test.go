package formula

import (
	"strings"
	"testing"

	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/shade"
	"plait/internal/source"
)

var meadow = &shade.Range{
	ID: "meadow", Name: "Meadow", Darkest: 1, Lightest: 10,
	Grammar: shade.Grammar{Style: shade.Letters, Tones: []string{"N", "V", "G"}, Clear: []string{"CL"}},
	Tones:   map[string]shade.Tone{"N": {Code: "N"}, "V": {Code: "V", Base: shade.Violet}, "G": {Code: "G"}},
	Shades:  []string{"7N", "7G", "8N", "8V", "CL"},
	Kinds:   map[shade.Kind]shade.Terms{shade.Demi: {Ratio: measure.Ratio{Colour: exact.One, Developer: exact.Int(2)}}},
}

// expectWeights reads a block, weighs it to 0.1 g and expects what stands on the
// scale, in the order it goes into the bowl.
func expectWeights(t *testing.T, body, want string) {
	t.Helper()
	b, found := readBlock("kind: demi\n" + body)
	recipe, faults := b.Lower(meadow)
	if found = append(found, faults...); len(found) > 0 {
		t.Errorf("%q: %s", body, show(found))
		return
	}
	bowl, err := mix.Compute(recipe, measure.Grams(exact.Of(1, 10)))
	if err != nil {
		t.Errorf("%q: %v", body, err)
		return
	}
	var weights []string
	for _, p := range bowl.Parts {
		weights = append(weights, p.Weighed.String())
	}
	if got := strings.Join(weights, ", "); got != want {
		t.Errorf("%q weighs %s, want %s", body, got, want)
	}
}

// The sizes decide in the order that Lower states. Source: arithmetic.
func TestLower(t *testing.T) {
	const shades = "colour: 2 parts 8N + 1 part 8V\n"
	expectWeights(t, shades+"developer: 6 vol\namount: 30 g colour\n", "20 g, 10 g, 60 g")
	expectWeights(t, shades+"developer: 6 vol\namount: 90 g mixed\n", "20 g, 10 g, 60 g")
	expectWeights(t, shades+"developer: 6 vol\nratio: 1:1\namount: 90 g mixed\n", "30 g, 15 g, 45 g")
	expectWeights(t, shades+"developer: 45 g of 6 vol\nratio: 1:1.5\n", "20 g, 10 g, 45 g")
	expectWeights(t, "colour: 20 g 8N + 10 g 8V\ndeveloper: 45 g of 6 vol\n", "20 g, 10 g, 45 g")
	expectWeights(t, "colour: 20 g 8N + 10 g 8V\ndeveloper: 6 vol\namount: 60 g colour\n", "20 g, 10 g, 60 g")
	expectWeights(t, "colour: 20 g 8N\ndeveloper: none\n", "20 g")
	expectWeights(t, "colour: 60 % 7N + 40 % 7G\ndeveloper: 6 vol\namount: 30 g colour\n", "18 g, 12 g, 60 g")
	expectWeights(t, "colour: 30 g 8N\ndeveloper: 12 vol from 20 vol and 6 vol\n", "30 g, 25.7 g, 34.3 g")
	expectWeights(t, "colour: 40 g 8N\nadd: [5 % of colour bond cream, 3 g drops]\ndeveloper: 6 vol\n", "40 g, 2 g, 3 g, 80 g")
}

func expectLowerFault(t *testing.T, body, want string) {
	t.Helper()
	b, found := readBlock("kind: demi\n" + body)
	_, faults := b.Lower(meadow)
	if got := show(append(found, faults...)); got != want {
		t.Errorf("%q\n got %s\nwant %s", body, got, want)
	}
}

func TestLowerFaults(t *testing.T) {
	const size = "\namount: 30 g colour\n"
	expectLowerFault(t, "colour: 8Z\ndeveloper: 6 vol"+size, `3:9-11 range/shade: shade "8Z" has no tone "Z" in this range; the shades are: 7N 7G 8N 8V CL`)
	expectLowerFault(t, "colour: 8n\ndeveloper: 6 vol"+size, `3:9-11 range/shade: shade "8n" has no tone "n" in this range; did you mean 8N? the shades are: 7N 7G 8N 8V CL`)
	expectLowerFault(t, "colour: 8N + 8N\ndeveloper: 6 vol"+size, "3:14-16 formula/shade-twice: 8N stands in this bowl twice; add the two doses up")
	expectLowerFault(t, "colour: 60 % 7N + 30 % 7G\ndeveloper: 6 vol"+size, "3:9-26 formula/percent: the shades add up to 90 %; shares of the colour make 100 % together; for other proportions write parts")
	expectLowerFault(t, "colour: 8N\ndeveloper: none\nratio: 1:2"+size, "5:8-11 formula/ratio: a ratio, but no developer; delete the ratio, or say which developer")
	expectLowerFault(t, "colour: 8N\ndeveloper: 30 vol from 20 vol and 10 vol"+size, "4:12-41 formula/blend: 6 % and 3 % cannot be blended to 9 %: it lies outside the two; take two developers with the wanted strength between them")
	expectLowerFault(t, "colour: 8N\ndeveloper: 6 vol\n", "1:12-17 formula/amount: the bowl has no size; say how much to mix, as in amount: 30 g colour or amount: 90 g mixed")
	expectLowerFault(t, "colour: 8N\ndeveloper: 6 vol\nmixed: 90 g\n", "5:8-12 formula/amount: mixed is a check on what the amount comes to, and there is no amount; write amount: 90 g mixed")
}

// FuzzRead reads any text as a block. Whatever it says, the block can be lowered,
// and what can be computed adds up: the parts to the total, exactly and on the
// scale.
func FuzzRead(f *testing.F) {
	f.Add("kind: demi\ncolour: 2 parts 8N (20 g) + 1 part 8V\ndeveloper: 6 vol (1.8 %)\nratio: 1:2\namount: 30 g colour\ntime: 15 min\nhair: 6 natural, 30 % white\ntarget: 8 cool\n")
	f.Add("kind: toner\ncolour: 60 % 7N + 40 % 7G\nadd: [5 % of colour cream, 3 g drops]\ndeveloper: 13 vol from 30 vol and 10 vol\namount: 90 g mixed\nmixed: 90 g\nlevel: 7\nstrength: 1.2 %\n")
	f.Add("colour: >-\n  1 part 8N\n  + 8V\ndeveloper: \"none\"\namount: 1/3 kg colour\n")
	f.Add("on: [é, \"x\ty\"]\r\nkind: &a demi\r\ncolour:\r\ndeveloper: *a\r\n")
	f.Fuzz(func(t *testing.T, body string) {
		file := source.NewFile("lesson.md", []byte(body))
		b, found := Read(source.Text{}, file.Fragment())
		expectSound(t, b, found, file.Whole())
		for _, rng := range []*shade.Range{nil, meadow} {
			recipe, faults := b.Lower(rng)
			expectInside(t, faults, file.Whole())
			if b.Broken || diag.HasErrors(faults) {
				continue
			}
			if bowl, err := mix.Compute(recipe, measure.Grams(exact.Of(1, 10))); err == nil {
				expectAddsUp(t, bowl)
			}
		}
	})
}

func expectInside(t *testing.T, found []diag.Diagnostic, whole source.Span) {
	t.Helper()
	for _, d := range found {
		if !whole.Contains(d.Span) || d.Message == "" || d.Help == "" {
			t.Fatalf("%+v stands outside the text or says too little", d)
		}
	}
}

// expectAddsUp checks that a bowl weighs what its parts weigh, and that the scale's
// rounding moves the total by half a step at most.
func expectAddsUp(t *testing.T, b mix.Bowl) {
	t.Helper()
	var sum measure.Mass
	for _, p := range b.Parts {
		sum = sum.Add(p.Exact)
	}
	if sum.Cmp(b.Mixed) != 0 || measure.Total(b.Colour, b.Additives, b.Developer).Cmp(b.Mixed) != 0 {
		t.Fatalf("parts weigh %s, the bowl %s", sum, b.Mixed)
	}
	off := b.WeighedTotal().Sub(b.Mixed).Grams().Abs()
	if b.Step.Grams().Mul(exact.Half).Less(off) {
		t.Fatalf("on the scale the bowl is off by %s", off)
	}
}

func BenchmarkRead(b *testing.B) {
	const body = "on: [lengths]\nkind: demi\ncolour: 2 parts 8N + 1 part 8V\ndeveloper: 60 g of 6 vol\nratio: 1:2\namount: 30 g colour\ntime: 15 min from last section\nhair: 8 lightened\ntarget: 8 cool\n"
	file := source.NewFile("lesson.md", []byte(body))
	b.ReportAllocs()
	for b.Loop() {
		Read(source.Text{}, file.Fragment())
	}
}

func BenchmarkLowerAndCompute(b *testing.B) {
	block, _ := readBlock("kind: demi\ncolour: 2 parts 8N + 1 part 8V\ndeveloper: 6 vol\nratio: 1:2\namount: 30 g colour\n")
	step := measure.Grams(exact.Of(1, 10))
	b.ReportAllocs()
	for b.Loop() {
		recipe, _ := block.Lower(meadow)
		if _, err := mix.Compute(recipe, step); err != nil {
			b.Fatal(err)
		}
	}
}
