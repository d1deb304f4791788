package preview

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"net/http"
	"strings"
	"sync"

	"plait/internal/diag"
	"plait/internal/source"
)

// maxShown is how much of what was found is listed; who has more mends this first.
const maxShown = 40

// ownPolicy is the content policy of the preview's own pages.
const ownPolicy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src data:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

//go:embed assets/pages.html
var pagesText string

var pages = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("pages").Parse(pagesText))
})

// problems is what the list of findings shows.
type problems struct {
	Page     string // as in message
	List     string
	Building bool // there was no result yet
	Failed   bool
	HasSite  bool // the site of an earlier build is shown
	Title    string
	Items    []problem
	More     int // findings that are not listed
}

type problem struct {
	Severity string
	Message  string
	Rule     string
	Place    place
	Notes    []note
	Help     string
}

type note struct {
	Message string
	Place   place
}

// place is where a problem stands; the zero place is nowhere.
type place struct {
	File                  string
	Line, Column          int
	Before, Marked, After string // the line
}

func newProblems(now state) problems {
	p := problems{
		Page: waiting, List: now.list,
		Building: now.tree == nil && !now.failed,
		Failed:   now.failed,
		HasSite:  now.tree != nil,
		Title:    title(now),
		More:     max(len(now.found)-maxShown, 0),
	}
	for _, d := range now.found[:len(now.found)-p.More] {
		p.Items = append(p.Items, newProblem(d))
	}
	return p
}

func title(now state) string {
	switch {
	case now.tree == nil && !now.failed:
		return "The course is being built"
	case now.failed && !diag.HasErrors(now.found):
		return "The course could not be built"
	case len(now.found) == 0:
		return "Nothing was found"
	}
	return inWords(now.found)
}

// inWords counts what was found: 2 errors and 1 warning.
func inWords(found []diag.Diagnostic) string {
	var parts []string
	for _, severity := range []diag.Severity{diag.Error, diag.Warning, diag.Note} {
		switch n := diag.Count(found, severity); n {
		case 0:
		case 1:
			parts = append(parts, "1 "+severity.String())
		default:
			parts = append(parts, fmt.Sprintf("%d %ss", n, severity))
		}
	}
	if last := len(parts) - 1; last > 0 {
		return strings.Join(parts[:last], ", ") + " and " + parts[last]
	}
	return strings.Join(parts, "")
}

func newProblem(d diag.Diagnostic) problem {
	p := problem{Severity: d.Severity.String(), Message: d.Message, Rule: d.Rule, Place: newPlace(d.Span), Help: d.Help}
	for _, n := range d.Notes {
		p.Notes = append(p.Notes, note{Message: n.Message, Place: newPlace(n.Span)})
	}
	return p
}

func newPlace(s source.Span) place {
	if !s.Valid() {
		return place{}
	}
	at := s.Start()
	p := place{File: s.File().Name(), Line: at.Line, Column: at.Column}
	p.Before, p.Marked, p.After = diag.Quote(s)
	return p
}

type missingPage struct{ Page, Path string }

// brokenPage stands for a page that a template of the course's own cannot make.
type brokenPage struct{ Page, Path, Why string }

// page answers with one of the preview's own pages.
func (s *Server) page(w http.ResponseWriter, r *http.Request, code int, name string, view any) {
	var b bytes.Buffer
	if err := pages().ExecuteTemplate(&b, name, view); err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	h := w.Header()
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Cache-Control", "no-store")
	h.Set("Content-Security-Policy", ownPolicy)
	h.Set("Content-Length", fmt.Sprint(b.Len()))
	w.WriteHeader(code)
	if r.Method != http.MethodHead {
		_, _ = w.Write(b.Bytes()) // the browser has hung up; nobody is left to tell
	}
}
