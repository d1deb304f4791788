package preview

import (
	"bytes"
	"context"
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/chromedp/chromedp"

	"plait/internal/asset"
	"plait/internal/build"
	"plait/layouts"
)

const (
	gloss     = "lessons/04-brassy-gloss/lesson.md"
	glossPage = "/lessons/brassy-gloss.html"
)

// change is a text of the gloss lesson and what is written in its place.
type change struct{ old, text string }

// demo builds the demo course, as a preview has it, with changes to its gloss lesson and
// layouts on top of those of plait.
func demo(t *testing.T, top fs.FS, changes ...change) Result {
	t.Helper()
	course := os.DirFS("../..")
	text, err := fs.ReadFile(course, gloss)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range changes {
		if !bytes.Contains(text, []byte(c.old)) {
			t.Fatalf("%s does not hold %q", gloss, c.old)
		}
		text = bytes.ReplaceAll(text, []byte(c.old), []byte(c.text))
	}
	files := asset.Overlay(fstest.MapFS{gloss: {Data: text}}, course)
	built, err := build.Read(context.Background(), build.Options{Files: listing{files, course}, Layouts: asset.Overlay(top, layouts.FS), Live: Script})
	if err != nil {
		t.Fatal(err)
	}
	tree, err := built.Pages()
	if err != nil {
		t.Fatal(err, built.Diagnostics)
	}
	return Result{Tree: tree, Inputs: course}
}

// listing is a file system whose folders are those of another.
type listing struct {
	fs.FS
	folders fs.FS
}

// ReadDir implements [fs.ReadDirFS].
func (l listing) ReadDir(name string) ([]fs.DirEntry, error) { return fs.ReadDir(l.folders, name) }

// asBuilt are layouts with nothing of their own.
var asBuilt = fstest.MapFS{}

// openDemo opens the gloss lesson in a preview of the demo, once all its scripts are at work.
func openDemo(t *testing.T) (*Server, *tab) {
	t.Helper()
	s := New()
	address := start(t, s)
	s.Update(demo(t, asBuilt))
	b := browse(t, address+glossPage)
	b.expectScripts()
	return s, b
}

// expectScripts waits for what the page calls in: bowls, questions, film.
func (b *tab) expectScripts() {
	b.t.Helper()
	b.expect("!!document.querySelector('.bowl[data-ready]') && !!document.querySelector('.question[data-ready]') && !document.querySelector('.film .keys').hidden && document.querySelector('.film video').readyState > 1")
}

// loadedWhole makes something happen and tells whether the page was loaded again for it, once
// it shows a condition.
func (b *tab) loadedWhole(happen func(), condition string) bool {
	b.t.Helper()
	before := eval[float64](b, "performance.timeOrigin")
	happen()
	b.expect(condition)
	return eval[float64](b, "performance.timeOrigin") != before
}

// press presses an element wherever it is: a pointer may miss one while the page still glides
// to it.
func (b *tab) press(selector string) {
	b.t.Helper()
	eval[chromedp.Void](b, "document.querySelector('"+selector+"').click()")
}

const holds = "document.querySelector('main').textContent.includes"

// Whoever mends a sentence finds the rest of the page as it was left.
func TestRenewedPageKeepsWhatHasNotChanged(t *testing.T) {
	s, b := openDemo(t)
	eval[chromedp.Void](b, `{
		const at = (s) => document.querySelector(s);
		at("#question_weigh input").focus({ preventScroll: true });
		at("#question_weigh input").value = "104";
		at("#question_early details").open = true;
		at(".bowl .more").click();
		at(".film video").currentTime = 20;
		at("#question_early").scrollIntoView({ behavior: "instant" });
	}`)
	b.expect("document.querySelector('.film video').currentTime === 20 && !document.querySelector('.film video').seeking && document.querySelector('.step.now h2').textContent.startsWith('Mix')")
	kept := `JSON.stringify(["#question_weigh input", "#question_early details", ".bowl .weigh tfoot", ".film video", "#question_early"].map((s) => document.querySelector(s)).map((e) =>
		[e.value, e.open, e.tagName === "TFOOT" && e.textContent, e.currentTime, e === document.activeElement, e.id === "question_early" && Math.round(e.getBoundingClientRect().top)]))`
	before := eval[string](b, kept)
	if !strings.Contains(before, "105") || !strings.Contains(before, `"104",null,false,null,true,false`) {
		t.Fatalf("the page was not left as it should be: %s", before)
	}
	b.picture("before")
	if b.loadedWhole(func() {
		s.Update(demo(t, asBuilt,
			change{"A gloss over brassy lengths", "A gloss over yellow lengths"},
			change{"the colour of good butter", "the colour of good butter in spring. There is a second sentence here, which is long enough to make the paragraph higher than it was"},
			change{"## 0:17 Mix the gloss", "## 0:17 Mix it well"}))
	}, holds+"('butter in spring') && document.title.startsWith('A gloss over yellow')") {
		t.Error("the page was loaded as a whole")
	}
	if after := eval[string](b, kept); after != before {
		t.Errorf("what had not changed is %s\nwas %s", after, before)
	}
	b.expect("document.querySelector('.step.now h2').textContent === 'Mix it well' && document.querySelector('.film .here b').textContent === 'Mix it well'")
	b.accessible()
	b.picture("renewed")
}

// What has changed answers to a reader as on a page that was loaded.
func TestRenewedPageWorks(t *testing.T) {
	s, b := openDemo(t)
	eval[chromedp.Void](b, `document.querySelector(".bowl details").open = true, document.querySelector(".bowl .more").focus()`)
	if b.loadedWhole(func() {
		s.Update(demo(t, asBuilt,
			change{"amount: 30 g colour", "amount: 60 g colour"}, change{"(20 g)", "(40 g)"}, change{"(10 g)", "(20 g)"},
			change{"developer: 60 g of", "developer: 120 g of"}, change{"mixed: 90 g", "mixed: 180 g"},
			change{"You need 52 g of colour", "You need 62 g of colour"}, change{"colour: 52 g}", "colour: 62 g}"}))
	}, holds+"('180')") {
		t.Error("the page was loaded as a whole")
	}
	b.expectScripts()
	b.expect(`document.querySelector(".bowl details").open && document.activeElement === document.querySelector(".bowl .more")`)

	b.press(".bowl .more")
	b.expect("/195\\s*g/.test(document.querySelector('.bowl .weigh tfoot').textContent)") // 65 g of colour at 1:2
	if n := eval[int](b, "[...document.querySelectorAll('.bowl footer button')].filter((b) => b.textContent === 'Show on the head').length"); n != 1 {
		t.Errorf("%d buttons show the bowl on the head", n)
	}
	b.press(".heads .legend button")
	b.expect("!!document.querySelector('.bowl.lit')")
	eval[chromedp.Void](b, "document.querySelector('.bowl').scrollIntoView({ behavior: 'instant' })")
	b.picture("bowl")

	eval[chromedp.Void](b, `document.querySelector("#question_weigh input").value = "124", void 0`)
	b.press("#question_weigh [type=submit]")
	b.expect("document.querySelector('#question_weigh .said').textContent.startsWith('Right.')")
	// A press is heard once, although the script of questions is another by now.
	b.press("#question_weigh [data-do=another]")
	b.expect("/need\\s30\\sg/.test(document.querySelector('#question_weigh h3').textContent)")
}

// Steps that come, go and are renamed are where step view and film look for them.
func TestRenewedSteps(t *testing.T) {
	s, b := openDemo(t)
	if b.loadedWhole(func() {
		s.Update(demo(t, asBuilt, change{"## 0:43 Paint", "## 0:38 Look once more\n\nFrom both sides.\n\n## 0:43 Paint"}))
	}, holds+"('From both sides.')") {
		t.Error("the page was loaded as a whole")
	}
	eval[chromedp.Void](b, "document.querySelector('.film video').currentTime = 39, void 0")
	b.expect("document.querySelector('.step.now h2').textContent === 'Look once more' && document.querySelectorAll('.rail rect.now').length === 1")
	b.press("[data-do=steps]")
	b.expect("document.querySelector('.stepbar p').textContent.endsWith('of 6')")
	s.Update(demo(t, asBuilt))
	b.expect("document.querySelector('.stepbar p').textContent.endsWith('of 5') && document.querySelectorAll('.step.shown').length === 1")
}

// What is more than another main part is loaded as a whole, at its place.
func TestPagesThatAreLoadedWhole(t *testing.T) {
	edit := change{"the colour of good butter", "the colour of fresh butter"}
	fails := func(b *tab) {
		eval[chromedp.Void](b, "Node.prototype.isEqualNode = () => { throw new Error('on purpose') }, void 0")
	}
	for _, c := range []struct {
		name   string
		before func(*tab)
		result func() Result
	}{
		{"another style", nil, func() Result {
			return demo(t, fstest.MapFS{"styles/text.css": {Data: []byte("main { letter-spacing: 1px }")}}, edit)
		}},
		{"a failure", fails, func() Result { return demo(t, asBuilt, edit) }},
		{"layouts of the course", nil, func() Result {
			r := demo(t, asBuilt, edit)
			r.Whole = true
			return r
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, b := openDemo(t)
			if c.before != nil {
				c.before(b)
			}
			eval[chromedp.Void](b, "scrollTo({top: 321, behavior: 'instant'})")
			if !b.loadedWhole(func() { s.Update(c.result()) }, holds+"('fresh butter') && scrollY === 321") {
				t.Error("the page was not loaded as a whole")
			}
		})
	}
}
