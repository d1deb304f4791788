package answerfile

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"slices"
	"strings"
	"unicode/utf8"
)

// value is a value of JSON that knows where it stands. Exactly one of its fields
// beside the place is meant, by its kind.
type value struct {
	kind    kind
	at      int64 // offset of the byte behind its first token
	text    string
	members []member
	items   []value
}

type member struct {
	key   string
	value value
}

type kind uint8

const (
	stringKind kind = iota
	numberKind
	literalKind // true, false and null, which no answer file has
	objectKind
	listKind
)

func (k kind) String() string {
	return [...]string{"a text", "a number", "true, false or null", "a map", "a list"}[k]
}

// misfit is a fault at an offset of the file.
type misfit struct {
	at         int64
	what, help string
}

func (m *misfit) Error() string { return m.what }

const handedIn = "ask for the file as the page of the paper saved it"

// parse reads one value of JSON and nothing behind it. Unlike the standard reader it
// keeps no member twice and stops at a depth.
func parse(data []byte) (value, error) {
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	v, err := read(d, 0)
	if err != nil {
		return value{}, err
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return value{}, &misfit{d.InputOffset(), "something stands behind the end of the answers", handedIn}
	}
	return v, nil
}

func read(d *json.Decoder, depth int) (value, error) {
	token, err := d.Token()
	if err != nil {
		return value{}, notJSON(d, err)
	}
	v := value{at: d.InputOffset()}
	switch t := token.(type) {
	case string:
		v.kind, v.text = stringKind, t
	case json.Number:
		v.kind, v.text = numberKind, t.String()
	case json.Delim:
		if depth == maxDepth {
			return value{}, &misfit{v.at, "lists and maps stand in each other too deep", handedIn}
		}
		if t == '[' {
			return v.readItems(d, depth)
		}
		return v.readMembers(d, depth)
	default:
		v.kind = literalKind
	}
	return v, nil
}

func (v value) readItems(d *json.Decoder, depth int) (value, error) {
	v.kind = listKind
	for d.More() {
		item, err := read(d, depth+1)
		if err != nil {
			return value{}, err
		}
		v.items = append(v.items, item)
	}
	_, err := d.Token()
	return v, notJSON(d, err)
}

func (v value) readMembers(d *json.Decoder, depth int) (value, error) {
	v.kind = objectKind
	for d.More() {
		token, err := d.Token()
		if err != nil {
			return value{}, notJSON(d, err)
		}
		key, at := token.(string), d.InputOffset()
		if _, twice := v.member(key); twice {
			return value{}, &misfit{at, "“" + short(key) + "” stands there twice", handedIn}
		}
		item, err := read(d, depth+1)
		if err != nil {
			return value{}, err
		}
		v.members = append(v.members, member{key, item})
	}
	_, err := d.Token()
	return v, notJSON(d, err)
}

func (v value) member(key string) (value, bool) {
	for _, m := range v.members {
		if m.key == key {
			return m.value, true
		}
	}
	return value{}, false
}

// notJSON words what the standard reader found; nil for nothing.
func notJSON(d *json.Decoder, err error) error {
	if err == nil {
		return nil
	}
	at := d.InputOffset()
	var syntax *json.SyntaxError
	if errors.As(err, &syntax) {
		at = syntax.Offset
	}
	return &misfit{at, "this is not an answer file: it is not whole JSON", handedIn}
}

// canonical writes a value as RFC 8785 has it: members in the order of the UTF-16 units
// of their keys, no white space, the shortest escapes. Numbers are left as they stand;
// answer files have whole ones only, which are in that form already.
func canonical(out []byte, v value) []byte {
	switch v.kind {
	case stringKind:
		return quote(out, v.text)
	case numberKind:
		return append(out, v.text...)
	case listKind:
		out = append(out, '[')
		for i, item := range v.items {
			if i > 0 {
				out = append(out, ',')
			}
			out = canonical(out, item)
		}
		return append(out, ']')
	}
	members := slices.Clone(v.members)
	// All keys of an answer file are ASCII, where the order of bytes is that of UTF-16.
	slices.SortFunc(members, func(a, b member) int { return strings.Compare(a.key, b.key) })
	out = append(out, '{')
	for i, m := range members {
		if i > 0 {
			out = append(out, ',')
		}
		out = append(quote(out, m.key), ':')
		out = canonical(out, m.value)
	}
	return append(out, '}')
}

// quote writes a string as ECMAScript's JSON.stringify does, which RFC 8785 follows.
func quote(out []byte, s string) []byte {
	const digits = "0123456789abcdef"
	out = append(out, '"')
	for i := range len(s) {
		c := s[i]
		switch {
		case c == '"' || c == '\\':
			out = append(out, '\\', c)
		case c >= ' ':
			out = append(out, c)
		default:
			if at := strings.IndexByte("\b\t\n\f\r", c); at >= 0 {
				out = append(out, '\\', "btnfr"[at])
			} else {
				out = append(out, '\\', 'u', '0', '0', digits[c>>4], digits[c&15])
			}
		}
	}
	return append(out, '"')
}

// short keeps a message readable whatever stood in the file.
func short(s string) string {
	const most = 40
	if len(s) <= most {
		return s
	}
	cut := most
	for !utf8.RuneStart(s[cut]) {
		cut--
	}
	return s[:cut] + "…"
}
