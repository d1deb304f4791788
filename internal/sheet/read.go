package sheet

import (
	"plait/internal/diag"
	"plait/internal/head"
	"plait/internal/scalp"
	"plait/internal/source"
	"plait/internal/strand"
	"plait/internal/yamlpos"
)

// Keys are the keys of a head sheet, in the order the handbook gives them.
var Keys = []string{"title", "head", "sections", "draw", "cut", "before", "fall", "product", "area", "share"}

// Most of what a sheet may list.
const (
	mostSteps = 200
	mostCuts  = 100
)

// Read reads a head sheet. It always answers; what could not be read is reported
// and marks the sheet broken. No parting is worked out here: what only shows on the
// head is for [Sheet.Explain] to word.
func Read(file *source.File) (*Sheet, []diag.Diagnostic) {
	s := &Sheet{Name: nameOf(file.Name()), File: file}
	node, faults := yamlpos.Parse(source.NewFragment(file.Span(0, 0), file.Whole()))
	r := yamlpos.NewReader(faults...)
	f := r.Fields(node, "a head sheet", Keys...)
	s.Title, _ = f.Text("title")
	if f.Has("head") {
		s.Head = readHead(r, f.Node("head"))
	}
	if f.Has("sections") {
		s.Steps = readSteps(r, f.Nodes("sections"))
	}
	if f.Has("draw") {
		s.Draw = readDraw(r, f.Node("draw"))
	}
	if f.Has("product") {
		s.Product = readProduct(r, f.Node("product"))
	}
	if f.Has("cut") {
		s.Cuts = readCuts(r, f.Nodes("cut"))
	}
	s.Before, _ = measure(f, "before", quantity{centimetres, hairLength})
	if t, ok := f.Text("fall"); ok {
		s.Fall, _ = word(r, ruleWord, t, "way for hair to fall", strand.Dressings())
	}
	s.Areas = readClaims(f, "area", quantity{squares, scalp.Bounds{Least: 0, Most: 2000}})
	s.Shares = readClaims(f, "share", quantity{shares, scalp.Bounds{Least: 0, Most: 100}})
	s.Broken = node == nil || diag.HasErrors(r.Diagnostics())
	return s, r.Diagnostics()
}

// readHead reads adult, ball or {circumference: 57}.
func readHead(r *yamlpos.Reader, n *yamlpos.Node) Head {
	if n != nil && n.Kind == yamlpos.Map {
		f := r.Fields(n, "`head`", "circumference")
		f.Require("circumference")
		cm, _ := measure(f, "circumference", quantity{centimetres, scalp.Bounds{Least: head.LeastCircumference, Most: head.MostCircumference}})
		return Head{Circumference: cm.Value}
	}
	t, ok := r.Text(n, "`head`")
	if !ok {
		return Head{}
	}
	name, _ := word(r, ruleWord, t, "head", []string{"adult", "ball"})
	return Head{Ball: name.Value == "ball"}
}

func readSteps(r *yamlpos.Reader, nodes []*yamlpos.Node) []Step {
	var steps []Step
	for i, n := range nodes {
		if i == mostSteps {
			r.Report(diag.Errorf(ruleTooMany, n.Span, "a head sheet takes at most %d partings", mostSteps).
				WithHelp("draw the rest on a second sheet"))
			break
		}
		if s, ok := readStep(r, n); ok {
			steps = append(steps, s)
		}
	}
	return steps
}

func readDraw(r *yamlpos.Reader, n *yamlpos.Node) Draw {
	f := r.Fields(n, "`draw`", "views", "number", "hatch", "hidden", "arrows")
	var d Draw
	if f.Has("views") {
		for _, t := range f.Texts("views") {
			if v, ok := ReadView(r, t); ok {
				d.Views = append(d.Views, v)
			}
		}
	}
	if f.Has("number") {
		d.Number = f.Texts("number")
	}
	if t, ok := f.Text("hatch"); ok {
		hatch, _ := word(r, ruleWord, t, "hatch", []string{"auto", "none"})
		d.Plain = hatch.Value == "none"
	}
	d.Hidden, _ = f.Flag("hidden")
	if f.Has("arrows") {
		for _, n := range f.Nodes("arrows") {
			if a, ok := readArrow(r, n); ok {
				d.Arrows = append(d.Arrows, a)
			}
		}
	}
	return d
}

// ReadView reads the words of a view and reports those that are none.
func ReadView(r *yamlpos.Reader, t source.Text) (source.Stated[View], bool) {
	v, ok := ParseView(t.Value)
	if !ok {
		r.Report(diag.Errorf(ruleView, t.Span, "%q is no view of a head sheet", t.Value).
			WithHelp("%s", suggest(t.Value, Views(), "the views are")))
		return source.Stated[View]{}, false
	}
	return source.Stated[View]{Value: v, Span: t.Span}, true
}

func readArrow(r *yamlpos.Reader, n *yamlpos.Node) (Arrow, bool) {
	f := r.Fields(n, "an arrow", "on", "run")
	on, named := f.Need("on")
	t, directed := f.Need("run")
	if !named || !directed {
		return Arrow{}, false
	}
	run, ok := word(r, ruleWord, t, "direction of an arrow", []Run{RunDown, RunUp, RunToFace, RunFromFace, RunLeft, RunRight})
	return Arrow{On: on, Run: run}, ok
}

// The bounds of what coats the hair. Hair counts run from 129 to 300 for a cm² in
// the literature (Barman et al., J. Invest. Dermatol. 44, 1965; J. Soc. Cosmet.
// Chem. 28, 1977); the others are far beyond what is used.
var (
	hairLength  = scalp.Bounds{Least: 0.5, Most: 150}
	hairDensity = scalp.Bounds{Least: 50, Most: 400}
	coatWeight  = scalp.Bounds{Least: 0, Most: 1}
	coatRatio   = scalp.Bounds{Least: 0.1, Most: 10}
)

func readProduct(r *yamlpos.Reader, n *yamlpos.Node) Product {
	f := r.Fields(n, "`product`", "length", "density", "coat", "ratio")
	return Product{
		Length:  stated(f, "length", quantity{centimetres, hairLength}),
		Density: stated(f, "density", quantity{hairsPerArea, hairDensity}),
		Coat:    stated(f, "coat", quantity{noUnit, coatWeight}),
		Ratio:   stated(f, "ratio", quantity{noUnit, coatRatio}),
		Span:    f.Span(),
	}
}

// readClaims reads a map of names to typed numbers.
func readClaims(f *yamlpos.Fields, key string, q quantity) []Claim {
	if !f.Has(key) {
		return nil
	}
	r := f.Reader()
	var claims []Claim
	for _, p := range f.Entries(key) {
		t, ok := r.Text(p.Value, "`"+p.Key.Value+"`")
		if !ok {
			continue
		}
		if n, ok := number(r, t, "`"+p.Key.Value+"`", q); ok {
			claims = append(claims, Claim{Of: p.Key, Says: n})
		}
	}
	return claims
}
