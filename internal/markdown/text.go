package markdown

import (
	"bytes"
	"html"
	"strings"

	"github.com/yuin/goldmark/ast"
	extast "github.com/yuin/goldmark/extension/ast"
	goldhtml "github.com/yuin/goldmark/renderer/html"
)

// plain returns the words below an inline node as a reader sees them.
func plain(n ast.Node, src []byte) string {
	p := plainText{src: src}
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
