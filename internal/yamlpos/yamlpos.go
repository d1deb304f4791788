// Package yamlpos reads YAML into a small tree in which every key and every value
// knows its place in the author's file, and walks such trees.
//
// [Parse] accepts the part of YAML that a person writes by hand: keys with values,
// lists, flow collections in brackets and braces, quoted and block scalars,
// comments. Anchors, aliases, merge keys, tags and further documents are errors,
// so no text grows when it is read. A scalar stays the text that was typed: 3.5,
// 012, 1:30, 2026-01-02, yes and 7.10 are read by whoever knows what they should
// be, never guessed here.
//
// A [Reader] walks the tree for a schema and gathers every fault on the way. A
// nil *Node stands for text that could not be read and has been reported: a
// Reader says nothing more about it.
//
//	node, faults := yamlpos.Parse(block)
//	r := yamlpos.NewReader(faults...)
//	f := r.Fields(node, "a formula block", "colour", "ratio", "time")
//	colour, ok := f.Need("colour")
package yamlpos

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"plait/internal/diag"
	"plait/internal/source"
)

// The limits of one text. They are far above what a person writes, and hold the
// time for a hostile text to a fraction of a second.
const (
	maxBytes = 256 << 10 // of the whole text
	maxKeys  = 2000      // in one map
	maxDepth = 20        // of maps and lists within each other
)

// The rules that this package reports.
const (
	ruleYAML      = "text/yaml"
	ruleDuplicate = "text/duplicate-key"
	ruleUnknown   = "text/unknown-key"
	ruleKind      = "text/wrong-kind"
	ruleMissing   = "text/missing-key"
	ruleOpen      = "text/open"
)

// Kind says what a node is.
type Kind uint8

// The kinds of nodes. Null is a value that was left out; the words null and ~ are
// scalars like others.
const (
	Null Kind = iota
	Scalar
	List
	Map
)

// String returns the kind as messages name it.
func (k Kind) String() string {
	switch k {
	case Scalar:
		return "a single value"
	case List:
		return "a list"
	case Map:
		return "a map of keys and values"
	}
	return "nothing"
}

// Node is one value of the tree. Its span runs from its first to its last
// character, quotes and brackets included; that of a Null is empty and stands
// where the value is missing.
type Node struct {
	Kind   Kind
	Quoted bool        // the Scalar stands in single or double quotes
	Value  source.Text // of a Scalar
	Items  []*Node     // of a List
	Pairs  []Pair      // of a Map, in the order written, each key once
	Span   source.Span
}

// Pair is a key of a map with its value.
type Pair struct {
	Key   source.Text
	Value *Node
}

// Parse reads the one YAML document in the text. Of a text without content the
// node is Null. Of a text that is no YAML the node is nil and the diagnostics say
// why; where only a part cannot be used, that part is nil.
//
// The span of a scalar's value leaves quotes out. It maps byte for byte onto the
// value unless the scalar has escapes or runs over several lines; the span of a
// block scalar is the whole block with its indicator.
func Parse(text *source.Fragment) (*Node, []diag.Diagnostic) {
	if d, bad := refused(text); bad {
		return nil, []diag.Diagnostic{d}
	}
	if node, ok := readPlain(text); ok {
		return node, nil
	}
	return readAny(text)
}

// readAny reads a text with the YAML library.
func readAny(text *source.Fragment) (*Node, []diag.Diagnostic) {
	lines := lineStarts(text.Text())
	root, second, err := decode(text.Text())
	if closed := closeQuestions(text.Text()); closed != text.Text() && (err != nil || !hasBlockScalar(text.Text())) {
		root, second, err = decode(closed)
	}
	switch {
	case errors.Is(err, io.EOF):
		return &Node{Span: text.Anchor()}, nil
	case err != nil:
		return nil, []diag.Diagnostic{syntaxFault(text, lines, err)}
	}
	b := builder{text: text.Text(), fragment: text, lines: lines, ascii: isASCII(text.Text())}
	if second != nil {
		b.reportSecond(second)
	}
	node, _ := b.node(root.Content[0], 0)
	return node, b.faults
}

// refused finds what must not reach the YAML library: too long a text, bytes that
// are no text, and line breaks that editors do not count as lines.
func refused(text *source.Fragment) (diag.Diagnostic, bool) {
	s := text.Text()
	if len(s) > maxBytes {
		return diag.Errorf(ruleYAML, text.Anchor(), "%d bytes are too long to read, at most %d are", len(s), maxBytes).
			WithHelp("split it into several"), true
	}
	for i := usual(s); i < len(s); {
		r, size := utf8.DecodeRuneInString(s[i:])
		if r == utf8.RuneError && size == 1 {
			return diag.Errorf(ruleYAML, text.Span(i, i+1), "the byte %#x is no text", s[i]).
				WithHelp("save the file as UTF-8"), true
		}
		if !allowed(r) {
			return diag.Errorf(ruleYAML, text.Span(i, i+size), "the invisible character %U cannot stand here", r).
				WithHelp("delete it; it often comes along when text is pasted"), true
		}
		i += size
	}
	return diag.Diagnostic{}, false
}

// usual returns how many bytes at the start of a text are ASCII that may stand in it,
// most often all.
func usual(s string) int {
	for i := range len(s) {
		if c := s[i]; c >= 0x7f || c < ' ' && c != '\n' && c != '\t' && c != '\r' {
			return i
		}
	}
	return len(s)
}

// allowed follows the printable characters of YAML 1.2, section 5.1, less the byte
// order mark and the three line breaks that only some programs take for one.
func allowed(r rune) bool {
	switch {
	case r == '\t', r == '\n', r == '\r':
		return true
	case r < 0x20, r >= 0x7f && r < 0xa0:
		return false
	case r == 0x2028, r == 0x2029, r == 0xfeff, r == 0xfffe, r == 0xffff:
		return false
	}
	return true
}

// decode reads the text with the YAML library. The second result is the start of
// a further document, nil where there is none; io.EOF says that there is no
// content. A panic of the library comes back as an error.
func decode(text string) (first, second *yaml.Node, err error) {
	defer func() {
		if p := recover(); p != nil {
			first, second, err = nil, nil, fmt.Errorf("yaml: %v", p)
		}
	}()
	d := yaml.NewDecoder(strings.NewReader(text))
	var a, b yaml.Node
	if err := d.Decode(&a); err != nil {
		return nil, nil, err
	}
	switch err := d.Decode(&b); {
	case errors.Is(err, io.EOF):
		return &a, nil, nil
	case err != nil:
		return nil, nil, err
	}
	return &a, &b, nil
}

// lineStarts returns the offset of each line's first byte. A line ends with a line
// feed, a carriage return or both, as in YAML.
func lineStarts(text string) []int {
	starts := make([]int, 1, 16)
	for i := 0; i < len(text); i++ {
		if text[i] == '\n' || text[i] == '\r' && !strings.HasPrefix(text[i+1:], "\n") {
			starts = append(starts, i+1)
		}
	}
	return starts
}

func isASCII(text string) bool {
	for i := 0; i < len(text); i++ {
		if text[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}
