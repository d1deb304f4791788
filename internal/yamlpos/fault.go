package yamlpos

import (
	"errors"
	"io"
	"strings"

	"plait/internal/diag"
	"plait/internal/source"
)

// syntaxFault turns an error of the YAML library into a message at the line that
// spoils the text. The library says what is wrong in terms of its own and names a
// line in some cases only, not always the right one, so neither is passed on.
func syntaxFault(text *source.Fragment, lines []int, err error) diag.Diagnostic {
	k := faultLine(text.Text(), lines)
	start := lines[k]
	end := lineEnd(text.Text(), start)
	line := text.Text()[start:end]
	indent := len(line) - len(strings.TrimLeft(line, " \t"))
	message, help := explain(problem(err), line)
	at := text.Span(start+indent, start+len(strings.TrimRight(line, " \t")))
	if text.Text() == "" {
		at = text.Anchor()
	}
	return diag.Errorf(ruleYAML, at, "%s", message).WithHelp("%s", help)
}

// problem returns the library's message without the line it guesses.
func problem(err error) string {
	s := strings.TrimPrefix(err.Error(), "yaml: ")
	if rest, ok := strings.CutPrefix(s, "line "); ok {
		if _, after, ok := strings.Cut(rest, ": "); ok {
			return after
		}
	}
	return s
}

// The search for the line at fault is held to this many lines behind a readable
// part and to this many bytes in all.
const (
	searchLines = 50
	searchBytes = 4 << 20
)

// faultLine returns the number, from 0, of the line that makes the text
// unreadable: the first behind the longest run of lines that can be read without
// the rest. A value over several lines is unreadable while only a part of it is
// there, so the first place found is looked past for a later one.
func faultLine(text string, lines []int) int {
	budget := searchBytes
	good, bad := 0, len(lines)
	for bad-good > 1 && budget > 0 {
		middle := (good + bad) / 2
		if readable(text[:lines[middle]], &budget) {
			good = middle
		} else {
			bad = middle
		}
	}
	for k := good + 1; k < len(lines) && k <= good+searchLines && budget > 0; k++ {
		if readable(text[:lines[k]], &budget) {
			good = k
		}
	}
	return firstFilled(text, lines, good)
}

func readable(text string, budget *int) bool {
	*budget -= len(text)
	_, _, err := decode(text)
	return err == nil || errors.Is(err, io.EOF)
}

// firstFilled returns the number of the first line from k on that is not blank and
// no comment, or k where all are.
func firstFilled(text string, lines []int, k int) int {
	for i := k; i < len(lines); i++ {
		line := strings.TrimLeft(text[lines[i]:lineEnd(text, lines[i])], " \t")
		if line != "" && line[0] != '#' {
			return i
		}
	}
	return k
}

// explain puts a problem of the library into words for the author who wrote line.
func explain(problem, line string) (message, help string) {
	indent := line[:len(line)-len(strings.TrimLeft(line, " \t"))]
	if strings.Contains(indent, "\t") {
		return "a tab stands in the indent", "indent with spaces"
	}
	for _, e := range explanations {
		if strings.Contains(problem, e.problem) && (e.when == nil || e.when(line)) {
			return e.message, e.help
		}
	}
	return "the text cannot be read: " + problem, "compare the line with the examples in the handbook"
}

var explanations = []struct {
	problem string
	when    func(line string) bool
	message string
	help    string
}{
	{"mapping values are not allowed", hasTwoColons, "a second colon with a space behind it stands in the value",
		"put the value in double quotes"},
	{"mapping values are not allowed", nil, "the line is indented as if it belonged to the value above",
		"give the keys of one block the same indent"},
	{"could not find expected ':'", nil, "the line has no colon behind its key",
		"write `key: value`; indent a line that carries on the value above"},
	{"cannot start any token", nil, "a value starts with a character that has a meaning of its own",
		"put the value in double quotes"},
	{"did not find expected alphabetic or numeric", nil, "a value starts with a character that has a meaning of its own",
		"put the value in double quotes"},
	{"did not find expected key", startsWithColon, "a key is missing before the colon",
		"write `key: value`"},
	{"did not find expected key", nil, "the line does not fit the lines above it",
		"give the keys of one block the same indent; put a value in quotes as a whole or not at all"},
	{"did not find expected '-' indicator", nil, "the line is no item of the list above it",
		"start each item with a dash, all with the same indent"},
	{"sequence entries are not allowed", nil, "a list cannot begin on the line of its key",
		"put the first dash on a line of its own, or write the list in [brackets]"},
	{"did not find expected ',' or ']'", nil, "a list in brackets is not closed or a comma is missing in it",
		"write [one, two]; put an item in double quotes if it has a bracket or a colon"},
	{"did not find expected ',' or '}'", nil, "a map in braces is not closed or a comma is missing in it",
		"write {key: value, key: value}; put a value in double quotes if it has a brace, a comma or a colon"},
	{"did not find expected node content", opensBracket, "a list in brackets is not closed or a comma is missing in it",
		"write [one, two]; put an item in double quotes if it has a bracket or a colon"},
	{"did not find expected node content", opensBrace, "a map in braces is not closed or a comma is missing in it",
		"write {key: value, key: value}; put a value in double quotes if it has a brace, a comma or a colon"},
	{"did not find expected node content", nil, "a value is missing, or a bracket, brace or comma is too much",
		"write [one, two] or {key: value}"},
	{"found unexpected end of stream", nil, "a quote is not closed",
		"put the same quote at the end of the value"},
	{"found unexpected document indicator", nil, "a quote is not closed",
		"put the same quote at the end of the value"},
	{"unknown escape character", nil, "a backslash in double quotes is followed by something it cannot be",
		"double the backslash, or use single quotes"},
	{"hexdecimal number", nil, "a backslash in double quotes is followed by something it cannot be",
		"double the backslash, or use single quotes"},
	{"expected comment or line break", nil, "text follows on the line of | or >",
		"put the text on the lines below, indented"},
	{"tab character", nil, "a tab stands in the indent",
		"indent with spaces"},
	{"unknown anchor", nil, "an alias (*) cannot be used here",
		"put the value in double quotes if it should be read as it stands"},
	{"<document start>", nil, "text follows behind the end of the value",
		"put the value in quotes as a whole or not at all; delete a line of three dots"},
	{"mapping keys are not allowed", nil, "a question mark with a space behind it cannot stand here",
		"put the value in double quotes"},
}

func hasTwoColons(line string) bool { return strings.Count(line+" ", ": ") > 1 }

func startsWithColon(line string) bool { return strings.HasPrefix(strings.TrimSpace(line), ":") }

func opensBracket(line string) bool { return strings.Count(line, "[") > strings.Count(line, "]") }

func opensBrace(line string) bool { return strings.Count(line, "{") > strings.Count(line, "}") }
