package yamlpos

import (
	"slices"
	"strconv"
	"strings"

	"plait/internal/diag"
	"plait/internal/source"
)

// Reader reads nodes as a schema wants them and gathers all faults on the way.
// What its methods call what is how messages name the node: "a formula block",
// "`time`".
type Reader struct {
	faults []diag.Diagnostic
}

// NewReader returns a reader that has the given diagnostics already.
func NewReader(faults ...diag.Diagnostic) *Reader {
	return &Reader{faults: slices.Clone(faults)}
}

// Diagnostics returns what was found so far, in the order it was found.
func (r *Reader) Diagnostics() []diag.Diagnostic { return r.faults }

// Report adds diagnostics.
func (r *Reader) Report(faults ...diag.Diagnostic) { r.faults = append(r.faults, faults...) }

// Text returns a single value. It reports any other kind and a lone question mark,
// which is an open question, and, like all methods that return ok, says false when there is
// nothing to use.
func (r *Reader) Text(n *Node, what string) (value source.Text, ok bool) {
	if !r.want(n, what, Scalar) {
		return source.Text{}, false
	}
	if r.open(n, what) {
		return source.Text{}, false
	}
	return n.Value, true
}

// open reports a lone question mark, which is an open question wherever it stands.
func (r *Reader) open(n *Node, what string) bool {
	if !n.open() {
		return false
	}
	r.Report(diag.Errorf(ruleOpen, n.Span, "%s is an open question", what).
		WithHelp("write the value, or delete the line where it may be left out"))
	return true
}

func (n *Node) open() bool {
	return n.Kind == Scalar && n.Value.Value == Question && !n.Quoted
}

// Texts returns a list of single values; a value that stands alone counts as a
// list of one.
func (r *Reader) Texts(n *Node, what string) []source.Text {
	items := r.Nodes(n, what)
	if len(items) == 0 {
		return nil
	}
	out := make([]source.Text, 0, len(items))
	for _, item := range items {
		if v, ok := r.item(item, what); ok {
			out = append(out, v)
		}
	}
	return out
}

// item is [Reader.Text] for an item of a list, whose name is put together only where it
// is needed.
func (r *Reader) item(n *Node, of string) (value source.Text, ok bool) {
	if n.good() {
		return n.Value, true
	}
	return r.Text(n, "an item of "+of)
}

// good reports whether the node is a single value that can be used.
func (n *Node) good() bool { return n != nil && n.Kind == Scalar && !n.open() }

// Nodes returns the items of a list; a single value that stands alone counts as a
// list of one.
func (r *Reader) Nodes(n *Node, what string) []*Node {
	if n != nil && n.Kind == Scalar {
		return []*Node{n}
	}
	if !r.want(n, what, List) {
		return nil
	}
	return n.Items
}

// Entries returns the pairs of a map whose keys the author chooses.
func (r *Reader) Entries(n *Node, what string) []Pair {
	if !r.want(n, what, Map) {
		return nil
	}
	return n.Pairs
}

// Flag returns whether the value says yes (yes, true) or no (no, false).
func (r *Reader) Flag(n *Node, what string) (value, ok bool) {
	t, ok := r.Text(n, what)
	if !ok {
		return false, false
	}
	switch strings.ToLower(t.Value) {
	case "yes", "true":
		return true, true
	case "no", "false":
		return false, true
	}
	r.Report(diag.Errorf(ruleKind, t.Span, "%s is %q, want yes or no", what, t.Value).
		WithHelp("write yes or no"))
	return false, false
}

// Whole returns a whole number from lo to hi, both included.
func (r *Reader) Whole(n *Node, what string, lo, hi int) (value int, ok bool) {
	t, ok := r.Text(n, what)
	if !ok {
		return 0, false
	}
	value, err := strconv.Atoi(t.Value)
	if err != nil || value < lo || value > hi || t.Value[0] == '+' {
		r.Report(diag.Errorf(ruleKind, t.Span, "%s is %q, want a whole number from %d to %d", what, t.Value, lo, hi).
			WithHelp("write a whole number without a unit"))
		return 0, false
	}
	return value, true
}

// want reports a node that is not of the kind. A nil node was reported before.
func (r *Reader) want(n *Node, what string, kind Kind) bool {
	if n == nil {
		return false
	}
	if n.Kind == kind {
		return true
	}
	if r.open(n, what) {
		return false
	}
	d := diag.Errorf(ruleKind, n.Span, "%s is %v, want %v", what, n.Kind, kind)
	if n.Kind == Null {
		d = diag.Errorf(ruleKind, n.Span, "%s is empty, want %v", what, kind)
	}
	r.Report(d.WithHelp("%s", helpFor(n.Kind, kind)))
	return false
}

func helpFor(found, wanted Kind) string {
	switch {
	case found == Null:
		return "fill it in, or delete it"
	case wanted == List:
		return "write [one, two], or each item on a line of its own behind a dash"
	case wanted == Map:
		return "write `key: value` on lines of their own, or {key: value, key: value}"
	}
	return "write one value, in double quotes if it has a bracket, a brace or a colon"
}

// Fields is a map whose keys a schema knows. Its methods name the key in messages
// and say nothing about a key that is not there; [Fields.Need] does.
type Fields struct {
	reader *Reader
	what   string
	span   source.Span
	pairs  []Pair
	silent bool     // the map could not be read, so nothing is missing from it
	meant  []string // keys that an unknown one was probably meant to be
}

// Fields opens a map that may have the given keys and reports all others, with the
// key that was probably meant. It never returns nil.
func (r *Reader) Fields(n *Node, what string, keys ...string) *Fields {
	f := &Fields{reader: r, what: what}
	if !r.want(n, what, Map) {
		f.silent = true
		return f
	}
	f.span, f.pairs = n.Span, n.Pairs
	for _, p := range n.Pairs {
		if !slices.Contains(keys, p.Key.Value) {
			f.meant = append(f.meant, diag.DidYouMean(p.Key.Value, keys))
			r.reportUnknown(p.Key, what, keys)
		}
	}
	return f
}

func (r *Reader) reportUnknown(key source.Text, what string, keys []string) {
	d := diag.Errorf(ruleUnknown, key.Span, "%s has no key %q", what, key.Value)
	list := strings.Join(keys, ", ")
	if near := diag.DidYouMean(key.Value, keys); near != "" {
		r.Report(d.WithHelp("did you mean %q? the keys are: %s", near, list))
		return
	}
	r.Report(d.WithHelp("the keys are: %s", list))
}

// Reader returns the reader that opened the map.
func (f *Fields) Reader() *Reader { return f.reader }

// Span returns the span of the whole map.
func (f *Fields) Span() source.Span { return f.span }

func (f *Fields) find(key string) (Pair, bool) {
	for _, p := range f.pairs {
		if p.Key.Value == key {
			return p, true
		}
	}
	return Pair{}, false
}

// Has reports whether the key is there, whatever its value.
func (f *Fields) Has(key string) bool {
	_, ok := f.find(key)
	return ok
}

// KeySpan returns where the key stands, and the span of the map if it does not.
func (f *Fields) KeySpan(key string) source.Span {
	if p, ok := f.find(key); ok {
		return p.Key.Span
	}
	return f.span
}

// Node returns the key's value, nil if there is none.
func (f *Fields) Node(key string) *Node {
	p, _ := f.find(key)
	return p.Value
}

// Require reports whether the key is there, and reports it missing if it is not. A
// key that was only mistyped has been reported already.
func (f *Fields) Require(key string) bool {
	if f.silent || f.Has(key) {
		return !f.silent
	}
	if slices.Contains(f.meant, key) {
		return false
	}
	f.reader.Report(diag.Errorf(ruleMissing, f.span.Sub(0, 0), "%s has no %q", f.what, key).
		WithHelp("add a line `%s: …`", key))
	return false
}

// Need is [Fields.Text] for a key that must be there.
func (f *Fields) Need(key string) (source.Text, bool) {
	if !f.Require(key) {
		return source.Text{}, false
	}
	return f.Text(key)
}

// Text returns the key's single value.
func (f *Fields) Text(key string) (source.Text, bool) {
	n := f.Node(key)
	switch {
	case n == nil:
		return source.Text{}, false
	case n.good():
		return n.Value, true
	}
	return f.reader.Text(n, quoted(key))
}

// Texts returns the key's list of single values.
func (f *Fields) Texts(key string) []source.Text {
	return f.reader.Texts(f.Node(key), quoted(key))
}

// Nodes returns the items of the key's list.
func (f *Fields) Nodes(key string) []*Node {
	return f.reader.Nodes(f.Node(key), quoted(key))
}

// Entries returns the pairs of the key's map.
func (f *Fields) Entries(key string) []Pair {
	return f.reader.Entries(f.Node(key), quoted(key))
}

// Flag returns the key's yes or no.
func (f *Fields) Flag(key string) (value, ok bool) {
	return f.reader.Flag(f.Node(key), quoted(key))
}

// Whole returns the key's whole number from lo to hi, both included.
func (f *Fields) Whole(key string, lo, hi int) (int, bool) {
	return f.reader.Whole(f.Node(key), quoted(key), lo, hi)
}

func quoted(key string) string { return "`" + key + "`" }
