package markdown

import (
	"bytes"
	"html"
	"strings"

	"github.com/yuin/goldmark/ast"
	extast "github.com/yuin/goldmark/extension/ast"
	goldhtml "github.com/yuin/goldmark/renderer/html"
)

// words returns the words below an inline node as a reader sees them. Those that stand in
// the file as they are take no room of their own.
func (c *collector) words(n ast.Node) string {
	if only, ok := n.FirstChild().(*ast.Text); ok && only.NextSibling() == nil && !only.SoftLineBreak() && !only.HardLineBreak() {
		s := only.Segment
		if value := s.Value(c.src); s.Padding == 0 && !bytes.ContainsAny(value, "\\&\r\n") {
			return c.text(s.Start, s.Stop).Value
		}
	}
	p := plainText{src: c.src}
	for child := n.FirstChild(); child != nil; child = child.NextSibling() {
		p.write(child)
	}
	return p.out.String()
}

type plainText struct {
	src []byte
	out strings.Builder
}

func (p *plainText) write(n ast.Node) {
	switch n := n.(type) {
	case *ast.Text:
		p.writeText(n)
	case *ast.String:
		p.out.Write(n.Value)
	case *valueNode:
		p.out.WriteString("{" + n.value.Text.Value + "}")
	case *imageNode:
		p.out.WriteString(n.image.Alt.Value)
	case *ast.RawHTML, *ast.HTMLBlock, *ast.FencedCodeBlock, *ast.CodeBlock, *blockNode,
		*extast.FootnoteLink, *extast.FootnoteBacklink:
		return
	default:
		for child := n.FirstChild(); child != nil; child = child.NextSibling() {
			p.write(child)
		}
	}
}

func (p *plainText) writeText(n *ast.Text) {
	value := n.Segment.Value(p.src)
	if n.IsRaw() {
		p.writeRaw(value)
		return
	}
	p.out.WriteString(resolve(value))
	if n.SoftLineBreak() || n.HardLineBreak() {
		p.out.WriteByte(' ')
	}
}

// writeRaw writes a line of a code span, where a line end reads as a blank.
func (p *plainText) writeRaw(value []byte) {
	line := bytes.TrimRight(value, "\r\n")
	p.out.Write(line)
	if len(line) < len(value) {
		p.out.WriteByte(' ')
	}
}

// resolve returns text with its backslashes and character references resolved, as
// a reader sees it.
func resolve(b []byte) string {
	if bytes.IndexByte(b, '\\') < 0 && bytes.IndexByte(b, '&') < 0 {
		return string(b)
	}
	var w output
	goldhtml.DefaultWriter.Write(&w, b)
	return html.UnescapeString(w.String())
}
