package check

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"plait/internal/diag"
	"plait/internal/lesson"
)

// report prints findings for the message of a failed test.
func report(found []diag.Diagnostic) string {
	var b strings.Builder
	if err := diag.WriteText(&b, found, diag.TextOptions{}); err != nil {
		return err.Error()
	}
	return b.String()
}

func breaks(found []diag.Diagnostic, id string) bool {
	return slices.ContainsFunc(found, func(d diag.Diagnostic) bool { return d.Rule == id })
}

// What a rule shows as breaking it does, and what it shows as mended has no error
// left and nothing by that rule.
func TestExamples(t *testing.T) {
	for _, r := range Rules() {
		t.Run(r.ID, func(t *testing.T) {
			if r.Of == InWords {
				t.Skip("told in words; TestToldInWords breaks it")
			}
			if found := judge(t, testCourse(r.Of, r.Before)); !breaks(found, r.ID) {
				t.Errorf("the first example does not break the rule:\n%s", report(found))
			}
			if found := judge(t, testCourse(r.Of, r.After)); breaks(found, r.ID) || diag.HasErrors(found) {
				t.Errorf("the mended example is not clean:\n%s", report(found))
			}
		})
	}
}

// Rules whose examples no page could show are broken here.
func TestToldInWords(t *testing.T) {
	broken := map[string]fs.FS{
		"recording/film":   withFilm("recording: {film: gloss.webm}", "no film"),
		"recording/length": withFilm("recording: {film: gloss.webm, length: \"3:49\"}", gloss),
		"text/character":   withLesson("---\ntitle: A\nsummary: B\n---\n\n## Mix\a it\n"),
		"text/size":        withLesson(strings.Repeat("x", lesson.MaxBytes+1)),
		"text/utf-8":       withLesson("---\ntitle: Caf\xe9\n---\n"),
		"text/unreadable":  unreadable{testCourse(Prose, "")},
	}
	for _, r := range Rules() {
		files, ok := broken[r.ID]
		if ok != (r.Of == InWords) {
			t.Errorf("%s: told in words %v, broken here %v", r.ID, r.Of == InWords, ok)
			continue
		}
		if ok {
			if found := judge(t, files); !breaks(found, r.ID) {
				t.Errorf("%s is not reported:\n%s", r.ID, report(found))
			}
		}
	}
}

func withLesson(text string) fs.FS {
	files := testCourse(Prose, "")
	files[lessonFile] = file(text)
	return files
}

// unreadable is a course whose lesson may not be read.
type unreadable struct{ fstest.MapFS }

func (u unreadable) Open(name string) (fs.File, error) {
	if name == lessonFile {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
	}
	return u.MapFS.Open(name)
}

var idForm = regexp.MustCompile(`^[a-z]+/[a-z0-9]+(-[a-z0-9]+)*$`)

func TestRegistry(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range Rules() {
		switch {
		case !idForm.MatchString(r.ID):
			t.Errorf("%q is no family/kebab-case id", r.ID)
		case seen[r.ID]:
			t.Errorf("%s is registered twice", r.ID)
		case r.Title == "" || r.Why == "" || r.Since == "" || r.Before == "" || r.After == "":
			t.Errorf("%s lacks a title, a rationale, an example or the version that brought it", r.ID)
		case looks(r) && r.Source == "":
			t.Errorf("%s judges a bowl and names no source", r.ID)
		case strings.HasSuffix(r.Title, ".") || !strings.HasSuffix(r.Why, "."):
			t.Errorf("%s: a title ends without a full stop, a rationale with one", r.ID)
		case practiceAlone(r) && r.Severity == diag.Error:
			t.Errorf("%s rests on common practice alone and is an error", r.ID)
		}
		seen[r.ID] = true
	}
	if !slices.IsSortedFunc(Rules(), func(a, b Rule) int { return strings.Compare(a.ID, b.ID) }) {
		t.Error("the rules are not in order")
	}
}

func looks(r Rule) bool { return r.Formula != nil || r.Lesson != nil || r.Course != nil }

// practiceAlone reports whether nothing but common practice stands behind a rule that
// judges.
func practiceAlone(r Rule) bool { return looks(r) && strings.HasPrefix(r.Source, "common practice") }

func TestFamilies(t *testing.T) {
	var ids []string
	for _, f := range Families() {
		for _, r := range f.Rules {
			if r.Family() != f.Name {
				t.Errorf("%s stands under %s", r.ID, f.Name)
			}
			ids = append(ids, r.ID)
		}
	}
	if !slices.Equal(ids, allIDs()) {
		t.Errorf("got %v", ids)
	}
}

func allIDs() []string {
	var out []string
	for _, r := range Rules() {
		out = append(out, r.ID)
	}
	return out
}

// Every id that the program reports under is registered, so that it can be explained,
// and every registered one is reported by something.
func TestIDsAreReportedAndRegistered(t *testing.T) {
	reported := map[string]bool{}
	for _, r := range Rules() {
		if looks(r) {
			reported[r.ID] = true
		}
	}
	for id, at := range idsInCode(t) {
		reported[id] = true
		if _, ok := Find(id); !ok {
			t.Errorf("%s: %s is not registered", at, id)
		}
	}
	for _, id := range allIDs() {
		if !reported[id] {
			t.Errorf("%s is registered, and nothing reports it", id)
		}
	}
}

// reporters are the functions that take a rule's id.
var reporters = []string{"Errorf", "Warningf", "Notef", "FromError", "errorf", "parsed", "value", "fail", "fault"}

// idsInCode returns the rule ids in the program's own files with a place of each:
// arguments of reporters and constants whose names begin with rule.
func idsInCode(t *testing.T) map[string]string {
	t.Helper()
	ids := map[string]string{}
	files := token.NewFileSet()
	err := fs.WalkDir(os.DirFS(".."), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || path.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(files, "../"+name, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		ast.Inspect(f, func(n ast.Node) bool {
			for _, lit := range candidates(n) {
				if text, err := strconv.Unquote(lit.Value); err == nil && idForm.MatchString(text) {
					ids[text] = files.Position(lit.Pos()).String()
				}
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return ids
}

// candidates returns the string literals of a node that stand where ids do.
func candidates(n ast.Node) []*ast.BasicLit {
	var exprs []ast.Expr
	switch n := n.(type) {
	case *ast.CallExpr:
		if slices.Contains(reporters, calledName(n.Fun)) {
			exprs = n.Args
		}
	case *ast.ValueSpec:
		if strings.HasPrefix(n.Names[0].Name, "rule") {
			exprs = n.Values
		}
	}
	var out []*ast.BasicLit
	for _, e := range exprs {
		if lit, ok := e.(*ast.BasicLit); ok && lit.Kind == token.STRING {
			out = append(out, lit)
		}
	}
	return out
}

func calledName(fun ast.Expr) string {
	switch f := fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		return f.Sel.Name
	case *ast.IndexExpr:
		return calledName(f.X)
	}
	return ""
}
