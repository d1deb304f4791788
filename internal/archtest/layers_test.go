package archtest

import (
	"go/ast"
	"slices"
	"strings"
	"testing"
)

// layers orders the packages of the module. A package imports only packages
// that stand above it, so that every arrow of the import graph points up the
// page and a reader can start at the top and never meet an unknown word.
var layers = []struct {
	name string
	edge bool // may touch files, network and clock
	rows []string
}{
	{name: "L0 ground", rows: []string{
		"layouts",          // the page templates, style sheets and scripts, embedded
		"internal/starter", // the course that a newcomer starts from, embedded
		"internal/exact",
		"internal/source",
		"internal/diag",
		"internal/artifact",
		"internal/parallel",
	}},
	{name: "L1 trade values", rows: []string{
		"internal/measure",
		"internal/peroxide",
		"internal/law",
		"internal/shade",
		"internal/hair",
		"internal/mix",
		"internal/amount",
		"internal/timing",
		"internal/care",
		"internal/segment",
		"internal/lot",
		"internal/classtest",
		"internal/answer",
		"internal/geom",
		"internal/head",
		"internal/scalp",
		"internal/strand",
		"internal/silhouette",
	}},
	{name: "L2 notations", rows: []string{
		"internal/yamlpos",
		"internal/markdown",
		"internal/formula",
		"internal/sheet",
		"internal/answerfile",
		"internal/caption",
		"internal/question",
		"internal/heard",
		"internal/media",
	}},
	{name: "L3 course model", rows: []string{
		"internal/lesson",
		"internal/course",
		"internal/derive",
		"internal/working",
		"internal/register",
		"internal/paper",
	}},
	{name: "L4 judgement", rows: []string{
		"internal/check",
	}},
	{name: "L5 output in memory", rows: []string{
		"internal/draft",
		"internal/highlight",
		"internal/asset",
		"internal/compiled",
		"internal/path",
		"internal/draw",
		"internal/page",
		"internal/report",
	}},
	{name: "L6 edges", edge: true, rows: []string{
		"internal/disk",
		"internal/recall",
		"internal/watch",
		"internal/build",
		"internal/preview",
		"internal/cli",
		"cmd/plait",
	}},
}

// testOnly names the packages that only tests import. They may import anything.
var testOnly = []string{
	"internal/archtest",
	"internal/bench",
	"internal/browsertest",
	"internal/corpus",
	"internal/demofilm", // a program of its own, run by hand
	"internal/reference",
	"internal/talks",
}

// homes gives each third-party package that the design fixes its one importer,
// so that a change of that package is a change of one of ours.
var homes = map[string]string{
	"github.com/yuin/goldmark":     "internal/markdown",
	"gopkg.in/yaml.v3":             "internal/yamlpos",
	"github.com/alecthomas/chroma": "internal/highlight",
	"github.com/fsnotify/fsnotify": "internal/watch",
	"github.com/evanw/esbuild":     "internal/asset",
	"github.com/alecthomas/kong":   "internal/cli",
	"rsc.io/qr":                    "internal/page",
}

// machine names the packages of the standard library that reach files, network,
// processes or the user. Embedded files and io/fs do not count: they are values
// that an edge hands in.
var machine = []string{"os", "net", "syscall", "io/ioutil", "path/filepath", "log", "runtime/debug"}

// harmless names the exceptions below the packages of machine: pure functions.
var harmless = []string{"net/url"}

// clock names the functions of package time that read or wait for the clock.
// The rest of the package is arithmetic of dates and durations.
var clock = []string{
	"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTicker", "NewTimer",
}

// place is where a package stands in the table.
type place struct {
	row   int // counted through all layers
	layer string
	edge  bool
}

func table() map[string]place {
	places := make(map[string]place)
	for _, l := range layers {
		for _, name := range l.rows {
			places[module+"/"+name] = place{row: len(places), layer: l.name, edge: l.edge}
		}
	}
	return places
}

func isTestOnly(importPath string) bool {
	for _, name := range testOnly {
		if within(importPath, module+"/"+name) {
			return true
		}
	}
	return false
}

func TestEveryPackageHasALayer(t *testing.T) {
	places := table()
	for name := range packages(t) {
		if _, ok := places[name]; !ok && !isTestOnly(name) {
			t.Errorf("%s is in no layer: add it to the table in internal/archtest/layers_test.go", name)
		}
	}
}

func TestImportsPointUp(t *testing.T) {
	places := table()
	for name, pkg := range packages(t) {
		from, ok := places[name]
		if !ok {
			continue
		}
		for _, imp := range pkg.imports() {
			if isTestOnly(imp.path) {
				t.Errorf("%s: %s is for tests only", imp.at, imp.path)
				continue
			}
			to, ok := places[imp.path]
			if ok && to.row >= from.row {
				t.Errorf("%s: %s (%s) imports %s (%s), which stands below it", imp.at, name, from.layer, imp.path, to.layer)
			}
		}
	}
}

func TestFixedPackagesHaveOneImporter(t *testing.T) {
	for name, pkg := range packages(t) {
		for _, imp := range pkg.imports() {
			for third, home := range homes {
				if within(imp.path, third) && name != module+"/"+home {
					t.Errorf("%s: only %s may import %s", imp.at, home, third)
				}
			}
		}
	}
}

func TestOnlyEdgesTouchTheMachine(t *testing.T) {
	places := table()
	for name, pkg := range packages(t) {
		if places[name].edge || isTestOnly(name) {
			continue
		}
		for _, imp := range pkg.imports() {
			if reachesMachine(imp.path) {
				t.Errorf("%s: %s may not import %s: take bytes, an fs.FS or an io.Writer instead", imp.at, name, imp.path)
			}
		}
		for _, f := range pkg.files {
			for _, call := range clockReads(f) {
				t.Errorf("%s: %s may not read the clock: take the time as a value", call, name)
			}
		}
	}
}

// TestFixedPackagesAreUsed holds the other half: a home that has stopped using
// its package, or a package that is gone, leaves a line here to delete.
func TestFixedPackagesAreUsed(t *testing.T) {
	all := packages(t)
	for third, home := range homes {
		pkg := all[module+"/"+home]
		if pkg == nil {
			continue
		}
		uses := slices.ContainsFunc(pkg.imports(), func(imp imported) bool { return within(imp.path, third) })
		if !uses {
			t.Errorf("%s is said to be the one importer of %s but does not import it", home, third)
		}
	}
}

func reachesMachine(importPath string) bool {
	for _, name := range harmless {
		if within(importPath, name) {
			return false
		}
	}
	for _, name := range machine {
		if within(importPath, name) {
			return true
		}
	}
	return false
}

// clockReads lists the places where the file names a function of package time
// that depends on when the program runs.
func clockReads(f goFile) []string {
	name := ""
	for _, spec := range f.tree.Imports {
		if importPath(spec) == "time" {
			name = localName(spec)
		}
	}
	if name == "" {
		return nil
	}
	var places []string
	ast.Inspect(f.tree, func(n ast.Node) bool {
		sel, ok := n.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		pkg, ok := sel.X.(*ast.Ident)
		if ok && pkg.Name == name && slices.Contains(clock, sel.Sel.Name) {
			places = append(places, f.at(sel))
		}
		return true
	})
	return places
}

func TestEveryPackageHasAComment(t *testing.T) {
	for name, pkg := range packages(t) {
		if len(pkg.files) == 0 {
			t.Errorf("%s has tests only: give it a doc.go with a package comment", name)
			continue
		}
		if !documented(pkg) {
			t.Errorf("%s has no package comment: say what one idea it holds", name)
		}
	}
}

// documented tells whether a file of the package has a comment that starts as
// the Go documentation asks: "Package name …", or the program's own name.
func documented(pkg *goPackage) bool {
	for _, f := range pkg.files {
		text := f.tree.Doc.Text()
		name := f.tree.Name.Name
		if strings.HasPrefix(text, "Package "+name+" ") || name == "main" && text != "" {
			return true
		}
	}
	return false
}

// TestMainIsOneStatement keeps the program's entry free of decisions, so that
// everything it does can be tested through package cli.
func TestMainIsOneStatement(t *testing.T) {
	pkg := packages(t)[module+"/cmd/plait"]
	if pkg == nil {
		t.Skip("cmd/plait is not there")
	}
	for _, f := range pkg.files {
		for _, decl := range f.tree.Decls {
			fn, ok := decl.(*ast.FuncDecl)
			if ok && (fn.Name.Name != "main" || len(fn.Body.List) != 1) {
				t.Errorf("%s: cmd/plait holds func main with one statement and nothing else", f.at(fn))
			}
		}
	}
}
