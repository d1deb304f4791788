package working

import (
	"strings"
	"time"

	"plait/internal/derive"
	"plait/internal/measure"
	"plait/internal/timing"
)

// Service returns the working of when a bowl must come off and how long the hair has it
// by then, in minutes from the start of the service. Of a span of time its end counts.
func Service(r derive.Row) []Line {
	w := &writer{}
	w.minutes("application ends", strings.Join(application(r), " + "), r.Applied.Max)
	zero := r.Applied.Max
	if r.Formula.Time.Zero == timing.FirstTouch {
		zero = r.Applied.Min
	}
	w.minutes("rinse by", measure.Minutes(zero)+" + "+measure.Minutes(r.Formula.Time.Value.Max), r.Rinse.Max)
	if len(r.Sections) == 0 {
		w.minutes("the hair covered first has it", difference(r.Rinse.Max, r.Applied.Min), r.First.Max)
		w.minutes("the hair covered last has it", difference(r.Rinse.Max, r.Applied.Max), r.Last.Max)
	}
	for _, s := range r.Sections {
		w.minutes(s.Name+" has it at most", difference(r.Rinse.Max, s.Applied.Min), s.On.Max)
	}
	return w.lines
}

// application lists the times that add up to the end of an application: when it
// starts, and every section with the wait before it.
func application(r derive.Row) []string {
	terms := []string{measure.Minutes(r.Applied.Min)}
	for _, s := range r.Formula.Apply.Sections {
		if s.Wait > 0 {
			terms = append(terms, measure.Minutes(s.Wait))
		}
		terms = append(terms, measure.Minutes(s.Takes))
	}
	if len(terms) == 1 {
		terms = append(terms, measure.Minutes(r.Formula.Apply.Value))
	}
	return terms
}

func difference(end, start time.Duration) string {
	return measure.Minutes(end) + " − " + measure.Minutes(start)
}

// minutes adds a line whose result is a time.
func (w *writer) minutes(what, sum string, d time.Duration) {
	w.add(what, sum, measure.Minutes(d), true)
}
