package markdown

import (
	"bytes"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"

	"plait/internal/diag"
	"plait/internal/source"
)

// codeSpan turns a code span in braces into a value.
func (c *collector) codeSpan(n *ast.CodeSpan) ast.Node {
	first, ok := n.FirstChild().(*ast.Text)
	if !ok {
		return n
	}
	last := n.LastChild().(*ast.Text)
	start, stop := first.Segment.Start, last.Segment.Stop
	inner := c.words(n)
	if len(inner) < 2 || inner[0] != '{' || inner[len(inner)-1] != '}' {
		return n
	}
	t := source.Text{Value: inner[1 : len(inner)-1], Span: c.span(start+1, stop-1)}.Trim()
	if t.Value == "" {
		return n
	}
	v := &Value{Text: t, Section: c.section}
	c.doc.Values = append(c.doc.Values, v)
	return replace(n, &valueNode{value: v})
}

func (c *collector) link(n *ast.Link) ast.Node {
	l := &Link{Title: resolve(n.Title), Text: c.words(n), Section: c.section}
	l.Target, _ = c.destination(n, n.Destination, n.Title, n.Reference != nil)
	good := c.checkTarget(l.Target)
	if good {
		c.doc.Links = append(c.doc.Links, l)
	}
	c.children(n)
	if !c.checkWords(n, l) || !good {
		return n
	}
	out := &linkNode{link: l}
	for child := n.FirstChild(); child != nil; child = n.FirstChild() {
		out.AppendChild(out, child)
	}
	return replace(n, out)
}

// checkWords reports a link without words, which nobody can follow by ear, and one
// within another, which HTML does not allow.
func (c *collector) checkWords(n *ast.Link, l *Link) bool {
	switch {
	case strings.TrimSpace(l.Text) == "":
		c.report(diag.Errorf(ruleLink, l.Target.Span, "the link has no words").
			WithHelp("say in the square brackets where it leads"))
	case holds(n, kindLink), holds(n, extast.KindFootnoteLink):
		c.report(diag.Errorf(ruleLink, l.Target.Span, "a link or the mark of a footnote stands within a link").
			WithHelp("put one behind the other"))
	default:
		return true
	}
	return false
}

func (c *collector) autoLink(n *ast.AutoLink) ast.Node {
	label := string(n.Label(c.src))
	at := n.Pos() + len("<")
	l := &Link{Target: source.Text{Value: label, Span: c.span(at, at+len(label))}, Text: label, Section: c.section}
	if n.AutoLinkType == ast.AutoLinkEmail {
		l.Target.Value = "mailto:" + label
	}
	if !c.checkTarget(l.Target) {
		return n
	}
	c.doc.Links = append(c.doc.Links, l)
	out := &linkNode{link: l}
	words := ast.NewString([]byte(label))
	words.SetRaw(true)
	out.AppendChild(out, words)
	return replace(n, out)
}

func (c *collector) image(n *ast.Image) ast.Node {
	img := &Image{Section: c.section}
	img.Target, img.Title = c.destination(n, n.Destination, n.Title, n.Reference != nil)
	start := n.Pos() + len("![")
	img.Alt = source.Text{Value: c.words(n), Span: c.span(start, c.labelEnd(n))}
	if strings.TrimSpace(img.Alt.Value) == "" {
		c.report(diag.Errorf(ruleAlt, c.span(n.Pos(), start), "the picture has no words for those who cannot see it").
			WithHelp("say in the square brackets what it shows, as you would on the telephone"))
	}
	if !c.checkTarget(img.Target) {
		return n
	}
	c.doc.Images = append(c.doc.Images, img)
	return replace(n, &imageNode{image: img})
}

// labelEnd returns the offset of the bracket that closes the words of a link or a
// picture. All that can stand between its last words and the bracket are marks.
func (c *collector) labelEnd(n ast.Node) int {
	end := max(lastStop(n), n.Pos()+1)
	if i := bytes.IndexByte(c.src[end:], ']'); i >= 0 {
		return end + i
	}
	return end
}

// lastStop returns the offset behind the last piece of text below n, −1 for none.
func lastStop(n ast.Node) int {
	stop := -1
	if t, ok := n.(*ast.Text); ok {
		stop = t.Segment.Stop
	}
	for child := n.FirstChild(); child != nil; child = child.NextSibling() {
		stop = max(stop, lastStop(child))
	}
	return stop
}

// destination returns where a link or a picture leads and its title. The library
// gives their bytes without a place, so they are looked for behind the words; of a
// link whose target is defined elsewhere the words themselves are the place.
func (c *collector) destination(n ast.Node, target, title []byte, elsewhere bool) (to, name source.Text) {
	end := c.labelEnd(n)
	to = source.Text{Value: resolve(target), Span: c.span(n.Pos(), end+1)}
	if len(title) > 0 {
		name = source.Text{Value: resolve(title), Span: to.Span}
	}
	if elsewhere {
		return to, name
	}
	at, found := c.behindWords(end, target)
	if !found {
		return to, name
	}
	to.Span = c.span(at, at+len(target))
	at += len(target)
	at += runLength(c.src[at:], "> \t\r\n")
	at += min(runLength(c.src[at:], "\"'("), 1)
	if len(title) > 0 && bytes.HasPrefix(c.src[at:], title) {
		name.Span = c.span(at, at+len(title))
	}
	return to, name
}

// searchAhead is how far behind the words of a link its target is looked for.
const searchAhead = 4 << 10

// behindWords finds the target behind the words of a link that end at or behind an
// offset: pictures within the words have brackets of their own, and a quote has
// its mark at the start of each line.
func (c *collector) behindWords(end int, target []byte) (at int, found bool) {
	near := c.src[:min(end+searchAhead, len(c.src))]
	for at = end; ; at++ {
		i := bytes.Index(near[at:], []byte("]("))
		if i < 0 {
			return 0, false
		}
		at += i
		inner := at + len("](")
		inner += runLength(c.src[inner:], "> \t\r\n")
		inner += min(runLength(c.src[inner:], "<"), 1)
		if bytes.HasPrefix(c.src[inner:], target) {
			return inner, true
		}
	}
}

// runLength returns how many bytes at the start of b are among the given ones.
func runLength(b []byte, among string) int {
	n := 0
	for n < len(b) && strings.IndexByte(among, b[n]) >= 0 {
		n++
	}
	return n
}

// schemes are the kinds of address that a text may lead to.
var schemes = []string{"http", "https", "mailto", "tel"}

// checkTarget reports an address that leads nowhere or that a browser would run
// or read from the reader's own disk.
func (c *collector) checkTarget(target source.Text) bool {
	switch scheme := schemeOf(target.Value); {
	case target.Value == "":
		c.report(diag.Errorf(ruleLink, target.Span, "the link or picture leads nowhere").
			WithHelp("put an address or a file between the round brackets"))
	case strings.HasPrefix(target.Value, "//"):
		c.report(diag.Errorf(ruleLink, target.Span, "the address %q begins with two slashes", target.Value).
			WithHelp("write https: in front of it"))
	case scheme != "" && !slices.Contains(schemes, scheme):
		c.report(diag.Errorf(ruleLink, target.Span, "an address cannot begin with %q", scheme+":").
			WithHelp("use a file of the course, or an address that begins with https:"))
	default:
		return true
	}
	return false
}

// schemeOf returns what stands before the colon of an address, in lower case, and
// "" for an address without one. Browsers skip blanks and control characters
// there, so they are skipped here too. Source: URL Standard, 4.4, basic URL parser.
func schemeOf(target string) string {
	for i, r := range target {
		switch r {
		case ':':
			return strings.ToLower(strings.Map(visible, target[:i]))
		case '/', '?', '#':
			return ""
		}
	}
	return ""
}

func visible(r rune) rune {
	if r <= ' ' {
		return -1
	}
	return r
}

// checkText reports what the author meant as markup and the library would print.
func (c *collector) checkText(n *ast.Text) {
	s := n.Segment
	value := c.src[s.Start:s.Stop]
	if i := bytes.IndexByte(value, '{'); i >= 0 {
		c.checkBraces(n, s.Start, value)
	}
	c.checkNoteMark(s.Start, s.Stop)
}

// checkBraces reports {.class}, {#id} and braces right behind a picture.
func (c *collector) checkBraces(n ast.Node, start int, value []byte) {
	_, behind := n.PreviousSibling().(*imageNode)
	for i := range value {
		if value[i] != '{' || i > 0 && value[i-1] == '\\' {
			continue
		}
		end := bytes.IndexByte(value[i:], '}')
		if end < 0 {
			return
		}
		if opener := value[i+1]; opener == '.' || opener == '#' || i == 0 && behind {
			c.report(diag.Errorf(ruleAttribute, c.span(start+i, start+i+end+1), "attributes in braces cannot be given here").
				WithHelp("delete them; only a heading can have {#id} behind it"))
		}
	}
}

// checkNoteMark reports a mark of a footnote, [^…], that has no footnote. The
// bracket may belong to the piece of text before.
func (c *collector) checkNoteMark(start, stop int) {
	from := max(start-1, 0)
	i := bytes.Index(c.src[from:stop], []byte("[^"))
	if i < 0 || from+i > 0 && c.src[from+i-1] == '\\' {
		return
	}
	at := from + i
	end := bytes.IndexByte(lineAt(c.src, at), ']')
	if end < 0 {
		return
	}
	c.report(diag.Errorf(ruleFootnote, c.span(at, at+end+1), "there is no footnote %s", c.src[at:at+end+1]).
		WithHelp("write it at the end, as a line %s: …", c.src[at:at+end+1]))
}

// reportUnusedNotes reports footnotes that would not be shown.
func (c *collector) reportUnusedNotes(ctx parser.Context) {
	unused, _ := ctx.Get(unusedNotesKey).([]*extast.Footnote)
	for _, n := range unused {
		at := max(n.Pos(), 0)
		mark := "[^" + string(n.Ref) + "]"
		c.report(diag.Errorf(ruleFootnote, c.span(at, min(at+len(mark), len(c.src))), "nothing refers to the footnote %s", mark).
			WithHelp("put %s where it belongs in the text, or delete the note", mark))
	}
}
