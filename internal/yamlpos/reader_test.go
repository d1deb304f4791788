package yamlpos

import (
	"strings"
	"testing"
)

// expectReports reads the text with a schema and compares what was reported.
func expectReports(t *testing.T, in string, read func(r *Reader, n *Node), want ...string) {
	t.Helper()
	n, faults := Parse(fragment(in))
	r := NewReader(faults...)
	read(r, n)
	if got, want := messages(r.Diagnostics()), strings.Join(want, "\n"); got != want {
		t.Errorf("%q reports\n%s\nwant\n%s", in, got, want)
	}
}

func TestFieldsReportAllFaultsAtOnce(t *testing.T) {
	read := func(r *Reader, n *Node) {
		f := r.Fields(n, "a formula block", "colour", "developer", "ratio", "time", "on")
		f.Need("colour")
		f.Text("ratio")
		f.Text("time")
		f.Texts("on")
	}
	expectReports(t, "clour: 30 g 8N\nratio: [1, 2]\ntime:\nprice: 3\non: [a, [b], {c: d}]\n", read,
		"1:1-6 text/unknown-key: a formula block has no key \"clour\"; did you mean \"colour\"? the keys are: colour, developer, ratio, time, on",
		"4:1-6 text/unknown-key: a formula block has no key \"price\"; the keys are: colour, developer, ratio, time, on",
		"2:8-14 text/wrong-kind: `ratio` is a list, want a single value; write one value, in double quotes if it has a bracket, a brace or a colon",
		"3:6-6 text/wrong-kind: `time` is empty, want a single value; fill it in, or delete it",
		"5:9-12 text/wrong-kind: an item of `on` is a list, want a single value; write one value, in double quotes if it has a bracket, a brace or a colon",
		"5:14-20 text/wrong-kind: an item of `on` is a map of keys and values, want a single value; write one value, in double quotes if it has a bracket, a brace or a colon")
	expectReports(t, "- x\n", read,
		"1:1-4 text/wrong-kind: a formula block is a list, want a map of keys and values; write `key: value` on lines of their own, or {key: value, key: value}")
	expectReports(t, "", read,
		"1:1-1 text/wrong-kind: a formula block is empty, want a map of keys and values; fill it in, or delete it")
}

// A key that was mistyped is not missing as well.
func TestFieldsReportMissingKeys(t *testing.T) {
	read := func(r *Reader, n *Node) { r.Fields(n, "a block", "colour", "ratio").Need("colour") }
	expectReports(t, "ratio: 1:2\n", read, "1:1-1 text/missing-key: a block has no \"colour\"; add a line `colour: …`")
	expectReports(t, "clour: 30 g\n", read, "1:1-6 text/unknown-key: a block has no key \"clour\"; did you mean \"colour\"? the keys are: colour, ratio")
}

// What could not be read is reported once, by Parse.
func TestFieldsAreSilentAboutWhatWasReported(t *testing.T) {
	read := func(r *Reader, n *Node) {
		f := r.Fields(n, "a block", "a", "b")
		f.Need("a")
		f.Need("b")
		r.Fields(f.Node("a"), "`a`", "c").Need("c")
		f.Entries("a")
		f.Flag("a")
	}
	expectReports(t, "a: [\n", read,
		"1:1-5 text/yaml: a list in brackets is not closed or a comma is missing in it; write [one, two]; put an item in double quotes if it has a bracket or a colon")
	expectReports(t, "a: &x {c: 1}\nb: 2\n", read,
		"1:4-6 text/yaml: an anchor (&) cannot be used here; write the value out, or put it in double quotes if it should be read as it stands")
}

func TestFieldsReturnValues(t *testing.T) {
	n, faults := Parse(fragment("a: one\nb: [x, y]\nc: yes\nd: 12\ne: {k: v, l: w}\nf: alone\ng: No\n"))
	r := NewReader(faults...)
	f := r.Fields(n, "a block", "a", "b", "c", "d", "e", "f", "g", "h")
	if v, ok := f.Need("a"); !ok || v.Value != "one" || at(v.Span) != "1:4-7" {
		t.Errorf("a is %v %v", v, ok)
	}
	if v := f.Texts("b"); len(v) != 2 || v[1].Value != "y" {
		t.Errorf("b is %v", v)
	}
	if v := f.Texts("f"); len(v) != 1 || v[0].Value != "alone" {
		t.Errorf("f is %v", v)
	}
	if v, ok := f.Flag("c"); !v || !ok {
		t.Errorf("c is %v %v", v, ok)
	}
	if v, ok := f.Flag("g"); v || !ok {
		t.Errorf("g is %v %v", v, ok)
	}
	if v, ok := f.Whole("d", 1, 12); v != 12 || !ok {
		t.Errorf("d is %v %v", v, ok)
	}
	if v := f.Entries("e"); len(v) != 2 || v[1].Key.Value != "l" {
		t.Errorf("e is %v", v)
	}
	if _, ok := f.Text("h"); ok || f.Has("h") || f.Node("h") != nil || f.KeySpan("h") != n.Span {
		t.Error("h is not there")
	}
	if !f.Has("a") || at(f.KeySpan("b")) != "2:1-2" {
		t.Error("a and b are there")
	}
	if len(r.Diagnostics()) > 0 {
		t.Error(messages(r.Diagnostics()))
	}
}

func TestFlagAndWholeRefuse(t *testing.T) {
	flag := func(r *Reader, n *Node) { r.Flag(n, "`ready`") }
	expectReports(t, "maybe", flag, "1:1-6 text/wrong-kind: `ready` is \"maybe\", want yes or no; write yes or no")
	whole := func(r *Reader, n *Node) { r.Whole(n, "`heads`", 1, 40) }
	for _, s := range []string{"0", "41", "3.5", "1_0", "+3", "0x3", "-1", "many", "99999999999999999999"} {
		n, _ := Parse(fragment(s))
		r := NewReader()
		whole(r, n)
		if len(r.Diagnostics()) != 1 {
			t.Errorf("%s passes as a whole number from 1 to 40", s)
		}
	}
	expectReports(t, "1", whole)
	expectReports(t, "40", whole)
}

func TestOpenQuestionsAreReported(t *testing.T) {
	ratio := func(r *Reader, n *Node) { r.Fields(n, "a formula block", "ratio").Need("ratio") }
	expectReports(t, "ratio: ?", ratio, "1:8-9 text/open: `ratio` is an open question; write the value, or delete the line where it may be left out")
	expectReports(t, `ratio: "?"`, ratio)
}
