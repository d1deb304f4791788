package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/hair"
	"plait/internal/shade"
)

// blonde is the natural level from which light shades cover white hair, because
// there is little difference to cover (trade educators).
const blonde shade.Level = 8

var formulaWhiteCover = Rule{
	ID:    "formula/white-cover",
	Title: "white hair is covered by a colour that covers",
	Why: "Permanent colour covers white hair, up to level 7; lighter shades hold too little dye unless the rest of the hair is blonde " +
		"itself. Demi colour blends white hair, softly and for some weeks, and comes to its end where half of it is white. That is a good " +
		"service with another name. A target that says cover, as in 6 cover white, asks for it on any share of white; without the word plait takes " +
		"hair that is white by half or more as meant to be covered. 20 vol is the developer usually taken for it.",
	Source: "Hair Colour for Hairstylists: Level 2, BCcampus 2021, ch. 3.1 (demi blends, permanent covers); trade educators " +
		"(level 8 and lighter); common practice",
	Severity: diag.Warning,
	Before:   "kind: demi\ncolour: 30 g 6N\ndeveloper: 6 vol\nhair: 6 natural, 60 % white\ntarget: 6",
	After:    "kind: permanent\ncolour: 30 g 6N\ndeveloper: 20 vol\nhair: 6 natural, 60 % white\ntarget: 6",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		kind, white := f.Kind.Value, f.Hair.Value.White
		if !f.Hair.Set() || white.IsZero() || !f.Bowl.HasLevel || kind == shade.Lightener || kind == shade.Filler {
			return
		}
		half := !white.Less(exact.Half)
		switch cover := f.Target.Value.Cover; {
		case !cover && !half:
		case liftsHair(kind):
			p.tooLight(f)
			p.tooWeak(f)
		case half:
			d := p.Reportf(f.Kind.Span, "call it blending, or take a permanent colour",
				"%s white is more than %s colour covers: it blends it (common practice)", percent(white), kind)
			*d = d.WithNote(f.Hair.Span, "the hair")
		default:
			p.Notef(f.Target.Span, "call it blending, or take a permanent colour",
				"%s colour blends white hair, and the target says cover (common practice)", kind)
		}
	},
}

// tooLight reports shades that are too light to cover white hair, unless the rest is
// blonde itself.
func (p *Pass) tooLight(f *derive.Formula) {
	if f.Hair.Value.Level < blonde && !hair.CoversWhite(f.Bowl.Level.High) {
		p.Reportf(shades(f), "cover at level 7 or darker, or say that it blends",
			"these shades read level %s, and from level 8 on they cover white hair poorly (common practice)", derive.Reading(f.Bowl.Level))
	}
}

// tooWeak notes a developer that is weaker than what white hair is usually covered with.
func (p *Pass) tooWeak(f *derive.Formula) {
	if usual, _ := hair.DeveloperFor(0, true); f.Bowl.Bottle.Cmp(usual) < 0 && !f.Bowl.Bottle.Agrees(usual) {
		p.Notef(f.Developer.Span, "test a strand, or take "+bothUnits(usual)+" where range and house allow it",
			"white hair is usually covered with %s; %s may leave it half covered (common practice)", usual.VolumesString(), strengthWords(f))
	}
}

// percent prints a fraction of one, "33 %".
func percent(n exact.Number) string { return n.Mul(exact.Int(100)).Decimal(2) + " %" }
