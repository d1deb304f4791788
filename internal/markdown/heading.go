package markdown

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"

	"github.com/yuin/goldmark/ast"
	"golang.org/x/text/unicode/norm"

	"plait/internal/diag"
	"plait/internal/source"
)

// heading is a heading whose id is given when all headings are known.
type heading struct {
	node    *ast.Heading
	section *Section // the section it opens, nil for none
	title   string
	id      string // stated by the author
	at      source.Span
}

// stamp is a time or a span of times with something behind it. Minutes may be
// more than 59; two digits of seconds tell a time from a ratio.
var stamp = sync.OnceValue(func() *regexp.Regexp {
	const clock = `\d{1,3}:\d\d(?::\d\d)?`
	return regexp.MustCompile(`^` + clock + `(?: ?[-–] ?` + clock + `)?(?:[ \t]+|$)`)
})

// head handles a heading whose content was visited.
func (c *collector) head(n *ast.Heading) {
	opens := c.section
	if c.parts[len(c.parts)-1].heading != n {
		opens = nil
	}
	h := heading{node: n, section: opens, at: c.headingSpan(n)}
	if opens != nil && c.opts.Steps {
		c.cutStamp(n)
	}
	h.title = c.words(n)
	h.id = c.stated(n, h.at)
	c.checkHeading(n, h)
	if opens != nil {
		opens.Span = h.at
		opens.Title = source.Text{Value: h.title, Span: c.titleSpan(n, h.at)}
	}
	c.heads = append(c.heads, h)
}

// headingSpan returns the place of a heading's text, of an empty one its marks.
func (c *collector) headingSpan(n *ast.Heading) source.Span {
	if lines := n.Lines(); lines.Len() > 0 {
		return c.trimmed(lines.At(0)).To(c.trimmed(lines.At(lines.Len() - 1)))
	}
	at := max(n.Pos(), 0)
	return c.span(at, min(at+n.Level, len(c.src)))
}

// titleSpan returns the place of the heading's text behind its time.
func (c *collector) titleSpan(n *ast.Heading, whole source.Span) source.Span {
	first, ok := n.FirstChild().(*ast.Text)
	if !ok {
		return whole
	}
	return c.span(first.Segment.Start, first.Segment.Start).To(whole)
}

// cutStamp takes the time from the start of a step's heading.
func (c *collector) cutStamp(n *ast.Heading) {
	first, ok := n.FirstChild().(*ast.Text)
	if !ok {
		return
	}
	start := first.Segment.Start
	end := start + len(stamp().Find(first.Segment.Value(c.src)))
	if end == start {
		return
	}
	c.section.Stamp = c.text(start, end).Trim()
	first.Segment = first.Segment.WithStart(end)
}

// stated returns the id in the heading's braces and reports everything else that
// stands there. What the library would write of it is taken away.
func (c *collector) stated(n *ast.Heading, at source.Span) string {
	id := ""
	for _, a := range n.Attributes() {
		value, _ := a.Value.([]byte)
		if string(a.Name) == "id" && isID(string(value)) {
			id = string(value)
			continue
		}
		c.report(diag.Errorf(ruleAttribute, at, "a heading can be given an id of letters, digits and hyphens and nothing else").
			WithHelp("write {#name} behind it, or nothing"))
	}
	n.RemoveAttributes()
	return id
}

func isID(s string) bool {
	for _, r := range s {
		if !isIDRune(r) && r != '-' {
			return false
		}
	}
	return s != ""
}

func isIDRune(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) }

func (c *collector) checkHeading(n *ast.Heading, h heading) {
	nested := n.Parent().Kind() != ast.KindDocument
	switch {
	case n.Level == 1:
		c.report(diag.Errorf(ruleHeading, h.at, "a heading of the first level stands in the text; the page has its title from the header").
			WithHelp("write ## for a new part, or delete the line"))
	case n.Level == 2 && nested:
		c.report(diag.Errorf(ruleHeading, h.at, "a heading of the second level stands in a list or a quote").
			WithHelp("put it at the start of a line, or use ###"))
	case strings.TrimSpace(h.title) == "":
		c.report(diag.Errorf(ruleHeading, h.at, "the heading has no words").
			WithHelp("say what is done here, or delete the line"))
	}
	if holds(n, kindValue) || holds(n, kindImage) {
		c.report(diag.Errorf(ruleHeading, h.at, "a computed value or a picture stands in a heading").
			WithHelp("put it into the text below"))
	}
}

// holds reports whether a node of the kind is below n.
func holds(n ast.Node, kind ast.NodeKind) bool {
	for child := n.FirstChild(); child != nil; child = child.NextSibling() {
		if child.Kind() == kind || holds(child, kind) {
			return true
		}
	}
	return false
}

// giveIDs gives each heading an id: the one its author stated, else one made of
// its words. Stated ones come first, so that a link to them never goes astray.
func (c *collector) giveIDs() {
	taken := make(map[string]source.Span, len(c.heads))
	for _, h := range c.heads {
		if h.id == "" {
			continue
		}
		first, twice := taken[h.id]
		switch {
		case twice:
			c.report(diag.Errorf(ruleID, h.at, "two headings have the id %q", h.id).
				WithNote(first, "the first is here").WithHelp("give one of them another id, or none"))
		case slices.Contains(c.opts.Reserved, h.id):
			c.report(diag.Errorf(ruleID, h.at, "the page uses the id %q for a part of its own", h.id).
				WithHelp("give the heading another id, or none"))
		}
		taken[h.id] = h.at
	}
	for _, id := range c.opts.Reserved {
		taken[id] = source.Span{}
	}
	tried := make(map[string]int, len(c.heads))
	c.doc.ids = make([]string, 0, len(c.heads))
	for _, h := range c.heads {
		if h.id == "" {
			h.id = freeID(h.title, taken, tried)
			taken[h.id] = h.at
		}
		c.doc.ids = append(c.doc.ids, h.id)
		if !c.opts.Facts && h.section == nil { // that of a section is no part of its prose
			h.node.SetAttribute([]byte("id"), []byte(h.id))
		}
		if h.section != nil {
			h.section.ID = h.id
		}
	}
}

// freeID makes an id of a title that is not taken: "Überblick für Ä" becomes
// "überblick-für-ä", and "überblick-für-ä-2" the second time. Tried holds the last
// number that was tried for each title, so that many equal titles take no longer.
func freeID(title string, taken map[string]source.Span, tried map[string]int) string {
	base := slug(title)
	for {
		tried[base]++
		id := base
		if n := tried[base]; n > 1 {
			id += "-" + strconv.Itoa(n)
		}
		if _, found := taken[id]; !found {
			return id
		}
	}
}

func slug(title string) string {
	var b strings.Builder
	b.Grow(len(title))
	gap := false
	for _, r := range strings.ToLower(norm.NFC.String(title)) {
		if !isIDRune(r) {
			gap = b.Len() > 0
			continue
		}
		if gap {
			b.WriteByte('-')
			gap = false
		}
		b.WriteRune(r)
	}
	if b.Len() == 0 {
		return "part"
	}
	return b.String()
}
