package question

import (
	"fmt"
	"strings"
	"testing"

	"plait/internal/diag"
	"plait/internal/source"
)

func read(text string) (*Block, []diag.Diagnostic) {
	file := source.NewFile("question", []byte(text))
	return Read(source.Text{}, file.Fragment())
}

// expectFault reads a block and expects one finding, at a line and column.
func expectFault(t *testing.T, text, want string) {
	t.Helper()
	b, found := read(text)
	var got []string
	for _, d := range found {
		at := d.Span.Start()
		got = append(got, fmt.Sprintf("%d:%d %s: %s", at.Line, at.Column, d.Rule, d.Message))
	}
	if strings.Join(got, "\n") != want {
		t.Errorf("%s\n got %s\nwant %s", text, strings.Join(got, "\n"), want)
	}
	if !b.Broken && diag.HasErrors(found) {
		t.Errorf("%s: not broken", text)
	}
}

const good = "ask: How much for 40 g?\ngiven: {formula: gloss, colour: 40 g, developer: 60 g of 20 vol, at: \"10:07\", hair: \"6 natural, 30 % white\"}\nfind: developer\n" +
	"near: 0.5 g\ntests: weighs\nbecause: So.\nslips: {ratio forgotten: , 52 g: No.}\nvary: {colour: 30 g to 90 g by 15 g}\ndifficulty: hard\n"

func TestRead(t *testing.T) {
	b, found := read(good)
	if len(found) > 0 {
		t.Fatal(found[0].Message, found[0].Span.Text())
	}
	if b.Kind != Find || b.Hard != Hard || len(b.Slips) != 2 || b.Slips[0].Named != RatioForgotten || len(b.Vary) != 1 {
		t.Fatalf("read as %+v", b)
	}
	var values []string
	for _, v := range b.Vary[0].Values {
		values = append(values, v.Value)
	}
	if got := strings.Join(values, ", "); got != "30 g, 45 g, 60 g, 75 g, 90 g" {
		t.Errorf("colour varies over %s", got)
	}
	if got := b.Given.At.Value.Minutes(); got != 607 {
		t.Errorf("at is %v minutes after midnight", got)
	}
	if b.Given.Bottle.Value.String() != "6 %" || b.Given.Developer.Value.String() != "60 g" {
		t.Errorf("developer is %s of %s", b.Given.Developer.Value, b.Given.Bottle.Value)
	}
}

func TestFaults(t *testing.T) {
	const asks = "ask: A?\ntests: x\n"
	expectFault(t, asks, "1:1 question/kind: the question has no answer")
	expectFault(t, asks+"level: 8\nplace: nape", "4:1 question/kind: level and place are two ways to answer one question")
	expectFault(t, asks+"fnd: colour", "3:1 text/unknown-key: a question block has no key \"fnd\"\n1:1 question/kind: the question has no answer")
	expectFault(t, asks+"order: [a, b]", "3:1 question/list: order with 2 is no question")
	expectFault(t, asks+"choose: {right: a, wrong: [A]}", "3:28 question/list: \"A\" stands there twice")
	expectFault(t, asks+"choose: {right: a, of: strength, from: [b, c]}", "3:9 question/kind: this list says which is right and asks plait to work it out")
	expectFault(t, asks+"find: colour\ngiven: {colour: 40}", `4:17 question/given: "40" has no unit`)
	expectFault(t, asks+"find: finish time\ngiven: {at: \"\"}", "4:14 question/given: no time is given")
	expectFault(t, asks+"find: colour\nvary: {colour: 30 g to 60 g by 10 g}", `4:8 question/vary: "colour" is not given, so it cannot vary`)
	expectFault(t, asks+"find: colour\ngiven: {colour: 40 g}\nvary: {colour: 30 g to 20 g by 1 g}", `5:16 question/vary: "30 g to 20 g by 1 g" counts to nowhere`)
	expectFault(t, asks+"find: colour\nslips: [ratio forgoten]", `4:9 question/slip: nothing says what to tell who answers "ratio forgoten"`)
	expectFault(t, asks+"find: colour\ndifficulty: tricky", `4:13 question/kind: "tricky" is no difficulty`)
}

// FuzzRead reads any bytes as a question and as a practical. Every finding has a place
// and a way out, and what is broken was reported.
func FuzzRead(f *testing.F) {
	f.Add(good)
	f.Add("ask: é\nchoose: {of: x, from: [\nvary: {colour: 1 g to 999999 g by 0.000001 g}\n")
	f.Add("ask: a\ngiven: {at: \"\"}")
	f.Add("tests: a\nshow: [b]\npairs: {a: b, c: b}\npaper: yes\n")
	f.Fuzz(func(t *testing.T, text string) {
		file := source.NewFile("question", []byte(text))
		b, found := Read(source.Text{}, file.Fragment())
		p, more := ReadPractical(source.Text{}, file.Fragment())
		if b.Broken && !diag.HasErrors(found) || p.Broken && !diag.HasErrors(more) {
			t.Fatal("broken without an error")
		}
		for _, d := range append(found, more...) {
			if d.Message == "" || d.Help == "" || !file.Whole().Contains(d.Span) {
				t.Fatalf("%+v says too little, or stands nowhere", d)
			}
		}
		for _, v := range b.Vary {
			if len(v.Values) > MaxVariants+1 {
				t.Fatalf("%d variants", len(v.Values))
			}
		}
	})
}
