package silhouette

import (
	"math"

	"plait/internal/geom"
	"plait/internal/strand"
)

// Weight is where most ends of a graduation gather: the line that the eye sees.
type Weight struct {
	Z     float64 // height of the line in cm
	Share float64 // of the hair above the occipital bone that ends within it, 0 to 1
}

// WeightLine returns the weight line of a haircut that falls as the strands do: the
// half centimetre of height in which most hair from above the occipital bone ends.
// ok is false where nothing is graduated, since only graduation builds weight.
func WeightLine(c *strand.Haircut, strands []strand.Strand) (w Weight, ok bool) {
	bone, _ := c.Plan.Head.Landmark("occipital bone")
	area := make(map[int]float64)
	total := 0.0
	for _, s := range strands {
		if !s.Cut || s.Root.P.Z <= bone.P.Z {
			continue
		}
		ok = ok || graduated(c.Cuts[s.Section])
		area[int(math.Floor(s.Path.End().Z/bin))] += s.Area
		total += s.Area
	}
	if !ok || total == 0 {
		return Weight{}, false
	}
	most, at := 0.0, 0
	for level, a := range area {
		if a > most || a == most && level < at {
			most, at = a, level
		}
	}
	return Weight{Z: float64((float64(at) + 0.5) * bin), Share: most / total}, true
}

// graduated tells whether a cut leaves hair longer from row to row above: a
// travelling guide, held lower than straight out.
func graduated(c strand.Cut) bool {
	_, travels := c.Guide.(strand.Travelling)
	const natural = 1 // degrees; hair held so low is one length
	e := geom.InDegrees(c.Lift.Elevation)
	return travels && e >= natural && e < 90
}
