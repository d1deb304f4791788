package yamlpos

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"plait/internal/diag"
	"plait/internal/source"
)

func fragment(text string) *source.Fragment {
	return source.NewFile("lesson.md", []byte(text)).Fragment()
}

// outline prints a tree with the text that each span covers, one node a line.
func outline(n *Node) string {
	var b strings.Builder
	writeOutline(&b, n, "")
	return strings.TrimSuffix(b.String(), "\n")
}

func writeOutline(b *strings.Builder, n *Node, indent string) {
	if n == nil {
		fmt.Fprintf(b, "%s(unusable)\n", indent)
		return
	}
	switch n.Kind {
	case Null:
		fmt.Fprintf(b, "%s%s null\n", indent, at(n.Span))
	case Scalar:
		quote := ""
		if n.Quoted {
			quote = " quoted"
		}
		fmt.Fprintf(b, "%s%s %q%s\n", indent, at(n.Value.Span), n.Value.Value, quote)
	case List:
		fmt.Fprintf(b, "%s%s list\n", indent, at(n.Span))
		for _, item := range n.Items {
			writeOutline(b, item, indent+"  ")
		}
	case Map:
		fmt.Fprintf(b, "%s%s map\n", indent, at(n.Span))
		for _, p := range n.Pairs {
			fmt.Fprintf(b, "%s  %s %s:\n", indent, at(p.Key.Span), p.Key.Value)
			writeOutline(b, p.Value, indent+"    ")
		}
	}
}

// at prints a span as its first place and the place behind it.
func at(s source.Span) string {
	from, to := s.Start(), s.End()
	if from.Line == to.Line {
		return fmt.Sprintf("%d:%d-%d", from.Line, from.Column, to.Column)
	}
	return fmt.Sprintf("%d:%d-%d:%d", from.Line, from.Column, to.Line, to.Column)
}

func expectTree(t *testing.T, in, want string) {
	t.Helper()
	n, faults := Parse(fragment(in))
	for _, d := range faults {
		t.Errorf("%q: %s: %s", in, at(d.Span), d.Message)
	}
	if got, want := outline(n), strings.TrimSpace(want); got != want {
		t.Errorf("%q reads as\n%s\nwant\n%s", in, got, want)
	}
}

func TestPlaces(t *testing.T) {
	expectTree(t, "ratio: 1:2\ntime: 15 min\n", `
1:1-2:13 map
  1:1-6 ratio:
    1:8-11 "1:2"
  2:1-5 time:
    2:7-13 "15 min"`)
	// Columns count characters, offsets count bytes.
	expectTree(t, "título: café à l’eau # note\nñ: 'o''clock'\n", `
1:1-2:14 map
  1:1-7 título:
    1:9-21 "café à l’eau"
  2:1-2 ñ:
    2:5-13 "o'clock" quoted`)
	expectTree(t, "hair: {röots: 7 natural, warmth: \"yellow\" , x: , y}\r\non: [a , 'b,]',]\r\n", `
1:1-2:17 map
  1:1-5 hair:
    1:7-52 map
      1:8-13 röots:
        1:15-24 "7 natural"
      1:26-32 warmth:
        1:35-41 "yellow" quoted
      1:45-46 x:
        1:48-48 null
      1:50-51 y:
        1:51-51 null
  2:1-3 on:
    2:5-17 list
      2:6-7 "a"
      2:11-14 "b,]" quoted`)
	expectTree(t, "show:\n  - Bowl on the scale\n  -\n  - - nested\n", `
1:1-4:13 map
  1:1-5 show:
    2:3-4:13 list
      2:5-22 "Bowl on the scale"
      3:4-4 null
      4:5-13 list
        4:7-13 "nested"`)
	// A closing bracket in a comment closes nothing.
	expectTree(t, "a: [x, # ]\n  y # no ]\n  ]\nb: {\n}\n", `
1:1-5:2 map
  1:1-2 a:
    1:4-3:4 list
      1:5-6 "x"
      2:3-4 "y"
  4:1-2 b:
    4:4-5:2 map`)
}

func TestScalarsOverSeveralLines(t *testing.T) {
	expectTree(t, "a: one\n  two\n\n  three # note\nb: x\n", `
1:1-5:5 map
  1:1-2 a:
    1:4-4:8 "one two\nthree"
  5:1-2 b:
    5:4-5 "x"`)
	expectTree(t, "a: |2-  # note\n    x\n   y\n\nb: >\n é z\n z\n\nc: \"x\\\n  y\\\"\"\n", `
1:1-10:7 map
  1:1-2 a:
    1:4-3:5 "  x\n y"
  5:1-2 b:
    5:4-7:3 "é z z\n"
  9:1-2 c:
    9:5-10:6 "xy\"" quoted`)
}

// YAML 1.1 programs read these as numbers, times or truth values.
func TestScalarsStayText(t *testing.T) {
	for _, s := range []string{
		"3.5", "012", "0x1F", "1_000", "7.10", "1:30", "2026-01-02", "on", "yes", "No", "~", "null", ".nan", "1,5", "60 %", "1e3", "=",
	} {
		n, faults := Parse(fragment("a: " + s))
		if len(faults) > 0 || n.Pairs[0].Value.Kind != Scalar || n.Pairs[0].Value.Value.Value != s {
			t.Errorf("%s reads as %s, %v", s, outline(n), faults)
		}
	}
}

// A lone question mark is the value of an open question; elsewhere it is a character.
func TestOpenQuestions(t *testing.T) {
	expectTree(t, "ratio: ?   # one to two\non:\n  - ?\n  - why?\nask: what?\n", `
1:1-5:11 map
  1:1-6 ratio:
    1:8-9 "?"
  2:1-3 on:
    3:3-4:9 list
      3:5-6 "?"
      4:5-9 "why?"
  5:1-4 ask:
    5:6-11 "what?"`)
	expectTree(t, "- of: ?   # which?\n", `
1:1-8 list
  1:3-8 map
    1:3-5 of:
      1:7-8 "?"`)
	expectTree(t, "a: ?\r\nb: ~\r\n", `
1:1-2:5 map
  1:1-2 a:
    1:4-5 "?"
  2:1-2 b:
    2:4-5 "~"`)
}

// A question mark in a text over several lines is left alone, whatever stands beside.
func TestQuestionsInBlockScalars(t *testing.T) {
	n, faults := Parse(fragment("a: |\n  on: ?\n  - ?\n"))
	if len(faults) > 0 || n.Pairs[0].Value.Value.Value != "on: ?\n- ?\n" {
		t.Errorf("got %s, %v", outline(n), faults)
	}
}

func TestEmptyText(t *testing.T) {
	for _, s := range []string{"", "\n", "# nothing\n", "  \r\n", "---\n"} {
		n, faults := Parse(fragment(s))
		if len(faults) > 0 || n == nil || n.Kind != Null {
			t.Errorf("%q reads as %s, %v", s, outline(n), faults)
		}
	}
}

func TestDocumentMarkersAroundOneDocument(t *testing.T) {
	expectTree(t, "---\na: 1\n...\n", `
2:1-5 map
  2:1-2 a:
    2:4-5 "1"`)
}

// A fence in a list comes without the list's indent.
func TestPlacesInAFragment(t *testing.T) {
	f := source.NewFile("lesson.md", []byte("- x\n\n  ratio: 1:2\n  títle: x y\n"))
	n, faults := Parse(source.NewFragment(f.Span(0, 1), f.Span(7, 18), f.Span(20, 32)))
	want := "3:3-4:13 map\n  3:3-8 ratio:\n    3:10-13 \"1:2\"\n  4:3-8 títle:\n    4:10-13 \"x y\""
	if got := outline(n); got != want || len(faults) > 0 {
		t.Errorf("got\n%s\n%v", got, faults)
	}
}

// messages prints diagnostics as place, rule, message and way out.
func messages(list []diag.Diagnostic) string {
	var b strings.Builder
	for _, d := range list {
		fmt.Fprintf(&b, "%s %s: %s; %s\n", at(d.Span), d.Rule, d.Message, d.Help)
		for _, n := range d.Notes {
			fmt.Fprintf(&b, "  %s %s\n", at(n.Span), n.Message)
		}
	}
	return strings.TrimSuffix(b.String(), "\n")
}

func expectFaults(t *testing.T, in string, want ...string) {
	t.Helper()
	_, faults := Parse(fragment(in))
	if got, want := messages(faults), strings.Join(want, "\n"); got != want {
		t.Errorf("%q reports\n%s\nwant\n%s", in, got, want)
	}
}

// expectFaultAt checks place and message, not the way out.
func expectFaultAt(t *testing.T, in, place, message string) {
	t.Helper()
	n, faults := Parse(fragment(in))
	if len(faults) != 1 || n != nil {
		t.Errorf("%q: want no tree and one fault, got %s and\n%s", in, outline(n), messages(faults))
		return
	}
	if d := faults[0]; at(d.Span) != place || !strings.Contains(d.Message, message) || d.Help == "" || d.Rule != "text/yaml" {
		t.Errorf("%q reports\n%s\nwant %s %s", in, messages(faults), place, message)
	}
}

func TestSyntaxFaults(t *testing.T) {
	expectFaults(t, "ask: You need: 3 g\n",
		"1:1-19 text/yaml: a second colon with a space behind it stands in the value; put the value in double quotes")
	expectFaultAt(t, "a: 1\n b: 2\nc: 3\n", "2:2-6", "indented as if")
	expectFaultAt(t, "on: [x, y]\ncolour: 2 parts\ndeveloper 6 vol\nratio: 1:2\n", "3:1-16", "no colon")
	expectFaultAt(t, "a: 1\nid: [\nb: 2\n", "2:1-6", "brackets")
	expectFaultAt(t, "id: [", "1:1-6", "brackets")
	expectFaultAt(t, "a: {", "1:1-5", "braces")
	expectFaultAt(t, ": 1\n", "1:1-4", "key is missing")
	expectFaultAt(t, "a: {b: 1\nc: 2\n", "1:1-9", "braces")
	expectFaultAt(t, "a: 1\nb: \"x\nc: 2\n", "2:1-6", "quote is not closed")
	expectFaultAt(t, "a: 1\nb: 'it's'\nc: 2\n", "2:1-10", "does not fit")
	expectFaultAt(t, "a: 1\n\tb: 2\n", "2:2-6", "tab")
	expectFaultAt(t, "a: @x\n", "1:1-6", "meaning of its own")
	expectFaultAt(t, "a: 1\nb: % x\n", "2:1-7", "meaning of its own")
	expectFaultAt(t, "a: 1\nb: *8N\n", "2:1-7", "alias")
	expectFaultAt(t, "a: - x\n", "1:1-7", "list cannot begin")
	expectFaultAt(t, "a:\n  - x\n  y: 1\n", "3:3-7", "no item")
	expectFaultAt(t, "a: \"\\q\"\n", "1:1-8", "backslash")
	expectFaultAt(t, "a: | x\n  y\n", "1:1-7", "line of | or >")
	expectFaultAt(t, "a: 1\n...\nb: 2\n", "3:1-5", "behind the end")
	expectFaultAt(t, "a: 1\nb: ? x\n", "2:1-7", "question mark")
	expectFaultAt(t, "a: 1\n# note\n\n  # note\nb: [1,\nc: ]]\n", "5:1-7", "")
	expectFaultAt(t, "a: x\x00y\n", "1:5-6", "U+0000")
	expectFaultAt(t, "a: x\u2028y\n", "1:5-6", "U+2028")
	expectFaultAt(t, "é: \xff\n", "1:4-5", "0xff")
}

// A fault behind values that take several lines is found at its own line.
func TestSyntaxFaultBehindLongValues(t *testing.T) {
	long := strings.Repeat("a: [1,\n  2,\n  3]\nb: \"x\n  y\"\n", 40)
	expectFaultAt(t, long+"c: 1\n\td: 2\n"+long, "202:2-6", "tab")
}

func TestWhatOneTextMayNotDo(t *testing.T) {
	expectFaults(t, "a: &x 1\nb: !!str 2\nc: ! 3\n<<: {d: 4}\n\"<<\": 5\n&y e: 6\n? [f]\n: 7\n",
		"1:4-6 text/yaml: an anchor (&) cannot be used here; write the value out, or put it in double quotes if it should be read as it stands",
		"2:4-9 text/yaml: a tag (!) cannot be used here; write the value out, or put it in double quotes if it should be read as it stands",
		"3:4-5 text/yaml: a tag (!) cannot be used here; write the value out, or put it in double quotes if it should be read as it stands",
		"4:1-3 text/yaml: a merge key (<<) cannot be used here; write the value out, or put it in double quotes if it should be read as it stands",
		"6:1-3 text/yaml: an anchor (&) cannot be used here; write the value out, or put it in double quotes if it should be read as it stands",
		"7:3-4 text/wrong-kind: a key is a list, want a single word; put the key in double quotes if its brackets belong to it")
	expectFaults(t, "a: &x 1\nb: *x\n",
		"1:4-6 text/yaml: an anchor (&) cannot be used here; write the value out, or put it in double quotes if it should be read as it stands",
		"2:4-6 text/yaml: an alias (*) cannot be used here; write the value out, or put it in double quotes if it should be read as it stands")
	expectFaults(t, "a: 1\n---\nb: 2\n",
		"2:1-4 text/yaml: a second document begins here, only one is read; delete the line of dashes")
	expectFaults(t, "{? : 1}\n",
		"1:4-5 text/yaml: a key is missing before the colon; write `key: value`")
}

func TestDuplicateKeys(t *testing.T) {
	expectFaults(t, "tïme: 1\nb: {c: 1, 'c': 2}\ntïme: 2\n",
		"2:12-13 text/duplicate-key: \"c\" stands here twice; keep one of the two",
		"  2:5-6 it stands here first",
		"3:1-5 text/duplicate-key: \"tïme\" stands here twice; keep one of the two",
		"  1:1-5 it stands here first")
	n, _ := Parse(fragment("a: 1\na: 2\n"))
	if len(n.Pairs) != 1 || n.Pairs[0].Value.Value.Value != "1" {
		t.Errorf("the first of two stays, got %s", outline(n))
	}
}

func TestLimits(t *testing.T) {
	nested := func(depth int) string {
		return "a: " + strings.Repeat("[", depth-1) + strings.Repeat("]", depth-1)
	}
	expectClean := func(in string) {
		t.Helper()
		if _, faults := Parse(fragment(in)); len(faults) > 0 {
			t.Errorf("%s", messages(faults))
		}
	}
	expectClean(nested(maxDepth))
	expectFaults(t, nested(maxDepth+1), "1:23-24 text/yaml: maps and lists stand more than 20 deep in each other; take some of the levels away")

	keys := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, "k%d: 1\n", i)
		}
		return b.String()
	}
	expectClean(keys(maxKeys))
	expectFaults(t, keys(maxKeys+1), "2001:1-6 text/yaml: a map has more than 2000 keys; split it into several")

	expectClean("a: " + strings.Repeat("x", maxBytes-3))
	expectFaultAt(t, "a: "+strings.Repeat("x", maxBytes-2), at(fragment("a: "+strings.Repeat("x", maxBytes-2)).Anchor()), "262145 bytes")
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{
		formulaBlock,
		"a: &x 1\nb: *x\n", "<<: {[a]: b}", "a: |\n  x\n", "a: >2-\n    x\n\n  y\n", "? a\n: b\n", "é: [ü, {ö: ä}]\r\n",
		"a: 'x''y'\n", "a: \"\\x41\\\n z\"\n", "---\n---\n", "a:\r  b: 1\r", "[a: b, ? c : d]", "- \t- x\n", "a: x\n\n\n  y\n",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, in string) {
		text := fragment("\n" + in)
		n, faults := Parse(text)
		if n == nil && len(faults) == 0 {
			t.Fatal("no tree and no reason")
		}
		for _, d := range faults {
			if !d.Span.Valid() || d.Message == "" || d.Help == "" || strings.Contains(d.Message, "yaml:") {
				t.Fatalf("fault %+v", d)
			}
		}
		if n != nil {
			checkNode(t, n, text.File().Whole())
		}
	})
}

// checkNode holds what is promised of spans: children lie in their parents, and a
// value on one line without escapes is the text its span covers.
func checkNode(t *testing.T, n *Node, within source.Span) {
	t.Helper()
	if !within.Contains(n.Span) {
		t.Fatalf("%s stands outside of %s", at(n.Span), at(within))
	}
	switch n.Kind {
	case Scalar:
		checkScalar(t, n)
	case List:
		for _, item := range n.Items {
			if item != nil {
				checkNode(t, item, n.Span)
			}
		}
	case Map:
		for _, p := range n.Pairs {
			if !n.Span.Contains(p.Key.Span) {
				t.Fatalf("key %s stands outside of %s", at(p.Key.Span), at(n.Span))
			}
			if p.Value != nil {
				checkNode(t, p.Value, n.Span)
			}
		}
	}
}

func checkScalar(t *testing.T, n *Node) {
	t.Helper()
	text := n.Value.Span.Text()
	if !n.Span.Contains(n.Value.Span) || !utf8.ValidString(text) {
		t.Fatalf("value %s of %s", at(n.Value.Span), at(n.Span))
	}
	if n.Quoted && (n.Span.Len() < 2 || strings.IndexByte("'\"", n.Span.Text()[0]) < 0) {
		t.Fatalf("%q is said to be quoted", n.Span.Text())
	}
	if strings.ContainsAny(text, "\r\n\\'|>") {
		return
	}
	if text != n.Value.Value {
		t.Fatalf("%q stands where %q was read", text, n.Value.Value)
	}
}

const formulaBlock = `on: [lengths]                    # sections of this lesson's head sheets
kind: demi
colour: 2 parts 8N + 1 part 8V   # or: 20 g 8N + 10 g 8V
developer: 6 vol
ratio: 1:2
amount: 30 g colour
time: 15 min from last section
hair: 8 lightened
target: 8 cool
`

func BenchmarkParseFormulaBlock(b *testing.B) {
	file := source.NewFile("lesson.md", []byte(formulaBlock))
	text := file.Fragment()
	b.SetBytes(int64(len(formulaBlock)))
	b.ReportAllocs()
	for b.Loop() {
		n, _ := Parse(text)
		r := NewReader()
		f := r.Fields(n, "a formula block", "on", "kind", "colour", "developer", "ratio", "amount", "time", "hair", "target")
		f.Need("colour")
		f.Texts("on")
	}
}

func BenchmarkSyntaxFault(b *testing.B) {
	text := fragment(formulaBlock + "\tx: 1\n")
	for b.Loop() {
		Parse(text)
	}
}
