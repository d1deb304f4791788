package page

import (
	"fmt"
	"html/template"
	"strings"
	"time"

	"plait/internal/derive"
	"plait/internal/lesson"
	"plait/internal/measure"
)

// clock lays out when the bowls of a lesson go on and come off; nil where none
// says when it goes on.
func (b *builder) clock(l *lesson.Lesson) *ClockView {
	t := b.derived.Timeline(l)
	if t == nil {
		return nil
	}
	v := &ClockView{Chair: minutes(t.Chair)}
	var end time.Duration
	for _, r := range t.Rows {
		end = max(end, r.Rinse.Max)
	}
	for _, r := range t.Rows {
		v.Rows = append(v.Rows, ClockRow{
			Title: bowlTitle(r.Formula.Name.Value),
			Bar:   clockBar(r, end),
			Text:  clockText(r),
		})
	}
	return v
}

// clockText says a row in words, in minutes of the service.
func clockText(r derive.Row) string {
	return fmt.Sprintf("goes on from minute %s to %s; rinse %s; the first hair has it %s, the last %s",
		minute(r.Applied.Min), minute(r.Applied.Max), window(r.Rinse), minutes(r.First), minutes(r.Last))
}

func window(s measure.Span) string {
	if s.Min == s.Max {
		return "at minute " + minute(s.Max)
	}
	return "between minute " + minute(s.Min) + " and " + minute(s.Max)
}

func minute(d time.Duration) string {
	return strings.TrimSuffix(measure.Minutes(d), " min")
}

// clockBar draws a row: going on, staying, and the time in which to rinse. The list
// beside it says the same in words.
func clockBar(r derive.Row, end time.Duration) template.HTML {
	var svg strings.Builder
	svg.WriteString(`<svg class="clock-bar" aria-hidden="true">`)
	for _, p := range []struct {
		class    string
		from, to time.Duration
	}{
		{"goes", r.Applied.Min, r.Applied.Max},
		{"stays", r.Applied.Max, r.Rinse.Min},
		{"rinse", r.Rinse.Min, r.Rinse.Max},
	} {
		if p.to > p.from {
			share := func(d time.Duration) string { return percent(d.Seconds() / end.Seconds() * 100) }
			fmt.Fprintf(&svg, `<rect class="%s" x="%s" width="%s" height="100%%"/>`, p.class, share(p.from), share(p.to-p.from))
		}
	}
	svg.WriteString(`</svg>`)
	return template.HTML(svg.String())
}
