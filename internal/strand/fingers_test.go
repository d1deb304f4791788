package strand

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"plait/internal/geom"
	"plait/internal/head"
)

// On a ball the law of a travelling guide with the fingers off square is
// L' = A + B·L with A = cos e + tan b · sin e and B = tan b / R, so over an arc s
//
//	L = (L0 + A/B)·exp(B·s) − A/B.
func TestFingersOnBall(t *testing.T) {
	const r, start = 9.0, 6.0
	for _, elevation := range []float64{0, 45, 90, 120} {
		for _, fingers := range []float64{-30, -10, 10, 25} {
			e, b := geom.Degrees(elevation), geom.Degrees(fingers)
			slope := math.Cos(e) + math.Tan(b)*math.Sin(e)
			rate := math.Tan(b) / r
			for _, phi := range []float64{30, 60, 80} {
				arc := r * (math.Pi/2 - geom.Degrees(phi))
				want := (start+slope/rate)*math.Exp(rate*arc) - slope/rate
				l := Lift{Elevation: e, Fingers: b}
				if want < 0 {
					if _, err := (Travelling{Start: start}).Length(ball(), behind(phi), l); !errors.Is(err, ErrOutOfReach) {
						t.Errorf("%g°, fingers %g°, root %g°: got %v, want no strand", elevation, fingers, phi, err)
					}
					continue
				}
				expectNear(t, "fingers off square", length(t, ball(), Travelling{Start: start}, l, behind(phi)), want, 0.002)
			}
		}
	}
}

// The ends of neighbouring strands lie along the fingers: that is what holding them
// means, however the strands are lifted.
func TestEndsLieAlongFingers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Lift{
			Elevation: geom.Degrees(rapid.Float64Range(20, 150).Draw(t, "elevation")),
			FromFloor: rapid.Bool().Draw(t, "from floor"),
			Fingers:   geom.Degrees(rapid.Float64Range(-30, 30).Draw(t, "fingers")),
		}
		if !l.FromFloor {
			l.Toward, l.By = TowardBack, geom.Degrees(rapid.Float64Range(0, 30).Draw(t, "by"))
		}
		theta := geom.Degrees(rapid.Float64Range(60, 179).Draw(t, "theta"))
		share := rapid.Float64Range(0.3, 0.95).Draw(t, "share")
		lower := head.At(adult(), head.Direction(share*adult().Hairline(theta), theta))
		upper := advance(adult(), lower, -0.01, Down)
		ends := func(p head.Point) geom.Vec3 {
			held, err := Travelling{Start: 12}.Hold(adult(), p, l)
			if err != nil {
				t.Skip("out of reach")
			}
			return held.Path.End()
		}
		along := ends(upper).Sub(ends(lower))
		d := l.Direction(lower)
		_, square := l.frame(lower)
		lean := along.Dot(d) - math.Tan(l.Fingers)*along.Dot(square)
		if math.Abs(lean) > 0.002*(1+along.Len()/0.01) {
			t.Fatalf("the ends lie %g off the fingers over %g cm", lean, along.Len())
		}
	})
}

// A guide line above the hairline starts the count there and reaches nothing below.
func TestGuideLine(t *testing.T) {
	line := geom.Plane{N: geom.Vec3{Z: 1}, D: 9 * math.Cos(geom.Degrees(70))}
	g := Travelling{Start: 4, Line: line}
	expectNear(t, "above", length(t, ball(), g, elevated(45), behind(30)), 4+9*geom.Degrees(40)*math.Sqrt2/2, 0.002)
	expectNear(t, "on the line", length(t, ball(), g, elevated(45), behind(70)), 4, 1e-6)
	if _, err := g.Length(ball(), behind(75), elevated(45)); !errors.Is(err, ErrOutOfReach) {
		t.Errorf("below the line: %v", err)
	}
}

// A guide that goes on from what is cut below starts with the length there: at 45° up
// to the line and straight out above it, that is the start at the hairline and what 45°
// adds on the way to the line.
func TestGuideGoesOn(t *testing.T) {
	line := geom.Plane{N: geom.Vec3{Z: 1}, D: 9 * math.Cos(geom.Degrees(70))}
	below := Cut{Guide: Travelling{Start: 4}, Lift: elevated(45)}
	g := Travelling{Line: line, Below: &below}
	want := 4 + 9*geom.Degrees(20)*math.Sqrt2/2
	for _, phi := range []float64{10, 40, 69} {
		expectNear(t, "even above the line", length(t, ball(), g, elevated(90), behind(phi)), want, 0.002)
		expectNear(t, "45° above the line", length(t, ball(), g, elevated(45), behind(phi)), 4+9*geom.Degrees(90-phi)*math.Sqrt2/2, 0.002)
	}
	below.Guide = Facing(TowardFront, 20)
	if _, err := g.Length(ball(), behind(30), elevated(90)); !errors.Is(err, ErrOutOfReach) {
		t.Errorf("nothing is cut below, but a guide goes on: %v", err)
	}
}

// Where hair ends above a guide line, over the ears, the hairline takes its place.
func TestGuideLineAboveTheEars(t *testing.T) {
	nape := landmark(t, "nape")
	g := Travelling{Start: 5, Line: geom.PlaneAt(nape.P, geom.Vec3{Z: 1})}
	expectNear(t, "on the hairline", length(t, adult(), g, elevated(45), landmark(t, "left ear top")), 5, 1e-6)
}

// A strand is as long where it is held as it is cut, and ends on its guide.
func TestHeld(t *testing.T) {
	point := geom.Vec3{X: -20}
	guides := []Guide{
		Perimeter{Z: -8}, Perimeter{Z: -8, Dressing: CentreParting}, Fixed{11}, Travelling{Start: 5},
		Facing(TowardBack, 16), Stationary{point}, CentreBack(adult(), 12), EarToEar(adult(), 12),
	}
	rapid.Check(t, func(t *rapid.T) {
		root := drawRoot(t, adult())
		g := rapid.SampledFrom(guides).Draw(t, "guide")
		l := elevated(rapid.Float64Range(0, 150).Draw(t, "elevation"))
		l.Fingers = geom.Degrees(rapid.Float64Range(-20, 20).Draw(t, "fingers"))
		want, err := g.Length(adult(), root, l)
		held, heldErr := g.Hold(adult(), root, l)
		if !errors.Is(err, heldErr) {
			t.Fatalf("length %v, hold %v", err, heldErr)
		}
		if err != nil {
			return
		}
		if got := held.Path.Len(); math.Abs(got-want) > 1e-9 {
			t.Fatalf("held over %.9f cm, cut to %.9f", got, want)
		}
		if f := held.Fingers.Len(); f != 0 && math.Abs(f-1) > 1e-9 {
			t.Fatalf("fingers of length %g", f)
		}
		off := 0.0
		switch g := g.(type) {
		case Perimeter:
			off = held.Path.End().Z - g.Z
		case Wall:
			off = max(math.Abs(g.At(held.Path.End())), math.Abs(g.N.Dot(held.Fingers)))
		case Stationary:
			off = held.Path.End().Dist(point)
		}
		if math.Abs(off) > 1e-9 {
			t.Fatalf("%T: the end is %g off the guide", g, off)
		}
	})
}

func TestGuidesOfWords(t *testing.T) {
	crown, _ := adult().Landmark("crown")
	at := Beside(crown, 13, 1, 2).At
	expectNear(t, "behind", crown.P.X-at.X, 13, 1e-12)
	expectNear(t, "above", at.Z-crown.P.Z, 1, 1e-12)
	expectNear(t, "left", at.Y, 2, 1e-12)
	wall := Facing(TowardTop, 18)
	expectNear(t, "up", wall.At(geom.Vec3{X: 3, Y: 4, Z: 18}), 0, 1e-12)
	expectNear(t, "left wall", Facing(TowardLeft, 15).At(geom.Vec3{Y: 15}), 0, 1e-12)
	for _, p := range CentreBack(adult(), 12).Points {
		if p.Y != 0 {
			t.Fatalf("the strip of the centre back leaves the middle: %v", p)
		}
	}
	strip := EarToEar(adult(), 12).Points
	expectNear(t, "ends of the strip are mirrored", strip[0].Mirror().Dist(strip[len(strip)-1]), 0, 0.01)
}
