package markdown

import (
	"bytes"
	"sync"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// engine returns the one Markdown engine, which is safe for concurrent use. It is
// made on first use, since many commands read no Markdown.
var engine = sync.OnceValue(func() goldmark.Markdown {
	return goldmark.New(
		goldmark.WithExtensions(extension.NewTable(), extension.NewFootnote(), extension.DefinitionList),
		goldmark.WithParserOptions(
			parser.WithAttribute(),
			parser.WithASTTransformers(util.Prioritized(unusedNotes{}, beforeFootnotes)),
		),
		goldmark.WithRendererOptions(
			renderer.WithNodeRenderers(util.Prioritized(nodeRenderer{}, beforeDefaults)),
		),
	)
})

// Priorities of the library: its footnotes are put in order at 999, and its own
// writers of nodes stand at 500 and 1000.
const (
	beforeFootnotes = 900
	beforeDefaults  = 100
)

// Nodes of ours stand in the tree where the library's node does not say enough.
var (
	kindBlock = ast.NewNodeKind("CourseBlock")
	kindValue = ast.NewNodeKind("CourseValue")
	kindImage = ast.NewNodeKind("CourseImage")
	kindLink  = ast.NewNodeKind("CourseLink")
)

type blockNode struct {
	ast.BaseBlock
	block *Block
}

func (n *blockNode) Kind() ast.NodeKind         { return kindBlock }
func (n *blockNode) Dump(src []byte, level int) { ast.DumpHelper(n, src, level, nil, nil) }

type valueNode struct {
	ast.BaseInline
	value *Value
}

func (n *valueNode) Kind() ast.NodeKind         { return kindValue }
func (n *valueNode) Dump(src []byte, level int) { ast.DumpHelper(n, src, level, nil, nil) }

type imageNode struct {
	ast.BaseInline
	image *Image
}

func (n *imageNode) Kind() ast.NodeKind         { return kindImage }
func (n *imageNode) Dump(src []byte, level int) { ast.DumpHelper(n, src, level, nil, nil) }

type linkNode struct {
	ast.BaseInline
	link *Link
}

func (n *linkNode) Kind() ast.NodeKind         { return kindLink }
func (n *linkNode) Dump(src []byte, level int) { ast.DumpHelper(n, src, level, nil, nil) }

// unusedNotes remembers the footnotes that nothing refers to before the library
// drops them in silence.
type unusedNotes struct{}

var unusedNotesKey = parser.NewContextKey()

// Transform is called by the library between reading and ordering the footnotes.
func (unusedNotes) Transform(root *ast.Document, reader text.Reader, ctx parser.Context) {
	if !bytes.Contains(reader.Source(), []byte("[^")) {
		return
	}
	var unused []*extast.Footnote
	_ = ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if note, ok := n.(*extast.Footnote); ok && entering && note.Index < 0 {
			unused = append(unused, note)
		}
		return ast.WalkContinue, nil
	})
	ctx.Set(unusedNotesKey, unused)
}
