package lesson

import (
	"plait/internal/care"
	"plait/internal/shade"
)

// CallsFor returns what in the lesson calls for cautions: what its header says it
// uses, and what its bowls show whether it says so or not.
func (l *Lesson) CallsFor() []care.Use {
	var uses []care.Use
	for _, t := range l.Uses {
		uses = append(uses, care.Use(t.Value))
	}
	for _, f := range l.Formulas {
		if f.Kind.Value.Oxidative() && !f.Developer.None {
			uses = append(uses, care.Colour)
		}
		if f.Kind.Value == shade.Lightener {
			uses = append(uses, care.Lightener)
		}
	}
	return uses
}
