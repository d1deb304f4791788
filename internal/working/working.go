// Package working writes out the arithmetic of a bowl, step by step, as a student
// would on paper.
//
// Every figure comes from the exact values of the bowl itself and none is computed a
// second way, so a working cannot disagree with the card beside it. A result that is
// rounded to be written down says so with its sign: 70 g ÷ 3 ≈ 23.33 g.
package working

import (
	"plait/internal/derive"
	"plait/internal/formula"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/peroxide"
)

// Line is one step: what is worked out, how, and what comes of it.
type Line struct {
	What   string // "developer"
	Sum    string // "30 g × 2"; empty where the value is given
	Result string // "60 g"
	Sign   string // "=", or "≈" where the result is rounded
}

// String prints the line as it stands on paper, "developer: 30 g × 2 = 60 g".
func (l Line) String() string {
	if l.Sum == "" {
		return l.What + ": " + l.Result
	}
	return l.What + ": " + l.Sum + " " + l.Sign + " " + l.Result
}

// Of returns the working of a computed bowl: what its sections take, the colour, a part of it, every shade
// and additive, the developer, the total, the strength in the bowl, the average level
// and what the scale shows. It is empty for a bowl that could not be computed.
func Of(block *formula.Block, c derive.Computed) []Line {
	if !c.OK {
		return nil
	}
	w := &writer{block: block, recipe: c.Mix, bowl: c.Bowl, what: c.ColourWord(), lines: make([]Line, 0, usualLines)}
	w.sections(c.Shared)
	w.colour()
	w.shades()
	w.additives()
	w.developer()
	w.total()
	w.strength()
	w.level()
	w.scale()
	return w.lines
}

// usualLines is how many lines few workings have more of.
const usualLines = 12

type writer struct {
	block  *formula.Block
	recipe mix.Formula
	bowl   mix.Bowl
	what   string // colour or powder
	lines  []Line
}

// mass adds a line whose result is a weight.
func (w *writer) mass(what, sum string, m measure.Mass) {
	w.add(what, sum, m.String(), m.Grams().EndsWithin(massPlaces))
}

// percent adds a line whose result is a strength.
func (w *writer) percent(what, sum string, s peroxide.Strength) {
	w.add(what, sum, s.String(), s.Percent().EndsWithin(massPlaces))
}

func (w *writer) add(what, sum, result string, whole bool) {
	sign := "="
	if !whole {
		sign = "≈"
	}
	w.lines = append(w.lines, Line{What: what, Sum: sum, Result: result, Sign: sign})
}

// massPlaces is how many decimal places a weight or a strength is written with.
const massPlaces = 2
