// Package register is what a class has shown: who sat which paper and with what result,
// and which practicals were signed off.
//
// A Register is a value. [Parse] and [Register.JSON] bring it out of and into a file,
// [Register.Add] adds what was marked without losing what was there, and [Register.Analyse] says
// what the marks tell about the paper. Marks are whole numbers; nothing here reads a
// file or knows what a right answer is.
package register

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"plait/internal/answerfile"
)

// Register is the results of a class, by class, name, paper and time.
type Register struct {
	Version  int       `json:"version"` // 1
	Course   string    `json:"course"`  // the course's id
	Sittings []Sitting `json:"sittings"`
}

// Sitting is one paper as one learner handed it in, and what it was worth.
type Sitting struct {
	Name    string    `json:"name"`
	Class   string    `json:"class"`
	Paper   string    `json:"paper"`
	Edition string    `json:"edition"` // of the course
	Text    string    `json:"text"`    // what the paper's questions read like
	Started time.Time `json:"started,omitzero"`
	Saved   time.Time `json:"saved,omitzero"` // by the clock of the learner's device
	Digest  string    `json:"digest"`         // of the answer file's content
	File    string    `json:"file"`           // the answer file's name

	Right    int  `json:"right"`
	Of       int  `json:"of"`
	Needed   int  `json:"needed"`   // how many have to be right to pass
	Mark     int  `json:"mark"`     // the pass mark in hundredths of a per cent, as it was in force
	Passed   bool `json:"passed"`   // enough are right, and all that must be
	Replaced bool `json:"replaced"` // the learner handed the paper in again later

	Missed  []string  `json:"missed"` // outcomes that must be shown and were not
	Doubts  []Doubt   `json:"doubts"`
	Answers []Answer  `json:"answers"`
	SignOff []SignOff `json:"practicals"`
	Before  []Marking `json:"before"` // what the same answers were marked earlier
}

// Answer is one question of a sitting. The zero mark is wrong.
type Answer struct {
	Question string `json:"question"` // lesson/name
	Module   string `json:"module"`
	Outcome  string `json:"outcome"` // lesson/name
	Figures  int    `json:"figures"` // which of the paper's figures, from 0
	Given    string `json:"given"`   // empty for no answer
	Right    bool   `json:"right"`
}

// SignOff is an assessor's word on a practical.
type SignOff struct {
	Practical string             `json:"practical"` // lesson/name
	Outcome   string             `json:"outcome"`   // lesson/name
	Assessor  string             `json:"assessor"`
	Date      string             `json:"date"`
	Verdict   answerfile.Outcome `json:"verdict"`
	Points    int                `json:"points"` // of the checklist that were shown
	Of        int                `json:"of"`
}

// Marking is what a sitting was marked before the key was changed.
type Marking struct {
	Right  int  `json:"right"`
	Of     int  `json:"of"`
	Passed bool `json:"passed"`
}

// Doubt is a reason to look at a sitting before its mark is trusted.
type Doubt string

// The doubts.
const (
	Damaged   Doubt = "damaged"    // the digest is not that of the content
	OtherDraw Doubt = "other draw" // the questions were not drawn for this learner
	Unknown   Doubt = "unknown"    // an answer to a question that the paper does not ask
	Overtime  Doubt = "overtime"   // more time passed than the paper gives
	Early     Doubt = "early"      // saved before it was started
)

// Says tells what a doubt is about, as a sentence.
func (d Doubt) Says() string {
	switch d {
	case Damaged:
		return "The file’s digest is not that of its content: it was damaged on its way, or changed by hand."
	case OtherDraw:
		return "The questions were not drawn for this name and class: the name was changed afterwards, or the draw was."
	case Unknown:
		return "It answers a question that the paper did not ask this learner."
	case Overtime:
		return "By the learner’s own clock more time passed than the paper gives."
	case Early:
		return "By the learner’s own clock it was saved before it was started."
	}
	return string(d)
}

// Learner returns who sat.
func (s Sitting) Learner() answerfile.Learner {
	return answerfile.Learner{Name: s.Name, Class: s.Class}
}

// same reports whether two sittings are one file's content.
func same(a, b Sitting) bool {
	return a.Digest == b.Digest && a.Paper == b.Paper && a.Learner().Key() == b.Learner().Key()
}

// Added counts what [Register.Add] did.
type Added struct {
	New      int
	Again    int // were there already, marked the same
	Remarked int // were there already, and are marked otherwise now
}

// Add adds sittings. One that is there already is not added twice; where it is marked
// otherwise now, what it was marked before is kept beside it. Of several sittings of one
// paper by one learner the one saved last counts, and the others stay.
func (r *Register) Add(sittings []Sitting) Added {
	var added Added
	known := map[string]int{}
	for i, s := range r.Sittings {
		known[s.Digest] = i
	}
	for _, s := range sittings {
		i, there := known[s.Digest]
		switch {
		case !there || !same(r.Sittings[i], s):
			known[s.Digest] = len(r.Sittings)
			r.Sittings = append(r.Sittings, s)
			added.New++
		case !sameMarking(r.Sittings[i], s):
			old := r.Sittings[i]
			s.Before = slices.Clone(old.Before)
			if !sameMarks(old, s) {
				s.Before = append(s.Before, Marking{Right: old.Right, Of: old.Of, Passed: old.Passed})
			}
			r.Sittings[i] = s
			added.Remarked++
		default:
			added.Again++
		}
	}
	r.sort()
	r.replace()
	return added
}

// sameMarking reports whether all that marking makes of one file is the same.
func sameMarking(a, b Sitting) bool {
	return sameMarks(a, b) && a.Needed == b.Needed && a.Mark == b.Mark &&
		slices.Equal(a.Missed, b.Missed) && slices.Equal(a.Doubts, b.Doubts) && slices.Equal(a.SignOff, b.SignOff)
}

// sameMarks reports whether the marks are.
func sameMarks(a, b Sitting) bool {
	return a.Right == b.Right && a.Of == b.Of && a.Passed == b.Passed && slices.Equal(a.Answers, b.Answers)
}

// sort orders sittings by class, name, paper and time, so that the order of files never
// shows. Of two saved at the same time the one with more doubts comes first, so that a
// changed copy of a file never takes its place.
func (r *Register) sort() {
	slices.SortFunc(r.Sittings, func(a, b Sitting) int {
		x, y := a.Learner().Key(), b.Learner().Key()
		return cmp.Or(
			strings.Compare(x.Class, y.Class), strings.Compare(x.Name, y.Name), strings.Compare(a.Paper, b.Paper),
			a.Saved.Compare(b.Saved), len(b.Doubts)-len(a.Doubts), strings.Compare(a.Digest, b.Digest),
		)
	})
}

// replace marks the sittings that a later one of the same learner and paper stands for.
// Sittings are sorted.
func (r *Register) replace() {
	for i := range r.Sittings {
		s := &r.Sittings[i]
		s.Replaced = false
		if i+1 < len(r.Sittings) {
			next := r.Sittings[i+1]
			s.Replaced = next.Paper == s.Paper && next.Learner().Key() == s.Learner().Key()
		}
	}
}

// Counting returns the sittings of a paper that count, one a learner.
func (r *Register) Counting(paper string) []Sitting {
	var list []Sitting
	for _, s := range r.Sittings {
		if s.Paper == paper && !s.Replaced {
			list = append(list, s)
		}
	}
	return list
}

// Papers returns the names of the papers that were sat, in order.
func (r *Register) Papers() []string {
	var names []string
	for _, s := range r.Sittings {
		if !slices.Contains(names, s.Paper) {
			names = append(names, s.Paper)
		}
	}
	slices.Sort(names)
	return names
}
