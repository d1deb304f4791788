package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"plait/internal/register"
)

// Plots are drawn in a box of their own units: x to the right, y down. Templates place
// what is worked out here; all coordinates are rounded to a tenth, so that the same
// marks give the same bytes.

// histogram is how many learners had how many right.
type histogram struct {
	Height   int
	Width    int
	Base     int // y of the bars' feet
	Left     int // x of the axis
	Middle   int // x of its title
	Bars     []bar
	PassX    string // where the pass mark stands; empty for none
	PassText string
	Says     string // the plot in words
}

type bar struct {
	X, Y, W, H, Mid string
	Label           string // under the bar
	Count           int
	Passed          bool
}

// The box of a plot.
const (
	plotWidth  = 420
	plotHeight = 250
	plotLeft   = 40
	plotFoot   = 40
)

func marksPlot(sittings []register.Sitting) histogram {
	h := histogram{Width: plotWidth, Height: plotHeight, Base: plotHeight - plotFoot, Left: plotLeft, Middle: (plotWidth + plotLeft) / 2}
	if len(sittings) == 0 {
		h.Says = "Nobody has sat this paper."
		return h
	}
	most, needed := 0, 0
	for _, s := range sittings {
		most, needed = max(most, s.Of), max(needed, s.Needed)
	}
	counts := make([]int, most+1)
	for _, s := range sittings {
		counts[s.Right]++
	}
	tallest := slices.Max(counts)
	step := float64(plotWidth-plotLeft) / float64(most+1)
	for right, n := range counts {
		height := float64(h.Base-44) * float64(n) / float64(tallest)
		x := plotLeft + step*float64(right)
		h.Bars = append(h.Bars, bar{
			X: tenth(x + step*0.08), W: tenth(step * 0.84), Y: tenth(float64(h.Base) - height), H: tenth(height), Mid: tenth(x + step/2),
			Label: label(right, most), Count: n, Passed: right >= needed,
		})
	}
	if needed <= most {
		h.PassX = tenth(plotLeft + step*float64(needed))
		h.PassText = fmt.Sprintf("pass: %d", needed)
	}
	h.Says = fmt.Sprintf("Right answers of %d learners, from %d to %d; %d or more pass.", len(sittings), lowest(sittings), highest(sittings), needed)
	return h
}

// label thins out the numbers under many bars.
func label(n, most int) string {
	every := 1 + most/25
	if n%every != 0 {
		return ""
	}
	return fmt.Sprint(n)
}

func lowest(sittings []register.Sitting) int {
	return slices.MinFunc(sittings, func(a, b register.Sitting) int { return a.Right - b.Right }).Right
}

func highest(sittings []register.Sitting) int {
	return slices.MaxFunc(sittings, func(a, b register.Sitting) int { return a.Right - b.Right }).Right
}

// strips is how the learners stand in each module: a dot for each, stacked where they
// stand alike, and a line at the one in the middle.
type strips struct {
	Width, Height int
	Left, Right   int // the ends of the rows
	Rows          []strip
	Ticks         []tick
	Says          string
}

type strip struct {
	Title         string
	Y, TextY      string
	Dots          []dot
	Median        string
	MedianY1      string
	MedianY2      string
	MedianInWords string
}

type dot struct{ X, Y, Class string }

type tick struct{ At, Text string }

const (
	stripHeight = 76
	dotSize     = 9.0 // from the middle of a dot to that of the next
)

func progressPlot(a register.Analysis, titles []string) strips {
	p := strips{Width: plotWidth, Height: stripHeight*len(a.Modules) + plotFoot, Left: plotLeft, Right: plotWidth - plotLeft}
	x := func(share float64) float64 { return plotLeft + share*(plotWidth-2*plotLeft) }
	for i := range 5 {
		p.Ticks = append(p.Ticks, tick{At: tenth(x(float64(i) / 4)), Text: fmt.Sprintf("%d %%", 25*i)})
	}
	var says []string
	for i, m := range a.Modules {
		base := float64(stripHeight*(i+1)) - 8
		row := strip{Title: titles[i], Y: tenth(base), TextY: tenth(base - stripHeight + 26)}
		var shares []float64
		at := map[string]int{}
		for _, s := range a.Sittings {
			right, of := s.In(m)
			if of == 0 {
				continue
			}
			share := float64(right) / float64(of)
			shares = append(shares, share)
			place := tenth(x(share))
			class := "dot"
			if 10_000*right < s.Mark*of {
				class = "dot low"
			}
			// A column of dots that would leave its row goes on beside it.
			column, height := at[place]/5, at[place]%5
			row.Dots = append(row.Dots, dot{X: tenth(x(share) + dotSize*float64(column)), Y: tenth(base - 7 - dotSize*float64(height)), Class: class})
			at[place]++
		}
		if len(shares) > 0 {
			slices.Sort(shares)
			median := (shares[(len(shares)-1)/2] + shares[len(shares)/2]) / 2
			row.Median, row.MedianY1, row.MedianY2 = tenth(x(median)), tenth(base-52), tenth(base)
			row.MedianInWords = fmt.Sprintf("%.0f %%", 100*median)
			says = append(says, titles[i]+" "+row.MedianInWords)
		}
		p.Rows = append(p.Rows, row)
	}
	p.Says = "The learner in the middle of the class has right: " + strings.Join(says, "; ") + "."
	return p
}

// scatter sets how hard each question was against how well it tells learners apart.
type scatter struct {
	Width, Height  int
	Left, Right    int // the ends of the lines
	Middle, Foot   int // x of the title, y of the axis
	Points         []point
	XTicks, YTicks []tick
	GoodX, GoodY   string // the corner of the field of usable questions
	GoodW, GoodH   string
	ZeroY          string
	Says           string
}

// point is a question with its number beside it.
type point struct {
	X, Y, Code, Class    string
	TextX, TextY, Anchor string
}

const scatterHeight = 300

func itemsPlot(questions []register.Question, order map[string]int) scatter {
	const low, high = -0.5, 1.0
	p := scatter{Width: plotWidth, Height: scatterHeight, Left: plotLeft, Right: plotWidth - 20, Middle: (plotWidth + plotLeft) / 2, Foot: scatterHeight - plotFoot}
	x := func(share float64) float64 { return plotLeft + share*(plotWidth-plotLeft-20) }
	y := func(d float64) float64 {
		return 16 + (high-max(low, min(high, d)))/(high-low)*(scatterHeight-plotFoot-16)
	}
	for i := range 6 {
		p.XTicks = append(p.XTicks, tick{tenth(x(float64(i) / 5)), fmt.Sprintf("%.1f", float64(i)/5)})
	}
	for _, d := range []float64{-0.4, -0.2, 0, 0.2, 0.4, 0.6, 0.8, 1} {
		p.YTicks = append(p.YTicks, tick{tenth(y(d)), strings.Replace(fmt.Sprintf("%.1f", d), "-", "−", 1)})
	}
	p.GoodX, p.GoodW = tenth(x(hard)), tenth(x(easy)-x(hard))
	p.GoodY, p.GoodH = tenth(y(high)), tenth(y(fairlyApart)-y(high))
	p.ZeroY = tenth(y(0))
	labels := &labels{}
	for _, q := range questions {
		if q.Difficulty.Known() && q.Discrimination.Known() {
			labels.taken = append(labels.taken, [2]float64{x(q.Difficulty.Value), y(q.Discrimination.Value)})
		}
	}
	look := 0
	for _, q := range questions {
		if !q.Difficulty.Known() || !q.Discrimination.Known() {
			continue
		}
		cx, cy := x(q.Difficulty.Value), y(q.Discrimination.Value)
		at := point{X: tenth(cx), Y: tenth(cy), Code: fmt.Sprint(order[q.ID]), Class: "item"}
		at.TextX, at.TextY, at.Anchor = labels.beside(cx, cy)
		if _, wants := verdict(q); wants {
			at.Class = "item look"
			look++
		}
		p.Points = append(p.Points, at)
	}
	p.Says = fmt.Sprintf("%d questions by the share that had them right and by discrimination; %d want looking at.", len(p.Points), look)
	return p
}

// labels finds room for numbers beside points.
type labels struct{ taken [][2]float64 } // the middles of points and of numbers

// beside returns where the number of a point goes: on the first side on which it meets
// neither a point nor another number, else on the first.
func (l *labels) beside(x, y float64) (textX, textY, anchor string) {
	sides := []struct {
		dx, dy float64
		anchor string
	}{{9, -4, "start"}, {-9, -4, "end"}, {9, 14, "start"}, {-9, 14, "end"}, {0, -11, "middle"}, {0, 22, "middle"}}
	best := sides[0]
	for _, s := range sides {
		mx := x + s.dx*1.9
		if !slices.ContainsFunc(l.taken, func(o [2]float64) bool {
			return math.Abs(o[0]-mx) < 13 && math.Abs(o[1]-(y+s.dy-4)) < 11
		}) {
			best = s
			break
		}
	}
	l.taken = append(l.taken, [2]float64{x + best.dx*1.9, y + best.dy - 4})
	return tenth(x + best.dx), tenth(y + best.dy), best.anchor
}

func tenth(v float64) string {
	return strings.TrimSuffix(fmt.Sprintf("%.1f", v), ".0")
}
