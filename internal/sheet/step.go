package sheet

import (
	"slices"
	"strings"
	"unicode"

	"plait/internal/diag"
	"plait/internal/geom"
	"plait/internal/head"
	"plait/internal/scalp"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

// kind is a kind of parting with its own options and how they are read.
type kind struct {
	name    string
	options []string
	read    func(*options) scalp.Parting
}

// single are the options of every parting by one line, shared those of all.
var (
	shared = []string{"part", "of", "gives", "pieces"}
	single = []string{"zigzag"}
)

func with(own []string, more ...string) []string { return slices.Concat(more, own) }

// kinds are the partings, in the order the handbook gives them.
var kinds = []kind{
	{"centre", single, func(*options) scalp.Parting { return scalp.Centre{} }},
	{"side", with(single, "on", "distance"), readSide},
	{"ear to ear", with(single, "over"), func(o *options) scalp.Parting { return scalp.EarToEar{Over: o.place("over")} }},
	{"horizontal", with(single, "at"), func(o *options) scalp.Parting { return scalp.Horizontal{At: o.needPlace("at")} }},
	{"level", with(single, "at", "to"), func(o *options) scalp.Parting {
		return scalp.Level{At: o.needPlace("at"), To: o.pair("to")}
	}},
	{"diagonal forward", with(single, "at", "slope"), func(o *options) scalp.Parting { return readDiagonal(o, false) }},
	{"diagonal back", with(single, "at", "slope"), func(o *options) scalp.Parting { return readDiagonal(o, true) }},
	{"horseshoe", single, func(*options) scalp.Parting { return scalp.Horseshoe{} }},
	{"circle", with(single, "round", "radius"), func(o *options) scalp.Parting {
		return scalp.Circle{Round: o.needPlace("round"), Radius: o.need("radius", quantity{centimetres, scalp.CircleRadius})}
	}},
	{"triangle", with(single, "point"), func(o *options) scalp.Parting { return scalp.Triangle{Point: o.needPlace("point")} }},
	{"line", with(single, "from", "to", "through"), readLine},
	{"radial", []string{"round", "into", "start"}, readRadial},
	{"concentric", []string{"round", "into"}, func(o *options) scalp.Parting {
		return scalp.Concentric{Round: o.needPlace("round"), Into: o.count("into", scalp.RingCount)}
	}},
	{"slices", []string{"into", "every", "along", "from", "foil", "weave"}, readSlices},
}

func kindNames() []string {
	names := make([]string, len(kinds))
	for i, k := range kinds {
		names[i] = k.name
	}
	return names
}

// readStep reads one parting. ok is false where its kind is not known, so that
// nothing can be said about its options.
func readStep(r *yamlpos.Reader, n *yamlpos.Node) (Step, bool) {
	name, ok := kindOf(r, n)
	if !ok {
		return Step{}, false
	}
	i := slices.Index(kindNames(), name.Value)
	if i < 0 {
		r.Report(diag.Errorf(ruleParting, name.Span, "there is no parting %q", name.Value).
			WithHelp("%s", suggest(name.Value, kindNames(), "the partings are")))
		return Step{}, false
	}
	k := kinds[i]
	o := &options{
		Fields: r.Fields(n, "the parting "+k.name, slices.Concat(shared, k.options)...),
		step:   &Step{Kind: name, Span: n.Span, spans: map[string]source.Span{}},
	}
	o.step.Taken.Part = k.read(o)
	o.common()
	return *o.step, true
}

// kindOf returns what `part` says, before it is known which other keys are right.
func kindOf(r *yamlpos.Reader, n *yamlpos.Node) (source.Text, bool) {
	if n == nil || n.Kind != yamlpos.Map {
		r.Fields(n, "a parting")
		return source.Text{}, false
	}
	var keys []string
	for _, p := range n.Pairs {
		keys = append(keys, p.Key.Value)
	}
	return r.Fields(n, "a parting", append(keys, "part")...).Need("part")
}

// options reads the options of one parting.
type options struct {
	*yamlpos.Fields
	step *Step
}

// text returns a key's value and remembers where it stands.
func (o *options) text(key string) (source.Text, bool) {
	t, ok := o.Text(key)
	if ok {
		o.step.spans[key] = t.Span
	}
	return t, ok
}

// place reads a place that may be left out.
func (o *options) place(key string) head.Place {
	t, ok := o.text(key)
	if !ok {
		return head.Place{}
	}
	o.step.places = append(o.step.places, t)
	p, _ := place(o.Reader(), t)
	return p
}

func (o *options) needPlace(key string) head.Place {
	o.Require(key)
	return o.place(key)
}

func (o *options) pair(key string) string {
	o.Require(key)
	t, ok := o.text(key)
	if !ok {
		return ""
	}
	name, _ := pair(o.Reader(), t)
	return name
}

// measure reads a number that may be left out.
func (o *options) measure(key string, q quantity) float64 {
	t, ok := o.text(key)
	if !ok {
		return 0
	}
	n, _ := number(o.Reader(), t, "`"+key+"`", q)
	return n.Value
}

func (o *options) need(key string, q quantity) float64 {
	o.Require(key)
	return o.measure(key, q)
}

// count reads a whole number.
func (o *options) count(key string, b scalp.Bounds) int {
	o.Require(key)
	if t, ok := o.text(key); !ok || t.Value == "" {
		return 0
	}
	n, _ := o.Whole(key, int(b.Least), int(b.Most))
	return n
}

// oneOf reads one of some words, the first where the key is left out.
func (o *options) oneOf(key, what string, known ...string) string {
	t, ok := o.text(key)
	if !ok {
		return known[0]
	}
	w, ok := word(o.Reader(), ruleWord, t, what, known)
	if !ok {
		return known[0]
	}
	return w.Value
}

// common reads what all partings have.
func (o *options) common() {
	s := o.step
	if o.Has("of") {
		s.Of = sectionsOf(o.Fields)
		s.spans["of"] = o.Node("of").Span
	}
	if o.Has("gives") {
		s.Gives = o.Texts("gives")
		s.spans["gives"] = o.Node("gives").Span
		o.names()
	}
	if o.Has("pieces") {
		s.Taken.Pieces, _ = o.Whole("pieces", 1, 20)
	}
	if o.Has("zigzag") {
		o.zigzag()
	}
	s.Taken.Of, s.Taken.Gives = values(s.Of), values(s.Gives)
}

// sectionsOf reads the sections that something is done to. A list of none is not
// taken for all.
func sectionsOf(f *yamlpos.Fields) []source.Text {
	names := f.Texts("of")
	if n := f.Node("of"); n != nil && n.Kind == yamlpos.List && len(n.Items) == 0 {
		f.Reader().Report(diag.Errorf(ruleSection, n.Span, "`of` names no section").
			WithHelp("name the sections, as in of: [back, nape], or leave the key out for all"))
	}
	return names
}

func values(texts []source.Text) []string {
	var list []string
	for _, t := range texts {
		list = append(list, t.Value)
	}
	return list
}

// names refuses names that the rest of the course could not speak of.
func (o *options) names() {
	if len(o.step.Gives) == 0 {
		o.Reader().Report(diag.Errorf(ruleName, o.KeySpan("gives"), "`gives` names nothing").
			WithHelp("name the parts, as in gives: [back, nape], or leave the key out for the usual names"))
	}
	for i, t := range o.step.Gives {
		switch {
		case t.Value == "" || t.Value == "all" || t.Value == scalp.Whole || len(t.Value) > 60 ||
			strings.ContainsAny(t.Value, "{}") || strings.ContainsFunc(t.Value, unicode.IsControl):
			o.Reader().Report(diag.Errorf(ruleName, t.Span, "%q cannot be the name of a section", t.Value).
				WithHelp("take a short name of words, other than all and scalp"))
		case slices.ContainsFunc(o.step.Gives[:i], func(before source.Text) bool { return before.Value == t.Value }):
			o.Reader().Report(diag.Errorf(ruleName, t.Span, "two parts are called %q", t.Value).WithHelp("give each part a name of its own"))
		}
	}
}

func (o *options) zigzag() {
	n := o.Node("zigzag")
	f := o.Reader().Fields(n, "`zigzag`", "teeth", "depth")
	if n != nil {
		o.step.spans["zigzag"] = n.Span
	}
	inner := &options{Fields: f, step: o.step}
	o.step.Taken.Zigzag = scalp.Zigzag{
		Teeth: inner.count("teeth", scalp.TeethCount),
		Depth: inner.need("depth", quantity{centimetres, scalp.TeethDepth}),
	}
}

func readSide(o *options) scalp.Parting {
	o.Require("on")
	return scalp.Side{
		Right:    o.oneOf("on", "side", "left", "right") == "right",
		Distance: o.need("distance", quantity{centimetres, scalp.SideDistance}),
	}
}

func readDiagonal(o *options, back bool) scalp.Parting {
	slope := o.need("slope", quantity{degrees, scalp.SlopeAngle})
	return scalp.Diagonal{At: o.needPlace("at"), Slope: geom.Degrees(slope), Back: back}
}

func readLine(o *options) scalp.Parting {
	o.Require("gives")
	return scalp.Line{From: o.needPlace("from"), To: o.needPlace("to"), Through: o.place("through")}
}

func readRadial(o *options) scalp.Parting {
	return scalp.Radial{
		Round: o.needPlace("round"),
		Into:  o.count("into", scalp.WedgeCount),
		Start: geom.Degrees(o.measure("start", quantity{degrees, scalp.StartAngle})),
	}
}

func readSlices(o *options) scalp.Parting {
	var p scalp.Slices
	switch {
	case o.Has("into") && o.Has("every"):
		o.Reader().Report(diag.Errorf(ruleNumber, o.KeySpan("every"), "slices are given by `into` and by `every`").
			WithHelp("say how many there are, or how wide they are, not both"))
	case o.Has("every"):
		p.Every = o.need("every", quantity{centimetres, scalp.SliceWidth})
	default:
		p.Into = o.count("into", scalp.SliceCount)
	}
	o.along(&p)
	if p.Along == scalp.AlongEarToEar {
		p.Reverse = o.oneOf("from", "end to count slices from", "left", "right") == "right"
	} else {
		p.Reverse = o.oneOf("from", "end to count slices from", "front", "nape") == "nape"
	}
	o.foil(&p)
	return p
}

// along reads "ear to ear" or "diagonal forward 30".
func (o *options) along(p *scalp.Slices) {
	t, ok := o.text("along")
	if !ok {
		return
	}
	for _, line := range []scalp.Along{scalp.AlongDiagonalForward, scalp.AlongDiagonalBack} {
		rest, found := strings.CutPrefix(t.Value, string(line))
		if !found {
			continue
		}
		p.Along = line
		slope := t.Slice(len(t.Value)-len(rest), len(t.Value)).Trim()
		n, _ := number(o.Reader(), slope, "the slope of the slices", quantity{degrees, scalp.SlopeAngle})
		p.Slope = geom.Degrees(n.Value)
		return
	}
	w, _ := word(o.Reader(), ruleWord, t, "line to count slices along", []scalp.Along{
		scalp.AlongMidline, scalp.AlongEarToEar, scalp.AlongDiagonalForward + " 30", scalp.AlongDiagonalBack + " 30"})
	p.Along = w.Value
}

// foil reads "1 of 2": the first of every two slices goes into foil.
func (o *options) foil(p *scalp.Slices) {
	t, ok := o.text("foil")
	if !ok {
		if o.Has("weave") {
			o.Reader().Report(diag.Errorf(ruleNumber, o.KeySpan("weave"), "strands are woven out of slices that go into foil, and none does").
				WithHelp("add foil: 1 of 2"))
		}
		return
	}
	take, of, found := t.Cut(" of ")
	taken, _, fine := parseNumber(take.Value, noUnit)
	total, _, right := parseNumber(of.Value, noUnit)
	whole := taken == float64(int(taken)) && total == float64(int(total))
	if !found || !fine || !right || !whole || !scalp.FoilCount.Hold(total) || taken < 1 || taken > total {
		o.Reader().Report(diag.Errorf(ruleNumber, t.Span, "%q does not say which slices go into foil", t.Value).
			WithHelp("write 1 of 2 for every second slice, 1 of 1 for all"))
		return
	}
	p.Foil = scalp.Foil{Take: int(taken), Of: int(total)}
	if o.Has("weave") {
		p.Foil.Weave = o.count("weave", scalp.WeaveCount)
	}
}
