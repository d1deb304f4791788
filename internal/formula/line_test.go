package formula

import (
	"fmt"
	"strings"
	"testing"

	"plait/internal/diag"
	"plait/internal/source"
)

func line(s string) source.Text {
	return source.Text{Value: s, Span: source.NewFile("formula", []byte(s)).Whole()}
}

// expectLine reads a bowl on one line and expects what it prints back.
func expectLine(t *testing.T, in, want string) {
	t.Helper()
	b, found := ParseLine(line(in))
	if len(found) > 0 {
		t.Errorf("%q: %s", in, show(found))
		return
	}
	if got := b.Short(); got != want {
		t.Errorf("%q is read as %q, want %q", in, got, want)
	}
}

func TestParseLine(t *testing.T) {
	const usual = "2 parts 6N + 1 part 7B, 10 vol at 1:1.5, 45 g colour"
	for _, in := range []string{
		"2 parts 6N + 1 part 7B, 10 vol at 1:1.5, 45 g",
		"2 parts 6N + 1 part 7B, 45 g, 10 vol at 1:1.5",
		"2 parts 6N + 1 part 7B, 10 vol 1:1.5, 45 g",
		"2 parts 6N + 1 part 7B, 10 vol, 1:1.5, 45 g",
		"2 parts 6N + 1 part 7B, 10 vol, at 1:1.5, 45 g colour",
		"2parts 6N+1part 7B,10vol at 1 : 1.5, 45g",
		"2 PARTS 6N + 1 PART 7B, 10 VOL AT 1:1.5, 45 G COLOUR",
		"2 parts of 6N + 1 part of 7B, 10 volumes at 1:1.5, 45 grams",
		"  2 parts 6N  +  7B ,  10 vol  at  1:1.5 , 45 g ",
		"2 parts 6N + 1 part 7B, permanent, 10 vol at 1:1.5, 45 g, 35 min",
	} {
		expectLine(t, in, usual)
	}
	expectLine(t, "60 % 7N + 40 % 7G, 6 % at 1:1, 120 g mixed", "60 % 7N + 40 % 7G, 6 % at 1:1, 120 g mixed")
	expectLine(t, "20 g 6N + 10 g 7B, 45 g of 20 vol", "20 g 6N + 10 g 7B, 45 g of 20 vol")
	expectLine(t, "30 g PW, add 5 % of colour bond cream + 2 g oil, lightener, 20 vol at 1:2", "30 g PW, add 5 % of colour bond cream + 2 g oil, 20 vol at 1:2")
	expectLine(t, "8N, no developer, 30 g", "1 part 8N, no developer, 30 g colour")
	expectLine(t, "8N, None, 30 g", "1 part 8N, no developer, 30 g colour")
	expectLine(t, "8N, 13 vol from 30 vol and 10 vol at 1:2, 30 g", "1 part 8N, 13 vol from 30 vol and 10 vol at 1:2, 30 g colour")
}

func expectLineFault(t *testing.T, in, want string) {
	t.Helper()
	b, found := ParseLine(line(in))
	if got := show(found); got != want {
		t.Errorf("%q\n got %s\nwant %s", in, got, want)
	}
	if !b.Broken {
		t.Errorf("%q: a bowl with an error is not broken", in)
	}
}

func TestParseLineFaults(t *testing.T) {
	const plus = "; keep one of the two; between shades stands a plus, as in 2 parts 6N + 1 part 7B"
	long := "1 part 8N" + strings.Repeat(" + 1 part 8N", mostShades)
	expectLineFault(t, long, fmt.Sprintf("1:1-%d formula/parts: 51 shades are too many for one bowl; mix at most 50 shades; make two bowls of it", len(long)+1))
	expectLineFault(t, "", "1:1-1 formula/no-shade: a formula needs at least one shade; write the shades with parts or grams, as in 2 parts 8N + 1 part 8V")
	expectLineFault(t, "1,5 parts 6N, 20 vol at 1:1, 45 g", `1:1-4 formula/syntax: the comma in "1,5" can be read in two ways; write 1.5 for one number, 1, 5 for two things`)
	expectLineFault(t, "6N, 20 vol at 1:1,45 g", `1:17-21 formula/syntax: the comma in "1,45" can be read in two ways; write 1.45 for one number, 1, 45 for two things`)
	expectLineFault(t, "6,3, 20 vol at 1:1, 45 g", `1:1-4 formula/syntax: the comma in "6,3" can be read in two ways; write 6.3 for one number, 6, 3 for two things`)
	expectLineFault(t, "6N, 20 vol at 1:1, add 3 g drops, add 2 g oil, 45 g", "1:35-46 formula/syntax: a second addition: add 2 g oil"+plus)
	expectLineFault(t, "6N, 20 vol at 1:1, add drops, 45 g", `1:24-29 formula/syntax: "drops" is not an additive with its dose; write 5 % of colour bond cream, or 3 g bond cream`)
	expectLineFault(t, "6N, 20 vol at 1:1, 45 g,", "1:25-25 formula/syntax: nothing stands behind this comma; take the comma away, or say what belongs there")
	expectLineFault(t, "6N, 20 vol at 1:1, 45 g, 60 g", "1:26-30 formula/syntax: a second amount: 60 g"+plus)
	expectLineFault(t, "6N, 20 vol at 1:1, 30 vol, 60 g", "1:20-26 formula/syntax: a second developer: 30 vol"+plus)
	expectLineFault(t, "6N, 20 vol at 1:1, 1:2, 60 g", "1:20-23 formula/syntax: a second ratio: 1:2"+plus)
	expectLineFault(t, "6N, demi, toner, 20 vol at 1:1, 60 g", "1:11-16 formula/syntax: a second kind of colour: toner"+plus)
	expectLineFault(t, "6N, 7B, 20 vol at 1:1, 60 g", `1:5-7 formula/unit: "7B" has no unit plait knows; write a size as in 45 g, and a plus between shades, as in 2 parts 6N + 1 part 7B`)
	expectLineFault(t, "6N, 20 vol at 2:1, 45 g", `1:15-18 formula/ratio: ratio "2:1" is ambiguous: plait reads colour:developer, and colour is never the larger; if you mean 2 of developer to 1 of colour, write 1:2`)
	expectLineFault(t, "6N, 20 at 1:1, 45 g", `1:5-7 formula/developer: "20" is not a developer strength; write volumes or per cent, as in 20 vol or 6 %`)
	expectLineFault(t, "6N, 20 vol at 1, 45 g", `1:15-16 formula/ratio: "1" is not a ratio; write colour:developer, as in 1:1.5`)
	expectLineFault(t, "6N, 20 vol at 1:1, 45", `1:20-22 formula/unit: "45" has no unit; write 45 g`)
	expectLineFault(t, "Töne 6N, 20 vol at 1:1, 45", `1:1-8 formula/unit: "Töne" is no dose of a shade; write parts or grams before a shade and a plus between shades, as in 2 parts 8N + 1 part 8V or 20 g 8N + 10 g 8V`)
	expectLineFault(t, "30 g 6N", "1:1-8 formula/developer: this bowl has no developer; say the strength and the ratio, as in: 30 g 6N, 20 vol at 1:1.5, 45 g\nor, for colour used as it is: 30 g 6N, no developer, 45 g")
	expectLineFault(t, "6N, 20 vol at 1:1", "1:1-18 formula/amount: this bowl has no size; say how much colour, as in: 6N, 20 vol at 1:1, 45 g")
}

func TestAmountWithoutAWordIsBare(t *testing.T) {
	for in, want := range map[string]bool{"6N, 20 vol at 1:1, 45 g": true, "6N, 20 vol at 1:1, 45 g colour": false} {
		if b, _ := ParseLine(line(in)); b.Amount.Bare != want {
			t.Errorf("%q: bare is %v", in, b.Amount.Bare)
		}
	}
}

// What a person reads off the terminal can be typed in again.
func FuzzParseLine(f *testing.F) {
	for _, seed := range []string{
		"2 parts 6N + 1 part 7B, 10 vol at 1:1.5, 45 g",
		"60 % 7N + 40 % 7G, 6 % at 1:1, 120 g mixed, permanent, 35 min",
		"20 g 6N (20 g), 13 vol from 30 vol and 10 vol",
		"8N, no developer, 30 g",
		"1/3 parts 8N,,at :",
		"6N,20 vol at 1:1,5",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, s string) {
		in := line(s)
		b, found := ParseLine(in)
		expectSound(t, b, found, in.Span)
		if b.Broken {
			return
		}
		short := b.Short()
		again, found := ParseLine(line(short))
		if len(found) > 0 {
			t.Fatalf("%q is printed as %q, which is not read: %s", s, short, show(found))
		}
		if again.Short() != short {
			t.Fatalf("%q is printed as %q and then as %q", s, short, again.Short())
		}
		expectEqual(t, b, again)
	})
}

// expectSound holds what is true of every block that was read: findings say where
// and what to do, and a block is broken if and only if one is an error.
func expectSound(t *testing.T, b *Block, found []diag.Diagnostic, whole source.Span) {
	t.Helper()
	for _, d := range found {
		if !whole.Contains(d.Span) || d.Message == "" || d.Help == "" {
			t.Fatalf("%+v stands outside %v or says too little", d, whole.Text())
		}
	}
	if b.Broken != diag.HasErrors(found) {
		t.Fatalf("broken is %v with %s", b.Broken, show(found))
	}
}

// expectEqual compares the values of two blocks, as far as the short form has them.
func expectEqual(t *testing.T, a, b *Block) {
	t.Helper()
	equal := len(a.Colour) == len(b.Colour) && a.Developer.None == b.Developer.None &&
		a.Developer.Strength.Value.Cmp(b.Developer.Strength.Value) == 0 &&
		a.Developer.Weight.Value.Cmp(b.Developer.Weight.Value) == 0 &&
		a.Ratio.Value.Equal(b.Ratio.Value) &&
		a.Amount.Of == b.Amount.Of && a.Amount.Mass.Value.Cmp(b.Amount.Mass.Value) == 0
	for i := range min(len(a.Colour), len(b.Colour)) {
		x, y := a.Colour[i], b.Colour[i]
		equal = equal && x.Unit == y.Unit && x.Code.Value == y.Code.Value && x.Value.Equal(y.Value)
	}
	if !equal {
		t.Fatalf("two readings differ:\n%+v\n%+v", a, b)
	}
}
