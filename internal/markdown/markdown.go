// Package markdown reads the text of lessons and pages and writes it as HTML.
//
// The text is CommonMark with tables, footnotes and definition lists, less two
// things: raw HTML, and a heading of the first level, since a page has its title
// from elsewhere. Headings of the second level cut the text into sections; in a
// lesson they are its steps and may begin with a time in the recording.
//
// Some fences, code spans, pictures and links mean something that only the rest
// of the course knows. [Parse] lists them with their places, and whoever has found
// out what they stand for hands it back as [Hooks] when a section is written.
package markdown

import (
	"slices"
	"strings"
	"sync"

	"github.com/yuin/goldmark/ast"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"

	"plait/internal/diag"
	"plait/internal/source"
)

// The rules that this package reports.
const (
	ruleCharacter = "text/character"
	ruleNesting   = "text/nesting"
	ruleRawHTML   = "text/raw-html"
	ruleHeading   = "text/heading"
	ruleID        = "text/duplicate-id"
	ruleAttribute = "text/attribute"
	ruleFence     = "text/fence"
	ruleLink      = "text/link"
	ruleAlt       = "text/alt"
	ruleFootnote  = "text/footnote"
)

// Options say what a text may hold beyond plain Markdown.
type Options struct {
	Blocks   []string // first words of the fences that become a Block
	Steps    bool     // headings of the second level may begin with a time
	Reserved []string // ids that the page has already
	Facts    bool     // only what is listed is wanted: nothing of the text can be written
}

// Document is a text that was read. It is never changed after that and safe for
// concurrent use. The lists are in the order of the text, with those of footnotes
// at the end.
type Document struct {
	Intro    *Section   // what stands before the first section; nil for nothing
	Sections []*Section // each begun by a heading of the second level
	Notes    *Section   // the footnotes, without a title; nil for none
	Blocks   []*Block
	Values   []*Value
	Images   []*Image
	Links    []*Link

	ids []string
}

// IDs returns the ids of all headings in the order of the text: what a link into
// the page can name.
func (d *Document) IDs() []string { return d.ids }

// Section is a heading of the second level and what follows it.
type Section struct {
	Title  source.Text // the heading as plain text, without its time
	Stamp  source.Text // the time, "0:42" or "0:42-2:10"; empty for none
	ID     string      // unique in the page; letters, digits and hyphens
	Span   source.Span // the heading; of an intro or notes the first character
	Blocks []*Block

	title prose // the heading without its time
	body  prose
}

// Block is a fence whose first word is one of Options.Blocks.
type Block struct {
	Kind    string
	Name    source.Text      // the rest of the line behind the kind
	Body    *source.Fragment // the lines without the indent of the fence
	Span    source.Span      // the line that opens the fence
	Section *Section
}

// Value is a code span in braces, which stands for a value that is computed
// elsewhere.
type Value struct {
	Text    source.Text // what stands between the braces
	Section *Section
}

// Image is a picture.
type Image struct {
	Target  source.Text
	Alt     source.Text
	Title   source.Text // empty for none
	Alone   bool        // it is a paragraph of its own
	Section *Section
}

// Link is a link in the text or between angle brackets.
type Link struct {
	Target  source.Text
	Title   string // empty for none
	Text    string
	Section *Section
}

// Parse reads the part of a file that is Markdown. It always answers: a text that
// would take too long to read or is no text gives an empty document and an error.
func Parse(file *source.File, body source.Span, opts Options) (*Document, []diag.Diagnostic) {
	from, _ := body.Offsets()
	if d, bad := refused(body); bad {
		return &Document{}, []diag.Diagnostic{d}
	}
	lent := copies.Get().(*[]byte)
	defer copies.Put(lent)
	*lent = append((*lent)[:0], body.Text()...)
	src := slices.Clip(*lent) // the library appends to parts of the text, so there must be no room behind it
	ctx := parser.NewContext()
	root := engine().Parser().Parse(text.NewReader(src), parser.WithContext(ctx))
	c := &collector{file: file, base: from, src: src, opts: opts, doc: &Document{}}
	c.reportUnusedNotes(ctx)
	c.document(root)
	c.giveIDs()
	if !opts.Facts {
		c.write()
	}
	return c.doc, c.faults
}

// copies are texts as the library takes them, which have grown to the size of one already.
// Nothing of a document is a part of its copy.
var copies = sync.Pool{New: func() any { return new([]byte) }}

// collector walks the library's tree once, lists what the caller must know of,
// puts nodes of ours in its place and reports what may not stand in a text.
type collector struct {
	file    *source.File
	base    int // offset in the file of the text's first byte
	src     []byte
	opts    Options
	doc     *Document
	section *Section
	parts   []part
	heads   []heading
	faults  []diag.Diagnostic

	taggedBefore bool // a tag of HTML was reported
}

// part is a section with its nodes in the library's tree.
type part struct {
	section *Section
	heading *ast.Heading // nil for none
	nodes   []ast.Node
}

func (c *collector) document(root ast.Node) {
	for n := root.FirstChild(); n != nil; n = n.NextSibling() {
		switch h, isHeading := n.(*ast.Heading); {
		case isHeading && h.Level == 2:
			c.openSection(h)
			continue
		case n.Kind() == ast.KindLinkReferenceDefinition:
			continue
		case n.Kind() == extast.KindFootnoteList:
			c.begin(n, nil)
			c.doc.Notes = c.section
		case c.section == nil:
			c.begin(n, nil)
			c.doc.Intro = c.section
		}
		n = c.visit(n)
		last := &c.parts[len(c.parts)-1]
		last.nodes = append(last.nodes, n)
	}
}

// begin begins a section at a node.
func (c *collector) begin(n ast.Node, heading *ast.Heading) {
	at := max(n.Pos(), 0)
	c.section = &Section{Span: c.span(at, at)}
	c.parts = append(c.parts, part{section: c.section, heading: heading})
}

// openSection begins a section with its heading.
func (c *collector) openSection(h *ast.Heading) {
	c.begin(h, h)
	c.doc.Sections = append(c.doc.Sections, c.section)
	c.visit(h)
}

// visit handles a node and what is below it, and returns the node that stands in
// its place then.
func (c *collector) visit(n ast.Node) ast.Node {
	switch n := n.(type) {
	case *ast.Text:
		c.checkText(n)
	case *ast.Paragraph:
		return c.paragraph(n)
	case *ast.CodeSpan:
		return c.codeSpan(n)
	case *ast.Link:
		return c.link(n)
	case *ast.AutoLink:
		return c.autoLink(n)
	case *ast.Image:
		return c.image(n)
	case *ast.Heading:
		c.children(n)
		c.head(n)
	case *ast.FencedCodeBlock:
		return c.fence(n)
	case *ast.HTMLBlock:
		c.rawHTML(n.Lines())
	case *ast.RawHTML:
		c.rawHTML(n.Segments)
	default:
		c.children(n)
	}
	return n
}

func (c *collector) children(n ast.Node) {
	for child := n.FirstChild(); child != nil; child = child.NextSibling() {
		child = c.visit(child)
	}
}

// replace puts one node in the place of another.
func replace(old, with ast.Node) ast.Node {
	old.Parent().ReplaceChild(old.Parent(), old, with)
	return with
}

// paragraph takes the paragraph away from around a picture that stands alone, so
// that the picture may become more than a phrase.
func (c *collector) paragraph(n *ast.Paragraph) ast.Node {
	c.children(n)
	only, ok := n.FirstChild().(*imageNode)
	if !ok || n.ChildCount() != 1 {
		return n
	}
	only.image.Alone = true
	return replace(n, only)
}

func (c *collector) rawHTML(segments *text.Segments) {
	if segments.Len() == 0 {
		return
	}
	at := c.trimmed(segments.At(0))
	if c.taggedBefore && strings.HasPrefix(at.Text(), "</") {
		return // it goes with a tag that was reported
	}
	if strings.HasPrefix(at.Text(), "<!--") {
		c.report(diag.Errorf(ruleRawHTML, at, "a comment cannot stand in the text").
			WithHelp("delete it, or put it in a file that is not read"))
		return
	}
	c.taggedBefore = true
	c.report(diag.Errorf(ruleRawHTML, at, "HTML cannot stand in the text").
		WithHelp("write it in Markdown; to show a tag as it is, put it between backquotes"))
}

func (c *collector) report(d diag.Diagnostic) { c.faults = append(c.faults, d) }

// span returns the place of a stretch of the text.
func (c *collector) span(start, end int) source.Span {
	return c.file.Span(c.base+start, c.base+end)
}

// text returns a stretch of the text with its place. It is a part of the file's own text.
func (c *collector) text(start, end int) source.Text {
	at := c.span(start, end)
	return source.Text{Value: at.Text(), Span: at}
}

// trimmed returns the place of a segment without white space around it.
func (c *collector) trimmed(s text.Segment) source.Span {
	return c.text(s.Start, s.Stop).Trim().Span
}
