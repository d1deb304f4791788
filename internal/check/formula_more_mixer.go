package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/measure"
)

var formulaMoreMixer = Rule{
	ID:    "formula/more-mixer",
	Title: "a bowl holds no more mixer than shade",
	Why: "A mixer is tone without depth. Where it outweighs the shades that have a level, the level on the card says little about what the " +
		"hair will show, and the tone stands alone.",
	Source:   "common practice, no source; makers give limits of their own",
	Severity: diag.Warning,
	Before:   "colour: 10 g 6N + 20 g 0V",
	After:    "colour: 20 g 6N + 10 g 0V",
	Since:    "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		var mixers, shaded measure.Mass
		for i := range f.Colour {
			switch part := f.Bowl.Parts[i]; {
			case part.Shade.Level != 0:
				shaded = shaded.Add(part.Exact)
			case !part.Shade.IsClear():
				mixers = mixers.Add(part.Exact)
			}
		}
		switch {
		case mixers.Cmp(shaded) <= 0:
		case !shaded.IsZero():
			p.Reportf(shades(f), "take less of the mixer, by the maker's directions",
				"%s of mixer in %s of shades with a level (common practice)", weighedString(mixers, p.Course.Scale), weighedString(shaded, p.Course.Scale))
		case f.Target.Set():
			p.Notef(f.Target.Span, "add a shade that has a level, or test a strand",
				"a bowl of mixer alone has no level, so nothing can be said about a target of %d", f.Target.Value.Level)
		}
	},
}
