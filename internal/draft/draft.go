// Package draft makes a lesson to be edited out of the captions of a recording.
//
// Steps come from where the talk changes its subject, from the words that announce a
// step and from pauses ([Steps]); bowls, hair and kit from the facts that package
// heard finds. Every drafted value carries the time and the words it came from as a
// comment. What was not said is an open question, `?`, and what was heard and could
// not be placed stands at the end with its time: nothing is made up.
package draft

import (
	"slices"
	"strings"
	"time"
	"unicode"

	"plait/internal/caption"
	"plait/internal/heard"
	"plait/internal/measure"
	"plait/internal/shade"
)

// Talk is a recording and what is known of the course it is drafted for.
type Talk struct {
	Name     string        // of the lesson, as in its folder: brassy-gloss
	Cues     []caption.Cue // clean
	Captions string        // the captions file's name in the lesson's folder
	Film     string        // the film's name there; empty for none
	Link     string        // where the film is hosted; empty for none
	Length   time.Duration // of the film; 0 where it is not known
	Ranges   []*shade.Range
	Range    string   // the id of the range the course uses unless told otherwise
	Foreign  bool     // it is in another language than English, of which no facts are heard
	Tests    []string // what the house wants named in every lesson with oxidative colour
}

// factsOf returns what is heard in the talk; nothing of talk that is not English.
func (t Talk) factsOf() []heard.Fact {
	if t.Foreign {
		return nil
	}
	return heard.Read(t.Cues, t.Ranges)
}

// unlistedOf returns the shades that are said and stand in no range.
func (t Talk) unlistedOf() []heard.Fact {
	if t.Foreign {
		return nil
	}
	return heard.Unlisted(t.Cues, t.Ranges)
}

// Lesson is what is drafted from a talk.
type Lesson struct {
	Text     string   // of lesson.md
	Sheet    string   // of [SheetFile]; empty where no cut was heard
	Unlisted []string // shades that were said and stand in no range of the course
}

// Make drafts a lesson from a talk.
func Make(t Talk) Lesson {
	t.Cues = printable(t.Cues)
	d := &drafter{Talk: t, facts: t.factsOf(), unlisted: t.unlistedOf(), begins: Steps(t.Cues)}
	d.sentences = sentences(t.Cues)
	d.placed = make([]bool, len(d.facts))
	for i, f := range d.facts {
		d.placed[i] = f.Withdrawn || f.Kind == heard.Section
	}
	d.readHair()
	d.findBowls()
	d.findCuts()
	var b strings.Builder
	d.writeHeader(&b)
	for i := range d.begins {
		d.writeStep(&b, i)
	}
	d.writeLeft(&b)
	made := Lesson{Text: b.String(), Sheet: d.sheet()}
	for _, f := range d.unlisted {
		made.Unlisted = append(made.Unlisted, f.Code)
	}
	return made
}

// printable takes out of captions what no text of a course may hold: control characters
// and such as cannot be seen.
func printable(cues []caption.Cue) []caption.Cue {
	out := slices.Clone(cues)
	for i := range out {
		out[i].Text = strings.Map(func(r rune) rune {
			if unicode.IsSpace(r) {
				return ' '
			}
			if !unicode.IsPrint(r) {
				return -1
			}
			return r
		}, out[i].Text)
	}
	return out
}

// drafter is a lesson in the making.
type drafter struct {
	Talk
	facts     []heard.Fact
	unlisted  []heard.Fact // shades that no range has
	placed    []bool       // whether each fact stands in the lesson, or was taken back
	begins    []int        // the cue each step begins with
	sentences []sentence
	hair      []line // of the header
	bowls     []*bowl
	partings  []heard.CutFact
	cuts      []*cut
	measures  []heard.CutFact // lengths that are of no cut
}

// line is one line of YAML with where its value came from.
type line struct{ value, note string }

// stepOf returns the step that a cue falls in.
func (d *drafter) stepOf(cue int) int {
	step := 0
	for i, b := range d.begins {
		if b <= cue {
			step = i
		}
	}
	return step
}

// end returns the index behind the last cue of a step.
func (d *drafter) end(step int) int {
	if step+1 < len(d.begins) {
		return d.begins[step+1]
	}
	return len(d.Cues)
}

// from says where a fact was heard: `0:52 "two parts of 8N"`.
func from(f heard.Fact) string { return quoted(f.At, f.Said) }

// shown is how many characters of a sentence are quoted.
const shown = 70

func quoted(at time.Duration, said string) string {
	if len(said) > shown {
		cut := strings.LastIndexByte(said[:shown], ' ')
		said = said[:max(cut, 0)] + " …"
	}
	return measure.Clock(at) + ` "` + strings.ReplaceAll(said, `"`, `'`) + `"`
}

// all says where several facts were heard.
func all(facts []heard.Fact) string {
	var places []string
	for _, f := range facts {
		if p := from(f); !contains(places, p) {
			places = append(places, p)
		}
	}
	return strings.Join(places, ", ")
}
