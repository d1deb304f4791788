package draw

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/xml"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"

	"plait/internal/geom"
	"plait/internal/head"
	"plait/internal/path"
	"plait/internal/scalp"
)

var update = flag.Bool("update", false, "write the drawings that others are compared with")

var (
	preview = sync.OnceValue(func() *scalp.Base { return scalp.New(head.Adult(), scalp.Preview) })
	print   = sync.OnceValue(func() *scalp.Base { return scalp.New(head.Adult(), scalp.Print) })
)

func place(text string) head.Place {
	p, err := head.ParsePlace(text)
	if err != nil {
		panic(err)
	}
	return p
}

// sample is a sheet to draw.
type sample struct {
	name   string
	steps  []scalp.Step
	arrows []Arrow
	hidden bool
}

func of(names ...string) []string { return names }

func samples() []sample {
	zigzag := scalp.Zigzag{Teeth: 22, Depth: 1.2}
	five := func(z scalp.Zigzag) []scalp.Step {
		return []scalp.Step{
			{Part: scalp.Horseshoe{}, Zigzag: z},
			{Part: scalp.EarToEar{}, Of: of("below"), Gives: of("sides", "back"), Pieces: 2},
			{Part: scalp.Centre{}, Of: of("sides")},
			{Part: scalp.Level{At: place("occipital bone"), To: "ear back"}, Of: of("back"), Gives: of("back", "nape")},
		}
	}
	return []sample{
		{name: "whole"},
		{name: "four", steps: []scalp.Step{{Part: scalp.Centre{}}, {Part: scalp.EarToEar{}}},
			arrows: []Arrow{{0, Down}, {1, Up}, {2, TowardFace}, {3, TowardBack}}},
		{name: "five", steps: five(scalp.Zigzag{}), hidden: true},
		{name: "zigzag", steps: five(zigzag)},
		{name: "fringe", steps: []scalp.Step{
			{Part: scalp.Triangle{Point: place("6 cm behind front hairline")}},
			{Part: scalp.Diagonal{At: place("occipital bone"), Slope: geom.Degrees(30)}, Of: of("rest"), Gives: of("above", "nape")},
		}, hidden: true, arrows: []Arrow{{1, TowardBack}, {2, Down}}},
		{name: "foils", steps: []scalp.Step{
			{Part: scalp.Side{Distance: 4}, Gives: of("left panel", "rest")},
			{Part: scalp.Side{Right: true, Distance: 4}, Of: of("rest"), Gives: of("middle", "right panel")},
			{Part: scalp.EarToEar{}, Of: of("middle"), Gives: of("top", "back")},
			{Part: scalp.Slices{Into: 12, Foil: scalp.Foil{Take: 1, Of: 2, Weave: 9}}, Of: of("back")},
		}},
		{name: "many", steps: []scalp.Step{
			{Part: scalp.Circle{Round: place("crown"), Radius: 6}, Gives: of("crown", "rest")},
			{Part: scalp.Radial{Round: place("crown"), Into: 8}, Of: of("crown")},
			{Part: scalp.EarToEar{}, Of: of("rest")},
			{Part: scalp.Centre{}, Of: of("front", "back")},
			{Part: scalp.Slices{Along: scalp.AlongDiagonalForward, Slope: geom.Degrees(30), Every: 2.6, Reverse: true}, Of: of("back left", "back right")},
		}, arrows: []Arrow{{8, Down}, {10, TowardFace}}},
	}
}

func (s sample) plan(t testing.TB, b *scalp.Base) *scalp.Plan {
	t.Helper()
	plan, err := b.Part(s.steps)
	if err != nil {
		t.Fatalf("%s: %v", s.name, err)
	}
	return plan
}

func (s sample) drawings(t testing.TB, b *scalp.Base) *Drawings {
	t.Helper()
	plan := s.plan(t, b)
	sheet := Sheet{Title: "Sample " + s.name, Plan: plan, Arrows: s.arrows, Hidden: s.hidden}
	for i := range plan.Sections {
		sheet.Sections = append(sheet.Sections, Section{Number: i + 1, Tint: Tints[i%len(Tints)]})
	}
	return New(sheet)
}

// each calls a function for each view of each sample.
func each(t *testing.T, b *scalp.Base, do func(t *testing.T, d *Drawings, v View)) {
	for _, s := range samples() {
		d := s.drawings(t, b)
		for _, v := range Views() {
			t.Run(s.name+" "+v.Name(), func(t *testing.T) { do(t, d, v) })
		}
	}
}

// Nothing that faces the viewer is behind another part of the head: a ray from it
// toward the viewer meets the surface nowhere.
func TestFacingIsSeen(t *testing.T) {
	plan, err := preview().Part(nil)
	if err != nil {
		t.Fatal(err)
	}
	h := plan.Head
	_, lowest := geom.Sincos(h.Limit())
	for _, v := range Views() {
		for i, p := range plan.Mesh.Polygons {
			if !v.Sees(p.Facing) || i%7 != 0 {
				continue
			}
			at := plan.Mesh.Points[p.Corners[0]].P.Add(plan.Mesh.Points[p.Corners[1]].P).Scale(0.5)
			for step := 1; step < 100; step++ {
				d := at.Add(v.Toward().Scale(float64(step) * 0.25)).Sub(h.Centre())
				u := d.Unit()
				if u.Z < lowest {
					break
				}
				if r, _ := h.Radius(u); d.Len() < r-0.02 {
					t.Fatalf("%s: the head hides a point at %v", v.Name(), at)
				}
			}
		}
	}
}

// The outline that is drawn is the line on which the mesh turns away.
func TestContourIsWhereTheSurfaceTurns(t *testing.T) {
	d := samples()[0].drawings(t, preview())
	for _, v := range Views() {
		line := region{lines: [][]path.Point{contour(d.sheet.Plan.Head, v)}}
		s := d.scene(v)
		for _, b := range s.borders(s.keys(true)) {
			if b.right != hidden {
				continue
			}
			for _, p := range b.points {
				if m := line.margin(p, 50); m > 0.5 {
					t.Errorf("%s: %v lies %.2f px off the outline", v.Name(), p, m)
				}
			}
		}
	}
}

// The area that is filled for a section is the area of its polygons on the page.
func TestTintsCoverTheirSections(t *testing.T) {
	each(t, preview(), func(t *testing.T, d *Drawings, v View) {
		s := d.scene(v)
		keys := s.keys(true)
		borders := s.borders(keys)
		want := make([]float64, len(d.sheet.Plan.Sections)+1)
		for i, k := range keys {
			if k > skin {
				want[k] += s.extent(s.mesh.Polygons[i].Corners)
			}
		}
		for k := 1; k < len(want); k++ {
			loops := flatten(t, outline(borders, int32(k)))
			around := 0.0
			for _, loop := range loops {
				around += lengthOf(loop)
			}
			got := enclosed(loops)
			if math.Abs(got-want[k]) > 2+path.Fine*around {
				t.Errorf("section %d fills %.1f px², its polygons %.1f", k, got, want[k])
			}
		}
	})
}

func TestHatchingStaysInside(t *testing.T) {
	each(t, preview(), func(t *testing.T, d *Drawings, v View) {
		s := d.scene(v)
		keys := s.keys(true)
		borders := s.borders(keys)
		for i, h := range d.Hatches() {
			if h.plain() {
				continue
			}
			r := regionOf(borders, int32(i)+1)
			for _, line := range flatten(t, s.hatch(keys, int32(i)+1, h)) {
				for _, p := range line {
					if !r.contains(p) && r.margin(p, 50) > 1 {
						t.Fatalf("section %d: hatching at %v, %.2f px outside", i, p, r.margin(p, 50))
					}
				}
			}
		}
	})
}

// Without colours neighbours are told by their lines: no two have the same.
func TestNeighboursDifferInGrey(t *testing.T) {
	for _, s := range samples() {
		plan := s.plan(t, preview())
		neighbours := plan.Mesh.Neighbours()
		chosen := choose(plan, neighbours)
		for i, row := range adjacency(plan, neighbours) {
			for k, touching := range row {
				if touching && chosen[i] == chosen[k] {
					t.Errorf("%s: %q and %q look alike without colours", s.name, plan.Sections[i].Name, plan.Sections[k].Name)
				}
			}
		}
	}
}

// Lines and numbers can be read on every tint: contrast after WCAG 2.2, 1.4.3 and
// 1.4.11.
func TestTintsAreLight(t *testing.T) {
	for _, tint := range append(Tints, Plain, Tint{Fill: skinFill}) {
		if c := contrast(t, tint.Fill, ink); c < 10 {
			t.Errorf("ink on %s has a contrast of %.1f", tint.Fill, c)
		}
		if c := contrast(t, tint.Fill, arrowRed); c < 4.5 {
			t.Errorf("arrows on %s have a contrast of %.1f", tint.Fill, c)
		}
	}
}

func contrast(t *testing.T, a, b string) float64 {
	t.Helper()
	high, low := luminance(t, a), luminance(t, b)
	return (max(high, low) + 0.05) / (min(high, low) + 0.05)
}

func luminance(t *testing.T, colour string) float64 {
	t.Helper()
	n, err := strconv.ParseUint(colour[1:], 16, 32)
	if err != nil || len(colour) != 7 {
		t.Fatalf("colour %q", colour)
	}
	linear := func(c uint64) float64 {
		v := float64(c&0xff) / 255
		if v <= 0.04045 {
			return v / 12.92
		}
		return math.Pow((v+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(n>>16) + 0.7152*linear(n>>8) + 0.0722*linear(n)
}

func TestNumbersStandInTheirSections(t *testing.T) {
	each(t, print(), func(t *testing.T, d *Drawings, v View) {
		s := d.scene(v)
		keys := s.keys(true)
		borders := s.borders(keys)
		labels := d.labels(s, keys, borders)
		for i, l := range labels {
			at := l.at
			if l.leader {
				at = l.from
			}
			if r := regionOf(borders, int32(l.section)+1); !r.contains(at) {
				t.Errorf("number %s stands outside its section", l.text)
			}
			box := v.Canvas()
			if l.at.X < 8 || l.at.Y < 8 || l.at.X > box.Max.X-8 || l.at.Y > box.Max.Y-8 {
				t.Errorf("number %s stands at the edge, at %v", l.text, l.at)
			}
			for _, other := range labels[:i] {
				if l.at.Dist(other.at) < 10 {
					t.Errorf("numbers %s and %s stand on each other", l.text, other.text)
				}
			}
		}
	})
}

// Every section is numbered in at least one view.
func TestEverySectionHasItsNumber(t *testing.T) {
	for _, s := range samples() {
		d := s.drawings(t, print())
		seen := make(map[string]bool)
		for _, v := range Views() {
			for _, m := range regexp.MustCompile(`>(\d+)</text>`).FindAllSubmatch(d.Head(v, "x"), -1) {
				seen[string(m[1])] = true
			}
		}
		if len(seen) != len(d.sheet.Plan.Sections) {
			t.Errorf("%s: %d sections, %d numbers", s.name, len(d.sheet.Plan.Sections), len(seen))
		}
	}
}

func TestArrowsRunInTheirSections(t *testing.T) {
	each(t, preview(), func(t *testing.T, d *Drawings, v View) {
		s := d.scene(v)
		keys := s.keys(true)
		borders := s.borders(keys)
		for _, a := range d.sheet.Arrows {
			r := regionOf(borders, int32(a.Section)+1)
			points := s.route(d.sheet.Plan, keys, r, a, nil)
			for _, p := range points {
				if !r.contains(p) {
					t.Errorf("%s of section %d leaves it at %v", a.Run, a.Section, p)
				}
			}
			if len(points) == 0 {
				continue
			}
			first, last := points[0], points[len(points)-1]
			if v != Top && a.Run == Down && last.Y <= first.Y || v != Top && a.Run == Up && last.Y >= first.Y {
				t.Errorf("%s runs from %v to %v", a.Run, first, last)
			}
		}
	})
}

func TestBudget(t *testing.T) {
	each(t, print(), func(t *testing.T, d *Drawings, v View) {
		if n := len(d.Head(v, "lesson-sheet")); n > mostBytes {
			t.Errorf("%d bytes, want no more than %d", n, mostBytes)
		}
	})
}

// A drawing is a document on its own that needs nothing from a page.
func TestPictureIsWellFormed(t *testing.T) {
	each(t, preview(), func(t *testing.T, d *Drawings, v View) {
		ids := make(map[string]string)
		labelled := ""
		decoder := xml.NewDecoder(bytes.NewReader(d.Head(v, "a\"b<")))
		for {
			token, err := decoder.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
			e, ok := token.(xml.StartElement)
			if !ok {
				continue
			}
			for _, a := range e.Attr {
				switch a.Name.Local {
				case "id":
					ids[a.Value] = e.Name.Local
				case "aria-labelledby":
					labelled = a.Value
				case "style", "onclick", "href":
					t.Errorf("<%s> has the attribute %s", e.Name.Local, a.Name.Local)
				}
			}
			if e.Name.Local == "style" || e.Name.Local == "script" {
				t.Errorf("<%s> stands in the drawing", e.Name.Local)
			}
		}
		names := strings.Fields(labelled)
		if len(names) != 2 || ids[names[0]] != "title" || ids[names[1]] != "desc" {
			t.Errorf("labelled by %q, of %v", labelled, ids)
		}
	})
}

func TestDescription(t *testing.T) {
	d := samples()[2].drawings(t, print())
	text := string(d.Head(Back, "five"))
	for _, want := range []string{
		"<title id=\"five-t\">Sample five, seen from the back</title>",
		"4 back: 31.5 % of the scalp, 190 cm²", "5 nape: 14.6 % of the scalp, 88 cm²",
		`<g data-section="nape">`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing", want)
		}
	}
	if strings.Contains(text, "left: 7.4") {
		t.Error("the left side, which is not seen, is described")
	}
}

func TestSharesAddUp(t *testing.T) {
	for _, s := range samples() {
		plan := s.plan(t, preview())
		total := 0.0
		for i, share := range scalp.Shares(plan.Sections) {
			v, err := strconv.ParseFloat(strings.TrimSuffix(share, " %"), 64)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(v-100*plan.Sections[i].Share) > 0.1 {
				t.Errorf("%s: %q has %s, want %g", s.name, plan.Sections[i].Name, share, 100*plan.Sections[i].Share)
			}
			total += v
		}
		if math.Abs(total-100) > 1e-9 {
			t.Errorf("%s: shares add up to %g %%", s.name, total)
		}
	}
}

// Heads of all sizes are drawn as large as each other.
func TestSizesLookAlike(t *testing.T) {
	large, err := head.Sized(60)
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range Views() {
		want := contour(head.Adult(), v)
		for i, p := range contour(large, v) {
			if d := p.Dist(want[i]); d > 1e-6 {
				t.Errorf("%s: point %d of the outline lies %g px away", v.Name(), i, d)
			}
		}
	}
}

func TestBallHasNoFace(t *testing.T) {
	d := sample{name: "ball", steps: []scalp.Step{{Part: scalp.Centre{}}}}.drawings(t, scalp.New(head.Ball(), scalp.Preview))
	for _, v := range Views() {
		for _, line := range flatten(t, regexp.MustCompile(`d="([^"]*)"`).FindStringSubmatch(d.Layers(v).Outline)[1]) {
			for _, p := range line {
				if off := math.Abs(p.Dist(v.Place(0, 0)) - 9*PixelsPerCM); off > 0.5 {
					t.Fatalf("%s: the outline of the ball is %.2f px off at %v", v.Name(), off, p)
				}
			}
		}
	}
}

func TestViewNamed(t *testing.T) {
	for _, v := range Views() {
		if got, ok := ViewNamed(v.Name()); !ok || got != v {
			t.Errorf("%q is %v, %v", v.Name(), got, ok)
		}
	}
	if _, ok := ViewNamed("below"); ok {
		t.Error("there is a view from below")
	}
}

// sumOfDrawings is the hash of all views of all samples. It is the same on every
// machine and with every setting of the compiler; change it only with the drawings.
const sumOfDrawings = "be5eba717f23137e"

func TestSameBytesEverywhere(t *testing.T) {
	hash := sha256.New()
	for _, s := range samples() {
		d := s.drawings(t, preview())
		views := make([][]byte, len(Views()))
		var group sync.WaitGroup
		for i, v := range Views() {
			group.Go(func() { views[i] = d.Head(v, s.name) })
		}
		group.Wait()
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
		for i, v := range Views() {
			if alone := s.drawings(t, preview()).Head(v, s.name); !bytes.Equal(alone, views[i]) {
				t.Errorf("%s %s: drawn alone it is another", s.name, v.Name())
			}
			hash.Write(views[i])
		}
	}
	if got := hex.EncodeToString(hash.Sum(nil))[:16]; got != sumOfDrawings {
		t.Errorf("the drawings give %s, want %s", got, sumOfDrawings)
	}
}

// The drawings that were looked at and found good; run with -update after looking at
// new ones.
func TestGolden(t *testing.T) {
	s := samples()[3]
	d := s.drawings(t, preview())
	for _, v := range Views() {
		name := "testdata/" + s.name + "-" + v.Name() + ".svg"
		got := d.Head(v, s.name)
		if *update {
			if err := os.WriteFile(name, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		expectSameNumbers(t, string(got), string(want))
	}
}

var number = regexp.MustCompile(`-?(\d+(\.\d+)?|\.\d+)`)

// expectSameNumbers compares drawings by their numbers, to 0.2 px.
func expectSameNumbers(t *testing.T, got, want string) {
	t.Helper()
	a, b := number.FindAllString(got, -1), number.FindAllString(want, -1)
	if len(a) != len(b) {
		t.Errorf("%d numbers, want %d", len(a), len(b))
		return
	}
	for i := range a {
		x, _ := strconv.ParseFloat(a[i], 64)
		y, _ := strconv.ParseFloat(b[i], 64)
		if math.Abs(x-y) > 0.2 {
			t.Errorf("number %d is %s, want %s", i, a[i], b[i])
			return
		}
	}
}

// flatten reads path data of the commands m, l, h, v, c and z and returns points along
// its lines.
func flatten(t *testing.T, data string) [][]path.Point {
	t.Helper()
	var list [][]path.Point
	var at, start path.Point
	for _, m := range regexp.MustCompile(`([mlhvcz])([^mlhvcz]*)`).FindAllStringSubmatch(data, -1) {
		var n []float64
		for _, text := range number.FindAllString(m[2], -1) {
			v, err := strconv.ParseFloat(text, 64)
			if err != nil {
				t.Fatal(err)
			}
			n = append(n, v)
		}
		add := func(p path.Point) {
			at = p
			list[len(list)-1] = append(list[len(list)-1], p)
		}
		switch m[1] {
		case "z":
			add(start)
		case "h":
			for _, v := range n {
				add(at.Add(path.Point{X: v}))
			}
		case "v":
			for _, v := range n {
				add(at.Add(path.Point{Y: v}))
			}
		case "c":
			for ; len(n) >= 6; n = n[6:] {
				from := at
				c1, c2, to := from.Add(path.Point{X: n[0], Y: n[1]}), from.Add(path.Point{X: n[2], Y: n[3]}), from.Add(path.Point{X: n[4], Y: n[5]})
				for i := 1; i <= 12; i++ {
					k := float64(i) / 12
					ab, bc, cd := from.Mix(c1, k), c1.Mix(c2, k), c2.Mix(to, k)
					add(ab.Mix(bc, k).Mix(bc.Mix(cd, k), k))
				}
			}
		default:
			if m[1] == "m" {
				at = at.Add(path.Point{X: n[0], Y: n[1]})
				start, n = at, n[2:]
				list = append(list, []path.Point{at})
			}
			for ; len(n) >= 2; n = n[2:] {
				add(at.Add(path.Point{X: n[0], Y: n[1]}))
			}
		}
	}
	return list
}

// enclosed returns the area inside loops that do not cross.
func enclosed(loops [][]path.Point) float64 {
	twice := 0.0
	for _, loop := range loops {
		for i := range loop {
			a, b := loop[i], loop[(i+1)%len(loop)]
			twice += a.X*b.Y - b.X*a.Y
		}
	}
	return math.Abs(twice) / 2
}

func benchmarkViews(b *testing.B, base *scalp.Base, s sample) {
	b.ReportAllocs()
	for b.Loop() {
		d := s.drawings(b, base)
		var group sync.WaitGroup
		for _, v := range Views() {
			group.Go(func() { d.Head(v, "x") })
		}
		group.Wait()
	}
}

// A sheet is parted and drawn from all five sides.
func BenchmarkFiveSectionsPrint(b *testing.B)   { benchmarkViews(b, print(), samples()[2]) }
func BenchmarkFiveSectionsPreview(b *testing.B) { benchmarkViews(b, preview(), samples()[2]) }
func BenchmarkZigzagPrint(b *testing.B)         { benchmarkViews(b, print(), samples()[3]) }
func BenchmarkManyPrint(b *testing.B)           { benchmarkViews(b, print(), samples()[6]) }

func BenchmarkOneViewPrint(b *testing.B) {
	d := samples()[2].drawings(b, print())
	b.ReportAllocs()
	for b.Loop() {
		d.Head(Left, "x")
	}
}

func ExampleViews() {
	for _, v := range Views() {
		fmt.Println(v.Name(), "–", v.Long())
	}
	// Output:
	// left – left profile
	// right – right profile
	// back – seen from the back
	// front – seen from the front
	// top – seen from above, the face up
}
