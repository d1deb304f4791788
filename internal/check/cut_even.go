package check

import (
	"plait/internal/diag"
	"plait/internal/geom"
	"plait/internal/lesson"
	"plait/internal/sheet"
)

var cutEven = Rule{
	ID:    "cut/even",
	Title: "one length all over is held straight out",
	Why: "A guide that travels makes the length grow or shrink up the head, by as much as the hair is lifted; straight out, at 90°, it stays the same. " +
		"A length that does not travel is the same everywhere, so with another elevation the sheet shows even layers and names a graduation.",
	Source:   "geometry of the strands: lengths grow by the cosine of the elevation for each centimetre up the head",
	Severity: diag.Warning,
	Of:       Sheet,
	Before:   "cut: [{of: all, elevation: 45, guide: {length: 5}}]",
	After:    "cut: [{of: all, elevation: 45, guide: {length: 5, at: hairline, travels: yes}}]",
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		for _, s := range p.Derived.Sheets(l) {
			for i := range s.Sheet.Cuts {
				p.evenlyHeld(&s.Sheet.Cuts[i])
			}
		}
	},
}

// evenlyHeld reports a cut to one length whose strands are held at an angle that gives another.
func (p *Pass) evenlyHeld(cut *sheet.Cut) {
	held := cut.Lift.Elevation
	if cut.Guide.Kind != sheet.GuideFixed || !cut.Elevation.Valid() || cut.Lift.FromFloor || held == 0 || held == geom.Degrees(90) {
		return
	}
	p.Reportf(cut.Elevation, "write guide: {length: …, at: hairline, travels: yes}, or elevation: 90",
		"this guide is one length everywhere, which hair lifted to this angle is not cut to")
}
