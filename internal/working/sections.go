package working

import (
	"fmt"
	"strings"

	"plait/internal/derive"
)

// sections works out an amount by section: what the whole head would take, shared
// out by area.
func (w *writer) sections(s *derive.Shared) {
	if s == nil {
		return
	}
	w.mass("whole head ("+s.String()+")", "", s.Whole)
	var grams []string
	for _, p := range s.Parts {
		sum := fmt.Sprintf("%s × %s cm² ÷ %s cm²", s.Whole, p.Area.Decimal(1), s.Scalp.Decimal(1))
		exact := s.Whole.Times(p.Area.Quo(s.Scalp))
		w.add(p.Section, sum, p.Mixed.String(), exact.Cmp(p.Mixed) == 0)
		grams = append(grams, p.Mixed.String())
	}
	if len(grams) > 1 {
		w.add("to mix", strings.Join(grams, " + "), s.Total.String(), true)
	}
}
