package browsertest

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	cdpage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// pageLimit is how long one test may use one page, and patience how long a page
// may take to do what it was asked.
const (
	pageLimit = 2 * time.Minute
	patience  = 5 * time.Second
)

// page is a page of the site in a tab of its own. Its methods end the test when
// something is not there.
//
// Whatever the page writes to the console, throws, blocks or asks of another
// place fails the test that opened it when the test ends.
type page struct {
	t    *testing.T
	ctx  context.Context
	site *site

	media  string
	scheme string

	mu         sync.Mutex
	complaints []string
}

// setting changes a tab before it loads its page.
type setting func(*page)

// withDark opens the page for a reader who prefers dark pages.
func withDark() setting { return func(p *page) { p.setDark(true) } }

// withPrint opens the page as it is laid out for print.
func withPrint() setting { return func(p *page) { p.setPrint(true) } }

// withWidth opens the page in a window of that many CSS pixels.
func withWidth(px int) setting { return func(p *page) { p.setWidth(px) } }

// withoutScripts opens the page with scripts switched off.
func withoutScripts() setting {
	return func(p *page) {
		send(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	}
}

// withClock gives the page a clock that sleep can move.
func withClock() setting {
	return func(p *page) {
		send(p, cdpage.AddScriptToEvaluateOnNewDocument, cdpage.AddScriptToEvaluateOnNewDocumentParams{Source: movableClock})
	}
}

// movableClock moves the date alone: performance.now stands still on a sleeping
// device, so a timer that counts with it must be seen to fail.
const movableClock = `(() => {
	const RealDate = Date
	let slept = 0
	globalThis.Date = class extends RealDate {
		constructor(...given) {
			if (given.length) super(...given)
			else super(RealDate.now() + slept)
		}
		static now() { return RealDate.now() + slept }
	}
	globalThis.browsertestSleep = ms => {
		slept += ms
		document.dispatchEvent(new Event('visibilitychange'))
	}
})()`

// openPage opens a page of the site from its folder, light and 1280 px wide
// unless the settings say otherwise. The name may end in a fragment.
func openPage(t *testing.T, s *site, name string, settings ...setting) *page {
	t.Helper()
	tab, closeTab := chromedp.NewContext(browser(t), chromedp.WithNewBrowserContext())
	t.Cleanup(closeTab)
	if err := chromedp.Do(tab); err != nil {
		t.Fatalf("cannot open a tab: %v", err)
	}
	ctx, cancel := context.WithTimeout(tab, pageLimit)
	t.Cleanup(cancel)

	p := &page{t: t, ctx: ctx, site: s}
	if err := chromedp.Listen(ctx, p.hear); err != nil {
		t.Fatal(err)
	}
	send(p, log.Enable, cdp.Empty{})
	send(p, network.Enable, network.EnableParams{})
	p.setMedia()
	p.setWidth(1280)
	for _, set := range settings {
		set(p)
	}
	t.Cleanup(p.report)
	p.goTo(name)
	return p
}

// send runs a command of the browser's protocol whose result does not matter.
func send[P, R any](p *page, command cdp.Command[P, R], params P) {
	p.t.Helper()
	if _, err := chromedp.Call(p.ctx, command, params); err != nil {
		p.t.Fatal(err)
	}
}

// hear notes what a page of this site must not do.
func (p *page) hear(event any) {
	switch event := event.(type) {
	case *runtime.EventConsoleAPICalled:
		p.complain("console.%s: %s", event.Type, consoleText(event.Args))
	case *runtime.EventExceptionThrown:
		p.complain("%s", exceptionText(event.ExceptionDetails))
	case *log.EventEntryAdded:
		p.complain("%s %s: %s %s", event.Entry.Source, event.Entry.Level, event.Entry.Text, event.Entry.URL)
	case *network.EventRequestWillBeSent:
		if !p.site.owns(event.Request.URL) {
			p.complain("request for %s", event.Request.URL)
		}
	}
}

// owns tells whether the address is a file of the site or data inside a page.
func (s *site) owns(address string) bool {
	for _, own := range []string{s.url("") + "/", "data:", "blob:"} {
		if strings.HasPrefix(address, own) {
			return true
		}
	}
	return false
}

func consoleText(args []*runtime.RemoteObject) string {
	var words []string
	for _, arg := range args {
		if arg.Description != "" {
			words = append(words, arg.Description)
			continue
		}
		words = append(words, string(arg.Value))
	}
	return strings.Join(words, " ")
}

func exceptionText(details *runtime.ExceptionDetails) string {
	if details.Exception != nil && details.Exception.Description != "" {
		return details.Exception.Description
	}
	return details.Text
}

func (p *page) complain(format string, args ...any) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.complaints = append(p.complaints, fmt.Sprintf(format, args...))
}

// takeComplaints gives what was heard so far and forgets it. It first asks the
// page something, so that all earlier events have arrived.
func (p *page) takeComplaints() []string {
	_, _ = chromedp.Run(p.ctx, chromedp.Evaluate[int]("1"))
	p.mu.Lock()
	defer p.mu.Unlock()
	heard := p.complaints
	p.complaints = nil
	return heard
}

// waitComplaint waits for something that a test wants to hear, and forgets it. What the
// network tells comes by another way than what the page does, at times later.
func (p *page) waitComplaint(want string) {
	p.t.Helper()
	wanted := func(c string) bool { return strings.Contains(c, want) }
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		p.mu.Lock()
		i := slices.IndexFunc(p.complaints, wanted)
		p.complaints = slices.DeleteFunc(p.complaints, wanted)
		p.mu.Unlock()
		if i >= 0 {
			return
		}
	}
	p.t.Fatalf("the page never complains of %s", want)
}

// report fails the test for everything that was heard.
func (p *page) report() {
	for _, c := range p.takeComplaints() {
		p.t.Errorf("the page is not quiet: %s", c)
	}
}

// goTo loads another page of the site in the same tab and with the same store.
func (p *page) goTo(name string) {
	p.t.Helper()
	p.do(chromedp.Navigate(p.site.url(name)))
}

// reload loads the page again.
func (p *page) reload() {
	p.t.Helper()
	p.do(chromedp.Reload())
}

// do runs steps of the browser driver on the page.
func (p *page) do(steps ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	if err := chromedp.Do(p.ctx, steps...); err != nil {
		p.t.Fatal(err)
	}
}

// soon runs steps that wait for the page, but not for long.
func (p *page) soon(what string, steps ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		p.t.Fatalf("%s: %v", what, err)
	}
}

// setDark chooses the colour scheme that the reader prefers.
func (p *page) setDark(dark bool) {
	p.t.Helper()
	p.scheme = ""
	if dark {
		p.scheme = "dark"
	}
	p.setMedia()
}

// setPrint lays the page out for print, or for the screen again.
func (p *page) setPrint(print bool) {
	p.t.Helper()
	p.media = ""
	if print {
		p.media = "print"
	}
	p.setMedia()
}

// setMedia tells the page about its reader. Motion is always reduced, so that no
// colour is looked at halfway through a change.
func (p *page) setMedia() {
	p.t.Helper()
	scheme := p.scheme
	if scheme == "" {
		scheme = "light"
	}
	send(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Media: p.media,
		Features: []*emulation.MediaFeature{
			{Name: "prefers-color-scheme", Value: scheme},
			{Name: "prefers-reduced-motion", Value: "reduce"},
		},
	})
}

// setWidth gives the window another width, in CSS pixels.
func (p *page) setWidth(px int) {
	p.t.Helper()
	p.do(chromedp.EmulateViewport(int64(px), 900))
}

// sleep lets the device sleep for that long and wake: no timer of the page runs
// meanwhile, and the date is later after it. The page needs withClock.
func (p *page) sleep(d time.Duration) {
	p.t.Helper()
	p.eval("ms => browsertestSleep(ms)", d.Milliseconds())
}

// eval calls a JavaScript function with the arguments and waits for its promise
// if it gives one.
func (p *page) eval(function string, args ...any) {
	p.t.Helper()
	evalTo[chromedp.Void](p, function, args...)
}

// evalTo is eval for a function with a result.
func evalTo[T any](p *page, function string, args ...any) T {
	p.t.Helper()
	given, err := json.Marshal(args)
	if err != nil {
		p.t.Fatal(err)
	}
	if len(args) == 0 {
		given = []byte("[]")
	}
	call := fmt.Sprintf("(%s)(...%s)", function, given)
	result, err := chromedp.Run(p.ctx, chromedp.Evaluate[T](call, chromedp.EvalAwaitPromise))
	if err != nil {
		p.t.Fatalf("%s: %v", function, err)
	}
	return result
}

// texts gives the visible text of each element that matches, with every run of
// white space, hard spaces too, as one space.
func (p *page) texts(selector string) []string {
	p.t.Helper()
	texts := evalTo[[]string](p, "s => [...document.querySelectorAll(s)].map(e => e.innerText ?? e.textContent)", selector)
	for i, text := range texts {
		texts[i] = oneLine(text)
	}
	return texts
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// text is the visible text of the first element that matches.
func (p *page) text(selector string) string {
	p.t.Helper()
	texts := p.texts(selector)
	if len(texts) == 0 {
		p.t.Fatalf("nothing matches %s", selector)
	}
	return texts[0]
}

// value is what a form field holds.
func (p *page) value(selector string) string {
	p.t.Helper()
	return evalTo[string](p, "s => document.querySelector(s).value", selector)
}

// count is the number of elements that match.
func (p *page) count(selector string) int {
	p.t.Helper()
	return evalTo[int](p, "s => document.querySelectorAll(s).length", selector)
}

// shown lists the elements that match and that take up room on the page.
func (p *page) shown(selector string) []string {
	p.t.Helper()
	return evalTo[[]string](p, `s => [...document.querySelectorAll(s)]
		.filter(e => e.checkVisibility({visibilityProperty: true}) && e.getClientRects().length > 0)
		.map(e => e.outerHTML.slice(0, 120))`, selector)
}

// click presses the mouse on the first element that matches, once it is visible.
func (p *page) click(selector string) {
	p.t.Helper()
	p.soon("click on "+selector, chromedp.Click(chromedp.CSS(selector)))
}

// fill types the text over what a field holds.
func (p *page) fill(selector, text string) {
	p.t.Helper()
	p.soon("type into "+selector, chromedp.Focus(chromedp.CSS(selector)))
	p.eval("s => document.querySelector(s).select()", selector)
	p.press(text)
}

// press sends keys to the element that has the focus. Package kb names the keys
// that are no characters, such as kb.Enter and kb.Tab.
func (p *page) press(keys string) {
	p.t.Helper()
	p.do(chromedp.KeyEvent(keys))
}

// waitText waits until the text of the first element that matches contains want.
func (p *page) waitText(selector, want string) {
	p.t.Helper()
	var texts []string
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		texts = p.texts(selector)
		if len(texts) > 0 && strings.Contains(texts[0], want) {
			return
		}
	}
	p.t.Fatalf("%s reads %q, want %q in it", selector, texts, want)
}

// expectWords checks that the text holds each of the words, in any order.
func expectWords(t *testing.T, text string, words ...string) {
	t.Helper()
	missed := slices.DeleteFunc(slices.Clone(words), func(w string) bool { return strings.Contains(text, w) })
	if len(missed) > 0 {
		t.Errorf("missing %q in:\n%s", missed, text)
	}
}
