package scalp

import (
	"math"
	"slices"

	"plait/internal/geom"
	"plait/internal/head"
)

// Zigzag bends a parting into teeth. The zero Zigzag is none.
type Zigzag struct {
	Teeth int
	Depth float64 // from tip to tip, in cm
}

// leastPitch is the width in cm below which teeth cannot be parted with a comb
// (common practice, no source).
const leastPitch = 0.4

// ToothWidth is what a problem says of teeth that are too many for their line.
const ToothWidth = "width of a tooth"

func (z Zigzag) problem(extent float64) *Problem {
	if bad := within("teeth", float64(z.Teeth), TeethCount); bad != nil {
		return bad
	}
	pitch := extent / float64(z.Teeth)
	if bad := within("depth", z.Depth, TeethDepth); bad != nil {
		return bad
	}
	if bad := within(ToothWidth, pitch, Bounds{leastPitch, extent}); bad != nil {
		return bad
	}
	return within("depth", z.Depth, Bounds{TeethDepth.Least, float64(2 * pitch)})
}

// wave is the field of a zigzag. With delta the distance of a point from the line
// along the surface and s the arc of the line beside it,
//
//	f = delta − depth/2 · w(s),
//
// where w runs straight from −1 at the ends of a tooth to +1 at its middle, so that
// a zigzag is its own mirror image.
type wave struct {
	line
	surface head.Surface
	trace   *head.Trace
	first   float64 // arc where the first tooth starts
	extent  float64 // length of all teeth
	zigzag  Zigzag
}

func (w *wave) pitch() float64 { return w.extent / float64(w.zigzag.Teeth) }

// at looks closer only where the teeth can reach: the distance along the surface is
// never less than the straight one.
func (w *wave) at(p *head.Point) float64 {
	value := w.line.at(p)
	if math.Abs(value) > w.zigzag.Depth {
		return value
	}
	return w.distance(p, value) - float64(w.zigzag.Depth/2*w.height(p))
}

// distance returns the distance from the line along the surface: its field divided
// by how fast that changes along the surface. The change is taken half-way to the
// line, which leaves half the error of taking it at the point.
func (w *wave) distance(p *head.Point, value float64) float64 {
	across := w.slope(p).Across(p.N)
	half := value / 2 / across.Dot(across)
	middle := head.Toward(w.surface, p.P.Sub(across.Scale(half)))
	return value / w.slope(&middle).Across(middle.N).Len()
}

// height returns w at the arc beside a point.
func (w *wave) height(p *head.Point) float64 {
	round := w.trace.Len()
	fromMiddle := w.trace.ArcAt(p.P) - w.first - w.extent/2
	fromMiddle -= float64(math.Round(fromMiddle/round) * round)
	turns := fromMiddle/w.pitch() + float64(w.zigzag.Teeth)/2
	return 1 - float64(4*math.Abs(turns-math.Floor(turns)-0.5))
}

// corners returns the planes through the tips of the teeth, at right angles to the
// line. The net is cut along them first: a tip then is a point of it and the flanks
// are straight, where otherwise the size of the net would blunt the teeth.
func (w *wave) corners() []flat {
	var planes []flat
	for i := range int(2*w.zigzag.Teeth) + 1 {
		arc := w.first + float64(float64(i)*w.pitch()/2)
		tip := w.trace.At(arc).P
		planes = append(planes, flat{geom.PlaneAt(tip, w.trace.Axis().Cross(tip.Sub(w.trace.Origin())))})
	}
	return planes
}

// bend replaces the lines of a division that can run in a zigzag by one each and cuts
// the net through their tips.
func (s *site) bend(d *division, z Zigzag) *Problem {
	if len(d.bends) == 0 {
		return &Problem{Code: NoZigzag}
	}
	bent := slices.Clone(d.fields)
	for _, k := range d.bends {
		w, bad := s.wave(d, k, z)
		if bad != nil {
			return bad
		}
		if w != nil {
			bent[k] = w
		}
	}
	d.fields = bent
	return nil
}

// wave returns the zigzag along a line of a division, and cuts the net through its
// tips. It is nil for a line that misses the sections, which stays as it is for the
// division to find.
func (s *site) wave(d *division, k int, z Zigzag) (*wave, *Problem) {
	base := d.fields[k].(line)
	trace, ok := base.trace(s.head)
	if !ok {
		return nil, nil
	}
	first, extent := s.extent(d, k, trace)
	if extent == 0 {
		return nil, nil
	}
	if bad := z.problem(extent); bad != nil {
		return nil, bad
	}
	w := &wave{line: base, surface: s.head, trace: trace, first: first, extent: extent, zigzag: z}
	beside := newStrip(s.mesh, base, z.Depth)
	for _, plane := range w.corners() {
		beside.cut(plane)
	}
	return w, nil
}

// extent returns where a line of a division runs through the sections that are parted:
// the arc at which it enters and the length to where it leaves for good. A line that
// never leaves counts as a whole.
func (s *site) extent(d *division, k int, t *head.Trace) (first, length float64) {
	var arcs []float64
	for _, p := range s.crossings(d.fields, k, d.side) {
		arcs = append(arcs, t.ArcAt(p.P))
	}
	slices.Sort(arcs)
	const closed = 1 // cm; points on a line lie closer than this
	widest, after := float64(closed), -1
	for i := range arcs {
		before := (i + len(arcs) - 1) % len(arcs)
		gap := arcs[i] - arcs[before]
		if i == 0 {
			gap += t.Len()
		}
		if gap > widest {
			widest, after = gap, i
		}
	}
	switch {
	case len(arcs) == 0:
		return 0, 0
	case after < 0:
		return 0, t.Len()
	}
	return arcs[after], t.Len() - widest
}
