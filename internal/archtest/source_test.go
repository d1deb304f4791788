package archtest

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// module is the path of the module that these tests look at.
const module = "plait"

// goPackage is one folder of Go code as its files state it. Test files are
// left out: what a test imports is free.
type goPackage struct {
	path  string // import path, for example plait/internal/mix
	files []goFile
}

type goFile struct {
	name string // path from the root of the repository
	fset *token.FileSet
	tree *ast.File
}

// root is the top folder of the repository, seen from this package's folder,
// which is where go test runs a test.
func root(t *testing.T) string {
	t.Helper()
	dir, err := filepath.Abs(filepath.Join("..", ".."))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(dir, "go.mod")); err != nil {
		t.Fatalf("the root of the repository was expected at %s: %v", dir, err)
	}
	return dir
}

// walk calls visit for each file of the repository that belongs to it: not for
// the version store, not for installed checkers, not for the built site.
func walk(t *testing.T, visit func(name string)) {
	t.Helper()
	err := fs.WalkDir(os.DirFS(root(t)), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if foreign(name) {
				return fs.SkipDir
			}
			return nil
		}
		if path.Dir(name) == "public" && path.Base(name) != ".gitignore" {
			return nil
		}
		visit(name)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// foreign tells whether the folder holds files that are not ours.
func foreign(name string) bool {
	switch path.Base(name) {
	case ".git", "node_modules":
		return true
	}
	return path.Dir(name) == "public"
}

// packages reads every Go file of the repository and sorts them by folder.
func packages(t *testing.T) map[string]*goPackage {
	t.Helper()
	found := make(map[string]*goPackage)
	walk(t, func(name string) {
		if path.Ext(name) != ".go" || strings.Contains(name, "testdata/") {
			return
		}
		importPath := path.Join(module, path.Dir(name))
		p := found[importPath]
		if p == nil {
			p = &goPackage{path: importPath}
			found[importPath] = p
		}
		if strings.HasSuffix(name, "_test.go") {
			return
		}
		p.files = append(p.files, parse(t, name))
	})
	if len(found) == 0 {
		t.Fatal("no Go package found")
	}
	return found
}

func parse(t *testing.T, name string) goFile {
	t.Helper()
	fset := token.NewFileSet()
	tree, err := parser.ParseFile(fset, filepath.Join(root(t), filepath.FromSlash(name)), nil, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	return goFile{name: name, fset: fset, tree: tree}
}

// imported is one import with the place where it stands.
type imported struct {
	path string
	at   string // file:line
}

func (p *goPackage) imports() []imported {
	var list []imported
	for _, f := range p.files {
		for _, spec := range f.tree.Imports {
			list = append(list, imported{path: importPath(spec), at: f.at(spec)})
		}
	}
	return list
}

func (f goFile) at(n ast.Node) string {
	return f.name + ":" + strconv.Itoa(f.fset.Position(n.Pos()).Line)
}

func importPath(spec *ast.ImportSpec) string {
	return strings.Trim(spec.Path.Value, "`\"")
}

// localName is the word that stands for the package in the file: the name given
// in the import or else the last element of its path.
func localName(spec *ast.ImportSpec) string {
	if spec.Name != nil {
		return spec.Name.Name
	}
	return path.Base(importPath(spec))
}

// within tells whether the import path is pkg or lies below it.
func within(importPath, pkg string) bool {
	return importPath == pkg || strings.HasPrefix(importPath, pkg+"/")
}
