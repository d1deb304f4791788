package compiled

import (
	"bytes"
	"html/template"
	"testing"
)

type link struct{ Text, Path string }

type view struct {
	Text  string
	Path  string
	Whole template.HTML
	Count int
	On    bool
	Next  *link
	Links []link
	Words []string
	Any   any
	Names map[string]string
	Kind  kind
	Prose prose
	None  prose
}

// Method is a method, which goes before a field.
func (view) Method() string { return "of the method" }

// prose is HTML that is written where it is shown.
type prose func(out []byte) []byte

func (p prose) HTML() template.HTML { return template.HTML(p.AppendHTML(nil)) }

func (p prose) AppendHTML(out []byte) []byte {
	if p == nil {
		return out
	}
	return p(out)
}

type kind string

func (k kind) String() string { return "kind " + string(k) }

func sample() view {
	return view{
		Text: "a <b> & 'c'", Path: "x y.html?a=b&c", Whole: "<i>whole</i>", Count: 3, On: true, Next: &link{"next", "n.html"},
		Links: []link{{"one", "1.html"}, {"two", "javascript:alert(2)"}}, Words: []string{"w", "<v>"}, Any: "any",
		Names: map[string]string{"a": "b"}, Kind: "k", Prose: func(out []byte) []byte { return append(out, "<p>prose"...) },
	}
}

// expectSame expects a template to write what the library writes, and to be run without
// it or not.
func expectSame(t *testing.T, text string, known bool, v view) {
	t.Helper()
	parse := func() *template.Template {
		set, err := template.New("t").Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		return set
	}
	set := New(parse())
	if got := set.Knows("t", v); got != known {
		t.Errorf("%s: known is %v", text, got)
	}
	var want bytes.Buffer
	wanted := parse().Execute(&want, v)
	got, err := set.Append([]byte("before "), "t", v)
	switch {
	case wanted != nil:
		if err == nil || err.Error() != wanted.Error() || string(got) != "before " {
			t.Errorf("%s: got %q and %v, want %v", text, got, err, wanted)
		}
	case err != nil || string(got) != "before "+want.String():
		t.Errorf("%s: got %q and %v, want %q", text, got, err, want.String())
	}
}

// What is compiled writes what the library writes.
func TestKnown(t *testing.T) {
	for _, text := range []string{
		"", "text only", "{{.Text}}", "{{.Count}}", "{{.Whole}}", "{{.Next.Text}}", "{{$.Text}}",
		`<a href="{{.Path}}" title="{{.Text}}">{{.Text}}</a>`, `<a href="../{{.Path}}">`, "<title>{{.Text}}</title>",
		"{{if .On}}on{{else}}off{{end}}", "{{if .Count}}some{{end}}", "{{if .Links}}some{{end}}", "{{if .Next}}next{{end}}",
		"{{if not .On}}off{{end}}", "{{if or .On .Text}}one{{end}}", "{{if and .On .Next .Words}}all{{end}}",
		`{{if eq .Text "a"}}a{{else if eq .Text "b"}}b{{else}}c{{end}}`, `{{or .Text "none"}}`, "{{len .Links}}",
		"{{with .Text}}{{.}}{{else}}none{{end}}", "{{with .Next}}{{.Path}} {{$.Text}}{{end}}",
		"{{range .Words}}{{.}},{{else}}none{{end}}", "{{range $w := .Words}}{{$w}}{{end}}",
		`{{range $i, $l := .Links}}{{if $i}}, {{end}}<a href="{{$l.Path}}">{{.Text}}</a>{{end}}`,
		"{{$t := .Text}}{{range .Words}}{{$t}}{{.}}{{end}}", "{{range .Words}}{{$w := .}}{{range $.Words}}{{$w}}{{.}}{{end}}{{end}}",
		`{{define "l"}}{{.Text}}{{$.Path}}{{end}}{{range .Links}}{{template "l" .}}{{end}}{{template "l" .}}`,
		"{{.Prose.HTML}}{{.Text}}{{.None.HTML}}", "{{with .Prose}}{{.HTML}}{{end}}{{with .Prose.HTML}}{{.}}{{end}}", "{{if .Prose.HTML}}yes{{end}}",
		`{{define "n"}}nothing{{end}}{{template "n"}}`,
		`{{define "f"}}{{printf "%q" .}}{{end}}{{template "f" .Text}}{{.Text}}`, // the one template is the library's
	} {
		expectSame(t, text, true, sample())
		expectSame(t, text, true, view{Next: &link{}})
	}
}

// What is not known is the library's.
func TestUnknown(t *testing.T) {
	for _, text := range []string{
		"{{.Prose.HTML.Name}}", `<p title="{{.Prose.HTML}}">`, "{{.Prose}}", "{{.Prose.AppendHTML}}", "{{.Method}}", "{{.Any}}", "{{.Names.a}}", "{{.Kind}}", "{{printf \"%s\" .Text}}", "{{.Text | html}}", "{{index .Words 0}}",
		"{{range .Names}}{{.}}{{end}}", "{{range 3}}{{.}}{{end}}", "{{range .Words}}{{break}}{{end}}", "{{with $x := .Text}}{{$x}}{{end}}",
		"{{$t := .Text}}{{$t = \"b\"}}{{$t}}", "<script>var a = {{.Text}}</script>", "<i style=\"width:{{.Count}}px\">",
		"<p title={{.Text}}>", `<p title="{{.Whole}}">`, `<a href="?q={{.Text}}">`, "<p {{.Text}}=\"\">", "{{.On}}", "{{.Missing}}", "{{.Text.Field}}",
		`{{define "r"}}{{with .Next}}{{end}}{{if .Missing}}{{template "r" .}}{{end}}{{end}}{{.Missing}}`,
		`{{define "a"}}{{.}}{{end}}<p title="{{template "a" .Text}}">`, // escaped as an attribute
		`{{define "e"}}{{if eq . "x"}}{{template "e" .}}{{end}}{{end}}{{range $i, $w := .Words}}{{else}}{{$w}}{{end}}`,
	} {
		expectSame(t, text, false, sample())
	}
}

// A fault that only the values show has the library's words, and one in a template that
// is called too.
func TestFaults(t *testing.T) {
	for _, text := range []string{
		"{{.Text}}{{.Next.Text}}", "{{range .Words}}{{$.Next.Path}}{{end}}",
		`{{define "i"}}{{index . 9}}{{end}}{{.Text}}{{template "i" .Words}}`,
	} {
		v := sample()
		v.Next = nil
		expectSame(t, text, true, v)
	}
}

// A template that calls itself is run by the library.
func TestRecursion(t *testing.T) {
	expectSame(t, `{{define "r"}}{{with .Next}}{{.Text}}{{end}}{{if .Links}}{{else}}{{template "r" .}}{{end}}{{end}}{{template "r" .}}`, true, sample())
}

// Any text comes out as the library escapes it, wherever it stands.
func FuzzEscaping(f *testing.F) {
	const text = `<title>{{.Text}}</title><p title="{{.Text}}">{{.Text}}</p><a href="{{.Text}}">{{.Count}}</a><a href="a/{{.Text}}"></a>`
	for _, seed := range []string{"", "a <b> & 'c' \"d\" 1+1", "\x00\xff\u2028é", "javascript:x", "JavaScript:x", "HTTPS://a/b", "mailto:x", "a/b:c", "50% %41 %zz %", "(a)~!*[]@;,"} {
		f.Add(seed)
	}
	library := template.Must(template.New("t").Parse(text))
	set := New(template.Must(template.New("t").Parse(text)))
	f.Fuzz(func(t *testing.T, s string) {
		v := view{Text: s}
		if !set.Knows("t", v) {
			t.Fatal("the template is left to the library")
		}
		var want bytes.Buffer
		if err := library.Execute(&want, v); err != nil {
			t.Fatal(err)
		}
		if got, err := set.Append(nil, "t", v); err != nil || !bytes.Equal(got, want.Bytes()) {
			t.Errorf("got\n%s\nwant\n%s", got, want.Bytes())
		}
	})
}
