package markdown

import (
	"bytes"
	"slices"
	"strings"
	"sync"

	"github.com/yuin/goldmark/ast"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	goldhtml "github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/util"
)

// Hooks supply what the rest of the course knows when a text is written. Each may
// be nil: then a block is left out, a value stands as code as it was typed, a
// picture and a link point where the author pointed, and code is not coloured.
//
// What Block appends and what Image and Code return is HTML and goes to the page as it
// is. What Value and Link return is text and is escaped here.
type Hooks struct {
	Block func(out []byte, b *Block) []byte
	Value func(*Value) string
	Image func(*Image) string
	Link  func(*Link) string // the address
	Code  func(language, code string) (html string, ok bool)
}

// HTML writes the section without its heading. The HTML has no inline styles or
// scripts and nothing that the author wrote as HTML.
func (s *Section) HTML(h Hooks) string { return s.body.filled(h) }

// AppendHTML appends what [Section.HTML] writes.
func (s *Section) AppendHTML(out []byte, h Hooks) []byte {
	if len(s.body.gaps) == 0 {
		return append(out, s.body.text...)
	}
	w := &output{Buffer: *bytes.NewBuffer(out)}
	s.body.fill(w, h)
	return w.Bytes()
}

// TitleHTML writes the content of the section's heading without its time, for an
// h2 element.
func (s *Section) TitleHTML(h Hooks) string { return s.title.filled(h) }

// HTML writes the whole text with its headings and footnotes.
func (d *Document) HTML(h Hooks) string {
	var w output
	if d.Intro != nil {
		d.Intro.body.fill(&w, h)
	}
	for _, s := range d.Sections {
		w.WriteString(`<h2 id="` + s.ID + `">`)
		s.title.fill(&w, h)
		w.WriteString("</h2>\n")
		s.body.fill(&w, h)
	}
	if d.Notes != nil {
		d.Notes.body.fill(&w, h)
	}
	return w.String()
}

// prose is HTML with gaps that hooks fill. The library's tree is written as this as
// soon as it is read, and let go of: it takes many times the room of its text, and all
// lessons of a course are held at once.
type prose struct {
	text string
	gaps []gap
}

// gap is a place in HTML that a *Block, a *Value, an *Image, a *sample or the start of
// a *Link belongs to.
type gap struct {
	at   int // offset in the text
	what any
}

// sample is a sample of code in a language.
type sample struct{ language, code string }

// filled returns prose with its gaps filled.
func (p prose) filled(h Hooks) string {
	if len(p.gaps) == 0 {
		return p.text
	}
	w := lent.Get().(*output)
	defer lent.Put(w)
	w.Reset()
	p.fill(w, h)
	return w.String()
}

// lent are outputs that have grown to the size of a section already.
var lent = sync.Pool{New: func() any { return new(output) }}

// fill writes prose with its gaps filled.
func (p prose) fill(w *output, h Hooks) {
	from := 0
	for _, g := range p.gaps {
		w.WriteString(p.text[from:g.at])
		from = g.at
		switch what := g.what.(type) {
		case *Block:
			w.block(what, h)
		case *Value:
			w.value(what, h)
		case *Image:
			w.image(what, h)
		case *Link:
			w.link(what, h)
		case *sample:
			w.sample(what, h)
		}
	}
	w.WriteString(p.text[from:])
}

// write turns all that was read into prose.
func (c *collector) write() {
	w := lent.Get().(*output)
	defer lent.Put(w)
	w.Reset()
	for _, p := range c.parts {
		if p.heading != nil {
			for n := p.heading.FirstChild(); n != nil; n = n.NextSibling() {
				w.render(c.src, n)
			}
			p.section.title = w.take()
		}
		for _, n := range p.nodes {
			w.render(c.src, n)
		}
		p.section.body = w.take()
	}
}

// output is what the library writes to, with the gaps that nodes of ours leave.
type output struct {
	bytes.Buffer
	gaps []gap
}

var _ util.BufWriter = (*output)(nil)

// Buffered and Flush complete what the library wants of a buffered writer. There is
// nothing to flush: the buffer is the destination.
func (w *output) Buffered() int { return w.Len() }

// Flush does nothing.
func (w *output) Flush() error { return nil }

// leave leaves a gap.
func (w *output) leave(what any) { w.gaps = append(w.gaps, gap{w.Len(), what}) }

// take returns what was written and begins anew.
func (w *output) take() prose {
	p := prose{w.String(), slices.Clone(w.gaps)}
	w.Reset()
	clear(w.gaps)
	w.gaps = w.gaps[:0]
	return p
}

// render writes a node. Neither our writers nor a buffer ever fail.
func (w *output) render(src []byte, n ast.Node) { _ = engine().Renderer().Render(w, src, n) }

// nodeRenderer writes the nodes that the library writes otherwise or not at all.
type nodeRenderer struct{}

// RegisterFuncs is called by the library.
func (nodeRenderer) RegisterFuncs(r renderer.NodeRendererFuncRegisterer) {
	for kind, write := range map[ast.NodeKind]func(w *output, src []byte, n ast.Node){
		kindBlock:               writeBlock,
		kindValue:               writeValue,
		kindImage:               writeImage,
		ast.KindFencedCodeBlock: writeCode,
		ast.KindCodeBlock:       writeCode,
		ast.KindHTMLBlock:       writeNothing,
		ast.KindRawHTML:         writeNothing,
		ast.KindImage:           writeNothing,
	} {
		r.Register(kind, leaf(write))
	}
	r.Register(kindLink, writeLink)
	r.Register(ast.KindLink, writeContent)
	r.Register(ast.KindAutoLink, leaf(writeNothing))
	r.Register(extast.KindTableCell, writeCell)
}

// leaf adapts a writer of a node that has nothing below it to be written.
func leaf(write func(w *output, src []byte, n ast.Node)) renderer.NodeRendererFunc {
	return func(w util.BufWriter, src []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
		if entering {
			write(w.(*output), src, n)
		}
		return ast.WalkSkipChildren, nil
	}
}

// writeNothing stands for what was reported as an error.
func writeNothing(*output, []byte, ast.Node) {}

// writeContent writes the words of a link that was reported as an error.
func writeContent(util.BufWriter, []byte, ast.Node, bool) (ast.WalkStatus, error) {
	return ast.WalkContinue, nil
}

func writeBlock(w *output, _ []byte, n ast.Node) { w.leave(n.(*blockNode).block) }

func writeValue(w *output, _ []byte, n ast.Node) { w.leave(n.(*valueNode).value) }

func writeImage(w *output, _ []byte, n ast.Node) {
	img := n.(*imageNode).image
	w.leave(img)
	if img.Alone {
		w.WriteByte('\n')
	}
}

func writeLink(bw util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	w := bw.(*output)
	if entering {
		w.leave(n.(*linkNode).link)
	} else {
		w.WriteString("</a>")
	}
	return ast.WalkContinue, nil
}

// writeCode writes a sample of code. It can be scrolled sideways, so it can be
// reached by the keyboard.
func writeCode(w *output, src []byte, n ast.Node) {
	language := ""
	if f, ok := n.(*ast.FencedCodeBlock); ok {
		language = string(f.Language(src))
	}
	w.WriteString(`<pre tabindex="0"><code>`)
	if code := n.Lines().Value(src); language == "" {
		goldhtml.DefaultWriter.RawWrite(w, code)
	} else {
		w.leave(&sample{language, string(code)})
	}
	w.WriteString("</code></pre>\n")
}

func (w *output) block(b *Block, h Hooks) {
	if h.Block != nil {
		w.Write(h.Block(w.AvailableBuffer(), b))
	}
}

func (w *output) value(v *Value, h Hooks) {
	if h.Value == nil {
		w.WriteString("<code>{")
		w.escape(v.Text.Value)
		w.WriteString("}</code>")
		return
	}
	w.WriteString(`<span class="value">`)
	w.escape(h.Value(v))
	w.WriteString("</span>")
}

func (w *output) image(img *Image, h Hooks) {
	if h.Image != nil {
		w.WriteString(h.Image(img))
		return
	}
	w.WriteString(`<img src="`)
	w.address(img.Target.Value)
	w.WriteString(`" alt="`)
	w.escape(img.Alt.Value)
	w.WriteString(`">`)
}

// link writes the start of a link.
func (w *output) link(l *Link, h Hooks) {
	href := l.Target.Value
	if h.Link != nil {
		href = h.Link(l)
	}
	w.WriteString(`<a href="`)
	w.address(href)
	if l.Title != "" {
		w.WriteString(`" title="`)
		w.escape(l.Title)
	}
	// A site that is linked to need not learn which lesson was read.
	if scheme := schemeOf(href); scheme == "http" || scheme == "https" {
		w.WriteString(`" rel="noreferrer`)
	}
	w.WriteString(`">`)
}

func (w *output) sample(s *sample, h Hooks) {
	if h.Code != nil {
		if coloured, ok := h.Code(s.language, s.code); ok {
			w.WriteString(coloured)
			return
		}
	}
	goldhtml.DefaultWriter.RawWrite(w, []byte(s.code))
}

// writeCell writes a cell of a table. How it is aligned is a matter of the style
// sheet: HTML has no attribute for it and inline styles are not allowed.
func writeCell(bw util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	w := bw.(*output)
	tag := "td"
	if n.Parent().Kind() == extast.KindTableHeader {
		tag = "th"
	}
	if !entering {
		w.WriteString("</" + tag + ">\n")
		return ast.WalkContinue, nil
	}
	w.WriteString("<" + tag)
	if tag == "th" {
		w.WriteString(` scope="col"`)
	}
	switch n.(*extast.TableCell).Alignment {
	case extast.AlignRight:
		w.WriteString(` class="right"`)
	case extast.AlignCenter:
		w.WriteString(` class="centre"`)
	}
	w.WriteByte('>')
	return ast.WalkContinue, nil
}

// escape writes text for HTML content or an attribute in double quotes.
func (w *output) escape(s string) { escaper.WriteString(w, s) }

// address writes an address for an attribute in double quotes.
func (w *output) address(s string) {
	w.Write(util.EscapeHTML(util.URLEscape([]byte(s), false)))
}

var escaper = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;")
