package browsertest

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// TestPages opens every page from its folder as different readers do. That a
// page is quiet (nothing on the console, no request to elsewhere, nothing blocked
// by its own policy) is checked by openPage.
func TestPages(t *testing.T) {
	s := built(t)
	axe := readAxe(t)
	for _, name := range s.pages() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			p := openPage(t, s, name)
			expectForAll(t, p, axe)
		})
	}
}

// expectForAll holds a page to its policy and to what lets everybody read it: light, dark
// and on a narrow window, with all that unfolds unfolded.
func expectForAll(t *testing.T, p *page, axe string) {
	t.Helper()
	expectNone(t, "policy", looseness(p))
	p.eval("() => document.querySelectorAll('details').forEach(d => { d.open = true })")
	expectNone(t, "light", barriers(p, axe))
	p.setDark(true)
	expectNone(t, "dark", barriers(p, axe))
	p.setDark(false)
	p.setWidth(320)
	expectNone(t, "320 px wide", barriers(p, axe))
	expectNone(t, "320 px wide", overhang(p))
}

func expectNone(t *testing.T, where string, faults []string) {
	t.Helper()
	for _, fault := range faults {
		t.Errorf("%s: %s", where, fault)
	}
}

// looseness lists what the page's policy allows beyond its own files.
// Source: Content Security Policy Level 3, W3C.
func looseness(p *page) []string {
	p.t.Helper()
	policy := evalTo[string](p, `() => document.querySelector('meta[http-equiv="Content-Security-Policy"]')?.content ?? ''`)
	var faults []string
	for _, want := range []string{"default-src 'none'", "base-uri 'none'", "form-action 'none'"} {
		if !strings.Contains(policy, want) {
			faults = append(faults, "does not say "+want)
		}
	}
	for _, loose := range []string{"unsafe-inline", "unsafe-eval", "http:", "https:", "*"} {
		if strings.Contains(policy, loose) {
			faults = append(faults, "allows "+loose)
		}
	}
	return faults
}

// readAxe gives the source of the accessibility checker.
func readAxe(t *testing.T) string {
	t.Helper()
	source, err := os.ReadFile(checker(t, "axe-core/axe.min.js"))
	if err != nil {
		t.Fatal(err)
	}
	return string(source)
}

// axeRun asks for the rules of WCAG 2.2 level A and AA. Preloading is off
// because style sheets and media cannot be fetched from a folder.
const axeRun = `() => axe.run(document, {
	preload: false,
	runOnly: {type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']},
}).then(r => {
	const flat = found => found.flatMap(v => v.nodes.map(n =>
		v.id + ': ' + v.help + '\n\t' + n.html.slice(0, 300) + '\n\t' + (n.failureSummary ?? '')))
	return {violations: flat(r.violations), incomplete: flat(r.incomplete), passes: r.passes.length}
})`

// barriers lists what keeps people out, as far as a program can judge. What it
// cannot judge is written to the log of the test for a person to look at.
// Source: WCAG 2.2, W3C, as axe-core reads it.
func barriers(p *page, axe string) []string {
	p.t.Helper()
	if !evalTo[bool](p, "() => typeof axe === 'object'") {
		p.do(chromedp.Evaluate[chromedp.Void](axe))
	}
	got := evalTo[struct {
		Violations []string `json:"violations"`
		Incomplete []string `json:"incomplete"`
		Passes     int      `json:"passes"`
	}](p, axeRun)
	for _, v := range got.Incomplete {
		p.t.Logf("look at %s", v)
	}
	if got.Passes == 0 {
		return append(got.Violations, "the checker found nothing to check")
	}
	return got.Violations
}

// overhang lists what sticks out of the window to the right, unless it lies in a
// box that scrolls by itself.
// Source: WCAG 2.2, success criterion 1.4.10 Reflow, for a window of 320 px.
func overhang(p *page) []string {
	p.t.Helper()
	outside := evalTo[[]string](p, `() => {
		const width = document.documentElement.clientWidth
		const boxed = e => {
			for (e = e.parentElement; e && e !== document.body; e = e.parentElement)
				if (getComputedStyle(e).overflowX !== 'visible') return true
			return false
		}
		const found = [...document.querySelectorAll('body *')]
			.filter(e => e.checkVisibility() && e.getBoundingClientRect().right > width + 1 && !boxed(e))
			.map(e => 'sticks out: ' + e.outerHTML.slice(0, 120))
		const all = document.documentElement.scrollWidth
		return all > width ? ['the page is ' + all + ' px wide', ...found] : found
	}`)
	return first(outside, 5)
}

func first(list []string, n int) []string {
	if len(list) <= n {
		return list
	}
	return append(list[:n:n], fmt.Sprintf("and %d more", len(list)-n))
}
