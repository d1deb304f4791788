package formula

import (
	"strings"
	"time"

	"plait/internal/diag"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

// Application is how long a bowl takes to put on: its value runs from the first touch
// until the last section is covered.
type Application struct {
	source.Stated[time.Duration]
	Sections []Section // in the order of work; none where the whole was given as one time
}

// Section is a part of the hair that is covered in one go.
type Section struct {
	Name  source.Text
	Wait  time.Duration // before it, the hands rest
	Takes time.Duration
}

// waitWord stands among the sections of an application for a time in which nothing is
// put on, as when roots wait for the lengths.
const waitWord = "wait"

// readApplication reads "18 min", or a time for each section in the order of work:
// {lengths: 12 min, wait: 8 min, roots: 5 min}.
func (b *Block) readApplication(f *yamlpos.Fields, r *reader) {
	node := f.Node("apply")
	if node == nil {
		return
	}
	if node.Kind != yamlpos.Map {
		if t, ok := f.Text("apply"); ok {
			b.Apply.Stated, _ = r.takes(t)
		}
		return
	}
	if sections, ok := r.sections(f); ok {
		b.Apply.Sections = sections
		b.Apply.Span = node.Span
		for _, s := range sections {
			b.Apply.Value += s.Wait + s.Takes
		}
		b.matchPlaces(r)
	}
}

// sections reads the sections of an application; ok is false where one of them could
// not be read.
func (r *reader) sections(f *yamlpos.Fields) (sections []Section, ok bool) {
	ok = true
	var wait source.Stated[time.Duration]
	for _, p := range f.Entries("apply") {
		t, fine := f.Reader().Text(p.Value, "the time of "+p.Key.Value)
		if !fine {
			ok = false
			continue
		}
		takes, fine := r.takes(t)
		ok = ok && fine
		if p.Key.Value != waitWord {
			sections = append(sections, Section{Name: p.Key, Wait: wait.Value, Takes: takes.Value})
			wait = source.Stated[time.Duration]{}
			continue
		}
		if len(sections) == 0 {
			r.errorf("formula/sections", p.Key.Span, "a wait before the first section")
			r.help("nothing is on the hair yet: begin the bowl later, as in start: 10 min")
			ok = false
		}
		wait = source.Stated[time.Duration]{Value: takes.Value, Span: p.Key.Span}
	}
	switch {
	case ok && len(sections) == 0:
		r.errorf("formula/sections", f.KeySpan("apply"), "an application without a section")
		r.help("write a time for each section in the order of work, as in apply: {nape: 3 min, crown: 4 min}, or one for all of them")
		return nil, false
	case ok && wait.Set():
		r.errorf("formula/sections", wait.Span, "a wait after the last section")
		r.help("how long the bowl stays on is said by time")
		return nil, false
	}
	return sections, ok
}

// matchPlaces holds the sections of an application against several places that the
// bowl goes on: each is covered, and nothing else. One place alone may be covered in
// parts of any name.
func (b *Block) matchPlaces(r *reader) {
	if len(b.On) < 2 {
		return
	}
	places := make([]string, len(b.On))
	left := map[string]source.Text{}
	for i, place := range b.On {
		places[i] = place.Value
		left[place.Value] = place
	}
	for _, s := range b.Apply.Sections {
		if _, ok := left[s.Name.Value]; !ok {
			r.errorf("formula/sections", s.Name.Span, "the bowl does not go on %q", s.Name.Value)
			r.help("%s", placesHelp(s.Name.Value, places))
		}
		delete(left, s.Name.Value)
	}
	for _, place := range b.On {
		if _, missing := left[place.Value]; missing {
			r.errorf("formula/sections", place.Span, "apply does not say how long %q takes", place.Value)
			r.help("give it a time in apply, or take it out of on")
		}
	}
}

func placesHelp(name string, places []string) string {
	list := "it goes on: " + strings.Join(places, ", ")
	if near := diag.DidYouMean(name, places); near != "" {
		return "did you mean " + near + "? " + list
	}
	return list
}

// takes reads how long something takes that takes time.
func (r *reader) takes(t source.Text) (source.Stated[time.Duration], bool) {
	d, ok := r.duration("formula/time", t)
	if ok && d.Value == 0 {
		r.errorf("formula/time", t.Span, "an application that takes no time")
		r.help("write how long the brush is at work, as in 18 min, or leave it out")
		return source.Stated[time.Duration]{}, false
	}
	return d, ok
}
