package scalp

import (
	"plait/internal/geom"
	"plait/internal/head"
)

// Circle parts inside from outside, at a straight distance from a point, as a
// compass would draw it.
type Circle struct {
	Round  head.Place
	Radius float64 // straight from the point, in cm
}

// Kind is "circle".
func (Circle) Kind() string { return "circle" }

func (p Circle) divide(s *site) (division, *Problem) {
	if bad := within("radius", p.Radius, CircleRadius); bad != nil {
		return division{}, bad
	}
	middle, bad := s.find(p.Round)
	return single(round{middle, p.Radius}, "inside", "outside"), bad
}

// Radial parts into wedges of equal angle round a point. The first starts toward
// the front; they are counted counter-clockwise as seen from above.
type Radial struct {
	Round head.Place
	Into  int     // wedges
	Start float64 // angle of the first line from the front, in radians
}

// Kind is "radial".
func (Radial) Kind() string { return "radial" }

func (p Radial) divide(s *site) (division, *Problem) {
	if bad := within("wedges", float64(p.Into), WedgeCount); bad != nil {
		return division{}, bad
	}
	if bad := within("start", geom.InDegrees(p.Start), StartAngle); bad != nil {
		return division{}, bad
	}
	middle, bad := s.find(p.Round)
	if bad != nil {
		return division{}, bad
	}
	ahead, left := geom.Frame(middle.N, forward)
	d := division{names: numbers(p.Into), part: wedge}
	for i := range p.Into {
		sin, cos := geom.Sincos(p.Start + geom.Degrees(360*float64(i)/float64(p.Into)))
		normal := left.Scale(cos).Sub(ahead.Scale(sin))
		d.fields = append(d.fields, flat{geom.PlaneAt(middle.P, normal)})
	}
	return d, nil
}

// wedge returns the wedge that lies past its own line and not yet past the next.
// The lines go on behind the point, so two conditions are needed and, up to a half
// turn, enough.
func wedge(values []float64) int {
	for i := range values {
		if values[i] > 0 && values[(i+1)%len(values)] <= 0 {
			return i
		}
	}
	return 0
}

// Concentric parts into rings of equal width round a point, out to the farthest
// point of what is parted. They are counted from the middle.
type Concentric struct {
	Round head.Place
	Into  int // rings
}

// Kind is "concentric".
func (Concentric) Kind() string { return "concentric" }

func (p Concentric) divide(s *site) (division, *Problem) {
	if bad := within("rings", float64(p.Into), RingCount); bad != nil {
		return division{}, bad
	}
	middle, bad := s.find(p.Round)
	if bad != nil {
		return division{}, bad
	}
	farthest := 0.0
	for _, i := range s.corners() {
		farthest = max(farthest, s.mesh.Points[i].P.Dist(middle.P))
	}
	d := division{names: numbers(p.Into), part: outsideOf}
	for i := range p.Into - 1 {
		d.fields = append(d.fields, round{middle, farthest * float64(i+1) / float64(p.Into)})
	}
	return d, nil
}

// outsideOf counts the circles, from small to large, that a polygon lies outside
// of.
func outsideOf(values []float64) int {
	for i, v := range values {
		if v > 0 {
			return i
		}
	}
	return len(values)
}
