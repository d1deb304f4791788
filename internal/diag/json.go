package diag

import (
	"encoding/json"
	"io"

	"plait/internal/source"
)

// jsonVersion is the version of the JSON form; it rises when a field changes its
// meaning.
const jsonVersion = 1

type jsonReport struct {
	Version     int              `json:"version"`
	Diagnostics []jsonDiagnostic `json:"diagnostics"`
}

type jsonDiagnostic struct {
	Rule     string        `json:"rule"`
	Severity string        `json:"severity"`
	Message  string        `json:"message"`
	Help     string        `json:"help,omitempty"`
	File     string        `json:"file"`
	Start    jsonPosition  `json:"start"`
	End      jsonPosition  `json:"end"`
	Notes    []jsonRelated `json:"notes"`
	Edits    []jsonEdit    `json:"edits"`
}

// jsonPosition counts lines and columns (code points) from 1, bytes from 0.
type jsonPosition struct {
	Line   int `json:"line"`
	Column int `json:"column"`
	Byte   int `json:"byte"`
}

type jsonRelated struct {
	Message string       `json:"message"`
	File    string       `json:"file"`
	Start   jsonPosition `json:"start"`
	End     jsonPosition `json:"end"`
}

type jsonEdit struct {
	File  string       `json:"file"`
	Start jsonPosition `json:"start"`
	End   jsonPosition `json:"end"`
	Text  string       `json:"text"`
}

// WriteJSON prints the diagnostics as one JSON document.
func WriteJSON(w io.Writer, list []Diagnostic) error {
	report := jsonReport{Version: jsonVersion, Diagnostics: []jsonDiagnostic{}}
	for _, d := range list {
		item := jsonDiagnostic{
			Rule: d.Rule, Severity: d.Severity.String(), Message: d.Message, Help: d.Help,
			File: fileName(d.Span), Start: jsonPosition(d.Span.Start()), End: jsonPosition(d.Span.End()),
			Notes: []jsonRelated{}, Edits: []jsonEdit{},
		}
		for _, n := range d.Notes {
			item.Notes = append(item.Notes, jsonRelated{
				Message: n.Message, File: fileName(n.Span),
				Start: jsonPosition(n.Span.Start()), End: jsonPosition(n.Span.End()),
			})
		}
		for _, e := range d.Edits {
			item.Edits = append(item.Edits, jsonEdit{
				Text: e.Text, File: fileName(e.Span),
				Start: jsonPosition(e.Span.Start()), End: jsonPosition(e.Span.End()),
			})
		}
		report.Diagnostics = append(report.Diagnostics, item)
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(report)
}

func fileName(s source.Span) string {
	if !s.Valid() {
		return ""
	}
	return s.File().Name()
}
