package check

import (
	"plait/internal/derive"
	"plait/internal/exact"
)

// limit returns the strictest limit of an ingredient after mixing, the law's or that of
// a range file, and says whose it is; ok is false where neither is known.
func (p *Pass) limit(c derive.Content) (share exact.Number, says string, ok bool) {
	legal, known := p.Course.Limits().Limit(c.Name)
	switch {
	case known && (c.Limit.IsZero() || !c.Limit.Less(legal.Share)):
		return legal.Share, "the law stops at " + percent(legal.Share) + " (" + p.Course.Limits().Cite(legal) + ")", true
	case c.Limit.IsZero():
		return exact.Zero, "", false
	}
	return c.Limit, "the range file stops at " + percent(c.Limit) + " (checked " + c.Checked + ")", true
}
