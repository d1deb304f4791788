package markdown

import (
	"bytes"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"plait/internal/diag"
	"plait/internal/source"
)

// fence turns a fence of a known kind into a block and leaves others as code.
func (c *collector) fence(n *ast.FencedCodeBlock) ast.Node {
	kind, name, at := c.infoOf(n)
	if !c.isClosed(n) {
		c.report(diag.Errorf(ruleFence, at, "the fence is not closed").
			WithHelp("put a line of the same signs behind its last line"))
	}
	if !slices.Contains(c.opts.Blocks, kind.Value) {
		c.checkSlip(kind)
		return n
	}
	block := &Block{Kind: kind.Value, Name: name, Body: c.bodyOf(n, at), Span: at, Section: c.section}
	c.doc.Blocks = append(c.doc.Blocks, block)
	c.section.Blocks = append(c.section.Blocks, block)
	return replace(n, &blockNode{block: block})
}

// infoOf returns the first word behind the fence, the rest of its line and the
// whole.
func (c *collector) infoOf(n *ast.FencedCodeBlock) (kind, name source.Text, at source.Span) {
	start := max(n.Pos(), 0)
	if n.Info == nil {
		line := start + len(bytes.TrimRight(lineAt(c.src, start), " \t\r\n"))
		return kind, name, c.span(start, line)
	}
	s := n.Info.Segment
	info := c.text(s.Start, s.Stop)
	end := strings.IndexAny(info.Value, " \t")
	if end < 0 {
		end = len(info.Value)
	}
	return info.Slice(0, end), info.Slice(end, len(info.Value)).Trim(), c.span(start, s.Stop)
}

// checkSlip reports a fence whose kind is nearly one of ours, which would else be
// shown as code.
func (c *collector) checkSlip(kind source.Text) {
	if near := diag.DidYouMean(kind.Value, c.opts.Blocks); kind.Value != "" && near != "" {
		c.report(diag.Errorf(ruleFence, kind.Span, "there is no block %q", kind.Value).
			WithHelp("did you mean %q? the blocks are: %s", near, strings.Join(c.opts.Blocks, ", ")))
	}
}

// bodyOf gathers the lines of a fence. A tab that is partly the fence's indent and
// partly the line's own cannot be kept as it is.
func (c *collector) bodyOf(n *ast.FencedCodeBlock, at source.Span) *source.Fragment {
	lines := n.Lines()
	var spans []source.Span
	stop := -1
	for i := range lines.Len() {
		s := lines.At(i)
		if s.Padding > 0 {
			c.report(diag.Errorf(ruleFence, c.span(s.Start, s.Start), "a tab stands in the indent").
				WithHelp("indent with spaces"))
		}
		if s.Start == stop {
			spans[len(spans)-1] = spans[len(spans)-1].To(c.span(s.Start, s.Stop))
		} else {
			spans = append(spans, c.span(s.Start, s.Stop))
		}
		stop = s.Stop
	}
	return source.NewFragment(at, spans...)
}

// isClosed reports whether the fence's last line is followed by one that closes
// it. The library closes an open fence at the end of what it stands in.
func (c *collector) isClosed(n *ast.FencedCodeBlock) bool {
	start := max(n.Pos(), 0)
	sign := c.src[start]
	length := len(c.src[start:]) - len(bytes.TrimLeft(c.src[start:], string(sign)))
	end := start + len(lineAt(c.src, start))
	if lines := n.Lines(); lines.Len() > 0 {
		end = lines.At(lines.Len() - 1).Stop
	}
	if end >= len(c.src) {
		return false
	}
	closing := bytes.Trim(lineAt(c.src, end), "> \t\r\n")
	return len(closing) >= length && len(bytes.Trim(closing, string(sign))) == 0
}

// lineAt returns the rest of the line from start on, its end included.
func lineAt(src []byte, start int) []byte {
	if i := bytes.IndexByte(src[start:], '\n'); i >= 0 {
		return src[start : start+i+1]
	}
	return src[start:]
}
