package browsertest

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
)

// shots names the pages that a person should look at.
var shots = map[string]string{
	"home":     "index.html",
	"lesson":   glossPage,
	"service":  "lessons/regrowth-demi.html",
	"rules":    "rules.html",
	"order":    "order.html",
	"handbook": "handbook.html",
	"heads":    "lessons/white-third.html",
	"sheet":    "sheets/white-third.html",
	"cut":      "sheets/soft-graduation.html",
}

// TestShots writes pictures of some pages to the folder that PLAIT_SHOTS names,
// for a person to judge: wide, as on a phone, dark, and printed.
func TestShots(t *testing.T) {
	dir := os.Getenv("PLAIT_SHOTS")
	if dir == "" {
		t.Skip("PLAIT_SHOTS is not set: name a folder to write pictures to")
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	pdftoppm := program(t, "install poppler-utils", "pdftoppm")
	s := built(t)
	for title, name := range shots {
		t.Run(title, func(t *testing.T) {
			t.Parallel()
			at := func(how string) string { return filepath.Join(dir, title+"-"+how) }
			p := openPage(t, s, name, withWidth(1440))
			p.shot(at("wide.png"), 1440)
			p.setDark(true)
			p.shot(at("dark.png"), 1440)
			p.setDark(false)
			p.setWidth(390)
			p.shot(at("phone.png"), 390)
			output(t, pdftoppm, "-png", "-r", "80", p.pdf(), at("print"))
		})
	}
}

// tallest is how high a picture of a page can be: Chromium draws no larger one.
const tallest = 16000

// shot writes a picture of the whole page, as wide as the window; of a page that is
// too long for a picture, what the window shows.
func (p *page) shot(file string, width int) {
	p.t.Helper()
	picturing := chromedp.FullScreenshot(100)
	if evalTo[float64](p, "() => document.documentElement.scrollHeight") > tallest {
		picturing = chromedp.CaptureScreenshot()
	}
	data, err := chromedp.Run(p.ctx, picturing)
	if err != nil {
		p.t.Fatal(err)
	}
	picture, err := png.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		p.t.Fatal(err)
	}
	if picture.Width != width {
		p.t.Errorf("%s is %d px wide, want %d", filepath.Base(file), picture.Width, width)
	}
	if err := os.WriteFile(file, data, 0o644); err != nil {
		p.t.Fatal(err)
	}
}
