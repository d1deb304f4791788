package yamlpos

import (
	"strings"
	"unicode/utf8"

	"plait/internal/source"
)

// The limits of what readPlain takes. More is rare, and the library reads it.
const (
	maxPlainKeys = 64  // in one map: they are compared each with each
	maxPlainKey  = 128 // bytes of a key: what is far longer is no key to the library
)

// readPlain reads the plain part of YAML, in which nearly all headers and blocks of
// lessons are written: keys and items on lines of their own, each with a value, a list
// in brackets or a map in braces that ends on its line.
//
// It takes a text whole or not at all. Whatever else YAML knows, and whatever is wrong
// with a text, is left to the library: values that are missing or run over
// several lines, escapes, tabs, block scalars, anchors, tags, question marks, keys in
// quotes. So nothing is ever reported here, and what is taken is what the library would
// have read, place for place; FuzzPlain holds the two to each other. It is worth its
// lines because it needs a tenth of the library's time, which was a third of the time
// that reading a lesson took.
func readPlain(text *source.Fragment) (*Node, bool) {
	p := plain{text: text.Text(), fragment: text}
	if strings.IndexByte(p.text, '\t') >= 0 || strings.IndexByte(p.text, '\r') >= 0 {
		return nil, false
	}
	p.nodes = make([]Node, 0, min(strings.Count(p.text, "\n"), maxPlainKeys)+moreNodes)
	p.begin(0)
	if p.column != 0 {
		return nil, false
	}
	n, ok := p.block(0)
	return n, ok && p.column == noColumn
}

// plain is a text that is read from its first byte to its last. Where its methods
// return false the text is not plain, and nothing of it is used.
type plain struct {
	text     string
	fragment *source.Fragment
	at       int    // what is read next
	end      int    // behind the last value that was read
	column   int    // of the first sign of the line that begins, in bytes from 0
	nodes    []Node // room for the next nodes
}

// noColumn is where the text ends. It closes all that is open.
const noColumn = -1

// usualKeys is room for the keys of most maps.
const usualKeys = 12

// moreNodes is how many nodes are made at a time, beyond one for each line.
const moreNodes = 4

// node makes a node. They are made several at a time, since a text has many.
func (p *plain) node(n Node) *Node {
	if len(p.nodes) == cap(p.nodes) {
		p.nodes = make([]Node, 0, moreNodes)
	}
	p.nodes = append(p.nodes, n)
	return &p.nodes[len(p.nodes)-1]
}

// begin moves to the first sign of the first line that is neither blank nor a comment,
// from the start of a line on.
func (p *plain) begin(line int) {
	for p.at = line; p.at < len(p.text); p.at++ {
		switch p.text[p.at] {
		case ' ':
		case '\n':
			line = p.at + 1
		case '#':
			p.at = lineEnd(p.text, p.at) - 1
		default:
			p.column = p.at - line
			return
		}
	}
	p.column = noColumn
}

// endLine moves to the next line. On the rest of this one only a comment may stand.
func (p *plain) endLine() bool {
	from := p.at
	p.skipBlanks()
	if c := p.next(); c != '\n' && (c != '#' || p.at == from) {
		return false
	}
	p.begin(lineEnd(p.text, p.at))
	return true
}

func (p *plain) skipBlanks() {
	for p.at < len(p.text) && p.text[p.at] == ' ' {
		p.at++
	}
}

// next returns the byte that is read next, a line end at the end of the text.
func (p *plain) next() byte { return p.byteAt(p.at) }

func (p *plain) byteAt(i int) byte {
	if i < len(p.text) {
		return p.text[i]
	}
	return '\n'
}

// block reads the map or the list that begins at the first sign of a line.
func (p *plain) block(depth int) (*Node, bool) {
	switch {
	case depth == maxDepth:
		return nil, false
	case p.atItem():
		return p.blockList(depth)
	}
	return p.blockMap(depth)
}

// atItem reports whether an item of a list begins here.
func (p *plain) atItem() bool { return strings.HasPrefix(p.text[p.at:], "- ") }

// blockMap reads keys that stand one below the other.
func (p *plain) blockMap(depth int) (*Node, bool) {
	start, column := p.at, p.column
	pairs := make([]Pair, 0, usualKeys)
	for p.column == column {
		key, ok := p.key(pairs, false)
		if !ok {
			return nil, false
		}
		value, ok := p.underKey(column, depth)
		if !ok {
			return nil, false
		}
		pairs = append(pairs, Pair{Key: key, Value: value})
	}
	return p.node(Node{Kind: Map, Pairs: pairs, Span: p.fragment.Span(start, p.end)}), p.column < column
}

// underKey reads what belongs to a key in a column: a value on the same line, or what
// stands deeper on the next ones. The items of a list need not stand deeper.
func (p *plain) underKey(column, depth int) (*Node, bool) {
	if here := p.at; !p.endLine() {
		p.at = here
		p.skipBlanks()
		return p.onLine(depth)
	}
	if p.column > column || p.column == column && p.atItem() {
		return p.block(depth + 1)
	}
	return nil, false
}

// onLine reads a value and the end of its line. That the next line is not deeper, so
// that it does not belong to the value, is found by whoever reads it.
func (p *plain) onLine(depth int) (*Node, bool) {
	n, ok := p.value(depth+1, false)
	return n, ok && p.endLine()
}

// blockList reads items that stand one below the other.
func (p *plain) blockList(depth int) (*Node, bool) {
	start, column := p.at, p.column
	items := make([]*Node, 0, 4)
	for p.column == column && p.atItem() {
		mark := p.at
		p.at += len("-")
		p.skipBlanks()
		item, ok := p.item(column+p.at-mark, depth)
		if !ok {
			return nil, false
		}
		items = append(items, item)
	}
	return p.node(Node{Kind: List, Items: items, Span: p.fragment.Span(start, p.end)}), p.column <= column
}

// item reads what stands behind the mark of an item: a value, or a map whose first key
// stands in a column and the others below it.
func (p *plain) item(column, depth int) (*Node, bool) {
	here := p.at
	if _, isKey := p.key(nil, false); isKey {
		p.at, p.column = here, column
		return p.block(depth + 1)
	}
	p.at = here
	return p.onLine(depth)
}

// value reads a value that ends on its line, within brackets or not.
func (p *plain) value(depth int, bracketed bool) (*Node, bool) {
	switch c := p.next(); c {
	case '"', '\'':
		return p.quoted(c)
	case '[', '{':
		if depth == maxDepth {
			return nil, false
		}
		return p.brackets(c, depth)
	}
	start := p.at
	if !p.word(bracketed) || p.next() == ':' {
		return nil, false
	}
	span := p.fragment.Span(start, p.end)
	return p.node(Node{Kind: Scalar, Value: source.Text{Value: p.text[start:p.end], Span: span}, Span: span}), true
}

// quoted reads a value in quotes. One with an escape, or with the quote itself in it,
// is not plain.
func (p *plain) quoted(quote byte) (*Node, bool) {
	start := p.at
	for p.at++; p.next() != quote; p.at++ {
		if c := p.next(); c == '\n' || c == '\\' {
			return nil, false
		}
	}
	p.at++
	if p.next() == quote {
		return nil, false
	}
	p.end = p.at
	return p.node(Node{
		Kind:   Scalar,
		Value:  source.Text{Value: p.text[start+1 : p.end-1], Span: p.fragment.Span(start+1, p.end-1)},
		Quoted: true,
		Span:   p.fragment.Span(start, p.end),
	}), true
}

// brackets reads a list in brackets or a map in braces.
func (p *plain) brackets(opening byte, depth int) (*Node, bool) {
	start := p.at
	n, closing := p.node(Node{Kind: List, Items: []*Node{}}), byte(']')
	if opening == '{' {
		*n, closing = Node{Kind: Map, Pairs: []Pair{}}, '}'
	}
	p.at++
	if p.skipBlanks(); p.next() != closing {
		if !p.entry(n, depth) {
			return nil, false
		}
		for p.next() == ',' {
			p.at++
			if p.skipBlanks(); !p.entry(n, depth) {
				return nil, false
			}
		}
		if p.next() != closing {
			return nil, false
		}
	}
	p.at++
	p.end = p.at
	n.Span = p.fragment.Span(start, p.end)
	return n, true
}

// entry reads the next item or the next key with its value of what stands in brackets,
// and the blanks behind it.
func (p *plain) entry(in *Node, depth int) bool {
	var key source.Text
	if in.Kind == Map {
		var ok bool
		if key, ok = p.key(in.Pairs, true); !ok {
			return false
		}
		p.skipBlanks()
	}
	value, ok := p.value(depth+1, true)
	if !ok {
		return false
	}
	if in.Kind == Map {
		in.Pairs = append(in.Pairs, Pair{Key: key, Value: value})
	} else {
		in.Items = append(in.Items, value)
	}
	p.skipBlanks()
	return true
}

// key reads a key that is not yet among others, with its colon.
func (p *plain) key(others []Pair, bracketed bool) (source.Text, bool) {
	start := p.at
	if !p.word(bracketed) || p.next() != ':' || p.end < p.at || p.at-start > maxPlainKey || len(others) == maxPlainKeys {
		return source.Text{}, false
	}
	p.at++
	key := source.Text{Value: p.text[start:p.end], Span: p.fragment.Span(start, p.end)}
	for _, o := range others {
		if o.Key.Value == key.Value {
			return source.Text{}, false
		}
	}
	return key, true
}

// word moves behind a key or a value without quotes, to the sign that ends it, and
// notes where its last letter stands. A colon in it is one that no blank follows.
func (p *plain) word(bracketed bool) bool {
	if !beginsWord(p.next()) {
		return false
	}
	p.end = p.at
	for ; ; p.at++ {
		switch c := p.next(); c {
		case ' ':
			continue
		case '\n':
			return true
		case ':':
			if after := p.byteAt(p.at + 1); after == ' ' || after == '\n' {
				return true
			} else if bracketed && strings.IndexByte(",[]{}", after) >= 0 {
				return false
			}
		case '#':
			if p.end < p.at { // a comment
				p.at = p.end
				return true
			}
		case ',', '[', ']', '{', '}':
			if bracketed {
				return true
			}
		case '?':
			if bracketed {
				return false
			}
		}
		p.end = p.at + 1
	}
}

// beginsWord reports whether a byte is one of a letter or a digit, which mean nothing
// else at the start of a value.
func beginsWord(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c >= utf8.RuneSelf
}
