// Package diag is what plait says about an author's text: what is wrong, where,
// how bad it is, which other places have to do with it and what the way out is.
//
// Diagnostics are values in slices; there is no logger and no sink. [Sorted]
// brings them into the one order in which they are shown, [WriteText] prints them
// for people and [WriteJSON] for tools. An author's mistake is a Diagnostic; a
// full disk is an ordinary Go error and never comes this way.
package diag

import (
	"fmt"
	"slices"
	"strings"

	"plait/internal/source"
)

// Severity says what a diagnostic does to a build.
type Severity uint8

// The severities, worst first. Only an Error stops a build.
const (
	Error Severity = iota
	Warning
	Note
)

// String returns the word printed in messages.
func (s Severity) String() string {
	switch s {
	case Error:
		return "error"
	case Warning:
		return "warning"
	}
	return "note"
}

// Diagnostic is one finding. Message is lower case without a full stop and quotes
// what it blames; Help names a way out.
type Diagnostic struct {
	Rule     string // family/name
	Severity Severity
	Message  string
	Span     source.Span
	Notes    []Related
	Help     string
	Edits    []Edit
}

// Related is another place that has to do with a finding.
type Related struct {
	Message string
	Span    source.Span
}

// Edit replaces a span by new text: the mechanical mend of a finding.
type Edit struct {
	Span source.Span
	Text string
}

// Errorf makes an error.
func Errorf(rule string, at source.Span, format string, args ...any) Diagnostic {
	return Diagnostic{Rule: rule, Severity: Error, Span: at, Message: fmt.Sprintf(format, args...)}
}

// Warningf makes a warning.
func Warningf(rule string, at source.Span, format string, args ...any) Diagnostic {
	return Diagnostic{Rule: rule, Severity: Warning, Span: at, Message: fmt.Sprintf(format, args...)}
}

// Notef makes a note.
func Notef(rule string, at source.Span, format string, args ...any) Diagnostic {
	return Diagnostic{Rule: rule, Severity: Note, Span: at, Message: fmt.Sprintf(format, args...)}
}

// FromError makes an error of what a parser of a value says, whose message ends in
// the way out, behind its last semicolon.
func FromError(rule string, at source.Span, err error) Diagnostic {
	message, help := err.Error(), ""
	if i := strings.LastIndex(message, "; "); i >= 0 {
		message, help = message[:i], message[i+len("; "):]
	}
	return Diagnostic{Rule: rule, Severity: Error, Span: at, Message: message, Help: help}
}

// WithHelp returns d with a way out.
func (d Diagnostic) WithHelp(format string, args ...any) Diagnostic {
	d.Help = fmt.Sprintf(format, args...)
	return d
}

// WithNote returns d with one more related place.
func (d Diagnostic) WithNote(at source.Span, format string, args ...any) Diagnostic {
	d.Notes = append(slices.Clip(d.Notes), Related{Span: at, Message: fmt.Sprintf(format, args...)})
	return d
}

// WithEdit returns d with one more edit.
func (d Diagnostic) WithEdit(at source.Span, text string) Diagnostic {
	d.Edits = append(slices.Clip(d.Edits), Edit{Span: at, Text: text})
	return d
}

// Sorted returns the diagnostics ordered by file, place, severity, rule and
// message, each only once.
func Sorted(list []Diagnostic) []Diagnostic {
	out := slices.Clone(list)
	slices.SortStableFunc(out, compare)
	return slices.CompactFunc(out, func(a, b Diagnostic) bool { return compare(a, b) == 0 })
}

func compare(a, b Diagnostic) int {
	if c := a.Span.Compare(b.Span); c != 0 {
		return c
	}
	if a.Severity != b.Severity {
		return int(a.Severity) - int(b.Severity)
	}
	if c := strings.Compare(a.Rule, b.Rule); c != 0 {
		return c
	}
	return strings.Compare(a.Message, b.Message)
}

// Count returns how many diagnostics have the severity.
func Count(list []Diagnostic, severity Severity) int {
	n := 0
	for _, d := range list {
		if d.Severity == severity {
			n++
		}
	}
	return n
}

// HasErrors reports whether any diagnostic stops a build.
func HasErrors(list []Diagnostic) bool {
	return slices.ContainsFunc(list, func(d Diagnostic) bool { return d.Severity == Error })
}
