package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/source"
)

// claim holds a typed weight against the computed one: within the larger of one
// scale step and 2 % it is a note, beyond that it has the rule's own severity. What
// names the weight, "the developer".
func (p *Pass) claim(f *derive.Formula, what string, typed source.Stated[measure.Mass], truth measure.Mass) *diag.Diagnostic {
	step := p.Course.Scale
	shown := weighedString(truth, step)
	help := "write " + shown + ", or change what it follows from"
	switch mix.CompareMass(typed.Value, truth, step) {
	case mix.Same:
		return nil
	case mix.Near:
		d := p.Notef(typed.Span, help, "%s comes to %s, not %s: near enough for the scale, but the card should say what to weigh", what, shown, typed.Value)
		*d = d.WithEdit(typed.Span, shown)
		return d
	}
	d := p.Reportf(typed.Span, help, "%s comes to %s, not %s", what, shown, typed.Value)
	*d = d.WithEdit(typed.Span, shown)
	return d
}

// weighedString prints a weight as the scale shows it.
func weighedString(m, step measure.Mass) string {
	return measure.Grams(m.Grams().Round(step.Grams())).String()
}
