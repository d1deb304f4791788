package page

import (
	"bytes"
	"html/template"
	"math/rand/v2"
	"reflect"
	"testing"

	"plait/layouts"
)

// viewsOf are the views that templates show, by kind of page and by part.
var (
	viewsOfKinds = map[string]any{
		"home": HomeView{}, "module": ModuleView{}, "lesson": LessonView{}, "words": WordsView{}, "standing": StandingView{},
		"find": FindView{}, "missing": MissingView{}, "rules": RulesView{}, "order": OrderView{}, "paper": PaperView{},
		"sheet": SheetView{}, "revise": ReviseView{}, "outcomes": OutcomesView{},
	}
	viewsOfParts = map[string]any{
		"head": Frame{}, "top": Frame{}, "foot": Frame{}, "within": []LessonRow{}, "bowl": BowlView{},
		"question": &QuestionView{}, "practical": PracticalView{}, "heads": HeadsView{},
	}
)

// hostile are texts that a page must not be broken by.
var hostile = []string{
	"", "plain", "8N", "café, “so”", "a & b", "<script>alert(1)</script>", "</title><b>", `" onclick="x`, "'", "1 + 1", "\x00", "\xff\xfe",
	"javascript:alert(1)", "https://example.org/a b?c=d&e=+#f", "mailto:a@example.org", "../lessons/x.html#step", "50%", "%41%zz", "&amp;", "number", "level", "order", "pairs",
	"radio", "\u2028", "-->", "{{.}}",
}

// fill gives a view values by lot.
func fill(r *rand.Rand, v reflect.Value, depth int) {
	switch v.Kind() {
	case reflect.String:
		s := hostile[r.IntN(len(hostile))]
		if v.Type() == reflect.TypeFor[template.JS]() {
			s = "{}"
		}
		v.SetString(s)
	case reflect.Int, reflect.Int64:
		v.SetInt(int64(r.IntN(5) - 1))
	case reflect.Bool:
		v.SetBool(r.IntN(2) == 0)
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), r.IntN(3), 3))
		for i := range v.Len() {
			fill(r, v.Index(i), depth+1)
		}
	case reflect.Pointer:
		rarely := v.Type() == reflect.TypeFor[*Site]() || v.Type() == reflect.TypeFor[*Chrome]()
		if r.IntN(4) == 0 && (!rarely || r.IntN(10) == 0) {
			return
		}
		v.Set(reflect.New(v.Type().Elem()))
		fill(r, v.Elem(), depth+1)
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() || f.Anonymous {
				fill(r, v.Field(i), depth+1)
			}
		}
	case reflect.Interface:
		v.Set(reflect.ValueOf(map[string]string{"a": hostile[r.IntN(len(hostile))]}))
	}
}

// The oracle is html/template itself: whatever a view holds, a compiled template writes
// what the library writes, and fails where it fails with the same words.
func TestCompiledTemplatesWriteWhatTheLibraryWrites(t *testing.T) {
	set := parsed(t, layouts.FS)
	parts, kinds, err := parseAll(layouts.FS)
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(1, 2))
	written, failed := 0, 0
	expectSame := func(what string, got []byte, err error, library *template.Template, name string, view any) {
		t.Helper()
		var want bytes.Buffer
		wanted := library.ExecuteTemplate(&want, name, view)
		switch {
		case (err == nil) != (wanted == nil), err != nil && err.Error() != wanted.Error():
			t.Errorf("%s ends with %v, want %v", what, err, wanted)
		case err != nil:
			failed++
		case !bytes.Equal(got, want.Bytes()):
			t.Fatalf("%s of %+v\ngot\n%s\nwant\n%s", what, view, got, want.Bytes())
		default:
			written++
		}
	}
	made := func(like any) any {
		v := reflect.New(reflect.TypeOf(like)).Elem()
		for v.IsZero() {
			fill(r, v, 0)
		}
		return v.Interface()
	}
	for range 60 {
		for kind, like := range viewsOfKinds {
			view := made(like)
			got, err := set.kinds[kind].Append(nil, "base", view)
			expectSame(kind, got, err, kinds[kind], "base", view)
		}
		for part, like := range viewsOfParts {
			view := made(like)
			got, err := set.parts.Append(nil, part, view)
			expectSame(part, got, err, parts, part, view)
		}
	}
	if written < 500 || failed == 0 {
		t.Errorf("%d pages were written and %d failed", written, failed)
	}
}

// Every template that is shown often is run without the library, but for that of
// films.
func TestTemplatesAreCompiled(t *testing.T) {
	set := parsed(t, layouts.FS)
	for _, kind := range []string{"home", "module", "lesson", "find", "sheet", "revise", "order", "outcomes"} {
		if !set.kinds[kind].Knows("main", viewsOfKinds[kind]) || !set.kinds[kind].Knows("base", viewsOfKinds[kind]) {
			t.Errorf("%s is left to the library", kind)
		}
	}
	for part, view := range viewsOfParts {
		if !set.parts.Knows(part, view) {
			t.Errorf("%s is left to the library", part)
		}
	}
}
