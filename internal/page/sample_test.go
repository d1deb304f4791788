package page

import (
	"html/template"
	"io/fs"
	"testing"

	"plait/internal/course"
	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/layouts"
)

// The samples of these tests are invented: a school, a range and a gloss.

func parsed(t testing.TB, files fs.FS) *Templates {
	t.Helper()
	set, err := ParseTemplates(files)
	if err != nil {
		t.Fatal(err)
	}
	return set
}

func sampleSite() *Site {
	return &Site{
		Title: "Harbour <Row>", ID: "harbour-row", Language: "en-GB", Edition: "2026 spring", Law: "the United Kingdom",
		Menu: []Link{{Text: "Lessons", Path: "index.html"}, {Text: "Find", Path: "find.html"}},
		Icon: "assets/icon-1.svg",
	}
}

func sampleFrame(t testing.TB, set *Templates, root, kind string) Frame {
	t.Helper()
	site := sampleSite()
	chrome, err := set.chrome(Frame{Site: site, Root: root, Style: "assets/plait-1.css", Script: "assets/plait-1.js"})
	if err != nil {
		t.Fatal(err)
	}
	return Frame{Site: site, Chrome: chrome, Root: root, Policy: policy(""), Kind: kind, Title: "A & B", Heading: "A & B", Description: "Say \"so\""}
}

func sampleRange() *shade.Range {
	return &shade.Range{
		ID: "meadow", Name: "Meadow",
		Names: map[shade.Level]string{8: "medium blonde"},
		Tones: map[string]shade.Tone{"N": {Code: "N", Name: "natural"}, "V": {Code: "V", Name: "violet", Base: shade.Violet}},
	}
}

// sampleBowl is 2 parts 8N + 1 part 8V, 6 vol at 1:2, 30 g of colour.
func sampleBowl(t testing.TB) mix.Bowl {
	t.Helper()
	n := exact.Int
	bowl, err := mix.Compute(mix.Formula{
		Shades: []mix.Shade{
			{Code: shade.Code{Text: "8N", Level: 8, Tones: []string{"N"}}, Share: n(2)},
			{Code: shade.Code{Text: "8V", Level: 8, Tones: []string{"V"}}, Share: n(1)},
		},
		Developers: []mix.Developer{{Strength: peroxide.Volumes(n(6)), Share: n(1)}},
		Ratio:      measure.Ratio{Colour: n(1), Developer: n(2)},
		Size:       measure.Grams(n(30)),
	}, measure.Grams(exact.Of(1, 10)))
	if err != nil {
		t.Fatal(err)
	}
	return bowl
}

func sampleBowlView(t testing.TB) BowlView {
	t.Helper()
	v := BowlView{
		ID: "gloss", Title: "Gloss", On: "Demi, Meadow", Said: "2 parts 8N + 1 part 8V, 6 vol at 1:2",
		Reads:    []ReadView{{Term: "Time", Value: "15 min", Note: "from the last section"}},
		Verdicts: []VerdictView{{Kind: "fine", Lead: "Deposit only.", Text: "Nothing here lifts."}},
		Working:  []string{"30 g × 2 = 60 g"},
		Timers:   []TimerView{{Seconds: 900, Text: "15 min", Zero: "from the last section"}},
		Advice:   "Counts from the last section.",
	}
	v.weights(sampleBowl(t), "colour", ofSample)
	return v
}

func sampleFilm() *FilmView {
	return &FilmView{
		Script: "../assets/film-1.js", Style: "../assets/film-1.css",
		Address: "../assets/gloss-1.webm", Width: 640, Height: 360, Length: "1:00", Seconds: "60",
		Captions: "data:text/vtt;base64,V0VCVlRUCg==", Language: "en",
		Marks: []MarkView{{From: "0", Length: "42"}, {From: "42", Length: "18"}},
		Lines: []LineView{{At: "42.5", Time: "0:42", Path: "../assets/gloss-1.webm#t=42.5", Voice: "Ann", Text: "1 < 2"}},
		Files: []Link{{Text: "Chapters", Path: "gloss.chapters.vtt"}},
		Data:  filmObject{Context: "https://schema.org", Type: "VideoObject", Name: "</script>"},
	}
}

func sampleLesson(t testing.TB, set *Templates) LessonView {
	t.Helper()
	bowl, err := set.part("bowl", sampleBowlView(t))
	if err != nil {
		t.Fatal(err)
	}
	within, err := set.part("within", []LessonRow{{Title: "Gloss", Path: "gloss.html"}, {Title: "Cover", Path: "cover.html"}})
	if err != nil {
		t.Fatal(err)
	}
	return LessonView{
		Frame:    sampleFrame(t, set, "../", "lesson"),
		Module:   Link{Text: "On the head", Path: "modules/on-the-head.html"},
		Place:    "Lesson 1 of 2",
		Lead:     "Take the yellow out.",
		Facts:    []Fact{{Value: "2", Text: "steps"}},
		Ladder:   &LadderView{Rungs: []Rung{{Level: 8, Swatch: levelSwatch(8), Marked: true}}, Marks: []Mark{{Chip: chip("s8", ""), Level: "8", Text: "lengths"}}},
		Care:     &CareView{Title: "Before any colour", Items: []CareItem{{Lead: "Allergy alert test.", Text: "48 hours ahead."}}},
		Clock:    &ClockView{Chair: "45 min", Drawing: `<svg class="hours" aria-hidden="true"></svg>`, Rows: []ClockRow{{Title: "Gloss", On: "0–12", Rinse: "27", Stays: "15–27 min"}}},
		Film:     sampleFilm(),
		Outcomes: []string{"Weigh a bowl"},
		Hair:     []Term{{Term: "Length", Value: "shoulder"}},
		Kit:      []string{"scale"},
		Steps: []StepView{
			{ID: "mix", Number: 1, Title: "Mix", Time: &TimeView{Text: "0:42", Duration: "PT42S", Path: "../assets/gloss-1.webm#t=42", At: "42", Until: "60"}, Body: written("<p>Pour.</p>" + bowl)},
			{ID: "rinse", Number: 2, Title: "Rinse", Body: written("<p>Rinse.</p>")},
		},
		Patterns: true,
		Work:     "../assets/work-1.js",
		Next:     &Link{Before: "Next lesson", Text: "Cover", Path: "cover.html"},
		Within:   within,
	}
}

// written is prose as it was written.
func written(html template.HTML) Prose {
	return func(out []byte) []byte { return append(out, html...) }
}

// sampleHeads is a head sheet of one view and one section.
func sampleHeads(t testing.TB, set *Templates) template.HTML {
	t.Helper()
	heads, err := set.part("heads", HeadsView{
		ID: "sheet_1", Sheet: "plan", Title: "Where the gloss goes", Print: "../sheets/gloss.html#sheet_1",
		Drawings: []HeadDrawing{{Picture: `<svg class="hd" role="img" aria-labelledby="a-t a-d"><title id="a-t">Left</title><desc id="a-d">All.</desc></svg>`, Caption: "Left profile"}},
		Legend: &LegendView{
			Whole: "603 cm²", Assume: "Areas on the reference head.", Coloured: true, Formulas: true,
			Rows: []LegendRow{{Number: "1", Name: "nape", Area: "88", Share: "14.6 %", ExactArea: "88.2",
				Bowls: []BowlLink{{ID: "bowl_gloss", Text: "Gloss", Path: "#bowl_gloss", Said: "8N"}}}},
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	return heads
}

// samplePages renders one page of every kind, by kind.
func samplePages(t testing.TB, set *Templates) map[string]string {
	t.Helper()
	rows := []LessonRow{{Title: "Gloss", Summary: "Take the yellow out.", Path: "lessons/gloss.html", Facts: []string{"4 steps"}, Stripe: stripe(sampleBowl(t), ofSample)}}
	frame := func(root, kind string) Frame { return sampleFrame(t, set, root, kind) }
	views := map[string]any{
		"home": HomeView{Frame: frame("", "home"), Lead: "Lessons.", Plait: plait(), First: &Link{Text: "Gloss", Path: "lessons/gloss.html"},
			Modules: []ModuleRow{{ID: "m", Number: 1, Title: "On the head", Path: "modules/m.html", Lessons: rows}}, Pages: []Link{{Text: "About", Path: "about.html"}}},
		"module":   ModuleView{Frame: frame("../", "module"), Number: 1, Of: 2, Lessons: rows, Next: &Link{Text: "Lines", Path: "lines.html"}},
		"lesson":   sampleLesson(t, set),
		"words":    WordsView{Frame: frame("", "words"), Letters: []LetterView{{ID: "letter-a", Letter: "A", Words: []WordView{{ID: "ash", Term: "ash", Meaning: "A cool tone.", See: []Link{{Text: "base", Path: "#base"}}}}}}},
		"standing": StandingView{Frame: frame("", "standing"), Body: template.HTML("<h2 id=\"a\">A</h2>"), Contents: []Link{{Text: "A", Path: "#a"}}},
		"find":     FindView{Frame: frame("", "find"), Index: "assets/find-1.js", Groups: []LinkGroup{{Title: "On the head", Links: []Link{{Text: "Gloss", Path: "lessons/gloss.html"}}}}},
		"sheet":    SheetView{Frame: frame("../", "sheet"), Lesson: Link{Text: "Gloss", Path: "../lessons/gloss.html"}, Work: "../assets/work-1.js", Sheets: []template.HTML{sampleHeads(t, set)}, Codes: []CodeView{{Drawing: `<svg aria-hidden="true"></svg>`, Time: "0:42", Title: "Mix", Path: "../lessons/gloss.html#mix"}}},
		"missing":  MissingView{Frame: frame("", "missing")},
		"revise": ReviseView{Frame: frame("", "revise"), Lead: "Cards.", Data: "{}", Decks: []Deck{{Kind: "words", Title: "Words", Cards: []CardView{
			{Card: "word:ash", Tag: "Word", Front: "Ash?", Back: "A cool tone.", From: &Link{Text: "Word list", Path: "words.html"}}}}}},
		"outcomes": OutcomesView{Frame: frame("", "standing"), Lead: "Outcomes.", Facts: []Fact{{Value: "1", Text: "outcome"}}, Modules: []OutcomeGroup{{Title: "On the head",
			Lessons: []OutcomeLesson{{Link: Link{Text: "Gloss", Path: "lessons/gloss.html"}, Rows: []OutcomeRow{{Text: "Weigh a bowl"}}}}}}},
		"rules": RulesView{Frame: frame("", "standing"), Lead: "Why.", Families: []RuleGroup{{ID: "family_law", Title: "The law", Rules: []RuleView{
			{ID: "law_x", Name: "law/x", Severity: "error", Title: "One", Why: "So.", Source: "a law", Before: "a: 1", After: "a: 2"}}}}},
		"order": OrderView{Frame: frame("", "standing"), Lead: "For 12 heads.", Totals: []string{"9.50 GBP"}, Unpriced: []string{"drops"},
			Groups: []OrderGroup{{Title: "Meadow", Lines: []OrderRow{{Name: "8V", Needed: "120 g", Spare: "12 g", Stock: "–", Buy: "132 g", Packs: "3 × 60 g", Cost: "23.70 GBP"}}}}},
	}
	views["paper"] = PaperView{Frame: frame("../", "paper"), Facts: []Fact{{Value: "1", Text: "question"}}, Asked: "All are asked.", Data: "{}",
		Questions: []PaperQuestion{{Name: "gloss/weigh", Figures: []PaperFigures{
			{ID: "question_0_0", Code: "1a", Kind: "number", Ask: "How much?", Unit: "g", Decimal: true},
			{ID: "question_0_1", Code: "1b", Kind: "choose", Ask: "Which?", Input: "radio", Hint: "Choose one", Options: []string{"this", "that"}},
			{ID: "question_0_2", Code: "1c", Kind: "order", Ask: "In which order?", Lefts: []string{"one", "two"}, Options: []string{"1", "2"}},
			{ID: "question_0_3", Code: "1d", Kind: "level", Ask: "Which level?", Rungs: []Rung{{Level: 1, Swatch: "s1"}}}}}},
		Practicals: []PaperPractical{{Name: "gloss/weighing", Title: "Weighing", Show: []string{"Zeroed"}, Assessors: []PaperAssessor{{ID: "practical_0_0", Title: "Assessor"}, {ID: "practical_0_1", Title: "Second assessor"}}}}}
	out := map[string]string{}
	for kind, view := range views {
		page, err := set.page(nil, kind, view)
		if err != nil {
			t.Fatal(err)
		}
		out[kind] = string(page)
	}
	return out
}

func TestEveryKindIsSampled(t *testing.T) {
	pages := samplePages(t, parsed(t, layouts.FS))
	for _, kind := range kinds {
		if pages[kind] == "" {
			t.Errorf("no sample of the page %q", kind)
		}
	}
}

// newEmptyBuilder is a builder for a course with nothing in it.
func newEmptyBuilder() *builder { return &builder{course: &course.Course{}} }

// ofSample says that every shade is of the sample's range.
func ofSample(shade.Code) *shade.Range { return sampleRange() }
