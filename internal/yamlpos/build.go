package yamlpos

import (
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"plait/internal/diag"
	"plait/internal/source"
)

// builder turns the library's tree, which knows lines and columns of beginnings
// only, into ours, which knows bytes of beginnings and ends.
type builder struct {
	text     string
	fragment *source.Fragment
	lines    []int
	ascii    bool
	faults   []diag.Diagnostic

	// The place looked up last. Nodes come in the order of the text, so the next
	// place on the same line is found from here and not from the line's start.
	line, column, offset int
}

// node returns our node and the offset behind its last character. The node is nil
// where the author's value cannot be used.
func (b *builder) node(n *yaml.Node, depth int) (*Node, int) {
	start := b.at(n.Line, n.Column)
	if b.forbidden(n, start) {
		return nil, wordEnd(b.text, start)
	}
	switch n.Kind {
	case yaml.ScalarNode:
		return b.scalar(n, start)
	case yaml.SequenceNode, yaml.MappingNode:
		if depth == maxDepth {
			b.add(diag.Errorf(ruleYAML, b.fragment.Span(start, start+1), "maps and lists stand more than %d deep in each other", maxDepth).
				WithHelp("take some of the levels away"))
			return nil, start
		}
		if n.Kind == yaml.SequenceNode {
			return b.list(n, start, depth)
		}
		return b.mapping(n, start, depth)
	}
	return nil, start
}

func (b *builder) scalar(n *yaml.Node, start int) (*Node, int) {
	if n.Style == 0 && n.Value == "" {
		return &Node{Span: b.fragment.Span(start, start)}, start
	}
	if n.Value == standIn && strings.HasPrefix(b.text[start:], Question) {
		span := b.fragment.Span(start, start+1)
		return &Node{Kind: Scalar, Value: source.Text{Value: Question, Span: span}, Span: span}, start + 1
	}
	inner, innerEnd, end := scalarBounds(b.text, start, n)
	return &Node{
		Kind:   Scalar,
		Value:  source.Text{Value: n.Value, Span: b.fragment.Span(inner, innerEnd)},
		Quoted: n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) != 0,
		Span:   b.fragment.Span(start, end),
	}, end
}

func (b *builder) list(n *yaml.Node, start, depth int) (*Node, int) {
	out, end := &Node{Kind: List, Items: make([]*Node, 0, len(n.Content))}, start
	for _, c := range n.Content {
		var item *Node
		item, end = b.node(c, depth+1)
		out.Items = append(out.Items, item)
	}
	end = b.closed(start, end, '[', ']')
	out.Span = b.fragment.Span(start, end)
	return out, end
}

func (b *builder) mapping(n *yaml.Node, start, depth int) (*Node, int) {
	out, end := &Node{Kind: Map, Pairs: make([]Pair, 0, len(n.Content)/2)}, start
	seen := make(map[string]source.Span, len(n.Content)/2)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, keyEnd, ok := b.key(n.Content[i])
		value, valueEnd := b.node(n.Content[i+1], depth+1)
		end = max(end, keyEnd, valueEnd)
		if !ok {
			continue
		}
		if len(out.Pairs) == maxKeys {
			b.add(diag.Errorf(ruleYAML, key.Span, "a map has more than %d keys", maxKeys).
				WithHelp("split it into several"))
			break
		}
		if first, twice := seen[key.Value]; twice {
			b.add(diag.Errorf(ruleDuplicate, key.Span, "%q stands here twice", key.Value).
				WithNote(first, "it stands here first").
				WithHelp("keep one of the two"))
			continue
		}
		seen[key.Value] = key.Span
		out.Pairs = append(out.Pairs, Pair{Key: key, Value: value})
	}
	end = b.closed(start, end, '{', '}')
	out.Span = b.fragment.Span(start, end)
	return out, end
}

// key reads a key, which must be a single value.
func (b *builder) key(n *yaml.Node) (key source.Text, end int, ok bool) {
	start := b.at(n.Line, n.Column)
	switch {
	case b.forbidden(n, start):
		return key, wordEnd(b.text, start), false
	case n.Kind != yaml.ScalarNode:
		b.add(diag.Errorf(ruleKind, b.fragment.Span(start, start+1), "a key is %s, want a single word", kindOf(n)).
			WithHelp("put the key in double quotes if its brackets belong to it"))
		return key, start, false
	case n.Style == 0 && n.Value == "":
		b.add(diag.Errorf(ruleYAML, b.fragment.Span(start, start+1), "a key is missing before the colon").
			WithHelp("write `key: value`"))
		return key, start, false
	}
	inner, innerEnd, end := scalarBounds(b.text, start, n)
	return source.Text{Value: n.Value, Span: b.fragment.Span(inner, innerEnd)}, end, true
}

func kindOf(n *yaml.Node) Kind {
	if n.Kind == yaml.SequenceNode {
		return List
	}
	return Map
}

// forbidden reports the features of YAML that let a text refer to itself or to
// types of a program.
func (b *builder) forbidden(n *yaml.Node, start int) bool {
	what := ""
	switch {
	case n.Kind == yaml.AliasNode:
		what = "an alias (*)"
	case n.Anchor != "":
		what = "an anchor (&)"
	case n.Style&yaml.TaggedStyle != 0, b.lonelyTag(n, start):
		what = "a tag (!)"
	case n.Kind == yaml.ScalarNode && n.Tag == "!!merge":
		what = "a merge key (<<)"
	default:
		return false
	}
	d := diag.Errorf(ruleYAML, b.fragment.Span(start, wordEnd(b.text, start)), "%s cannot be used here", what)
	b.add(d.WithHelp("write the value out, or put it in double quotes if it should be read as it stands"))
	return true
}

// lonelyTag reports whether a single exclamation mark stands before the value,
// which the library drops. A block collection begins where its first key or item
// does, so a mark there is not its own.
func (b *builder) lonelyTag(n *yaml.Node, start int) bool {
	block := n.Kind != yaml.ScalarNode && n.Style&yaml.FlowStyle == 0
	return !block && strings.HasPrefix(b.text[start:], "!")
}

func (b *builder) reportSecond(second *yaml.Node) {
	start := b.at(second.Line, second.Column)
	b.line = 0
	b.add(diag.Errorf(ruleYAML, b.fragment.Span(start, wordEnd(b.text, start)), "a second document begins here, only one is read").
		WithHelp("delete the line of dashes"))
}

func (b *builder) add(d diag.Diagnostic) { b.faults = append(b.faults, d) }

// closed returns the offset behind the closing bracket of a flow collection that
// began at start, or end as it is for a collection without brackets. Between the
// last item and the bracket stand only blanks, commas, colons and comments.
func (b *builder) closed(start, end int, opening, closing byte) int {
	if start >= len(b.text) || b.text[start] != opening {
		return end
	}
	for i := max(end, start+1); i < len(b.text); i++ {
		switch b.text[i] {
		case closing:
			return i + 1
		case '#':
			for i+1 < len(b.text) && b.text[i+1] != '\n' && b.text[i+1] != '\r' {
				i++
			}
		}
	}
	return end
}

// at returns the offset of a line and a column, both from 1 and the column in
// characters, held inside the text.
func (b *builder) at(line, column int) int {
	if line < 1 || line > len(b.lines) {
		return len(b.text)
	}
	if b.ascii {
		return min(b.lines[line-1]+column-1, len(b.text))
	}
	if line != b.line || column < b.column {
		b.line, b.column, b.offset = line, 1, b.lines[line-1]
	}
	for ; b.column < column && b.offset < len(b.text); b.column++ {
		_, size := utf8.DecodeRuneInString(b.text[b.offset:])
		b.offset += size
	}
	return b.offset
}

// scalarBounds returns where the content of a scalar begins and ends and where
// the scalar as a whole ends.
func scalarBounds(text string, start int, n *yaml.Node) (inner, innerEnd, end int) {
	switch {
	case n.Style&yaml.SingleQuotedStyle != 0:
		end = singleQuotedEnd(text, start)
		return start + 1, end - 1, end
	case n.Style&yaml.DoubleQuotedStyle != 0:
		end = doubleQuotedEnd(text, start)
		return start + 1, end - 1, end
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		end = contentEnd(text, lineEnd(text, start), n.Value)
	default:
		end = contentEnd(text, start, n.Value)
	}
	return start, end, end
}

// singleQuotedEnd returns the offset behind the closing quote; a doubled quote is
// one that belongs to the value.
func singleQuotedEnd(text string, start int) int {
	for i := start + 1; i < len(text); i++ {
		if text[i] != '\'' {
			continue
		}
		if i+1 < len(text) && text[i+1] == '\'' {
			i++
			continue
		}
		return i + 1
	}
	return len(text)
}

// doubleQuotedEnd returns the offset behind the closing quote; a character after a
// backslash belongs to the value.
func doubleQuotedEnd(text string, start int) int {
	for i := start + 1; i < len(text); i++ {
		switch text[i] {
		case '\\':
			i++
		case '"':
			return i + 1
		}
	}
	return len(text)
}

// contentEnd returns where the value ends that begins at or behind start. Folding
// and indents change only white space, so all other characters of the value are
// found in the text in the same order.
func contentEnd(text string, start int, value string) int {
	i := start
	end := start
	for j := 0; j < len(value); j++ {
		if isBlank(value[j]) {
			continue
		}
		for i < len(text) && isBlank(text[i]) {
			i++
		}
		if i == len(text) || text[i] != value[j] {
			return end
		}
		i++
		end = i
	}
	return end
}

func isBlank(c byte) bool { return c == ' ' || c == '\t' || c == '\n' || c == '\r' }

// lineEnd returns the offset of the line break at or behind start.
func lineEnd(text string, start int) int {
	if i := strings.IndexAny(text[start:], "\r\n"); i >= 0 {
		return start + i
	}
	return len(text)
}

// wordEnd returns the offset behind the word that begins at start: a run of
// characters without blanks and brackets, without a colon at its end.
func wordEnd(text string, start int) int {
	word := text[start:]
	if i := strings.IndexAny(word, " \t\r\n,[]{}"); i >= 0 {
		word = word[:i]
	}
	return start + len(strings.TrimSuffix(word, ":"))
}
