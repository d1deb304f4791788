// Package compiled runs the templates of html/template without looking anything up
// while it does.
//
// The library decides how every value is escaped where it stands: it parses a template
// and writes its escapers into the tree. This package takes the tree as it is then and
// turns it, for the type of one view, into steps that know where in the view each value
// lies. A page costs a tenth of what it costs by name.
//
// Only what the pages of plait need is known here: fields, variables, the actions with,
// if, range and template, and a handful of functions. Whatever else a template asks for
// is left to the library, the one template that asks for it or, where the fault shows
// only in the values, the whole page. So a template of a course may use all that the
// library offers, what comes out is always what the library writes, and every error is
// the library's own.
package compiled

import (
	"bytes"
	"html/template"
	"io"
	"reflect"
	"sync"
)

// Set runs the templates of one set. It is safe for concurrent use.
type Set struct {
	library *template.Template

	mu       sync.RWMutex
	programs map[key]*program
}

// key is a template with the type of what it shows.
type key struct {
	name string
	view reflect.Type
}

// New returns what runs the templates of a set, which takes no more templates from then on.
func New(set *template.Template) *Set {
	return &Set{library: set, programs: map[key]*program{}}
}

// Append runs a template and appends what it writes to out. After an error it returns
// out as it was.
func (s *Set) Append(out []byte, name string, view any) ([]byte, error) {
	if p := s.program(name, reflect.TypeOf(view)); p.steps != nil {
		if done, ok := p.run(out, reflect.ValueOf(view)); ok {
			return done, nil
		}
	}
	return s.byLibrary(out, name, view)
}

// byLibrary is [Set.Append] by the library alone.
func (s *Set) byLibrary(out []byte, name string, view any) ([]byte, error) {
	buffer := bytes.NewBuffer(out)
	if err := s.library.ExecuteTemplate(buffer, name, view); err != nil {
		return out, err
	}
	return buffer.Bytes(), nil
}

// Knows reports whether a template is run without the library for a view of this type;
// templates that it calls may still need it.
func (s *Set) Knows(name string, view any) bool {
	return s.program(name, reflect.TypeOf(view)).steps != nil
}

// program returns a template made ready for a type of view; without steps it is one for
// the library.
func (s *Set) program(name string, view reflect.Type) *program {
	k := key{name, view}
	s.mu.RLock()
	p := s.programs[k]
	s.mu.RUnlock()
	if p != nil {
		return p
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if p = s.programs[k]; p == nil && view == nil {
		p = &program{}
		s.programs[k] = p
	}
	if p == nil {
		// Running it once has the library escape it and all that it calls; without a view
		// that comes to nothing else.
		_ = s.library.ExecuteTemplate(io.Discard, name, nil)
		p = s.compile(k)
	}
	return p
}

// program is a template for one type of view.
type program struct {
	steps     []step
	variables int  // how many it has at once
	open      bool // it is being compiled
}

// step is one piece of a template. It writes to the end of what the frame holds.
type step func(f *frame, dot reflect.Value)

// frame is what a running template has beside its dot.
type frame struct {
	out       []byte
	stack     []reflect.Value // the variables of all templates that are running
	variables []reflect.Value // those of this one, the first of them its $
}

// declined is what a step panics with that meets what only the library knows how to
// treat, such as a field of nothing.
type declined struct{}

// run runs a program from its first step; ok is false where one of them declined.
func (p *program) run(out []byte, view reflect.Value) (done []byte, ok bool) {
	defer func() {
		if r := recover(); r != nil {
			if _, known := r.(declined); !known {
				panic(r)
			}
			done, ok = out, false
		}
	}()
	f := &frame{out: out}
	p.call(f, view)
	return f.out, true
}

// call runs a program within another. It sees none of the other's variables.
func (p *program) call(f *frame, view reflect.Value) {
	outer, below := f.variables, len(f.stack)
	f.stack = append(append(f.stack, view), make([]reflect.Value, p.variables-1)...)
	f.variables = f.stack[below:]
	for _, do := range p.steps {
		do(f, view)
	}
	f.variables, f.stack = outer, f.stack[:below]
}
