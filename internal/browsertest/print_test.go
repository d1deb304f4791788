package browsertest

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// pdf prints the page as its style sheet wants it, tagged for readers that
// speak it, and gives the file.
func (p *page) pdf() string {
	p.t.Helper()
	data, err := chromedp.Run(p.ctx, chromedp.PrintToPDF(
		chromedp.PDFPreferCSSPageSize(), chromedp.PDFPrintBackground(), chromedp.PDFOutlineAndTagged()))
	if err != nil {
		p.t.Fatal(err)
	}
	file := filepath.Join(p.t.TempDir(), "page.pdf")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		p.t.Fatal(err)
	}
	return file
}

func output(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
	return string(out)
}

// TestPrint prints each lesson: a card for the station, with everything to weigh
// on it and nothing that only works on a screen.
func TestPrint(t *testing.T) {
	pdfinfo := program(t, "install poppler-utils", "pdfinfo")
	pdftotext := program(t, "install poppler-utils", "pdftotext")
	s := built(t)
	for _, name := range s.lessons() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			p := openPage(t, s, name)
			file := p.pdf()
			text := oneLine(output(t, pdftotext, "-layout", file, "-"))
			expectInfo(t, output(t, pdfinfo, file), p.text("h1"))
			expectWords(t, text, p.text("h1"))
			expectNoChrome(t, p, text)
			if name == glossPage {
				expectWords(t, text, glossWeights...)
			}
		})
	}
}

// expectInfo checks what the printed file says of itself. A page without a title
// would print under the path of its file.
func expectInfo(t *testing.T, info, heading string) {
	t.Helper()
	if !regexp.MustCompile(`(?m)^Tagged:\s+yes$`).MatchString(info) {
		t.Errorf("not a tagged PDF:\n%s", info)
	}
	title := regexp.MustCompile(`(?m)^Title:\s+(.*)$`).FindStringSubmatch(info)
	if title == nil || !strings.Contains(title[1], heading) {
		t.Errorf("the title does not name the lesson %q:\n%s", heading, info)
	}
}

// expectNoChrome checks that what leads through the site stays off the paper:
// neither laid out for print nor found in the printed text.
func expectNoChrome(t *testing.T, p *page, text string) {
	t.Helper()
	reading := p.text("main")
	labels := p.texts("nav a")
	if len(labels) == 0 {
		t.Error("the page has no navigation on the screen")
	}
	for _, label := range labels {
		if !strings.Contains(reading, label) && strings.Contains(text, label) {
			t.Errorf("the navigation's %q is printed", label)
		}
	}
	p.setPrint(true)
	for _, chrome := range p.shown("nav, button, input, video, audio") {
		t.Errorf("printed: %s", chrome)
	}
}
