package yamlpos

import (
	"regexp"
	"strings"
)

// Question is the value of what is not known yet: an open question to the author.
const Question = "?"

// standIn takes the place of a question mark while the library reads the text. It is
// as long, and a value like others.
const standIn = "~"

// lonely is a question mark that is the whole value of a key or of an item. To the
// library it would begin a key of several lines.
var lonely = regexp.MustCompile(`(?m)^([ \t]*(?:-[ \t]+)*(?:-|[A-Za-z][^:#"'\n]*:)[ \t]+)\?([ \t]*(?:[ \t]#.*)?\r?)$`)

// blockScalar begins a text over several lines, in which a question mark is a
// character like others.
var blockScalar = regexp.MustCompile(`(?m)[:-][ \t]+[|>][-+0-9]*[ \t]*(?:#.*)?\r?$`)

func hasBlockScalar(text string) bool { return blockScalar.MatchString(text) }

// closeQuestions makes of open questions a value that the library can read.
func closeQuestions(text string) string {
	if !strings.Contains(text, Question) {
		return text
	}
	return lonely.ReplaceAllString(text, "${1}"+standIn+"${2}")
}
