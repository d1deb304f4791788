package yamlpos

import (
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"plait/internal/source"
)

// indented returns a text of which each line stands behind two blanks in its file, as
// that of a fence in a list does.
func indented(text string) *source.Fragment {
	file := source.NewFile("lesson.md", []byte("  "+strings.ReplaceAll(text, "\n", "\n  ")))
	var spans []source.Span
	at := 0
	for line := range strings.Lines(text) {
		spans = append(spans, file.Span(at+2, at+2+len(line)))
		at += 2 + len(line)
	}
	return source.NewFragment(file.Whole(), spans...)
}

// expectAsLibrary holds what readPlain takes to what the library reads, which must have
// nothing to say about it.
func expectAsLibrary(t *testing.T, text *source.Fragment) (taken bool) {
	t.Helper()
	if _, bad := refused(text); bad {
		return false
	}
	got, ok := readPlain(text)
	if !ok {
		return false
	}
	want, faults := readAny(text)
	for _, d := range faults {
		t.Errorf("%q is plain, but %s: %s", text.Text(), at(d.Span), d.Message)
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%q reads as\n%s\nby the library as\n%s", text.Text(), outline(got), outline(want))
	}
	return true
}

func TestPlain(t *testing.T) {
	for _, in := range []string{
		formulaBlock,
		"a: b # c\n# d\n\n  # e: [\nf: [g] # ]\nh: # i\n  # j\n  k: \"l\"   # m",
		"title: First lesson\nhair: {roots: 7 natural, lengths: 8 lightened}\nuses: [colour]\noutcomes:\n  weighs: Weigh a bowl\n  pours: Pour\n",
		"ask: \"How much?\"\ngiven: {formula: a, colour: 40 g}\nright: 'yes'\n",
		"- one\n- two words\n- [a, b]\n-   c: 1\n    d: 2\n",
		"a:\n- b\n- c\nd:\n    - e:\n        f: g\n      h: i\n",
		"a: []\nb: {}\nc: [ [x] , {y: z} ]  \n\n   \nd: e   \n",
		"a#b: c#d\n6: 1:2\nt: 0:42-2:10\nu: it's, [really] {so}?\nä: ö\u00a0ü\n",
		"a: \"\"\nb: ''\nc: [\"\", 'x']", "a:   b", "\n\n  \na: 1\n",
	} {
		if !expectAsLibrary(t, fragment(in)) {
			t.Errorf("%q is not taken for plain", in)
		}
		expectAsLibrary(t, indented(in))
	}
	for _, in := range []string{
		"", "\n", "a", "[a]", "a:", "a: \n", "a:\n", "-\n", "- - a\n", "a: b\na: c\n", "{a: 1}", " a: 1\n",
		"a: [b]# c\n", "a: [b # c\n]\n", "a: b # c\n  d\n", "a: b\n  c\n", "a: b: c\n", "a: [b: c]\n", "a: [b,\n c]\n", "a: {b}\n", "a: [b, ]\n",
		"a: ?\n", "a: [x ? y]\n", "a: |\n  b\n", "a: >\n  b\n", "a: &x b\n", "a: *x\n", "a: !x b\n", "<<: b\n", "\"a\": b\n", "a: ~\n",
		"a: \"b\\n\"\n", "a: 'b''c'\n", "a: \"b\nc\"\n", "a: \"b\" c\n", "a:\tb\n", "a: b\r\n", "a: b\n---\n", "a: b\n...\n", "%a: b\n",
		"a:\n  b: 1\n c: 2\n", "a:\n    - b\n  - c\n", "- a\n - b\n", "- a\nb: c\n", "a:\n- b\n-c\n", "a:\n  - b\n  c: d\n", "a : b\n",
		"a: {b:,}\n", "a: {b: c:d:}\n", "a: b:\n", "a: [b]c\n", "a: b# c: d\n", "a: - b\n", "a: @b\n", "a: `b\n",
	} {
		if _, ok := readPlain(fragment(in)); ok {
			t.Errorf("%q is taken for plain", in)
		}
	}
}

// TestPlainLimits goes to the limits of what is plain and one step further.
func TestPlainLimits(t *testing.T) {
	keys := func(n int) string {
		var b strings.Builder
		for i := range n {
			b.WriteString(strings.Repeat("k", i+1) + ": v\n")
		}
		return b.String()
	}
	deep := func(n int) string { return "a: " + strings.Repeat("[", n) + "b" + strings.Repeat("]", n) + "\n" }
	stairs := func(n int) string {
		var b strings.Builder
		for i := range n {
			b.WriteString(strings.Repeat(" ", i) + "a:\n")
		}
		return b.String() + strings.Repeat(" ", n) + "b: c\n"
	}
	key := func(n int) string { return strings.Repeat("k", n) + ": v\n" }
	for _, c := range []struct {
		name, good, bad string
	}{
		{"keys", keys(maxPlainKeys), keys(maxPlainKeys + 1)},
		{"long key", key(maxPlainKey), key(maxPlainKey + 1)},
		{"brackets", deep(maxDepth - 1), deep(maxDepth)},
		{"levels", stairs(maxDepth - 1), stairs(maxDepth)},
	} {
		if !expectAsLibrary(t, fragment(c.good)) {
			t.Errorf("%s: the most that is plain is not taken", c.name)
		}
		if _, ok := readPlain(fragment(c.bad)); ok {
			t.Errorf("%s: one more is taken", c.name)
		}
	}
}

// TestPlainPieces puts texts together at random of what YAML is made of, and wants a
// good part of them to be plain.
func TestPlainPieces(t *testing.T) {
	pieces := strings.Split("a|b|key|8N|é|1:2| | |  |\n|\n|\n  |\n    |: |: |: |:|- |- |-|, |,|[|]|{|}|\"|'|#| #|?|? |\\|!|&|*|>|x y|[a, b]|{a: b}|\"q\"|'q'|---|...|~|<<", "|")
	rng := rand.New(rand.NewPCG(1, 2))
	taken := 0
	for range 200_000 {
		var b strings.Builder
		b.WriteString("k: v\n")
		for range 1 + rng.IntN(9) {
			b.WriteString(pieces[rng.IntN(len(pieces))])
		}
		if expectAsLibrary(t, fragment(b.String())) {
			taken++
		}
	}
	if taken < 1000 {
		t.Errorf("only %d of the texts are plain", taken)
	}
}

func FuzzPlain(f *testing.F) {
	for _, s := range []string{
		formulaBlock, "a:\n- b\n- c: d\n  e: [f, {g: h}]\n", "a: 'b'\nc: \"d\"\n", "a: b\n\n  \nc:\n   d: e\n", "é: [ü, {ö: ä}]\n", "a: {b: 1:2, c: [ ]}\n",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, in string) {
		expectAsLibrary(t, fragment(in))
		expectAsLibrary(t, indented(in))
	})
}
