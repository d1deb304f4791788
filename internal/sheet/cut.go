package sheet

import (
	"strings"

	"plait/internal/diag"
	"plait/internal/geom"
	"plait/internal/head"
	"plait/internal/scalp"
	"plait/internal/source"
	"plait/internal/strand"
	"plait/internal/yamlpos"
)

// Cut is how the hair of some sections is cut.
type Cut struct {
	Of    []source.Text // none means all
	Lift  strand.Lift
	Guide Guide
	Span  source.Span

	Elevation source.Span // where the elevation stands; not valid for natural fall that goes without saying

	// Claims: lengths that follow from the rest, in cm.
	Shortest, Longest Number
	Lengths           []Claim // at places on the head
}

// GuideKind is what a guide is.
type GuideKind string

// The kinds of guides.
const (
	GuideLevel      GuideKind = "level"      // all ends at one height in natural fall
	GuideTravelling GuideKind = "travelling" // a slice of what was cut last goes along
	GuideFixed      GuideKind = "length"     // one length everywhere
	GuidePoint      GuideKind = "point"      // all is brought to one point
	GuideWall       GuideKind = "wall"       // all is cut at one plane
	GuideLine       GuideKind = "line"       // all is brought to a strip that stands out
)

// Guide is what strands are cut to.
type Guide struct {
	Kind           GuideKind
	Cm             float64       // length, height of a level, distance of a wall
	Place          head.Place    // of a point; where a travelling guide or a level is, if it names one
	Back, Up, Left float64       // of the point, from its place
	Side           strand.Toward // that a wall faces
	Strip          Strip
	After          source.Text // the section that a travelling guide goes on from
	Span           source.Span

	place source.Text
}

// Strip is a strip of hair that is held straight out as a guide.
type Strip string

// The strips.
const (
	CentreBack Strip = "centre back"
	EarToEar   Strip = "ear to ear"
)

// hairline is the guide line that a travelling guide starts at if nothing else is
// said.
const hairline = "hairline"

// The bounds of cuts: lengths in cm, angles in degrees. An elevation past 180 would
// point into the head.
var (
	elevationAngle = scalp.Bounds{Least: 0, Most: 180}
	fingerAngle    = scalp.Bounds{Least: -80, Most: 80}
	turnAngle      = scalp.Bounds{Least: 1, Most: 90}
	cutLength      = scalp.Bounds{Least: strand.Shortest, Most: 150}
	claimedLength  = scalp.Bounds{Least: 0, Most: 300} // of hair, also where it is not cut
	guideHeight    = scalp.Bounds{Least: -150, Most: 100}
	guideDistance  = scalp.Bounds{Least: -60, Most: 100}
)

func readCuts(r *yamlpos.Reader, nodes []*yamlpos.Node) []Cut {
	var cuts []Cut
	for i, n := range nodes {
		if i == mostCuts {
			r.Report(diag.Errorf(ruleTooMany, n.Span, "a head sheet takes at most %d cuts", mostCuts).
				WithHelp("draw the rest on a second sheet"))
			break
		}
		if c, ok := readCut(r, n); ok {
			cuts = append(cuts, c)
		}
	}
	return cuts
}

func readCut(r *yamlpos.Reader, n *yamlpos.Node) (Cut, bool) {
	f := r.Fields(n, "a cut", "of", "elevation", "from", "over-direct", "finger", "guide", "shortest", "longest", "lengths")
	if n == nil {
		return Cut{}, false
	}
	c := Cut{Span: n.Span}
	if f.Has("of") {
		c.Of = sectionsOf(f)
		if len(c.Of) == 1 && c.Of[0].Value == "all" {
			c.Of = nil
		}
	}
	c.readLift(f)
	ok := f.Require("guide")
	if ok {
		c.Guide, ok = readGuide(r, f.Node("guide"))
	}
	if ok {
		c.holds(f)
	}
	c.Shortest, _ = measure(f, "shortest", quantity{centimetres, claimedLength})
	c.Longest, _ = measure(f, "longest", quantity{centimetres, claimedLength})
	c.Lengths = readClaims(f, "lengths", quantity{centimetres, claimedLength})
	for _, claim := range c.Lengths {
		place(r, claim.Of)
	}
	return c, ok
}

// readLift reads how strands are held.
func (c *Cut) readLift(f *yamlpos.Fields) {
	r := f.Reader()
	if t, ok := f.Text("elevation"); ok {
		c.Elevation = t.Span
		if t.Value != "natural" {
			c.Lift.Elevation = elevation(r, t)
		}
	}
	if t, ok := f.Text("from"); ok {
		from, _ := word(r, ruleWord, t, "place to measure an elevation from", []string{"head", "floor"})
		c.Lift.FromFloor = from.Value == "floor"
	}
	if t, ok := f.Text("finger"); ok {
		n, _ := number(r, t, "`finger`", quantity{degrees, fingerAngle})
		c.Lift.Fingers = geom.Degrees(n.Value)
	}
	if !f.Has("over-direct") {
		return
	}
	o := r.Fields(f.Node("over-direct"), "`over-direct`", "toward", "by")
	toward, named := o.Need("toward")
	o.Require("by")
	if named {
		side, _ := word(r, ruleWord, toward, "side to over-direct to", []strand.Toward{
			strand.TowardFront, strand.TowardBack, strand.TowardLeft, strand.TowardRight})
		c.Lift.Toward = side.Value
	}
	by, _ := measure(o, "by", quantity{degrees, turnAngle})
	c.Lift.By = geom.Degrees(by.Value)
}

// elevation reads the angle of a lift.
func elevation(r *yamlpos.Reader, t source.Text) float64 {
	value, _, ok := parseNumber(t.Value, degrees)
	if !ok {
		r.Report(diag.Errorf(ruleElevation, t.Span, "an elevation is natural or a number of degrees, not %q", t.Value).
			WithHelp("write natural, 45, 90, 135 or 180"))
		return 0
	}
	if !elevationAngle.Hold(value) {
		r.Report(diag.Errorf(ruleElevation, t.Span, "an elevation of %s° does not exist: 0° lies flat down the head, 180° flat upward", plain(value)).
			WithHelp("write a number from 0 to 180"))
		return 0
	}
	return geom.Degrees(value)
}

// holds reports a guide that goes with no elevation, or has none and needs it, and what
// is said of the hold in vain.
func (c *Cut) holds(f *yamlpos.Fields) {
	r, said := f.Reader(), c.Elevation.Valid()
	if said && f.Has("over-direct") && c.Lift.Elevation == geom.Degrees(90) && !c.Lift.FromFloor {
		r.Report(diag.Errorf(ruleElevation, f.KeySpan("over-direct"), "strands that stand straight out are not turned by over-direction").
			WithHelp("lift them to another angle, or bring them to a guide off the head, as in guide: {line: centre back, length: 10}"))
	}
	switch c.Guide.Kind {
	case GuideTravelling, GuideWall:
		if !said {
			r.Report(diag.Errorf(ruleElevation, c.Guide.Span, "this guide cuts nothing before it is said how strands are held").
				WithHelp("add %s, for example", c.Guide.usualHold()))
		}
	case GuideLevel, GuidePoint, GuideLine:
		if said && c.Lift.Elevation != 0 {
			r.Report(diag.Errorf(ruleElevation, c.Elevation, "strands that go to a %s are not held at an elevation", c.Guide.Kind).
				WithHelp("take the elevation away, or take another guide, as in guide: {length: 5, at: hairline, travels: yes}"))
		}
		for _, key := range []string{"from", "over-direct", "finger"} {
			if f.Has(key) {
				r.Report(diag.Errorf(ruleElevation, f.KeySpan(key), "`%s` changes nothing for strands that go to a %s", key, c.Guide.Kind).
					WithHelp("take it away, or take another guide, as in guide: {length: 5, at: hairline, travels: yes}"))
			}
		}
	}
}

// usualHold is how strands are usually held to a guide that does not say: level to a wall at a side,
// straight up to one above.
func (g Guide) usualHold() string {
	switch {
	case g.Kind != GuideWall:
		return "elevation: 45"
	case g.Side == strand.TowardTop:
		return "from: floor and elevation: 180"
	}
	return "from: floor and elevation: 90"
}

// guideKeys names the key by which each kind of guide is known.
var guideKeys = []string{"level", "length", "point", "wall", "line"}

func readGuide(r *yamlpos.Reader, n *yamlpos.Node) (Guide, bool) {
	f := r.Fields(n, "`guide`", "level", "length", "at", "travels", "after", "point", "back", "up", "left", "wall", "line")
	if n == nil || n.Kind != yamlpos.Map {
		return Guide{}, false
	}
	g := Guide{Span: n.Span}
	travels, _ := f.Flag("travels")
	before := len(r.Diagnostics())
	switch {
	case f.Has("level"):
		g.Kind = GuideLevel
		g.readLevel(f)
	case f.Has("point"):
		g.Kind = GuidePoint
		g.readPoint(f)
	case f.Has("wall"):
		g.Kind = GuideWall
		g.readWall(f)
	case f.Has("line"):
		g.Kind = GuideLine
		g.readStrip(f)
	case travels || f.Has("after"):
		g.Kind = GuideTravelling
		g.readTravelling(f)
	case f.Has("length"):
		g.Kind = GuideFixed
		n, _ := measure(f, "length", quantity{centimetres, cutLength})
		g.Cm = n.Value
	default:
		r.Report(diag.Errorf(ruleGuide, n.Span, "the guide says nothing to cut to").
			WithHelp("give it one of: %s", strings.Join(guideKeys, ", ")))
		return Guide{}, false
	}
	g.foreign(f)
	return g, len(r.Diagnostics()) == before
}

// guideUses are the keys that each kind of guide uses.
var guideUses = map[GuideKind][]string{
	GuideLevel:      {"level"},
	GuidePoint:      {"point", "back", "up", "left"},
	GuideWall:       {"wall", "at"},
	GuideLine:       {"line", "length"},
	GuideTravelling: {"length", "at", "travels", "after"},
	GuideFixed:      {"length", "travels"},
}

// foreign reports keys that belong to guides of another kind.
func (g *Guide) foreign(f *yamlpos.Fields) {
	known := map[string]bool{}
	for _, key := range guideUses[g.Kind] {
		known[key] = true
	}
	for _, key := range []string{"level", "length", "at", "travels", "after", "point", "back", "up", "left", "wall", "line"} {
		if f.Has(key) && !known[key] {
			f.Reader().Report(diag.Errorf(ruleGuide, f.KeySpan(key), "`%s` means nothing for this guide", key).
				WithHelp("a guide by %s takes: %s", g.Kind, strings.Join(guideUses[g.Kind], ", ")))
		}
	}
}

// readLevel reads a height in cm over the ear canals, or a landmark at it.
func (g *Guide) readLevel(f *yamlpos.Fields) {
	t, ok := f.Text("level")
	if !ok {
		return
	}
	if _, _, isNumber := parseNumber(t.Value, centimetres); isNumber {
		n, _ := number(f.Reader(), t, "`level`", quantity{centimetres, guideHeight})
		g.Cm = n.Value
		return
	}
	g.place = t
	g.Place, _ = place(f.Reader(), t)
}

func (g *Guide) readPoint(f *yamlpos.Fields) {
	if t, ok := f.Text("point"); ok {
		g.place = t
		g.Place, _ = place(f.Reader(), t)
	}
	way := func(key string) float64 {
		n, _ := measure(f, key, quantity{centimetres, guideDistance})
		return n.Value
	}
	g.Back, g.Up, g.Left = way("back"), way("up"), way("left")
}

// readWall reads "back" or "facing back".
func (g *Guide) readWall(f *yamlpos.Fields) {
	t, ok := f.Text("wall")
	if ok {
		t = t.Slice(len(t.Value)-len(strings.TrimPrefix(t.Value, "facing ")), len(t.Value))
		side, _ := word(f.Reader(), ruleWord, t, "side for a wall to face", []strand.Toward{
			strand.TowardBack, strand.TowardFront, strand.TowardLeft, strand.TowardRight, strand.TowardTop})
		g.Side = side.Value
	}
	f.Require("at")
	n, _ := measure(f, "at", quantity{centimetres, guideDistance})
	g.Cm = n.Value
}

func (g *Guide) readStrip(f *yamlpos.Fields) {
	if t, ok := f.Text("line"); ok {
		strip, _ := word(f.Reader(), ruleWord, t, "strip of hair for a guide", []Strip{CentreBack, EarToEar})
		g.Strip = strip.Value
	}
	f.Require("length")
	n, _ := measure(f, "length", quantity{centimetres, cutLength})
	g.Cm = n.Value
}

// readTravelling reads a guide that starts with a length at the hairline or a level
// line, or goes on from a section.
func (g *Guide) readTravelling(f *yamlpos.Fields) {
	if t, ok := f.Text("after"); ok {
		g.After = t
		for _, key := range []string{"length", "at"} {
			if f.Has(key) {
				f.Reader().Report(diag.Errorf(ruleGuide, f.KeySpan(key), "a guide that goes on from a section has its length from there").
					WithHelp("take `%s` away, or `after`", key))
			}
		}
		return
	}
	f.Require("length")
	n, _ := measure(f, "length", quantity{centimetres, cutLength})
	g.Cm = n.Value
	if t, ok := f.Text("at"); ok && t.Value != hairline {
		g.place = t
		g.Place, _ = place(f.Reader(), t)
	}
}
