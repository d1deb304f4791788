package check

import (
	"plait/internal/derive"
	"plait/internal/lesson"
	"plait/internal/sheet"
)

var cutLengths = Rule{
	ID:    "cut/lengths",
	Title: "typed lengths are what the cut comes to",
	Why: "How long hair is after a cut follows from the guide, from how strands are lifted and from where they grow. A length " +
		"that is typed beside them has to agree.",
	Source: "geometry of the strands on the model of the head",
	Of:     Sheet,
	Before: "cut: [{of: all, elevation: 45, guide: {length: 5, at: hairline, travels: yes}, shortest: 5, lengths: {crown: 12}}]",
	After:  "cut: [{of: all, elevation: 45, guide: {length: 5, at: hairline, travels: yes}, shortest: 5, lengths: {crown: 17}}]",
	Since:  "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		for _, s := range p.Derived.Sheets(l) {
			if s.Cut == nil {
				continue
			}
			for i := range s.Sheet.Cuts {
				p.claimedLengths(s, &s.Sheet.Cuts[i])
			}
		}
	},
}

// claimedLengths holds the lengths of one cut against its sections.
func (p *Pass) claimedLengths(s *derive.Sheet, cut *sheet.Cut) {
	shortest, longest := 0.0, 0.0
	for i, section := range s.Sections {
		of := s.Cut.Lengths[i]
		if section.Cut != cut || of.Longest == 0 {
			continue
		}
		if shortest == 0 || of.Shortest < shortest {
			shortest = of.Shortest
		}
		longest = max(longest, of.Longest)
	}
	if cut.Shortest.Set() && longest > 0 {
		p.claimNumber(cut.Shortest, shortest, "the shortest hair of this cut", "cm")
	}
	if cut.Longest.Set() && longest > 0 {
		p.claimNumber(cut.Longest, longest, "the longest hair of this cut", "cm")
	}
	for _, claim := range cut.Lengths {
		if cm, ok := s.Cut.At(claim.Of.Value); ok {
			p.claimNumber(claim.Says, cm, "the hair at "+claim.Of.Value, "cm")
			continue
		}
		p.Reportf(claim.Of.Span, "take the length away, or cut the hair there", "the hair at %s is not cut", claim.Of.Value)
	}
}
