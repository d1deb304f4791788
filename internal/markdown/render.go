package markdown

import (
	"strings"

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
// What Block, Image and Code return is HTML and goes to the page as it is. What
// Value and Link return is text and is escaped here.
type Hooks struct {
	Block func(*Block) string
	Value func(*Value) string
	Image func(*Image) string
	Link  func(*Link) string // the address
	Code  func(language, code string) (html string, ok bool)
}

// usualSection is about the number of bytes of a step's HTML.
const usualSection = 2 << 10

// HTML writes the section without its heading. The HTML has no inline styles or
// scripts and nothing that the author wrote as HTML.
func (s *Section) HTML(h Hooks) string {
	w := output{hooks: h}
	w.Grow(usualSection)
	s.write(&w)
	return w.String()
}

// TitleHTML writes the content of the section's heading without its time, for an
// h2 element.
func (s *Section) TitleHTML(h Hooks) string {
	w := output{hooks: h}
	s.writeTitle(&w)
	return w.String()
}

// HTML writes the whole text with its headings and footnotes.
func (d *Document) HTML(h Hooks) string {
	w := output{hooks: h}
	if d.Intro != nil {
		d.Intro.write(&w)
	}
	for _, s := range d.Sections {
		w.WriteString(`<h2 id="` + s.ID + `">`)
		s.writeTitle(&w)
		w.WriteString("</h2>\n")
		s.write(&w)
	}
	if d.Notes != nil {
		d.Notes.write(&w)
	}
	return w.String()
}

func (s *Section) write(w *output) {
	for _, n := range s.nodes {
		w.render(s.text, n)
	}
}

func (s *Section) writeTitle(w *output) {
	if s.heading == nil {
		return
	}
	for n := s.heading.FirstChild(); n != nil; n = n.NextSibling() {
		w.render(s.text, n)
	}
}

// output is what the library writes to. It carries the hooks to the writers of our
// nodes, since the library hands them nothing else that belongs to one page.
type output struct {
	strings.Builder
	hooks Hooks
}

var _ util.BufWriter = (*output)(nil)

// Available, Buffered and Flush complete what the library wants of a buffered
// writer. There is nothing to flush: the buffer is the destination.
func (w *output) Available() int { return w.Cap() - w.Len() }

// Buffered returns the number of bytes written.
func (w *output) Buffered() int { return w.Len() }

// Flush does nothing.
func (w *output) Flush() error { return nil }

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

func writeBlock(w *output, _ []byte, n ast.Node) {
	if w.hooks.Block != nil {
		w.WriteString(w.hooks.Block(n.(*blockNode).block))
	}
}

func writeValue(w *output, _ []byte, n ast.Node) {
	v := n.(*valueNode).value
	if w.hooks.Value == nil {
		w.WriteString("<code>{")
		w.escape(v.Text.Value)
		w.WriteString("}</code>")
		return
	}
	w.WriteString(`<span class="value">`)
	w.escape(w.hooks.Value(v))
	w.WriteString("</span>")
}

func writeImage(w *output, _ []byte, n ast.Node) {
	img := n.(*imageNode).image
	switch {
	case w.hooks.Image != nil:
		w.WriteString(w.hooks.Image(img))
	default:
		w.WriteString(`<img src="`)
		w.address(img.Target.Value)
		w.WriteString(`" alt="`)
		w.escape(img.Alt.Value)
		w.WriteString(`">`)
	}
	if img.Alone {
		w.WriteByte('\n')
	}
}

func writeLink(bw util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	w := bw.(*output)
	if !entering {
		w.WriteString("</a>")
		return ast.WalkContinue, nil
	}
	l := n.(*linkNode).link
	href := l.Target.Value
	if w.hooks.Link != nil {
		href = w.hooks.Link(l)
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
	code := n.Lines().Value(src)
	coloured, ok := "", false
	if w.hooks.Code != nil && language != "" {
		coloured, ok = w.hooks.Code(language, string(code))
	}
	if ok {
		w.WriteString(coloured)
	} else {
		goldhtml.DefaultWriter.RawWrite(w, code)
	}
	w.WriteString("</code></pre>\n")
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
