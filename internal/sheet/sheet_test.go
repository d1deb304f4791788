package sheet

import (
	"fmt"
	"math"
	"os"
	"strings"
	"sync"
	"testing"

	"plait/internal/diag"
	"plait/internal/head"
	"plait/internal/scalp"
	"plait/internal/source"
	"plait/internal/strand"
)

func file(text string) *source.File {
	return source.NewFile("lessons/01-plan/plan.head.yaml", []byte(text))
}

// good reads a sheet without fault.
func good(t testing.TB, text string) *Sheet {
	t.Helper()
	s, found := Read(file(text))
	if len(found) > 0 || s.Broken {
		t.Fatalf("%q reports %s", text, report(found))
	}
	return s
}

func report(found []diag.Diagnostic) string {
	var b strings.Builder
	for _, d := range found {
		from, to := d.Span.Start(), d.Span.End()
		fmt.Fprintf(&b, "%d:%d-%d %s: %s; %s\n", from.Line, from.Column, to.Column, d.Rule, d.Message, d.Help)
	}
	return b.String()
}

// Bases are made once for all tests.
var bases = map[string]func() *scalp.Base{
	"adult": sync.OnceValue(func() *scalp.Base { return scalp.New(head.Adult(), scalp.Print) }),
	"ball":  sync.OnceValue(func() *scalp.Base { return scalp.New(head.Ball(), scalp.Print) }),
}

func parted(t *testing.T, text string) *scalp.Plan {
	t.Helper()
	s := good(t, text)
	base := bases["adult"]()
	if s.Head.Ball {
		base = bases["ball"]()
	}
	plan, err := base.Part(s.Taken())
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return plan
}

// expectAreas parts a sheet and compares names and areas of its sections, in order.
func expectAreas(t *testing.T, text string, tolerance float64, want ...any) {
	t.Helper()
	plan := parted(t, text)
	if len(plan.Sections) != len(want)/2 {
		t.Errorf("%q: got %d sections, want %d", text, len(plan.Sections), len(want)/2)
		return
	}
	for i, s := range plan.Sections {
		name, area := want[2*i].(string), want[2*i+1].(float64)
		if s.Name != name || !(math.Abs(s.Area-area) <= tolerance) {
			t.Errorf("%q: section %d is %q of %.4f cm², want %q of %.4f", text, i, s.Name, s.Area, name, area)
		}
	}
}

// Areas on a ball of 9 cm have closed forms (Archimedes).
func TestBall(t *testing.T) {
	const quarter = math.Pi * 81 / 2
	expectAreas(t, "head: ball\nsections:\n  - part: centre\n  - part: ear to ear\n", 1e-6,
		"left front", quarter, "left back", quarter, "right front", quarter, "right back", quarter)
	expectAreas(t, "head: ball\nsections: [{part: side, on: left, distance: 4 cm}]", 0.07,
		"left", math.Pi*9*5, "right", math.Pi*9*13)
	expectAreas(t, "head: ball\nsections: [{part: circle, round: crown, radius: 6}]", 0.06,
		"inside", math.Pi*36, "outside", math.Pi*(162-36))
	wedge := math.Pi * 36 / 8
	plan := parted(t, "head: ball\nsections: [{part: circle, round: crown, radius: 6}, {part: radial, round: crown, into: 8, of: inside}]")
	if s, ok := plan.Section("8"); !ok || math.Abs(s.Area-wedge) > 0.01 {
		t.Errorf("wedge 8 has %.4f cm², want %.4f", s.Area, wedge)
	}
}

// The areas on the head were found a second way: each point of a grid of 4000 by
// 2000 angles was classified by itself.
func TestAdult(t *testing.T) {
	const near = 0.05
	expectAreas(t, "sections:\n- part: centre\n- part: ear to ear\n", near,
		"left front", 107.815, "left back", 193.502, "right front", 107.815, "right back", 193.502)
	expectAreas(t, `
head: adult
sections:
  - part: horseshoe
  - {part: ear to ear, of: below, gives: [sides, back], pieces: 2}
  - {part: centre, of: sides, gives: [left side, right side]}
  - {part: level, at: occipital bone, to: ear back, of: back, gives: [back, nape]}
`, near, "top", 235.631, "left side", 44.439, "right side", 44.439, "back", 189.915, "nape", 88.209)
	expectAreas(t, `
sections:
  - {part: ear to ear}
  - {part: diagonal forward, at: occipital bone, slope: 30, of: back, gives: [above, nape]}
`, near, "front", 215.630, "above", 335.049, "nape", 51.955)
	expectAreas(t, "sections: [{part: triangle, point: 6 cm behind front hairline}]", near, "fringe", 28.705, "rest", 573.929)
}

func TestZigzag(t *testing.T) {
	s := good(t, "sections: [{part: horseshoe, zigzag: {teeth: 22, depth: 1.2}}]")
	if got, want := s.Steps[0].Taken.Zigzag, (scalp.Zigzag{Teeth: 22, Depth: 1.2}); got != want {
		t.Errorf("got %v, want %v", got, want)
	}
}

// Every option reaches its parting.
func TestPartings(t *testing.T) {
	degrees := func(d float64) float64 { return d * math.Pi / 180 }
	at := func(words string) head.Place {
		p, err := head.ParsePlace(words)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	for text, want := range map[string]scalp.Parting{
		"part: centre":                                                      scalp.Centre{},
		"part: side, on: right, distance: 2.5":                              scalp.Side{Right: true, Distance: 2.5},
		"part: ear to ear, over: crown":                                     scalp.EarToEar{Over: at("crown")},
		"part: horizontal, at: 2 cm above left ear top":                     scalp.Horizontal{At: at("2 cm above left ear top")},
		"part: level, at: occipital bone, to: nape corner":                  scalp.Level{At: at("occipital bone"), To: "nape corner"},
		"part: diagonal back, at: crown, slope: 30 degrees":                 scalp.Diagonal{At: at("crown"), Slope: degrees(30), Back: true},
		"part: line, from: crown, to: nape, through: apex, gives: [a, b]":   scalp.Line{From: at("crown"), To: at("nape"), Through: at("apex")},
		"part: radial, round: crown, into: 8, start: 22.5":                  scalp.Radial{Round: at("crown"), Into: 8, Start: degrees(22.5)},
		"part: concentric, round: crown, into: 3":                           scalp.Concentric{Round: at("crown"), Into: 3},
		"part: slices, into: 12":                                            scalp.Slices{Into: 12},
		"part: slices, every: 2.6, along: diagonal forward 30, from: nape":  scalp.Slices{Every: 2.6, Along: scalp.AlongDiagonalForward, Slope: degrees(30), Reverse: true},
		"part: slices, into: 9, along: ear to ear, from: right":             scalp.Slices{Into: 9, Along: scalp.AlongEarToEar, Reverse: true},
		"part: slices, into: 12, along: midline, foil: 1 of 2, weave: 8":    scalp.Slices{Into: 12, Along: scalp.AlongMidline, Foil: scalp.Foil{Take: 1, Of: 2, Weave: 8}},
		"part: triangle, point: 40 % front hairline to nape":                scalp.Triangle{Point: at("40 % front hairline to nape")},
		"part: horseshoe, of: [a, b], gives: [c, d]":                        scalp.Horseshoe{},
		"part: circle, round: 3 cm behind front hairline, radius: 4, of: x": scalp.Circle{Round: at("3 cm behind front hairline"), Radius: 4},
	} {
		if got := good(t, "sections: [{"+text+"}]").Steps[0].Taken.Part; got != want {
			t.Errorf("%q gives %+v, want %+v", text, got, want)
		}
	}
}

// expectReports reads a sheet and compares what is reported, with its place.
func expectReports(t *testing.T, text string, want ...string) {
	t.Helper()
	s, found := Read(file(text))
	if got, want := report(found), strings.Join(want, "\n")+"\n"; got != want {
		t.Errorf("%q reports\n%swant\n%s", text, got, want)
	}
	if !s.Broken {
		t.Errorf("%q is not broken", text)
	}
}

func TestReports(t *testing.T) {
	expectReports(t, "section: []",
		"1:1-8 text/unknown-key: a head sheet has no key \"section\"; did you mean \"sections\"? the keys are: title, head, sections, draw, cut, before, fall, product, area, share")
	expectReports(t, "head: child", `1:7-12 head/word: "child" is no head; the words are: adult, ball`)
	expectReports(t, "head: {circumference: 80}",
		"1:23-25 head/number: `circumference` is 80, and it must lie between 44 and 66 cm; write a number from 44 to 66")
	partings := "the partings are: centre, side, ear to ear, horizontal, level, diagonal forward, diagonal back, horseshoe, circle, triangle, line, radial, concentric, slices"
	expectReports(t, "sections: [{part: horse shoe}]", `1:19-29 head/parting: there is no parting "horse shoe"; did you mean horseshoe? `+partings)
	expectReports(t, "sections: [{of: back}]", "1:12-12 text/missing-key: a parting has no \"part\"; add a line `part: …`")
	expectReports(t, "sections: [centre]",
		"1:12-18 text/wrong-kind: a parting is a single value, want a map of keys and values; write `key: value` on lines of their own, or {key: value, key: value}")
	expectReports(t, "sections: [{part: centre, at: crown}]",
		"1:27-29 text/unknown-key: the parting centre has no key \"at\"; the keys are: part, of, gives, pieces, zigzag")
	expectReports(t, "sections: [{part: side, on: let, distance: 9}]",
		`1:29-32 head/word: "let" is no side; did you mean left? the words are: left, right`,
		"1:44-45 head/number: `distance` is 9, and it must lie between 0.5 and 6 cm; write a number from 0.5 to 6")
	expectReports(t, "sections: [{part: circle, round: crwon, radius: six}]",
		`1:34-39 head/place: there is no landmark "crwon"; did you mean crown? the landmarks are: front hairline, apex, crown, below crown, occipital bone, nape, widest back, left recession, right recession, left ear top, right ear top, left ear back, right ear back, left nape corner, right nape corner, left parietal ridge, right parietal ridge`,
		"1:49-52 head/number: `radius` is \"six\", want a number in cm; write a number with a decimal point; the unit cm may be left out")
	expectReports(t, "sections: [{part: centre, zigzag: {teeth: 1, depth: 5}}]",
		"1:43-44 text/wrong-kind: `teeth` is \"1\", want a whole number from 2 to 60; write a whole number without a unit",
		"1:53-54 head/number: `depth` is 5, and it must lie between 0.2 and 3 cm; write a number from 0.2 to 3")
	expectReports(t, "sections: [{part: centre, gives: [a, a]}]", `1:38-39 head/name: two parts are called "a"; give each part a name of its own`)
	expectReports(t, `sections: [{part: centre, gives: ["a\x01", b]}]`,
		`1:36-41 head/name: "a\x01" cannot be the name of a section; take a short name of words, other than all and scalp`)
	expectReports(t, "sections: [{part: centre, of: []}]",
		"1:31-33 head/unknown-section: `of` names no section; name the sections, as in of: [back, nape], or leave the key out for all")
	expectReports(t, "sections: [{part: slices, every: 0.00001 cm}]",
		"1:34-44 head/number: `every` is 0.00001 cm, and it must lie between 0.3 and 10 cm; write a number from 0.3 to 10")
	expectReports(t, "product: {density: many}",
		"1:20-24 head/number: `density` is \"many\", want a number per cm²; write a number with a decimal point; the unit per cm² may be left out")
	expectReports(t, "sections: [{part: slices, into: 3, foil: 3 of 2}]",
		`1:42-48 head/number: "3 of 2" does not say which slices go into foil; write 1 of 2 for every second slice, 1 of 1 for all`)
	expectReports(t, "draw: {views: [lift]}", `1:16-20 head/view: "lift" is no view of a head sheet; did you mean left? the views are: `+strings.Join(Views(), ", "))
	expectReports(t, "fall: gravty", `1:7-13 head/word: "gravty" is no way for hair to fall; did you mean gravity? the words are: gravity, from the crown, centre parting`)
	expectReports(t, "area: {nape: big}", "1:14-17 head/number: `nape` is \"big\", want a number in cm²; write a number with a decimal point; the unit cm² may be left out")
}

func TestReportsOfCuts(t *testing.T) {
	expectReports(t, "cut: [{elevation: 200, guide: {length: 5}}]",
		"1:19-22 cut/elevation: an elevation of 200° does not exist: 0° lies flat down the head, 180° flat upward; write a number from 0 to 180")
	expectReports(t, "cut: [{of: nape}]", "1:7-7 text/missing-key: a cut has no \"guide\"; add a line `guide: …`")
	expectReports(t, "cut: [{guide: {travels: yes}}]",
		"1:15-15 text/missing-key: `guide` has no \"length\"; add a line `length: …`")
	expectReports(t, "cut: [{guide: {length: 5, travels: yes}}]",
		"1:15-40 cut/elevation: this guide cuts nothing before it is said how strands are held; add elevation: 45, for example")
	expectReports(t, "cut: [{guide: {wall: up, at: 18}}]",
		"1:15-33 cut/elevation: this guide cuts nothing before it is said how strands are held; add from: floor and elevation: 180, for example")
	expectReports(t, "cut: [{elevation: 45, guide: {level: -8}}]",
		"1:19-21 cut/elevation: strands that go to a level are not held at an elevation; take the elevation away, or take another guide, as in guide: {length: 5, at: hairline, travels: yes}")
	expectReports(t, "cut: [{elevation: 45, guide: {level: -8, up: 2}}]",
		"1:42-44 cut/guide: `up` means nothing for this guide; a guide by level takes: level")
	expectReports(t, "cut: [{of: [], guide: {level: -8}}]",
		"1:12-14 head/unknown-section: `of` names no section; name the sections, as in of: [back, nape], or leave the key out for all")
	expectReports(t, "cut: [{over-direct: {toward: back, by: 30}, finger: 10, from: floor, guide: {point: crown, back: 9}}]",
		"1:57-61 cut/elevation: `from` changes nothing for strands that go to a point; take it away, or take another guide, as in guide: {length: 5, at: hairline, travels: yes}",
		"1:8-19 cut/elevation: `over-direct` changes nothing for strands that go to a point; take it away, or take another guide, as in guide: {length: 5, at: hairline, travels: yes}",
		"1:45-51 cut/elevation: `finger` changes nothing for strands that go to a point; take it away, or take another guide, as in guide: {length: 5, at: hairline, travels: yes}")
	expectReports(t, "cut: [{elevation: 90, over-direct: {toward: back, by: 30}, guide: {length: 5}}]",
		"1:23-34 cut/elevation: strands that stand straight out are not turned by over-direction; lift them to another angle, or bring them to a guide off the head, as in guide: {line: centre back, length: 10}")
	expectReports(t, "cut: [{guide: {}}]",
		"1:15-17 cut/guide: the guide says nothing to cut to; give it one of: level, length, point, wall, line")
}

// expectProblem parts a sheet and compares how the trouble is worded.
func expectProblem(t *testing.T, text, want string) {
	t.Helper()
	s := good(t, text)
	_, err := bases["adult"]().Part(s.Taken())
	if err == nil {
		t.Errorf("%q can be parted", text)
		return
	}
	if got := strings.TrimSpace(report([]diag.Diagnostic{s.Explain(err)})); got != want {
		t.Errorf("%q says\n%s\nwant\n%s", text, got, want)
	}
}

func TestExplain(t *testing.T) {
	expectProblem(t, "sections:\n- part: ear to ear\n- {part: triangle, point: 6 cm behind front hairline, of: back}\n",
		`3:59-63 head/misses: step 2, triangle: the line misses "back"; it comes no nearer than 1.4 cm; part another section, or move the line`)
	expectProblem(t, "sections:\n- part: centre\n- part: centre\n",
		`3:9-15 head/misses: step 2, centre: the line runs along the edge of "left" and does not divide it; say which sections it divides with of:, or move the line`)
	expectProblem(t, "sections:\n- part: centre\n- {part: ear to ear, of: lfet}\n",
		`3:26-30 head/unknown-section: step 2, ear to ear: there is no section "lfet" yet; did you mean left? by now there are: left, right`)
	expectProblem(t, "sections:\n- {part: centre, gives: [a, b, c]}\n",
		`2:25-34 head/name: step 1, centre: 3 parts are named, and the parting makes 2; name 2 parts, or leave gives: out for the usual names`)
	expectProblem(t, "sections:\n- part: centre\n- {part: ear to ear, of: left, gives: [right, back]}\n",
		`3:40-45 head/name: step 2, ear to ear: two sections would be called "right"; give the parts other names with gives:`)
	expectProblem(t, "sections:\n- {part: level, at: left ear top, to: ear back}\n",
		`2:21-33 head/place: step 1, level: "left ear top" does not lie in the middle, and this parting is alike on both sides; name a landmark in the middle, as in crown or occipital bone`)
	expectProblem(t, "sections:\n- {part: circle, round: 50 cm behind front hairline, radius: 3}\n",
		`2:25-52 head/place: step 1, circle: "50 cm behind front hairline" lies beyond the hairline; take a shorter distance; from front hairline to nape over the middle are about 35 cm`)
	expectProblem(t, "sections:\n- {part: centre, zigzag: {teeth: 60, depth: 3}}\n",
		`2:45-46 head/number: step 1, centre: depth is 3, and it must lie between 0.2 and 1.15 cm; write a number from 0.2 to 1.15`)
	expectProblem(t, "sections:\n- {part: side, on: left, distance: 6, zigzag: {teeth: 60, depth: 1}}\n",
		`2:55-57 head/number: step 1, side: a tooth would be 0.38 cm wide, and 0.4 cm is the least; take fewer teeth`)
	expectProblem(t, "sections:\n- {part: slices, every: 0.3}\n",
		`2:25-28 head/number: step 1, slices: there would be 115 slices, and there must be from 2 to 60; make them wider or narrower, or part the section before`)
	expectProblem(t, "sections:\n- {part: slices, into: 28}\n",
		`2:10-16 head/too-many: step 1, slices: the lines cross too often to be drawn; take fewer slices, or part a panel off before and slice that: slices run together at the sides and in the hollow of the nape`)
	expectProblem(t, "sections:\n- part: centre\n- {part: slices, into: 2, of: left}\n- {part: slices, into: 2, of: right}\n",
		`4:10-16 head/name: step 3, slices: two sections would be called "1"; part both sections in one step, as in of: [back, front], which makes back 1 and front 1; or give the parts other names with gives:`)

	expectProblem(t, "sections:\n- part: ear to ear\n- {part: slices, into: 20}\n",
		`3:10-16 head/line: step 2, slices: the slices would cross in "front"; take fewer slices, or part a panel off before and slice that: slices run together at the sides and in the hollow of the nape`)
}

// The bounds that reading holds are those of the partings themselves: a number on
// the bound is parted, one beyond it never gets there.
func TestBoundsAgree(t *testing.T) {
	for text, fine := range map[string]bool{
		"part: side, on: left, distance: 0.5": true, "part: side, on: left, distance: 0.49": false,
		"part: side, on: left, distance: 6": true, "part: side, on: left, distance: 6.01": false,
		"part: circle, round: crown, radius: 1": true, "part: circle, round: crown, radius: 15.1": false,
		"part: diagonal forward, at: crown, slope: 5": true, "part: diagonal forward, at: crown, slope: 81": false,
		"part: radial, round: crown, into: 36": true, "part: radial, round: crown, into: 37": false,
		"part: slices, into: 2": true, "part: slices, into: 61": false,
		"part: slices, every: 10": true, "part: slices, every: 0.29": false,
	} {
		s, found := Read(file("head: ball\nsections: [{" + text + "}]"))
		if (len(found) == 0) != fine {
			t.Errorf("%s reports %s", text, report(found))
			continue
		}
		if !fine {
			continue
		}
		if _, err := bases["ball"]().Part(s.Taken()); err != nil {
			t.Errorf("%s: %v", text, err)
		}
	}
}

func TestDraw(t *testing.T) {
	s := good(t, "title: Where it goes\ndraw: {views: [left, shape back], number: [nape, back], hatch: none, hidden: yes, arrows: [{on: nape, run: down}]}")
	d := s.Draw
	if len(d.Views) != 2 || d.Views[1].Value != (View{ShowShape, FromBack}) || len(d.Number) != 2 || !d.Plain || !d.Hidden || d.Arrows[0].Run.Value != RunDown {
		t.Errorf("got %+v", d)
	}
	if s.Name != "plan" || s.Title.Value != "Where it goes" {
		t.Errorf("got %q, %q", s.Name, s.Title.Value)
	}
}

func TestViews(t *testing.T) {
	for _, words := range Views() {
		v, ok := ParseView(words)
		if !ok || v.String() != words {
			t.Errorf("%q reads as %v", words, v)
		}
	}
	if v, ok := ParseView("lengths"); !ok || v != (View{ShowLengths, FromLeft}) {
		t.Errorf("lengths is %v", v)
	}
	for _, words := range []string{"", "shape top", "left back", "above"} {
		if v, ok := ParseView(words); ok {
			t.Errorf("%q passes as %v", words, v)
		}
	}
}

// expectLength lowers the only cut of a sheet and compares the length at a landmark.
// The lengths on the head are sums of arcs of the midline, which symmetry keeps
// strands on.
func expectLength(t *testing.T, text, landmark string, want float64) {
	t.Helper()
	s := good(t, text)
	h := s.Head.New()
	guide, faults := s.Cuts[0].Guide.On(h, strand.Gravity)
	if len(faults) > 0 {
		t.Fatal(report(faults))
	}
	root, _ := h.Landmark(landmark)
	got, err := guide.Length(h, root, s.Cuts[0].Lift)
	if err != nil || math.Abs(got-want) > 0.03 {
		t.Errorf("%s at %s: %.3f cm, want %.3f (%v)", text, landmark, got, want, err)
	}
}

func TestCuts(t *testing.T) {
	oneLength := "cut: [{of: all, elevation: natural, guide: {level: -8}}]"
	expectLength(t, oneLength, "crown", 18.82)
	expectLength(t, oneLength, "nape", 2.10)
	graduation := "cut: [{of: all, elevation: 45, guide: {length: 5, at: hairline, travels: yes}}]"
	expectLength(t, graduation, "crown", 17.24)
	expectLength(t, graduation, "front hairline", 5)
	expectLength(t, "cut: [{elevation: 135, guide: {length: 20, travels: yes}}]", "occipital bone", 15.10)
	expectLength(t, "cut: [{guide: {length: 11}}]", "apex", 11)
	expectLength(t, "cut: [{elevation: 180, from: floor, guide: {wall: facing up, at: 18}}]", "nape", 23.90)
	point := "cut: [{of: all, guide: {point: crown, back: 13, up: 1}}]"
	expectLength(t, point, "crown", 13.04)
	expectLength(t, point, "front hairline", 29.62)
}

// The length before a cut is what `before` says, else the one that product is for.
func TestUncut(t *testing.T) {
	expect := func(text string, want float64) {
		t.Helper()
		if got := good(t, text).Uncut(); got != want {
			t.Errorf("%q: hair was %g cm long, want %g", text, got, want)
		}
	}
	expect("before: 30 cm", 30)
	expect("before: 30\nproduct: {length: 2}", 30)
	expect("product: {length: 12.5}", 12.5)
	expect("fall: gravity", 0)
	expectReports(t, "before: 300", "1:9-12 head/number: `before` is 300, and it must lie between 0.5 and 150 cm; write a number from 0.5 to 150")
}

func TestClaims(t *testing.T) {
	s := good(t, "area: {nape: 88.2 cm2}\nshare: {nape: 15 %}\ncut: [{guide: {length: 11}, shortest: 11, longest: 11.0 cm, lengths: {crown: 11}}]\nproduct: {length: 20, density: 200 per cm2, coat: 0.05, ratio: 1.2}")
	if c := s.Areas[0]; c.Of.Value != "nape" || c.Says.Value != 88.2 || c.Says.Places != 1 {
		t.Errorf("got %+v", c)
	}
	if c := s.Cuts[0]; c.Longest.Places != 1 || c.Shortest.Places != 0 || c.Lengths[0].Of.Value != "crown" {
		t.Errorf("got %+v", c)
	}
	if p := s.Product; p.Length.Value != 20 || p.Density.Value != 200 || p.Coat.Value != 0.05 || p.Ratio.Value != 1.2 {
		t.Errorf("got %+v", p)
	}
}

// Whatever the bytes, reading answers, what it reports lies in the file, and what it
// passes can be lowered.
func FuzzRead(f *testing.F) {
	for _, seed := range []string{
		"sections:\n- {part: slices, every: 2.6, along: diagonal forward 30, of: [a, b], from: nape, foil: 1 of 2, weave: 3}\n",
		"head: {circumference: 57}\nsections: [{part: horseshoe, zigzag: {teeth: 22, depth: 1.2}, gives: [a, b], pieces: 2}]",
		"cut: [{of: all, elevation: 45, over-direct: {toward: back, by: 30}, finger: -10, guide: {length: 5, at: 3 cm below crown, travels: yes}, lengths: {crown: 5}}]\nfall: gravity",
		"draw: {views: [left, shape back], number: [a], hatch: auto, arrows: [{on: a, run: up}]}\narea: {a: 3 cm²}\nproduct: {length: 2}",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, found := Read(file(text))
		for _, d := range found {
			if d.Span.File() != s.File || d.Message == "" {
				t.Fatalf("%q: %+v", text, d)
			}
		}
		if diag.HasErrors(found) && !s.Broken {
			t.Fatalf("%q has errors and is not broken", text)
		}
		if s.Broken {
			return
		}
		for _, step := range s.Taken() {
			step.Part.Kind()
		}
		for i := range s.Cuts {
			s.Cuts[i].Guide.On(reference(), s.Ends())
		}
	})
}

// What the handbook shows can be read and parted, and its cuts be made.
func TestHandbook(t *testing.T) {
	text, err := os.ReadFile("../../content/handbook.md")
	if err != nil {
		t.Fatal(err)
	}
	fences := strings.Split(string(text), "```sheet\n")[1:]
	if len(fences) < 2 {
		t.Fatal("the handbook shows no head sheet and cut")
	}
	for _, fence := range fences {
		example, _, _ := strings.Cut(fence, "```")
		plan := parted(t, example)
		if len(plan.Warnings) > 0 {
			t.Errorf("%s\nwarns: %v", example, plan.Warnings[0])
		}
		for _, cut := range good(t, example).Cuts {
			if _, faults := cut.Guide.On(plan.Head, strand.Gravity); len(faults) > 0 {
				t.Error(report(faults))
			}
		}
	}
}
