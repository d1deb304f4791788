package check

import (
	"time"

	"plait/internal/diag"
	"plait/internal/measure"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/internal/source"
)

var houseLooser = Rule{
	ID:    "house/looser",
	Title: "a house rule tightens something",
	Why: "The strictest of law, maker and house holds, so a house rule that is looser than the others changes nothing. It looks like " +
		"protection and is none.",
	Source: "the house rules of the course; Regulation (EC) No 1223/2009, Annex III, entry 12(a)",
	Of:     Settings,
	Before: "house: {strongest: 50 vol}",
	After:  "house: {strongest: 30 vol}",
	Since:  "1.0",
	Course: func(p *Pass) {
		p.looserStrength()
		p.looserTime()
		for _, t := range p.Course.House.Without {
			p.unknownShade(t)
		}
	},
}

// looserStrength reports a house limit of strength above the law or above what any
// range of the course is made for.
func (p *Pass) looserStrength() {
	limit := p.Course.House.Strongest
	if !limit.Set() {
		return
	}
	if most := p.Course.Limits().Peroxide; most.Cmp(limit.Value) < 0 {
		p.Reportf(limit.Span, "write "+most.String()+" or less", "the house allows %s, and the law stops at %s (%s)", limit.Span.Text(), most, p.Course.Limits())
		return
	}
	strongest, all := peroxide.Strength{}, true
	p.eachTerms(func(t shade.Terms) {
		all = all && len(t.Strengths) > 0
		for _, s := range t.Strengths {
			if strongest.Cmp(s) < 0 {
				strongest = s
			}
		}
	})
	if all && !strongest.IsZero() && strongest.Cmp(limit.Value) < 0 && !strongest.Agrees(limit.Value) {
		p.Warnf(limit.Span, "lower it, or delete it", "the house allows %s, and no range of the course goes beyond %s", limit.Span.Text(), strongest)
	}
}

// looserTime reports a house limit of time beyond every maker's own.
func (p *Pass) looserTime() {
	limit := p.Course.House.Longest
	if !limit.Set() {
		return
	}
	longest, all := time.Duration(0), true
	p.eachTerms(func(t shade.Terms) {
		all = all && t.Time.Max > 0
		longest = max(longest, t.Time.Max)
	})
	if all && 0 < longest && longest < limit.Value {
		p.Warnf(limit.Span, "lower it, or delete it", "the house allows %s, and no range of the course goes beyond %s", limit.Span.Text(), measure.Minutes(longest))
	}
}

// eachTerms calls a function with the directions of every range.
func (p *Pass) eachTerms(each func(shade.Terms)) {
	for _, r := range p.Course.Ranges {
		for _, t := range r.Kinds {
			each(t)
		}
	}
}

// unknownShade reports a shade that the house leaves out and no range has.
func (p *Pass) unknownShade(t source.Text) {
	var codes []string
	for _, r := range p.Course.Ranges {
		if _, err := r.Find(t.Value); err == nil {
			return
		}
		codes = append(codes, r.Shades...)
	}
	help := "delete it, or mend the code"
	if near := diag.DidYouMean(t.Value, codes); near != "" {
		help = "did you mean " + near + "?"
	}
	p.Reportf(t.Span, help, "no range of the course has a shade %q", t.Value)
}
