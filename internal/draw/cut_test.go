package draw

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/xml"
	"io"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"plait/internal/geom"
	"plait/internal/head"
	"plait/internal/scalp"
	"plait/internal/silhouette"
	"plait/internal/strand"
)

// cutSample is a haircut to draw.
type cutSample struct {
	name     string
	steps    []scalp.Step
	cuts     []strand.Cut
	before   float64
	dressing strand.Dressing
}

func raised(degrees float64) strand.Lift { return strand.Lift{Elevation: geom.Degrees(degrees)} }

// cutSamples are the shapes that a textbook of cutting begins with.
func cutSamples() []cutSample {
	crown, _ := head.Adult().Landmark("crown")
	one := func(g strand.Guide, l strand.Lift) []strand.Cut { return []strand.Cut{{Guide: g, Lift: l}} }
	parted := strand.CentreParting
	return []cutSample{
		{"jaw", nil, one(strand.Perimeter{Z: -7, Dressing: parted}, strand.Lift{}), 30, parted},
		{"graduation", nil, one(strand.Travelling{Start: 5}, raised(45)), 0, parted},
		{"even", nil, one(strand.Fixed{Cm: 11}, raised(90)), 0, parted},
		{"behind", nil, one(strand.Beside(crown, 13, 1, 0), strand.Lift{}), 0, parted},
		{"up", nil, one(strand.Facing(strand.TowardTop, 18), strand.Lift{Elevation: math.Pi, FromFloor: true}), 0, parted},
		{"turned", nil, one(strand.Travelling{Start: 8}, strand.Lift{Elevation: math.Pi / 4, Toward: strand.TowardBack, By: geom.Degrees(30)}), 0, parted},
		{"strip", nil, one(strand.CentreBack(head.Adult(), 12), strand.Lift{}), 0, strand.Gravity},
		{"nape", []scalp.Step{{Part: scalp.Level{At: place("occipital bone"), To: "ear back"}, Gives: of("above", "nape")}},
			[]strand.Cut{{}, {Guide: strand.Travelling{Start: 3}, Lift: strand.Lift{Elevation: geom.Degrees(45), Fingers: geom.Degrees(-10)}}}, 20, strand.FromCrown},
	}
}

func (s cutSample) drawings() *Cuts {
	plan, err := preview().Part(s.steps)
	if err != nil {
		panic(err)
	}
	return NewCuts("Sample "+s.name, silhouette.Fall(&strand.Haircut{
		Plan: plan, Cuts: s.cuts, Before: s.before, Dressing: s.dressing}))
}

// cutPicture is one kind of drawing of a haircut.
type cutPicture struct {
	kind string
	draw func(*Cuts, View, string) []byte
}

var cutPictures = []cutPicture{{"lifted", (*Cuts).Lifted}, {"lengths", (*Cuts).Lengths}, {"shape", (*Cuts).Shape}}

// pictured is a drawing and what it is of.
type pictured struct {
	sample cutSample
	kind   string
	view   View
	svg    []byte
}

// allCuts are all drawings of all haircuts.
var allCuts = sync.OnceValue(func() []pictured {
	var list []pictured
	for _, s := range cutSamples() {
		c := s.drawings()
		for _, p := range cutPictures {
			for _, v := range []View{Left, Right, Back, Front} {
				list = append(list, pictured{s, p.kind, v, p.draw(c, v, s.name)})
			}
		}
	}
	return list
})

// eachCut calls a function for each drawing of each haircut.
func eachCut(t *testing.T, do func(t *testing.T, svg []byte)) {
	for _, p := range allCuts() {
		t.Run(p.sample.name+" "+p.kind+" "+p.view.Name(), func(t *testing.T) { do(t, p.svg) })
	}
}

// cutFrom returns one drawing of a haircut by the name of the sample.
func cutFrom(t *testing.T, sample, kind string, v View) []byte {
	t.Helper()
	for _, p := range allCuts() {
		if p.sample.name == sample && p.kind == kind && p.view == v {
			return p.svg
		}
	}
	t.Fatalf("there is no %s %s", sample, kind)
	return nil
}

func TestCutBudget(t *testing.T) {
	eachCut(t, func(t *testing.T, svg []byte) {
		if len(svg) > mostBytes {
			t.Errorf("%d bytes, want no more than %d", len(svg), mostBytes)
		}
	})
}

// Everything that is drawn lies within the picture, save for the hair before the cut,
// which may run on below it.
func TestCutsLieInThePicture(t *testing.T) {
	boxed := regexp.MustCompile(`viewBox="(-?\d+) (-?\d+) (\d+) (\d+)"`)
	drawn := regexp.MustCompile(`<path class="([a-z]+)[^>]* d="([^"]*)"/>`)
	eachCut(t, func(t *testing.T, svg []byte) {
		var n [4]float64
		for i, text := range boxed.FindStringSubmatch(string(svg))[1:] {
			n[i] = atof(t, text)
		}
		for _, m := range drawn.FindAllStringSubmatch(string(svg), -1) {
			if m[1] == "z" || m[1] == "d" {
				continue
			}
			for _, line := range flatten(t, m[2]) {
				for _, p := range line {
					if p.X < n[0]-1 || p.Y < n[1]-1 || p.X > n[0]+n[2]+1 || p.Y > n[1]+n[3]+1 {
						t.Fatalf("class %s reaches %v, outside %v", m[1], p, n)
					}
				}
			}
		}
	})
}

func atof(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestCutPictureIsWellFormed(t *testing.T) {
	eachCut(t, func(t *testing.T, svg []byte) {
		decoder := xml.NewDecoder(bytes.NewReader(svg))
		var title, description bool
		for {
			token, err := decoder.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
			if e, ok := token.(xml.StartElement); ok {
				title = title || e.Name.Local == "title"
				description = description || e.Name.Local == "desc"
				for _, a := range e.Attr {
					if a.Name.Local == "style" {
						t.Errorf("<%s> has a style", e.Name.Local)
					}
				}
			}
		}
		if !title || !description {
			t.Error("the picture has no name or description")
		}
	})
}

// The pictures of the right side are those of the left, mirrored: what is drawn of
// symmetric hair is as long.
func TestCutsAreSymmetric(t *testing.T) {
	drawn := regexp.MustCompile(`<path class="([smcy])"[^>]* d="([^"]*)"/>`)
	long := func(svg []byte) map[string]float64 {
		total := make(map[string]float64)
		for _, m := range drawn.FindAllStringSubmatch(string(svg), -1) {
			for _, line := range flatten(t, m[2]) {
				total[m[1]] += lengthOf(line)
			}
		}
		return total
	}
	for _, s := range cutSamples()[:5] {
		for _, p := range cutPictures {
			left, right := long(cutFrom(t, s.name, p.kind, Left)), long(cutFrom(t, s.name, p.kind, Right))
			for class, want := range left {
				// Where lines are thinned out to be told apart the two sides may pick others.
				tolerance := 0.02
				if class == "s" {
					tolerance = 0.15
				}
				if got := right[class]; math.Abs(got-want) > tolerance*want+2 {
					t.Errorf("%s %s: class %s is %.0f px long on the right, %.0f on the left", s.name, p.kind, class, got, want)
				}
			}
		}
	}
}

// The words of a drawing come from what was computed.
func TestCutDescriptions(t *testing.T) {
	expect := func(svg []byte, want ...string) {
		t.Helper()
		for _, w := range want {
			if !strings.Contains(string(svg), w) {
				t.Errorf("%q is missing in %.700s", w, svg)
			}
		}
	}
	expect(cutFrom(t, "jaw", "shape", Left), "<title id=\"jaw-t\">Sample jaw, as it falls, left profile</title>",
		"at the nape 1.1 cm", "Before the cut: 30.0 cm", "The nape is level.", "The face frame is level.")
	expect(cutFrom(t, "jaw", "lifted", Back), "scalp: cut in natural fall to one level line")
	expect(cutFrom(t, "graduation", "lifted", Left), "scalp: travelling guide from 5.0 cm, held 45° from the head", ">45°</text>")
	expect(cutFrom(t, "graduation", "shape", Back), "at the front hairline 5.0 cm", "The weight sits ", ">weight</text>")
	expect(cutFrom(t, "even", "lengths", Back), "scalp: 11.0 cm, 11.0 cm in the mean", ">11.0 cm</text>")
	expect(cutFrom(t, "turned", "lifted", Left), "held 45° from the head, over-directed 30° to the back", ">30°</text>")
	expect(cutFrom(t, "up", "lifted", Left), "held 180° from the floor")
	expect(cutFrom(t, "nape", "lifted", Back), "above: not cut", "nape: travelling guide from 3.0 cm, held 45° from the head, fingers 10° off square")
	expect(cutFrom(t, "nape", "lengths", Left), "above: not cut")
}

// Where the head faces the viewer over-direction is seen as large as it is: on the side
// of a ball strands that are turned to the back by 30° stand 30° further back on the page.
func TestOverDirectionIsDrawn(t *testing.T) {
	ball := head.Ball()
	root := head.At(ball, geom.Vec3{Y: 1})
	lift := strand.Lift{Elevation: geom.Degrees(45), Toward: strand.TowardBack, By: geom.Degrees(30)}
	held, err := strand.Fixed{Cm: 9}.Hold(ball, root, lift)
	if err != nil {
		t.Fatal(err)
	}
	d := &liftedLines{view: Left, size: ball.Size(), box: Left.Canvas()}
	if !d.turn(root, lift, held) {
		t.Fatal("nothing is drawn")
	}
	before, after := flatten(t, d.broken.String())[0], flatten(t, d.strands.String())[0]
	from, to := before[1].Sub(before[0]).Unit(), after[1].Sub(after[0]).Unit()
	if before[0] != after[0] || math.Abs(from.X) > 0.01 || math.Abs(to.X-0.5) > 0.01 {
		t.Errorf("the strand goes from %v to %v, want half way to the right, which is the back", from, to)
	}
	lift.By = geom.Degrees(1)
	if d.turn(root, lift, held) {
		t.Error("a turn too small to be seen is drawn")
	}
	if svg := cutFrom(t, "turned", "lifted", Back); strings.Contains(string(svg), ">30°</text>") {
		t.Error("a turn away from the viewer is drawn")
	}
}

// A level line of the map is where the length is: on straight-up hair the height tells
// the length, so its lines are level on the page.
func TestLengthLinesAreWhereTheLengthIs(t *testing.T) {
	svg := string(cutFrom(t, "up", "lengths", Left))
	count := 0
	for _, m := range regexp.MustCompile(`<path class="c"[^>]* d="([^"]*)"/>`).FindAllStringSubmatch(svg, -1) {
		for _, line := range flatten(t, m[1]) {
			cm := 18 - (290-line[0].Y)/PixelsPerCM
			if off := math.Abs(cm - 2*math.Round(cm/2)); off > 0.05 {
				t.Errorf("a line lies where hair is %.2f cm long", cm)
			}
			for _, p := range line {
				if math.Abs(p.Y-line[0].Y) > 1 {
					t.Fatalf("the line of %.0f cm is not level at %v", cm, p)
				}
			}
			count++
		}
	}
	if count < 6 {
		t.Errorf("%d lines between the top and the nape", count)
	}
}

// sumOfCuts is the hash of the drawings of all haircuts, the same on every machine;
// change it only with the drawings.
const sumOfCuts = "25bacbcd2a1fc79c"

func TestCutsSameBytesEverywhere(t *testing.T) {
	hash := sha256.New()
	for _, p := range allCuts() {
		hash.Write(p.svg)
	}
	if got := hex.EncodeToString(hash.Sum(nil))[:16]; got != sumOfCuts {
		t.Errorf("the drawings give %s, want %s", got, sumOfCuts)
	}
}

// The drawings that were looked at and found good; run with -update after looking at
// new ones.
func TestCutGolden(t *testing.T) {
	for _, p := range cutPictures {
		name := "testdata/graduation-" + p.kind + ".svg"
		got := cutFrom(t, "graduation", p.kind, Left)
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

func benchmarkCut(b *testing.B, draw func(*Cuts, View, string) []byte) {
	c := cutSamples()[0].drawings()
	b.ReportAllocs()
	for b.Loop() {
		draw(c, Left, "x")
	}
}

func BenchmarkLifted(b *testing.B)  { benchmarkCut(b, (*Cuts).Lifted) }
func BenchmarkLengths(b *testing.B) { benchmarkCut(b, (*Cuts).Lengths) }
func BenchmarkShape(b *testing.B)   { benchmarkCut(b, (*Cuts).Shape) }
