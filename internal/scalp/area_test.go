package scalp

import (
	"math"
	"testing"

	"plait/internal/geom"
	"plait/internal/head"
)

func wholeArea(s head.Surface, level int) float64 {
	return newMesh(s, level).Area(func(Polygon) bool { return true })
}

// legendre returns the surface of an ellipsoid with half axes a ≥ b ≥ c,
//
//	2πc² + 2πab/sin f · (E(f,k)·sin²f + F(f,k)·cos²f),
//
// cos f = c/a, k² = a²(b²−c²)/(b²(a²−c²)), with the elliptic integrals by Simpson's
// rule.
func legendre(a, b, c float64) float64 {
	f := math.Acos(c / a)
	kk := a * a * (b*b - c*c) / (b * b * (a*a - c*c))
	const n = 2000
	var first, second float64
	for i := range n + 1 {
		weight := 2 + 2*float64(i%2)
		if i == 0 || i == n {
			weight = 1
		}
		sin := math.Sin(f * float64(i) / n)
		root := math.Sqrt(1 - kk*sin*sin)
		first += weight / root
		second += weight * root
	}
	first, second = first*f/n/3, second*f/n/3
	sin, cos := math.Sin(f), math.Cos(f)
	return 2*math.Pi*c*c + 2*math.Pi*a*b/sin*(second*sin*sin+first*cos*cos)
}

func TestEllipsoidAgainstLegendre(t *testing.T) {
	want := legendre(9.6, 9.1, 7.6)
	expectNear(t, "Legendre", want, 964.222428, 1e-6)
	expectNear(t, "ellipsoid", wholeArea(head.Ellipsoid(9.6, 7.6, 9.1), int(Print)), want, 1e-8*want)
	expectNear(t, "sphere", wholeArea(head.HalfBall(9), int(Print)), 4*math.Pi*81, 1e-9)
}

// Curvature is integrated to the sixth order; a border is a chain of chords, of the
// second.
func TestConvergence(t *testing.T) {
	s := head.Ellipsoid(9.6, 7.6, 9.1)
	want := legendre(9.6, 9.1, 7.6)
	for level := 2; level < 4; level++ {
		coarse, fine := wholeArea(s, level)-want, wholeArea(s, level+1)-want
		expectNear(t, "order of the interior", math.Log2(math.Abs(coarse/fine)), 6, 0.3)
	}
	cap := func(detail Detail) float64 {
		p := parted(t, New(head.Ball(), detail), Step{Part: Circle{Round: place("crown"), Radius: 5}})
		return math.Abs(p.Sections[0].Area - 25*math.Pi)
	}
	expectNear(t, "order of a border", math.Log2(cap(3)/cap(6))/3, 2, 0.3)
	if got := cap(Print); got > 0.0002*25*math.Pi {
		t.Errorf("a circle of 5 cm is off by %g cm² in print", got)
	}
	if got := cap(Preview); got > 0.001*25*math.Pi {
		t.Errorf("a circle of 5 cm is off by %g cm² in a preview", got)
	}
}

// The scalp again, as an integral over theta and phi that shares nothing with the
// net: strips of midpoints from the top down to the hairline.
func TestScalpByStrips(t *testing.T) {
	h := head.Adult()
	const strips, rows = 2000, 120
	total := 0.0
	for i := range strips {
		theta := math.Pi * (float64(i) + 0.5) / strips
		end := h.Hairline(theta)
		for k := range rows {
			phi := end * (float64(k) + 0.5) / rows
			total += head.Stretch(h, head.Direction(phi, theta)) * math.Sin(phi) * end / rows
		}
	}
	total *= 2 * math.Pi / strips
	expectNear(t, "strips", total, 602.634, 0.01)
	expectNear(t, "net", adultPrint().Area(), total, 0.01)
}

// Published areas of the scalp differ widely: 492 ± 31 cm² by tape on 25 adults
// (doi 10.7759/cureus.104173), 775 cm² quoted in J. Soc. Cosmet. Chem. 28 (1977). The
// reference head must lie between them.
func TestScalpAgainstPublishedAreas(t *testing.T) {
	if a := adultPrint().Area(); a < 492-31 || a > 775 {
		t.Errorf("the scalp measures %.0f cm²", a)
	}
}

// Every polygon of the five views is seen from one side of each pair.
func TestFacing(t *testing.T) {
	p := parted(t, adultPreview(), Step{Part: EarToEar{}}, Step{Part: Horizontal{At: place("occipital bone")}, Of: of("back")})
	for i, s := range p.Sections {
		seen := func(bit Facing) float64 {
			return p.Mesh.Area(func(q Polygon) bool { return q.Section == i && q.Facing&bit != 0 })
		}
		expectNear(t, s.Name+" from the left", seen(FromLeft), s.Area/2, 1e-6)
	}
	for _, q := range p.Mesh.Polygons {
		middle := geom.Vec3{}
		for _, c := range q.Corners {
			middle = middle.Add(p.Mesh.Points[c].U)
		}
		n := head.At(p.Head, middle.Unit()).N
		for bit, v := range []float64{n.X, n.Y, n.Z} {
			if math.Abs(v) > 0.02 && (v > 0) != (q.Facing&(1<<bit) != 0) {
				t.Fatalf("a polygon with normal %v faces %03b", n, q.Facing)
			}
		}
	}
}
