package draft

import (
	"strings"
	"testing"
	"time"

	"plait/internal/caption"
	"plait/internal/diag"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/internal/source"

	"plait/internal/exact"
	"plait/internal/measure"
)

// meadow is a small range of the tests.
var meadow = &shade.Range{
	ID: "meadow", Name: "Meadow", Darkest: 1, Lightest: 10, Shades: []string{"6N", "6G", "8N", "8V", "PW"},
	Grammar: shade.Grammar{Tones: []string{"N", "G", "V"}, Powder: []string{"PW"}},
	Tones:   map[string]shade.Tone{"N": {Name: "natural"}, "G": {Name: "gold"}, "V": {Name: "violet"}},
	Kinds: map[shade.Kind]shade.Terms{
		shade.Permanent: {Ratio: ratio(1, 3, 2), Strengths: []peroxide.Strength{peroxide.Volumes(exact.Int(20))}},
		shade.Lightener: {Ratio: ratio(1, 2, 1), Strengths: []peroxide.Strength{peroxide.Volumes(exact.Int(6)), peroxide.Volumes(exact.Int(20))}},
		shade.Demi:      {Ratio: ratio(1, 2, 1), Strengths: []peroxide.Strength{peroxide.Volumes(exact.Int(6))}},
		shade.Direct:    {Time: measure.Span{Min: 5 * time.Minute, Max: 20 * time.Minute}},
	},
	Colour: shade.Pack{Size: measure.Grams(exact.Int(60))},
}

func ratio(colour, num, den int64) measure.Ratio {
	return measure.Ratio{Colour: exact.Int(colour), Developer: exact.Of(num, den)}
}

// What is heard of a cut stands in a head sheet, step by step, with the words it came from.
func TestCut(t *testing.T) {
	made := Make(talkOf(
		"Hair and scalp, wet. Today it is a bob.",
		"Part her in the middle, then from ear to ear, and a triangle at the front.",
		"I take down two inches at the nape.",
		"...",
		"Next the layers. Straight up at ninety degrees, at the crown.",
		"The shortest layer is going to be seven centimetres. Did I say seven? I mean eight.",
		"It is a travelling guide, so it comes with you.",
		"Comb it and look at it again and again.",
		"Then the other side just the same.",
	))
	for _, want := range []string{
		"  - part: centre   # 0:04 \"Part her in the middle\"\n  - part: ear to ear   # 0:04 \"ear to ear\"\n  - part: triangle ",
		"    of: ?   # which sections does it divide?\n    point: ?   #",
		"elevation: 90   # ", "length: 8   # cm; ", "travels: yes   # ", "at: ?   # where does it start?",
	} {
		if !strings.Contains(made.Sheet, want) {
			t.Errorf("%q is not in\n%s", want, made.Sheet)
		}
	}
	for _, want := range []string{"(plan.head.yaml)", "5.08 cm: “two inches”"} {
		if !strings.Contains(made.Text, want) {
			t.Errorf("%q is not in\n%s", want, made.Text)
		}
	}
	if bowl := Make(talkOf("Hair, scalp. Ear to ear. Two parts of 8N, one part of 8V, developer.")); bowl.Sheet != "" {
		t.Errorf("a colour is parted:\n%s", bowl.Sheet)
	}
}

// talkOf makes a talk of sentences, one cue each, four seconds long; a line of three
// hyphens is a pause of five seconds.
func talkOf(lines ...string) Talk {
	var b strings.Builder
	b.WriteString("WEBVTT\n\n")
	var at time.Duration
	for _, l := range lines {
		if l == "---" {
			at += 5 * time.Second
			continue
		}
		clock := time.Time{}.Add(at)
		b.WriteString(clock.Format("15:04:05.000") + " --> " + clock.Add(4*time.Second).Format("15:04:05.000") + "\n" + l + "\n\n")
		at += 4 * time.Second
	}
	track, _ := caption.Read(source.NewFile("talk.vtt", []byte(b.String())))
	return Talk{Name: "talk", Cues: track.Clean(), Captions: "talk.vtt", Ranges: []*shade.Range{meadow}, Range: "meadow"}
}

// expectLines drafts a talk and checks that lines stand in it, up to their notes.
func expectLines(t *testing.T, talk Talk, want ...string) {
	t.Helper()
	text := Make(talk).Text
	have := map[string]bool{}
	for _, l := range strings.Split(text, "\n") {
		value, _, _ := strings.Cut(l, "   # ")
		have[value], have[l] = true, true
	}
	for _, w := range want {
		if !have[w] {
			t.Errorf("there is no line %q in\n%s", w, text)
		}
	}
}

// about makes the talk one about hair without saying anything of it.
const about = "Hair and scalp and developer."

func TestBowl(t *testing.T) {
	expectLines(t, talkOf(about, "I take two parts of 8N and one part of 8V.", "It is six volume, and thirty grams of colour."),
		"```formula bowl", "kind: demi", "colour: 2 parts 8N + 1 part 8V", "developer: 6 vol", "amount: 30 g colour")
	expectLines(t, talkOf(about, "Twenty grams of 8N, ten grams of 8V.", "Sixty grams of the six volume.", "Fifteen minutes from the last section."),
		"colour: 20 g 8N + 10 g 8V", "developer: 60 g of 6 vol", "time: 15 min from last section")
	expectLines(t, talkOf(about, "A demi with 8N and 8V."), "kind: demi", `colour: "? 8N + ? 8V"`, "developer: ?", "amount: ?")
	expectLines(t, talkOf(about, "A direct colour, thirty grams of 6N."), "kind: direct", "colour: 30 g 6N", "developer: none   # not said; Meadow gives no strength and no ratio for direct")
	expectLines(t, talkOf(about, "Half a tube of 6N, twenty volume."), "colour: 30 g 6N", "kind: permanent")
	expectLines(t, talkOf(about, "Thirty grams of 6N, six volume, and bond cream, three grams."), "add: 3 g bond cream")
	expectLines(t, talkOf(about, "Thirty grams of powder, twenty volume.", "Up to forty-five minutes from the first touch."),
		"```formula lightener", "kind: lightener", "colour: 30 g PW", "time: up to 45 min from first touch", "  - lightener")
}

// A ratio finds its bowl minutes later, and what is taken back leaves no trace.
func TestLateAndCorrected(t *testing.T) {
	talk := talkOf(about, "I take thirty grams of 6N, twenty volume.", "---", "Next we section the hair.", "Comb it.", "Part it.", "Clip it.", "---",
		"Now paint the nape.", "I never told you, it is mixed one to one.", "No, sorry, one to one and a half.")
	expectLines(t, talk, "ratio: 1:1.5", `on: ["nape"]`)
	if text := Make(talk).Text; strings.Contains(text, "ratio: 1:1 ") {
		t.Errorf("what was taken back is there:\n%s", text)
	}
}

// Where the talk contradicts itself the author is asked.
func TestContradictions(t *testing.T) {
	expectLines(t, talkOf(about, "Thirty grams of 6N, twenty volume.", "It is ten volume.", "One to one, well, one to two."),
		`developer: ?   # 0:04 "twenty volume", 0:08 "ten volume". Which of them?`,
		`ratio: ?   # 0:12 "One to one", 0:12 "one to two". Which of them?`)
	expectLines(t, talkOf(about, "One part 6N. Two parts 6N."), `colour: 6N`)
}

func TestTwoBowls(t *testing.T) {
	expectLines(t, talkOf(about, "Thirty grams of 6N, twenty volume.", "Stir it.", "Leave it thirty minutes.", "---",
		"Now for the toner.", "Twenty grams of 8V, six volume.", "Stir it.", "Leave it ten minutes."),
		"```formula bowl", "time: 30 min", "```formula toner", "kind: toner", "time: 10 min")
}

// A second powder has a bowl of its own where the talk names one.
func TestTwoPowders(t *testing.T) {
	expectLines(t, talkOf(about, "Thirty grams of powder, twenty volume, one to two.", "Now bowl number two is for the hairline.", "Fifteen grams of powder, six volume."),
		"```formula lightener", "colour: 30 g PW", "developer: 20 vol", "ratio: 1:2", "```formula lightener-2", "colour: 15 g PW", "developer: 6 vol")
}

// Nothing that was heard is dropped: what has no line in a block is told at the end.
func TestNothingIsDropped(t *testing.T) {
	expectLines(t, talkOf(about, "Twenty grams of 8N, ten grams of 8V, six volume.", "That is forty grams of colour.", "This can take five to twenty minutes.", "On her it took eight minutes."),
		"- 0:08 weight 40 g of colour: “forty grams of colour”", "- 0:12 time 5-20 min: “five to twenty minutes”", "- 0:16 time 8 min: “eight minutes”")
}

// Shades that no range lists are told, and make a question of what was mixed with them.
func TestUnlisted(t *testing.T) {
	talk := talkOf(about, "Thirty grams of 6N and fifteen grams of 7C, twenty volume.", "Two grams of 0.11.", "It takes 1.5 hours.")
	expectLines(t, talk, `colour: ?   # heard 30 g 6N; 0:04 "Thirty grams of 6N"; and 0:04 "7C", 0:08 "0.11", which no range of this course lists`,
		"- 0:04 shade 7C, which no range of this course lists", "- 0:08 shade 0.11, which no range of this course lists")
	if got := strings.Join(Make(talk).Unlisted, " "); got != "7C 0.11" {
		t.Errorf("unlisted are %q", got)
	}
	// What is said of a bowl that cannot be drafted is not the other bowl's.
	expectLines(t, talkOf(about, "Thirty grams of 6N, twenty volume.", "Stir it.", "---", "Now for the second bowl.", "Twenty grams of 7.03.", "It is six volume, one to two."),
		"developer: 20 vol", "- 0:25 strength 6 vol: “six volume”", "- 0:25 ratio 1:2: “one to two”")
	if got := Make(talkOf(about, "Thirty grams of 6N, never 7C.")).Unlisted; got != nil {
		t.Errorf("unlisted are %q", got)
	}
}

func TestUses(t *testing.T) {
	for said, want := range map[string]bool{
		"That would blunt a pair of scissors.":          false,
		"I take the scissors. The scissors stay closed": true,
	} {
		if got := strings.Contains(Make(talkOf(about, said)).Text, "- blades"); got != want {
			t.Errorf("%q: blades are %v, want %v", said, got, want)
		}
	}
}

func TestHair(t *testing.T) {
	expectLines(t, talkOf(about, "The root is a natural level six.", "The lengths were lightened to a level eight, and it is thirty percent white.",
		"We are aiming for a level seven.", "Thirty grams of 6N."),
		"  roots: 6 natural", "  lengths: 8 lightened", "  white: 30 %", "target: 7")
	expectLines(t, talkOf(about, "The roots are level 7, natural.", "Thirty grams of 6N."), "  roots: 7 natural")
	expectLines(t, talkOf(about, "The nape reads level four.", "Thirty grams of 6N."), "- 0:04 level 4: “level four”")
}

func TestHeader(t *testing.T) {
	talk := talkOf("Today we cover a third of white.", "I use the scale, gloves, a flat brush, another brush, but no foils.", "Gloves, please, it is on the skin.", "If it breaks, stop.", "Um, wash it.")
	talk.Film, talk.Length, talk.Tests = "a.webm", 83*time.Second, []string{"allergy alert test"}
	expectLines(t, talk, `title: "Cover a third of white"`, "summary: ?", `  film: "a.webm"`, `  length: "1:23"`, "  - scale", "  - gloves", "  - flat brush",
		`- "Gloves, please, it is on the skin. If it breaks, stop."`, "ready: no", "## 0:00 Cover a third of white", "wash it.")
	for _, not := range []string{"foils  ", "- brush", "- ?"} {
		if strings.Contains(Make(talk).Text, not) {
			t.Errorf("%q stands in\n%s", not, Make(talk).Text)
		}
	}
	talk = talkOf(about, "Thirty grams of 6N.")
	talk.Tests = []string{"allergy alert test"}
	expectLines(t, talk, "- ?", `title: "Talk"`)
	talk = talkOf("Today is a lightening and toning day.", "Thirty grams of 6N on the hair, scalp and nape.")
	expectLines(t, talk, `title: "Lightening and toning day"`)
	talk.Name, talk.Cues = "été", talkOf(about).Cues
	expectLines(t, talk, `title: "Été"`)
}

// expectTitle checks the words a step is named by.
func expectTitle(t *testing.T, said, want string) {
	t.Helper()
	if got := title(talkSentences(said)); got != want {
		t.Errorf("%q is titled %q, want %q", said, got, want)
	}
}

func talkSentences(said string) []sentence {
	return sentences(talkOf(said).Cues)
}

func TestTitles(t *testing.T) {
	expectTitle(t, "Next I divide the head into four.", "Divide the head into four")
	expectTitle(t, "All right, so, bowls. There's two of them, one each.", "There's two of them")
	expectTitle(t, "Right, on to the trolley. The gold comes first.", "On to the trolley")
	expectTitle(t, "so were going to mix the gloss because its yellow", "Mix the gloss")
	expectTitle(t, "You would never cut it wet. So I dry it first, and cut.", "Dry it first")
	expectTitle(t, "Okay.", "Okay")
}

// expectEscaped checks that a text is kept from being read as Markdown.
func expectEscaped(t *testing.T, in, want string) {
	t.Helper()
	if got := escape(in); got != want {
		t.Errorf("%q is written %q, want %q", in, got, want)
	}
}

func TestEscape(t *testing.T) {
	expectEscaped(t, "a *b* `c` [d] <e> {f} g_h i|j", "a \\*b\\* \\`c\\` \\[d\\] \\<e> \\{f} g\\_h i\\|j")
	expectEscaped(t, "# no heading", `\# no heading`)
	expectEscaped(t, "- no item", `\- no item`)
	expectEscaped(t, "2. no item", `2\. no item`)
	expectEscaped(t, "2.5 g it is", `2\.5 g it is`)
	expectEscaped(t, "", "")
}

func TestSettle(t *testing.T) {
	file := source.NewFile("lesson.md", []byte("---\ntitle: \"A\"\n---\n\n## 0:00 Mix\n\n```formula gloss\nratio: 1:1   # 0:12 \"one to one\"\n```\n"))
	at := strings.Index(file.Text(), "1:1")
	bad := diag.Errorf("range/ratio", file.Span(at, at+3), "Meadow mixes demi at 1:2")
	whole := diag.Errorf("house/tests", file.Span(11, 14), "no test is named")
	text, changed := Settle(file.Text(), []diag.Diagnostic{whole, bad})
	if want := `ratio: ?   # heard 1:1; 0:12 "one to one"; Meadow mixes demi at 1:2`; !changed || !strings.Contains(text, want+"\n") {
		t.Errorf("got %v %s", changed, text)
	}
	if _, changed := Settle(file.Text(), []diag.Diagnostic{whole}); changed {
		t.Error("a fault of the whole lesson changed its title")
	}
}

// Talk of any kind makes a lesson, and the same one each time.
func TestSameEachTime(t *testing.T) {
	talk := talkOf("```", "---x", "<b>Hair</b> & scalp: *developer*", "{a of b} ![x](y)", "")
	if a, b := Make(talk).Text, Make(talk).Text; a != b || !strings.HasPrefix(a, "---\n") {
		t.Errorf("two drafts differ:\n%s\n%s", a, b)
	}
}

// Of talk in another language nothing is made up.
func TestForeign(t *testing.T) {
	talk := talkOf("Hair, scalp, developer. Two parts of 8N, one part of 8V.")
	talk.Foreign = true
	if text := Make(talk).Text; strings.Contains(text, "formula") {
		t.Errorf("got\n%s", text)
	}
}
