package lesson

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
)

const plainSheet = "sections: [{part: ear to ear}]\n"

// expectSheets reads a lesson with a head sheet and compares what is reported.
func expectSheets(t *testing.T, text, sheet string, want ...string) *Lesson {
	t.Helper()
	l, found := Read(fstest.MapFS{
		"lessons/01-a/lesson.md":      &fstest.MapFile{Data: []byte("---\ntitle: A\nsummary: B\n---\n\n## Work\n\n" + text)},
		"lessons/01-a/plan.head.yaml": &fstest.MapFile{Data: []byte(sheet)},
	}, "lessons/01-a")
	var got []string
	for _, d := range found {
		at := d.Span.Start()
		got = append(got, fmt.Sprintf("%d:%d %s: %s; %s", at.Line, at.Column, d.Rule, d.Message, d.Help))
	}
	if got, want := strings.Join(got, "\n"), strings.Join(want, "\n"); got != want {
		t.Errorf("%q reports\n%s\nwant\n%s", text, got, want)
	}
	return l
}

func views(d *Drawing) string {
	var words []string
	for _, v := range d.Views {
		words = append(words, v.Value.String())
	}
	return strings.Join(words, ", ")
}

func TestDrawings(t *testing.T) {
	cut := plainSheet + "cut: [{guide: {length: 11}}]\n"
	for title, want := range map[string]string{
		"":                   "left, back",
		` "top"`:             "top",
		` "right,  front"`:   "right, front",
		` "shape, lengths "`: "shape left, lengths left",
	} {
		l := expectSheets(t, "![Plan](plan.head.yaml"+title+")\n", cut)
		if len(l.Drawings) != 1 || views(l.Drawings[0]) != want {
			t.Errorf("%s shows %v, want %s", title, l.Drawings, want)
			continue
		}
		if d, ok := l.Drawing(l.Doc.Images[0]); !ok || d.Sheet != l.Sheets[0] {
			t.Errorf("%s: the picture does not find its drawing", title)
		}
	}
	l := expectSheets(t, "![Plan](plan.head.yaml)\n", plainSheet+"draw: {views: [top]}\n")
	if got := views(l.Drawings[0]); got != "top" {
		t.Errorf("the sheet's own views are %s, want top", got)
	}
}

func TestDrawingFaults(t *testing.T) {
	all := "left, right, back, front, top, lifted left, lifted right, lifted back, lengths left, lengths right, lengths back, lengths front, lengths top, shape left, shape right, shape back, shape front"
	expectSheets(t, "![Plan](plan.head.yaml \"left, bak\")\n", plainSheet,
		`8:31 head/view: "bak" is no view of a head sheet; did you mean back? the views are: `+all)
	expectSheets(t, "![Plan](plan.head.yaml \"shape\")\n", plainSheet,
		`8:25 head/view: "shape left" shows a cut, and the sheet plan has none; show the sections, as in left, back, or add cut: to the sheet`)
	expectSheets(t, "![Plan](plam.head.yaml)\n", plainSheet,
		`8:9 text/picture: this lesson has no head sheet "plam.head.yaml"; did you mean plan.head.yaml?`)
	expectSheets(t, "See ![Plan](plan.head.yaml) here.\n", plainSheet,
		`8:13 text/picture: a head sheet stands in the middle of a sentence; give it a paragraph of its own, with an empty line before and behind`)
	expectSheets(t, "```formula plan\nkind: demi\ncolour: 30 g 8N\ndeveloper: 6 vol\n```\n", plainSheet,
		`1:1 head/name: a formula of this lesson is called "plan" too; give the file or the formula another name`)
}
