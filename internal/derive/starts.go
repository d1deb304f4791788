package derive

import (
	"strings"
	"time"

	"plait/internal/diag"
	"plait/internal/source"
)

// starts finds out when each bowl of a lesson starts, where some count from others.
type starts struct {
	byName map[string]*Formula
	names  []string
	timed  int // how many bowls stay on the hair for a time
	known  map[*Formula]*moment
	found  []diag.Diagnostic
}

// moment is when a bowl starts.
type moment struct {
	at       time.Duration
	ok       bool
	visiting bool // it is being worked out: meeting it again closes a circle
}

func newStarts(formulas []*Formula) *starts {
	s := &starts{byName: map[string]*Formula{}, known: map[*Formula]*moment{}}
	for _, f := range formulas {
		s.byName[f.Name.Value] = f
		s.names = append(s.names, f.Name.Value)
		if f.Time.Set() {
			s.timed++
		}
	}
	return s
}

func (s *starts) errorf(at source.Span, help, format string, args ...any) {
	s.found = append(s.found, diag.Errorf("formula/start", at, format, args...).WithHelp("%s", help))
}

// of returns when the application of a bowl begins; ok is false where it does not
// say, and where it cannot be worked out, which is reported.
func (s *starts) of(f *Formula) (at time.Duration, ok bool) {
	m, seen := s.known[f]
	if !seen {
		m = &moment{visiting: true}
		s.known[f] = m
		m.at, m.ok = s.work(f)
		m.visiting = false
	}
	return m.at, m.ok
}

func (s *starts) work(f *Formula) (at time.Duration, ok bool) {
	switch {
	case f.Broken:
		return 0, false
	case !f.Start.Set():
		return 0, f.Time.Set() && s.timed == 1
	case f.Start.Bowl.Value == "":
		return f.Start.Later, true
	}
	anchor, ok := s.anchor(f)
	if !ok {
		return 0, false
	}
	at, ok = s.of(anchor)
	switch {
	case anchor.Broken:
		return 0, false
	case !ok && !anchor.Start.Set():
		s.errorf(f.Start.Bowl.Span, "write start: 0 min in "+anchor.Name.Value, "%s does not say when it starts", anchor.Name.Value)
		return 0, false
	case !ok:
		return 0, false
	case f.Start.Ended && !anchor.Apply.Set():
		s.errorf(f.Start.Bowl.Span, "write how long it takes in "+anchor.Name.Value+", as in apply: 18 min",
			"%s does not say how long its application takes", anchor.Name.Value)
		return 0, false
	case f.Start.Ended:
		at += anchor.Apply.Value
	}
	return at + f.Start.Later, true
}

// anchor returns the bowl that another counts from.
func (s *starts) anchor(f *Formula) (*Formula, bool) {
	name := f.Start.Bowl
	anchor, ok := s.byName[name.Value]
	if !ok {
		help := "the bowls of this lesson are: " + strings.Join(s.names, ", ")
		if near := diag.DidYouMean(name.Value, s.names); near != "" {
			help = "did you mean " + near + "? " + help
		}
		s.errorf(name.Span, help, "this lesson has no bowl %q", name.Value)
		return nil, false
	}
	if m, seen := s.known[anchor]; seen && m.visiting {
		const help = "let one of them count from the service's zero, as in start: 0 min"
		if anchor == f {
			s.errorf(name.Span, help, "%s starts when it starts itself", name.Value)
		} else {
			s.errorf(name.Span, help, "%s and %s wait for each other", f.Name.Value, name.Value)
		}
		return nil, false
	}
	return anchor, true
}
