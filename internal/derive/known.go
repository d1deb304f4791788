package derive

import (
	"slices"
	"strings"
	"sync"

	"plait/internal/scalp"
)

// KnownSheet is what a head sheet comes to, by its text, as one process of a program leaves it
// to the next: to part a head takes longer than all the rest of a lesson.
type KnownSheet struct {
	Text     string
	Area     float64 // of the scalp, in cm²
	Sections []scalp.Section
	Warnings []scalp.Problem
}

// known is what was loaded, by text.
var known struct {
	sync.Mutex
	sheets map[string]facts
}

// LoadSheets takes what another process of the same program left.
func LoadSheets(list []KnownSheet) {
	known.Lock()
	defer known.Unlock()
	known.sheets = make(map[string]facts, len(list))
	for _, k := range list {
		known.sheets[k.Text] = k.facts()
	}
}

// recalled returns what is known of a sheet.
func recalled(text string) (facts, bool) {
	known.Lock()
	defer known.Unlock()
	f, ok := known.sheets[text]
	return f, ok
}

// KnownSheets returns what the course's head sheets come to, sorted by text; fresh reports whether
// that is more or less than what was loaded. Sheets with a fault are not among them, nor haircuts,
// whose lengths take as long to write as to work out.
func (d *Derived) KnownSheets() (list []KnownSheet, fresh bool) {
	seen := map[string]bool{}
	for _, p := range d.parts {
		for _, s := range p.sheets {
			if text := s.File.Text(); s.OK && !seen[text] {
				seen[text] = true
				if k, ok := s.worked().facts().known(text); ok {
					list = append(list, k)
				}
			}
		}
	}
	slices.SortFunc(list, func(a, b KnownSheet) int { return strings.Compare(a.Text, b.Text) })
	known.Lock()
	defer known.Unlock()
	fresh = len(list) != len(known.sheets)
	for _, k := range list {
		_, old := known.sheets[k.Text]
		fresh = fresh || !old
	}
	return list, fresh
}

// known makes what can be written of facts; ok is false for what is not kept.
func (f facts) known(text string) (k KnownSheet, ok bool) {
	k = KnownSheet{Text: text, Area: f.area, Sections: f.sections}
	for _, w := range f.warnings {
		if w.Cause != nil {
			return k, false
		}
		k.Warnings = append(k.Warnings, *w)
	}
	return k, f.fault == nil && f.cut == nil
}

// facts is the inverse of known.
func (k KnownSheet) facts() facts {
	f := facts{area: k.Area, sections: k.Sections}
	for _, w := range k.Warnings {
		f.warnings = append(f.warnings, &w)
	}
	return f
}
