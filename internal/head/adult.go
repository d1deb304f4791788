package head

import (
	"math"

	"plait/internal/geom"
)

// adult is the surface of the reference head times a size: a skull without face,
// ears and neck.
type adult struct{ size float64 }

// Three profiles of the reference head, in cm from the centre at every 10° of phi
// from the top: forward, to the side and backward (modelled, own design).
var (
	frontProfile = profile(
		10.90, 10.87, 10.89, 10.95, 11.00, 11.00, 10.93, 10.80,
		10.64, 10.36, 10.20, 10.45, 11.10, 12.05, 13.00, 13.20)
	sideProfile = profile(
		10.90, 10.81, 10.57, 10.19, 9.68, 9.13, 8.60, 8.10,
		7.67, 7.36, 7.19, 7.20, 7.45, 7.97, 8.95, 10.90)
	backProfile = profile(
		10.90, 10.85, 10.70, 10.45, 10.12, 9.76, 9.42, 9.10,
		8.79, 8.49, 8.22, 8.04, 8.02, 8.25, 8.92, 10.40)
)

func profile(radii ...float64) *geom.Curve {
	var phi []float64
	for i := range radii {
		phi = append(phi, geom.Degrees(float64(10*i)))
	}
	return geom.Spline(phi, radii)
}

// Level sections of a head are boxier than ellipses, more so behind (modelled; the
// size is what brings the circumference to that of a real head).
const (
	boxyFront = 0.045
	boxyBack  = 0.065
)

// hairline holds theta and phi of the hairline in degrees, from the middle of the
// forehead to the middle of the nape: a slight recession at 30, the slope of the
// temple, a small sideburn at 70 to 78, the arch over the ear at 96 and a rounded
// nape (modelled, own design). A monotone curve, since a spline would overshoot at
// the ear.
var hairline = func() *geom.Curve {
	points := [][2]float64{
		{0, 54.5}, {12, 54}, {22, 52}, {30, 50.5}, {37, 52.5}, {44, 60}, {51, 70}, {57, 79.5}, {62, 90},
		{66, 97.5}, {70, 102}, {74, 103.5}, {78, 100.5}, {82, 91}, {88, 83}, {96, 80.3}, {104, 82.2},
		{110, 89}, {115, 101}, {120, 115.5}, {127, 130}, {136, 139}, {148, 143.3}, {162, 144.8}, {180, 145.2},
	}
	var theta, phi []float64
	for _, p := range points {
		theta, phi = append(theta, geom.Degrees(p[0])), append(phi, geom.Degrees(p[1]))
	}
	return geom.Monotone(theta, phi)
}()

// Centre lies above and a little behind the ear canals.
func (a adult) Centre() geom.Vec3 { return geom.Vec3{X: -1.2, Z: 2}.Scale(a.size) }

// Limit is where the profiles end, under the nape.
func (a adult) Limit() float64 { return geom.Degrees(151) }

// Hairline looks the angle up.
func (a adult) Hairline(theta float64) float64 {
	phi, _ := hairline.At(theta)
	return phi
}

// Radius joins the profiles by half-ellipses that share the side axis. With
// c = cos theta, s = sin theta and P the front profile where c ≥ 0, else the back:
//
//	r = size · (c²/P² + s²/S²)^(−1/2) · (1 + κ·sin²phi·(2cs)²)
func (a adult) Radius(u geom.Vec3) (r float64, gradient geom.Vec3) {
	sinPhi := math.Sqrt(float64(u.X*u.X) + float64(u.Y*u.Y))
	c, s := 1.0, 0.0
	onPole := sinPhi < 1e-12
	if !onPole {
		c, s = u.X/sinPhi, u.Y/sinPhi
	}
	phi := geom.Atan2(sinPhi, u.Z)
	profile, boxy := frontProfile, boxyFront
	if c < 0 {
		profile, boxy = backProfile, boxyBack
	}
	p, pSlope := profile.At(phi)
	side, sideSlope := sideProfile.At(phi)
	cc, ss := float64(c*c), float64(s*s)
	pp, sideSide := float64(p*p), float64(side*side)

	ellipse := 1 / math.Sqrt(cc/pp+ss/sideSide)
	cube := float64(ellipse * ellipse * ellipse)
	ellipsePhi := float64(cube * (float64(cc*pSlope)/float64(pp*p) + float64(ss*sideSlope)/float64(sideSide*side)))
	ellipseTheta := float64(cube * c * s * (1/pp - 1/sideSide))

	double := float64(2 * c * s)
	square := float64(double * double)
	box := 1 + float64(boxy*sinPhi*sinPhi*square)
	boxPhi := float64(2 * boxy * sinPhi * u.Z * square)
	boxTheta := float64(4 * boxy * sinPhi * double * (cc - ss)) // already divided by sin phi

	slopePhi := float64(a.size * (float64(ellipsePhi*box) + float64(ellipse*boxPhi)))
	slopeTheta := 0.0
	if !onPole {
		slopeTheta = float64(a.size * (float64(ellipseTheta/sinPhi*box) + float64(ellipse*boxTheta)))
	}
	ePhi := geom.Vec3{X: float64(u.Z * c), Y: float64(u.Z * s), Z: -sinPhi}
	eTheta := geom.Vec3{X: -s, Y: c}
	return float64(a.size * ellipse * box), ePhi.Scale(slopePhi).Add(eTheta.Scale(slopeTheta))
}
