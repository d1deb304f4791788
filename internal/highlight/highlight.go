// Package highlight colours samples of our notations, and of a few others that
// the handbook of a course may show.
//
// The lexers are our own: plait links none of the many that come with chroma,
// which would cost more at every start than all the rest of the program.
package highlight

import (
	"cmp"
	"html"
	"slices"
	"strings"
	"sync"

	"github.com/alecthomas/chroma/v2"
)

// maxCode is the longest sample that is coloured, in bytes. Nobody reads a longer
// one, and regular expressions are slow.
const maxCode = 16 << 10

// maxKept is how many samples are remembered. A long preview would else keep
// every state of a sample that was ever typed.
const maxKept = 1024

// classes maps what the lexers say to classes of the style sheet. Anything else
// stays plain.
var classes = map[chroma.TokenType]string{
	chroma.Comment:        "h-note",
	chroma.NameTag:        "h-key",
	chroma.LiteralString:  "h-text",
	chroma.LiteralNumber:  "h-number",
	chroma.Keyword:        "h-mark",
	chroma.GenericHeading: "h-head",
	chroma.GenericStrong:  "h-head",
	chroma.Error:          "h-wrong",
}

type sample struct{ language, code string }

// Sample is a sample of code that was worked out.
type Sample struct{ Language, Code, HTML string }

// mostSaved is how many bytes of samples are handed out to be kept beyond this process.
const mostSaved = 4 << 20

// Samples returns the samples that are remembered, in one order, as far as they are not
// too many to be kept.
func Samples() []Sample {
	kept.Lock()
	defer kept.Unlock()
	var list []Sample
	for s, html := range kept.html {
		list = append(list, Sample{s.language, s.code, html})
	}
	slices.SortFunc(list, func(a, b Sample) int {
		return cmp.Or(cmp.Compare(a.Language, b.Language), cmp.Compare(a.Code, b.Code))
	})
	size := 0
	for i, s := range list {
		if size += len(s.Code) + len(s.HTML); size > mostSaved {
			return list[:i]
		}
	}
	return list
}

// Known returns how many samples are remembered.
func Known() int {
	kept.Lock()
	defer kept.Unlock()
	return len(kept.html)
}

// Load remembers samples that the same program worked out.
func Load(list []Sample) {
	kept.Lock()
	defer kept.Unlock()
	for _, s := range list {
		if len(kept.html) < maxKept {
			kept.html[sample{s.Language, s.Code}] = s.HTML
		}
	}
}

var kept = struct {
	sync.Mutex
	html map[sample]string
}{html: map[sample]string{}}

// HTML returns code as text for an HTML element, with spans round what has a
// meaning in the language. It reports false, with code merely escaped, for a
// language it does not know and for a very long sample. It is safe for concurrent
// use, and the same sample is worked out once.
func HTML(language, code string) (string, bool) {
	lexer := lexerOf(language)
	if lexer == nil || len(code) > maxCode {
		return html.EscapeString(code), false
	}
	key := sample{language, code}
	kept.Lock()
	out, ok := kept.html[key]
	kept.Unlock()
	if ok {
		return out, true
	}
	out, err := paint(lexer, code)
	if err != nil {
		return html.EscapeString(code), false
	}
	kept.Lock()
	defer kept.Unlock()
	if len(kept.html) >= maxKept {
		clear(kept.html)
	}
	kept.html[key] = out
	return out, true
}

// paint runs the lexer and writes its tokens.
func paint(lexer chroma.Lexer, code string) (string, error) {
	tokens, err := chroma.Coalesce(lexer).Tokenise(&chroma.TokeniseOptions{State: "root"}, code)
	if err != nil {
		return "", err
	}
	var out strings.Builder
	for token := tokens(); token != chroma.EOF; token = tokens() {
		text := html.EscapeString(token.Value)
		class := classes[token.Type]
		if class == "" || strings.TrimSpace(token.Value) == "" {
			out.WriteString(text)
			continue
		}
		out.WriteString(`<span class="` + class + `">` + text + `</span>`)
	}
	return out.String(), nil
}
