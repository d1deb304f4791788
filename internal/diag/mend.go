package diag

import (
	"fmt"
	"slices"
	"strings"

	"plait/internal/source"
)

// Mended is a file with its mechanical mends applied.
type Mended struct {
	File *source.File
	Text string // without a byte order mark, like [source.File.Text]
}

// Apply applies the edits of all diagnostics and returns the files that they change,
// in order of their names. The same edit given twice is applied once. It fails, and
// changes nothing, where two edits want different things of one place.
func Apply(list []Diagnostic) ([]Mended, error) {
	byFile := map[*source.File][]Edit{}
	for _, d := range list {
		for _, e := range d.Edits {
			if e.Span.Valid() && e.Span.Text() != e.Text {
				byFile[e.Span.File()] = append(byFile[e.Span.File()], e)
			}
		}
	}
	var out []Mended
	for file, edits := range byFile {
		m, err := mend(file, edits)
		if err != nil {
			return nil, err
		}
		out = append(out, m)
	}
	slices.SortFunc(out, func(a, b Mended) int { return strings.Compare(a.File.Name(), b.File.Name()) })
	return out, nil
}

// mend applies the edits of one file.
func mend(file *source.File, edits []Edit) (Mended, error) {
	slices.SortStableFunc(edits, func(a, b Edit) int {
		if c := a.Span.Compare(b.Span); c != 0 {
			return c
		}
		return strings.Compare(a.Text, b.Text)
	})
	edits = slices.Compact(edits)
	var b strings.Builder
	end := 0
	for i, e := range edits {
		from, to := e.Span.Offsets()
		if i > 0 && (from < end || e.Span == edits[i-1].Span) {
			at := e.Span.Start()
			return Mended{}, fmt.Errorf("two mends of %s overlap at line %d, column %d; mend one of them by hand", file.Name(), at.Line, at.Column)
		}
		b.WriteString(file.Text()[end:from])
		b.WriteString(e.Text)
		end = to
	}
	b.WriteString(file.Text()[end:])
	return Mended{File: file, Text: b.String()}, nil
}
