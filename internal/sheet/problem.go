package sheet

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"plait/internal/diag"
	"plait/internal/head"
	"plait/internal/scalp"
	"plait/internal/source"
)

// Explain words an error of [scalp.Base.Part] for the author, at the part of the
// step that it is about.
func (s *Sheet) Explain(err error) diag.Diagnostic {
	var p *scalp.Problem
	if !errors.As(err, &p) || p.Step < 0 || p.Step >= len(s.Steps) {
		return diag.Errorf(ruleLine, s.Span(), "the head sheet cannot be worked out: %v", err).
			WithHelp("look at its partings again")
	}
	step := &s.Steps[p.Step]
	return step.explain(p, fmt.Sprintf("step %d, %s", p.Step+1, p.Parting))
}

// The rules of what only shows on the head.
const (
	ruleMisses  = "head/misses"
	ruleSection = "head/unknown-section"
	ruleLine    = "head/line"
)

// explain words a problem of this step; which says which step it is.
func (s *Step) explain(p *scalp.Problem, which string) diag.Diagnostic {
	switch p.Code {
	case scalp.Misses:
		return s.misses(p, which)
	case scalp.Empty:
		return diag.Errorf(ruleMisses, s.named(p.Section), "%s: %q stays empty in every section", which, p.Section).
			WithHelp("move the parting, or part fewer sections with of:")
	case scalp.UnknownSection:
		return diag.Errorf(ruleSection, s.asked(p.Section), "%s: there is no section %q yet", which, p.Section).
			WithHelp("%s", suggest(p.Section, p.Known, "by now there are"))
	case scalp.NameTaken:
		help := "give the parts other names with gives:"
		if _, err := strconv.Atoi(p.Section); err == nil {
			help = "part both sections in one step, as in of: [back, front], which makes back 1 and front 1; or give the parts other names with gives:"
		}
		return diag.Errorf(ruleName, s.named(p.Section), "%s: two sections would be called %q", which, p.Section).WithHelp("%s", help)
	case scalp.WrongNames:
		return diag.Errorf(ruleName, s.option("gives"), "%s: %s named, and the parting makes %d", which, parts(int(p.Value)), int(p.Least)).
			WithHelp("name %d parts, or leave gives: out for the usual names", int(p.Least))
	case scalp.BadPlace, scalp.OffMidline, scalp.OutOfRange:
		return s.badOption(p, which)
	case scalp.TooMany:
		if p.What == "polygons" {
			help := "part the section into fewer or wider parts"
			if _, sliced := s.Taken.Part.(scalp.Slices); sliced {
				help = lineHelp[scalp.SlicesCross]
			}
			return diag.Errorf(ruleTooMany, s.Kind.Span, "%s: the lines cross too often to be drawn", which).WithHelp("%s", help)
		}
		return diag.Errorf(ruleTooMany, s.Kind.Span, "%s: the sheet comes to %d %s, and %d are the most", which, int(p.Value), p.What, int(p.Most)).
			WithHelp("draw the rest on a second sheet")
	}
	return diag.Errorf(ruleLine, s.lineAt(p), "%s: %s", which, lineReason(p)).WithHelp("%s", lineHelp[p.Code])
}

func parts(n int) string {
	if n == 1 {
		return "1 part is"
	}
	return fmt.Sprintf("%d parts are", n)
}

func (s *Step) misses(p *scalp.Problem, which string) diag.Diagnostic {
	help := "part another section, or move the line"
	if len(s.Of) == 0 {
		help = "say which sections it divides with of:, or move the line"
	}
	if p.Value < touching {
		return diag.Errorf(ruleMisses, s.asked(p.Section), "%s: the line runs along the edge of %q and does not divide it", which, p.Section).
			WithHelp("%s", help)
	}
	return diag.Errorf(ruleMisses, s.asked(p.Section), "%s: the line misses %q; it comes no nearer than %.1f cm", which, p.Section, p.Value).
		WithHelp("%s", help)
}

// touching is how near a line that misses a section counts as its edge, in cm.
const touching = 0.05

// badOption words a place or a number that cannot be used.
func (s *Step) badOption(p *scalp.Problem, which string) diag.Diagnostic {
	var bad *head.PlaceError
	switch {
	case errors.As(p.Cause, &bad):
		d := placeFault(s.place(bad.Place), bad)
		d.Message = which + ": " + d.Message
		return d
	case p.Code == scalp.OffMidline:
		t := s.place(p.What)
		return diag.Errorf(rulePlace, t.Span, "%s: %q does not lie in the middle, and this parting is alike on both sides", which, t.Value).
			WithHelp("name a landmark in the middle, as in crown or occipital bone")
	}
	key := keyOf[p.What]
	switch _, counted := s.spans["into"]; {
	case p.What == scalp.ToothWidth:
		return diag.Errorf(ruleNumber, s.option(key.name), "%s: a tooth would be %s cm wide, and %s cm is the least", which, plain(p.Value), plain(p.Least)).
			WithHelp("take fewer teeth")
	case p.What == "slices" && !counted:
		return diag.Errorf(ruleNumber, s.option("every"), "%s: there would be %d slices, and there must be from %d to %d",
			which, int(p.Value), int(p.Least), int(p.Most)).WithHelp("make them wider or narrower, or part the section before")
	}
	d := outOf(ruleNumber, s.option(key.name), p.What, plain(p.Value), scalp.Bounds{Least: p.Least, Most: p.Most}, unitOf(key.units))
	d.Message = which + ": " + d.Message
	return d
}

// keyOf gives the option behind a number that package scalp speaks of, and its unit.
var keyOf = map[string]struct {
	name  string
	units []string
}{
	"slope": {"slope", degrees}, "distance": {"distance", centimetres}, "radius": {"radius", centimetres},
	"wedges": {"into", noUnit}, "rings": {"into", noUnit}, "start": {"start", degrees},
	"teeth": {"teeth", noUnit}, "depth": {"depth", centimetres}, scalp.ToothWidth: {"teeth", centimetres},
	"slices": {"into", noUnit}, "width": {"every", centimetres},
	"foil": {"foil", noUnit}, "foil of": {"foil", noUnit}, "weave": {"weave", noUnit},
}

// place returns the place that an option names, by its words as they are printed.
func (s *Step) place(words string) source.Text {
	for _, t := range s.places {
		if p, err := head.ParsePlace(t.Value); err == nil && p.String() == words {
			return t
		}
	}
	return source.Text{Value: words, Span: s.Kind.Span}
}

// asked returns where the step asks for a section, the kind of parting where it
// asks for all.
func (s *Step) asked(section string) source.Span {
	for _, t := range s.Of {
		if t.Value == section {
			return t.Span
		}
	}
	return s.Kind.Span
}

// named returns where the step names a part, alone or behind its parent's name.
func (s *Step) named(section string) source.Span {
	i := slices.IndexFunc(s.Gives, func(t source.Text) bool {
		return section == t.Value || strings.HasSuffix(section, " "+t.Value)
	})
	if i < 0 {
		return s.option("gives")
	}
	return s.Gives[i].Span
}

func (s *Step) lineAt(p *scalp.Problem) source.Span {
	if p.Code == scalp.NoZigzag {
		return s.option("zigzag")
	}
	return s.Kind.Span
}

func lineReason(p *scalp.Problem) string {
	switch p.Code {
	case scalp.NoLine:
		return "these points give no line on the head"
	case scalp.NoZigzag:
		return "this parting cannot run in a zigzag"
	case scalp.NoStretch:
		return "the section does not touch the line that slices are counted along"
	case scalp.SlicesCross:
		return fmt.Sprintf("the slices would cross in %q", p.Section)
	}
	return "the sections do not cover the scalp once, which is a fault of this program"
}

var lineHelp = map[scalp.Code]string{
	scalp.NoLine:      "take points that do not lie on one line, or give a third with through:",
	scalp.NoZigzag:    "take zigzag: away; a radial, concentric or sliced parting is a family of lines",
	scalp.NoStretch:   "count them along another line, as in along: ear to ear",
	scalp.SlicesCross: "take fewer slices, or part a panel off before and slice that: slices run together at the sides and in the hollow of the nape",
	scalp.Broken:      "move the parting a little, and tell those who make this program",
}

// Warn words what is odd about a section that can be drawn, and where: the place
// that gives it its name, and a way out.
func (s *Sheet) Warn(p *scalp.Problem) (at source.Span, message, help string) {
	step := &s.Steps[p.Step]
	at = step.named(p.Section)
	if p.Code == scalp.Split {
		return at, fmt.Sprintf("%q lies in %d pieces", p.Section, int(p.Value)),
			fmt.Sprintf("give the pieces names of their own, or say that it is meant with pieces: %d", int(p.Value))
	}
	return at, fmt.Sprintf("%q is a sliver of %.1f cm², too small or too narrow to clip away", p.Section, p.Value),
		"move the parting, or leave it out"
}

// Named returns where a section of the sheet gets its name: what the step gives it,
// or the kind of parting that does.
func (s *Sheet) Named(section scalp.Section) source.Span {
	if section.Step < 0 || section.Step >= len(s.Steps) {
		return s.Span()
	}
	return s.Steps[section.Step].named(section.Name)
}
