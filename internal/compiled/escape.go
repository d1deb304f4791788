package compiled

import (
	"reflect"
	"strconv"
	"strings"
	"text/template/parse"
)

// The escapers that the library puts at the end of a pipeline, as they are called in its
// trees. These are its names and not an interface: where one is called otherwise the
// template is left to the library.
const (
	escapeHTML   = "_html_template_htmlescaper"
	escapeAttr   = "_html_template_attrescaper"
	escapeRCDATA = "_html_template_rcdataescaper"
	escapeJS     = "_html_template_jsvalescaper"
	filterURL    = "_html_template_urlfilter"
	normalizeURL = "_html_template_urlnormalizer"
)

// shown writes a value as the rest of its pipeline wants it escaped.
func shown(e expression, rest []*parse.CommandNode) (step, bool) {
	var names []string
	for _, cmd := range rest {
		id, ok := cmd.Args[0].(*parse.IdentifierNode)
		if !ok || len(cmd.Args) > 1 {
			return nil, false
		}
		names = append(names, id.Ident)
	}
	switch escapers := strings.Join(names, " "); {
	case escapers == escapeHTML && e.of == htmlType, escapers == escapeJS && e.of == jsType:
		return raw(e), true
	case escapers == escapeHTML || escapers == escapeAttr || escapers == escapeRCDATA:
		switch e.of {
		case stringType:
			return text(e), true
		case intType:
			return number(e), true
		}
	case e.of != stringType:
	case escapers == filterURL+" "+normalizeURL+" "+escapeAttr:
		return address(e, true), true
	case escapers == normalizeURL+" "+escapeAttr:
		return address(e, false), true
	}
	return nil, false
}

func raw(e expression) step {
	if e.append != nil {
		return e.append
	}
	return func(f *frame, dot reflect.Value) { f.out = append(f.out, e.value(f, dot).String()...) }
}

func text(e expression) step {
	return func(f *frame, dot reflect.Value) { f.out = appendText(f.out, e.value(f, dot).String()) }
}

func number(e expression) step {
	return func(f *frame, dot reflect.Value) { f.out = strconv.AppendInt(f.out, e.value(f, dot).Int(), 10) }
}

func address(e expression, filtered bool) step {
	return func(f *frame, dot reflect.Value) {
		s := e.value(f, dot).String()
		if filtered && !isSafe(s) {
			s = "#ZgotmplZ" // what the library writes instead
		}
		f.out = appendAddress(f.out, s)
	}
}

// escapes are what the library writes for characters in text and in quoted attributes.
var escapes = [256]string{
	0: "\uFFFD", '"': "&#34;", '&': "&amp;", '\'': "&#39;", '+': "&#43;", '<': "&lt;", '>': "&gt;",
}

// escaped tells the characters of escapes; it is looked at for every byte of a page.
var escaped = func() (table [256]bool) {
	for c, with := range escapes {
		table[c] = with != ""
	}
	return table
}()

// appendText escapes a text for text and for quoted attributes.
func appendText(out []byte, s string) []byte {
	done := 0
	for i := range len(s) {
		if escaped[s[i]] {
			out = append(out, s[done:i]...)
			out = append(out, escapes[s[i]]...)
			done = i + 1
		}
	}
	return append(out, s[done:]...)
}

// isSafe reports whether an address leads to a page or to a letter, and runs nothing.
func isSafe(s string) bool {
	scheme, _, found := strings.Cut(s, ":")
	return !found || strings.Contains(scheme, "/") ||
		strings.EqualFold(scheme, "http") || strings.EqualFold(scheme, "https") || strings.EqualFold(scheme, "mailto")
}

// plainInAddress are the characters that stand in an address as they are, beside letters and
// digits (RFC 3986, sections 2.2 and 2.3, but for what could end a quoted attribute).
const plainInAddress = "!#$*,/:;=?@[]-._~"

// appendAddress writes an address into a quoted attribute. Whatever may not stand in an
// address is written as its bytes in per cent; what is written so already stays.
func appendAddress(out []byte, s string) []byte {
	const digits = "0123456789abcdef"
	for i := range len(s) {
		switch c := s[i]; {
		case 'a' <= c && c <= 'z', 'A' <= c && c <= 'Z', '0' <= c && c <= '9', strings.IndexByte(plainInAddress, c) >= 0:
			out = append(out, c)
		case c == '&' || c == '+':
			out = append(out, escapes[c]...)
		case c == '%' && i+2 < len(s) && isHex(s[i+1]) && isHex(s[i+2]):
			out = append(out, c)
		default:
			out = append(out, '%', digits[c>>4], digits[c&15])
		}
	}
	return out
}

func isHex(c byte) bool {
	return '0' <= c && c <= '9' || 'a' <= c && c <= 'f' || 'A' <= c && c <= 'F'
}
