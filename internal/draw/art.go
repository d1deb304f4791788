package draw

import (
	"plait/internal/head"
	"plait/internal/path"
)

// spot is a place of the art in cm of the reference head. In profile it says how far
// forward and up it is from the point between the ears, in the other views how far
// to the right on the page and up.
type spot [2]float64

// curve is a line of the art: a smooth curve through spots. A spot given twice is a
// corner. All curves are an own design.
type curve []spot

// mirrored returns the curve on the other half of the face.
func (c curve) mirrored() curve {
	m := make(curve, len(c))
	for i, s := range c {
		m[i] = spot{-s[0], s[1]}
	}
	return m
}

// whole returns a curve that ends on the middle of the face, led on by its mirror
// image.
func (c curve) whole() curve {
	w := append(curve(nil), c...)
	m := c.mirrored()
	for i := len(m) - 2; i >= 0; i-- {
		w = append(w, m[i])
	}
	return w
}

// on returns the points of the page that a curve runs through.
func (c curve) on(v View) []path.Point {
	points := make([]path.Point, len(c))
	for i, s := range c {
		points[i] = v.Place(float64(v.ahead()*s[0]), s[1])
	}
	return points
}

// ahead is the way that the first coordinate of a spot counts on the page: in profile
// toward the face.
func (v View) ahead() float64 {
	if v == Left {
		return -1
	}
	return 1
}

// smooth returns the curve as a finished line.
func (c curve) smooth(v View) path.Chain { return path.Through(c.on(v)...) }

// round returns the closed curve as a finished line.
func (c curve) round(v View) path.Chain { return path.Round(c.on(v)...) }

// Art is the mannequin in a view, as SVG elements that belong into the group that
// [Picture.Open] opens.
type Art struct {
	Body    string // neck, face and skin, below everything
	Outline string // the outline of skull, face and neck, above what covers the skull
	Over    string // the ear that lies over the hair in profile
}

// Mannequin returns the mannequin of a head in a view. A head without a face is an
// outline alone.
func Mannequin(h *head.Head, v View) Art {
	skull := contour(h, v)
	if !hasFace(h) {
		line := path.Fit(skull, path.Fine)
		return Art{Body: skinned(path.Area(line)), Outline: outlined(path.Line(line))}
	}
	switch v {
	case Left, Right:
		return profile(v, skull)
	case Front:
		return face(v, skull)
	case Back:
		return behind(v, skull)
	}
	return above(v, skull)
}

// joined returns the path data of chains that are one closed area. Where one does not
// start at the end of the one before, a straight line leads there.
func joined(chains ...path.Chain) string {
	all := path.Chain{From: chains[0].From}
	for _, c := range chains {
		if c.From != all.End() {
			all.Segments = append(all.Segments, path.Segment{To: c.From})
		}
		all.Segments = append(all.Segments, c.Segments...)
	}
	return path.Area(all)
}

// lines returns the path data of several lines.
func lines(chains ...path.Chain) string {
	var d path.Data
	for _, c := range chains {
		d.Add(c)
		if c.End() == c.From {
			d.Close()
		}
	}
	return d.String()
}

// startingAt replaces the first point of a curve by the end of a contour, which it
// goes on from.
func startingAt(p path.Point, c curve, v View) path.Chain {
	points := c.on(v)
	points[0] = p
	return path.Through(points...)
}

func profile(v View, skull []path.Point) Art {
	brow, nape := skull[0], skull[len(skull)-1]
	top := path.Fit(skull, path.Fine)
	faceLine, neck := startingAt(brow, profileFace, v), startingAt(nape, profileNeck, v)
	base := profileBase.smooth(v)
	return Art{
		Body: skinned(joined(faceLine, base, neck.Reversed(), top.Reversed())) +
			drawn(lines(profileJaw.smooth(v), profileLower.smooth(v), profileCornea.smooth(v), profileCrease.smooth(v),
				profileNostril.smooth(v), profileMouth.smooth(v), base)) +
			pupils(path.Area(profileIris.round(v))) +
			heavy(lines(profileLid.smooth(v), profileBrow.smooth(v))),
		Outline: outlined(lines(faceLine.Reversed(), top, neck)),
		Over:    eared(path.Line(profileEar.round(v))) + drawn(lines(profileRim.smooth(v), profileBowl.smooth(v))),
	}
}

func face(v View, skull []path.Point) Art {
	top := path.Fit(skull, path.Fine)
	chinPoints := frontJaw.whole().on(v)
	chinPoints[0], chinPoints[len(chinPoints)-1] = skull[0], skull[len(skull)-1]
	if skull[0].X > skull[len(skull)-1].X {
		chinPoints[0], chinPoints[len(chinPoints)-1] = skull[len(skull)-1], skull[0]
		top = top.Reversed()
	}
	chin := path.Through(chinPoints...)
	neck, other := frontNeck.smooth(v), frontNeck.mirrored().smooth(v)
	base := frontBase.smooth(v)
	both := func(c curve) []path.Chain { return []path.Chain{c.smooth(v), c.mirrored().smooth(v)} }
	var thin []path.Chain
	for _, c := range []curve{frontLower, frontCrease} {
		thin = append(thin, both(c)...)
	}
	for _, c := range []curve{frontNose, frontUpperLip, frontMouth, frontLowerLip} {
		thin = append(thin, c.whole().smooth(v))
	}
	return Art{
		Body: skinned(joined(neck, base, other.Reversed())) + drawn(lines(base)) + outlined(lines(neck, other)) +
			eared(lines(both(frontEar)...)) + drawn(lines(both(frontInner)...)) +
			skinned(joined(chin, top.Reversed())) +
			pupils(lines(frontIris.round(v), frontIris.mirrored().round(v))) +
			drawn(lines(thin...)) + heavy(lines(append(both(frontLid), both(frontBrow)...)...)),
		Outline: outlined(joined(chin, top.Reversed())),
	}
}

func behind(v View, skull []path.Point) Art {
	top := path.Fit(skull, path.Fine)
	first, last := skull[0], skull[len(skull)-1]
	if first.X > last.X {
		first, last, top = last, first, top.Reversed()
	}
	neck, other := startingAt(first, backNeck, v), startingAt(last, backNeck.mirrored(), v)
	base := frontBase.smooth(v)
	ears := []path.Chain{backEar.smooth(v), backEar.mirrored().smooth(v)}
	inner := []path.Chain{backInner.smooth(v), backInner.mirrored().smooth(v)}
	return Art{
		Body: eared(lines(ears...)) + drawn(lines(inner...)) +
			skinned(joined(neck, base, other.Reversed(), top.Reversed())) + drawn(lines(base)),
		Outline: outlined(lines(neck.Reversed(), top, other)),
	}
}

func above(v View, skull []path.Point) Art {
	rim := path.Fit(skull, path.Fine)
	ears := []path.Chain{topEar.smooth(v), topEar.mirrored().smooth(v)}
	inner := []path.Chain{topInner.smooth(v), topInner.mirrored().smooth(v)}
	return Art{
		Body: eared(lines(append(ears, topNose.whole().smooth(v))...)) + drawn(lines(inner...)) +
			skinned(path.Area(rim)),
		Outline: outlined(path.Area(rim)),
	}
}
