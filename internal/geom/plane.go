package geom

// Plane is the set of points p with N·p = D. N is a unit vector, so that At is a
// distance.
type Plane struct {
	N Vec3
	D float64
}

// PlaneAt returns the plane through a point at right angles to a direction, which
// need not have length 1.
func PlaneAt(p, normal Vec3) Plane {
	n := normal.Unit()
	return Plane{N: n, D: n.Dot(p)}
}

// PlaneThrough returns the plane through three points; its normal points to the
// side from which they are seen counter-clockwise. ok is false where they lie on
// one line, within a hundredth of a millimetre.
func PlaneThrough(a, b, c Vec3) (p Plane, ok bool) {
	n := b.Sub(a).Cross(c.Sub(a))
	longest := max(a.Dist(b), b.Dist(c), c.Dist(a))
	if longest == 0 || n.Len()/longest < 1e-3 {
		return Plane{}, false
	}
	return PlaneAt(a, n), true
}

// At returns the signed distance of q from the plane, positive on the side that N
// points to.
func (p Plane) At(q Vec3) float64 { return p.N.Dot(q) - p.D }

// Foot returns the point of the plane nearest to q.
func (p Plane) Foot(q Vec3) Vec3 { return q.Sub(p.N.Scale(p.At(q))) }

// Flip returns the same plane with its other side up.
func (p Plane) Flip() Plane { return Plane{N: p.N.Neg(), D: -p.D} }

// Toward returns the plane turned so that direction d points to its positive side.
func (p Plane) Toward(d Vec3) Plane {
	if p.N.Dot(d) < 0 {
		return p.Flip()
	}
	return p
}

// Frame returns two unit vectors that with n make a right-handed frame: e1, e2, n
// all at right angles. e1 is the direction of toward as far as it lies across n;
// where it does not, the z axis or the x axis takes its place.
func Frame(n, toward Vec3) (e1, e2 Vec3) {
	for _, d := range []Vec3{toward, {Z: 1}, {X: 1}} {
		if across := d.Across(n); across.Len() > 1e-3 {
			e1 = across.Unit()
			return e1, n.Cross(e1)
		}
	}
	return e1, e2
}
