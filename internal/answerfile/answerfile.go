// Package answerfile reads the files in which learners hand in their answers.
//
// An answer file is JSON that the page of a paper saves and opens again:
//
//	{
//	 "answers": [{"figures": 0, "given": "104 g", "question": "brassy-gloss/weigh"}],
//	 "course": "harbour-row-first-colours", "edition": "2026 spring",
//	 "digest": "9f86d081884c7d65…",
//	 "learner": {"class": "Tuesday", "name": "Ada Thorn"},
//	 "paper": "first-colours", "seed": "0f3a…", "text": "1c9e…",
//	 "practicals": [{"assessor": "M. Bell", "date": "2026-05-12", "outcome": "shown",
//	                 "practical": "brassy-gloss/weighing", "shown": [0, 1]}],
//	 "saved": "2026-05-12T10:31:07Z", "started": "2026-05-12T10:02:11Z",
//	 "version": 1
//	}
//
// The digest is the SHA-256 of all the rest, written as RFC 8785 has it: members in
// order, nothing between them. It shows that a file was damaged on its way or changed by
// a careless hand. It does not show that its learner was honest: who can read this can
// write a digest.
//
// Files come from strangers. [Read] takes any bytes, in bounded time and memory, and
// says what is wrong with them and where.
package answerfile

import (
	"fmt"
	"time"
)

// Bounds of an answer file: far above what a page writes.
const (
	MaxBytes   = 256 << 10
	maxDepth   = 6
	maxAnswers = 500
	maxText    = 500 // bytes of one answer or one name
)

// File is one learner's answers to one paper.
type File struct {
	Name    string // of the file
	Learner Learner
	Course  string // the course's id
	Edition string // of the course
	Paper   string
	Seed    string // 16 hexadecimal digits: what the questions were drawn by
	Text    string // what the questions read like when they were asked
	Started time.Time
	Saved   time.Time
	Answers []Answer
	SignOff []SignOff
	Digest  string // of the content, as it is
	Damaged bool   // the digest in the file is another
}

// Learner is who answered.
type Learner struct{ Name, Class string }

// Answer is what a learner gave to one question. Given is what was typed, the numbers of
// what was chosen from a list, or the order it was brought into, as the page writes it.
type Answer struct {
	Question string // the lesson and the question, with a slash
	Figures  int    // which of the paper's figures, from 0
	Given    string
}

// SignOff is an assessor's word on a practical.
type SignOff struct {
	Practical string // the lesson and the practical, with a slash
	Assessor  string
	Date      string // of the form 2026-05-12
	Outcome   Outcome
	Shown     []int // which points of the checklist, from 0
}

// Outcome is how a practical ended.
type Outcome string

// The outcomes.
const (
	Shown    Outcome = "shown"
	NotShown Outcome = "not yet"
)

// Fault is what is wrong with a file: where, what, and the way out.
type Fault struct {
	File         string
	Line, Column int // from 1; columns count characters. Both 0 for the file as a whole
	What, Help   string
}

// Error makes a Fault an error. It is one line, as all messages of plait.
func (f *Fault) Error() string {
	at := f.File
	if f.Line > 0 {
		at = fmt.Sprintf("%s:%d:%d", f.File, f.Line, f.Column)
	}
	return at + ": " + f.What + "; " + f.Help
}
