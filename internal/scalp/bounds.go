package scalp

// Bounds are the least and the most of a number that an author chooses.
type Bounds struct{ Least, Most float64 }

// Hold reports whether a number lies within the bounds.
func (b Bounds) Hold(x float64) bool { return x >= b.Least && x <= b.Most }

// The bounds of the numbers of partings: lengths in cm, angles in degrees (common
// practice, no source: what can be parted with a comb and seen in a drawing).
var (
	SideDistance = Bounds{0.5, 6}    // of a side parting from the middle
	CircleRadius = Bounds{1, 15}     // straight from the point it is drawn round
	SlopeAngle   = Bounds{5, 80}     // of a diagonal, from level
	StartAngle   = Bounds{-360, 360} // of the first wedge, from the front
	WedgeCount   = Bounds{2, 36}
	RingCount    = Bounds{2, 12}
	SliceCount   = Bounds{2, 60}
	SliceWidth   = Bounds{0.3, 10}
	FoilCount    = Bounds{1, 60} // of how many slices some go into foil
	WeaveCount   = Bounds{0, 60} // strands woven out of a slice
	TeethCount   = Bounds{2, 60}
	TeethDepth   = Bounds{0.2, 3} // from tip to tip
)
