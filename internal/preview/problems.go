package preview

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"net/http"
	"sync"

	"plait/internal/diag"
	"plait/internal/source"
)

// maxShown is how many problems are listed; who has more mends these first.
const maxShown = 20

// ownPolicy is the content policy of the preview's own pages.
const ownPolicy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src data:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

//go:embed assets/pages.html
var pagesText string

var pages = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("pages").Parse(pagesText))
})

// problems is what the list of problems shows.
type problems struct {
	Site     string // as in state
	Trouble  string
	Building bool // there was no result yet
	HasSite  bool // the site of an earlier build is shown
	Title    string
	Items    []problem
	More     int // errors that are not listed
	Warnings int
}

type problem struct {
	Message string
	Rule    string
	Place   place
	Notes   []note
	Help    string
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
		Site: now.site, Trouble: now.trouble,
		Building: now.site == "" && now.trouble == "",
		HasSite:  now.site != "",
		Warnings: diag.Count(now.problems, diag.Warning),
	}
	errors := diag.Count(now.problems, diag.Error)
	for _, d := range now.problems {
		if d.Severity == diag.Error && len(p.Items) < maxShown {
			p.Items = append(p.Items, newProblem(d))
		}
	}
	p.More = errors - len(p.Items)
	switch {
	case p.Building:
		p.Title = "The course is being built"
	case errors == 0:
		p.Title = "The course could not be built"
	case errors == 1:
		p.Title = "One error in the course"
	default:
		p.Title = fmt.Sprintf("%d errors in the course", errors)
	}
	return p
}

func newProblem(d diag.Diagnostic) problem {
	p := problem{Message: d.Message, Rule: d.Rule, Place: newPlace(d.Span), Help: d.Help}
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

type missingPage struct{ Site, Path string }

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
