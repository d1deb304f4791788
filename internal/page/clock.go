package page

import (
	"fmt"
	"html"
	"html/template"
	"strings"
	"time"

	"plait/internal/derive"
	"plait/internal/exact"
	"plait/internal/lesson"
	"plait/internal/measure"
)

// The drawing of a service, in pixels down and per cent across: a row for each bowl
// with its name over its bar, and minutes under the last.
const (
	rowHeight   = 40
	nameLine    = 14 // of a row, from its top
	barTop      = 20
	barHeight   = 14
	axisHeight  = 24
	mostTicks   = 8 // on the axis, so that a phone has room for them
	smallestGap = 5 * time.Minute
)

// clock lays out when the bowls of a lesson go on and come off; nil where none says
// when it goes on.
func (b *builder) clock(l *lesson.Lesson) *ClockView {
	t := b.derived.Timeline(l)
	if t == nil {
		return nil
	}
	v := &ClockView{Chair: minutes(t.Chair), Drawing: clockDrawing(t.Rows)}
	for _, r := range t.Rows {
		v.Rows = append(v.Rows, clockRow(r))
	}
	for _, f := range t.LeftOut {
		v.LeftOut = append(v.LeftOut, bowlTitle(f.Name.Value))
	}
	return v
}

func clockRow(r derive.Row) ClockRow {
	row := ClockRow{
		Title: bowlTitle(r.Formula.Name.Value),
		On:    moments(r.Applied),
		Rinse: moments(r.Rinse),
		Stays: minutes(measure.Span{Min: r.Last.Min, Max: r.First.Max}),
	}
	for _, s := range r.Sections {
		row.Sections = append(row.Sections, ClockSection{Name: capital(s.Name), On: moments(s.Applied), Stays: minutes(s.On)})
	}
	if !r.Even.Span.IsZero() {
		row.Even = evenText(r)
	}
	return row
}

// evenText says when the bowl comes off if every section is to have the maker's time by
// itself.
func evenText(r derive.Row) string {
	who := r.Formula.Range.Name + "’s " + minutes(r.Even.Span)
	if r.Even.OK {
		return fmt.Sprintf("Rinsed at %s, every section of %s has had %s.", moments(r.Even.Rinse), r.Formula.Name.Value, who)
	}
	return fmt.Sprintf("No moment gives each section of %s %s by itself: the first is over it at %s, and the last is there at %s.",
		r.Formula.Name.Value, who, moment(r.Even.Rinse.Max), moment(r.Even.Rinse.Min))
}

// moments prints moments of the service in minutes, "22–28" or "38".
func moments(s measure.Span) string {
	if s.Min == s.Max {
		return moment(s.Max)
	}
	return moment(s.Min) + dash + moment(s.Max)
}

// moment prints a moment of the service in minutes, to a hundredth: "22", "22.5".
func moment(d time.Duration) string {
	return exact.Of(int64(d/time.Second), 60).Decimal(2)
}

// clockDrawing draws the bowls of a service over one axis of minutes: going on, on
// all the hair, and the time in which to rinse. The table beside it says the same.
func clockDrawing(rows []derive.Row) template.HTML {
	var end time.Duration
	for _, r := range rows {
		end = max(end, r.Rinse.Max)
	}
	at := func(d time.Duration) string { return percent(d.Seconds() / end.Seconds() * 100) }
	var svg strings.Builder
	fmt.Fprintf(&svg, `<svg class="hours" width="100%%" height="%d" aria-hidden="true">`, len(rows)*rowHeight+axisHeight)
	drawTicks(&svg, end, len(rows)*rowHeight, at)
	for i, r := range rows {
		top := i * rowHeight
		fmt.Fprintf(&svg, `<text y="%d">%s</text>`, top+nameLine, html.EscapeString(bowlTitle(r.Formula.Name.Value)))
		for _, p := range []struct {
			class string
			measure.Span
		}{
			{"goes", r.Applied},
			{"stays", measure.Span{Min: r.Applied.Max, Max: r.Rinse.Min}},
			{"rinse", r.Rinse},
		} {
			if p.Max > p.Min {
				fmt.Fprintf(&svg, `<rect class="%s" x="%s" y="%d" width="%s" height="%d"/>`, p.class, at(p.Min), top+barTop, at(p.Max-p.Min), barHeight)
			}
		}
		drawSections(&svg, r, top, at)
		fmt.Fprintf(&svg, `<line class="rinse" x1="%s" x2="%s" y1="%d" y2="%d"/>`, at(r.Rinse.Max), at(r.Rinse.Max), top+barTop-3, top+barTop+barHeight+3)
	}
	svg.WriteString(`</svg>`)
	return template.HTML(svg.String())
}

// drawSections marks where one section of an application ends and the next begins, and
// takes what lies between two of them as a wait out of the bar.
func drawSections(svg *strings.Builder, r derive.Row, top int, at func(time.Duration) string) {
	for i, s := range r.Sections {
		if i == 0 {
			continue
		}
		if before := r.Sections[i-1].Applied.Max; before < s.Applied.Min {
			fmt.Fprintf(svg, `<rect class="stays" x="%s" y="%d" width="%s" height="%d"/>`, at(before), top+barTop, at(s.Applied.Min-before), barHeight)
		}
		fmt.Fprintf(svg, `<line x1="%s" x2="%s" y1="%d" y2="%d"/>`, at(s.Applied.Min), at(s.Applied.Min), top+barTop, top+barTop+barHeight)
	}
}

// drawTicks draws the axis of minutes. The first and the last number keep inside the
// drawing; a number too close to the end is left out.
func drawTicks(svg *strings.Builder, end time.Duration, bottom int, at func(time.Duration) string) {
	gap := tickGap(end)
	for d := time.Duration(0); d <= end; d += gap {
		anchor := ` text-anchor="middle"`
		switch {
		case d == 0:
			anchor = ""
		case end-d < gap/4:
			anchor = ` text-anchor="end"`
		}
		fmt.Fprintf(svg, `<line x1="%s" x2="%s" y1="0" y2="%d"/><text x="%s" y="%d"%s>%d</text>`,
			at(d), at(d), bottom+4, at(d), bottom+axisHeight-4, anchor, int(d.Minutes()))
	}
}

// tickGap is how far the numbers of an axis stand apart: a round number of minutes.
func tickGap(end time.Duration) time.Duration {
	for _, gap := range []time.Duration{smallestGap, 10 * time.Minute, 15 * time.Minute, 30 * time.Minute, time.Hour} {
		if end/gap < mostTicks {
			return gap
		}
	}
	return (end/mostTicks/time.Hour + 1) * time.Hour
}
