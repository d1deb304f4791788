// Package lesson reads one lesson folder.
//
// [Read] takes everything from the folder itself and looks at nothing else, so a
// lesson reads the same alone and in its course, and lessons can be read side by
// side. What it returns is what the author stated, each value with its place;
// nothing is computed here and nothing is held against the rest of the course.
package lesson

import (
	"time"

	"plait/internal/amount"
	"plait/internal/caption"
	"plait/internal/formula"
	"plait/internal/markdown"
	"plait/internal/measure"
	"plait/internal/media"
	"plait/internal/sheet"
	"plait/internal/source"
)

// Lesson is one lesson as it was written.
type Lesson struct {
	Name   string // the folder's name without the number in front
	Folder string // slash-separated path from the course
	File   *source.File

	Title     source.Text
	Summary   source.Text
	Outcomes  []Outcome
	Hair      Hair
	Recording Recording
	Film      *Film                       // nil where the recording is no file of the course, or one that cannot be read
	Captions  *caption.Track              // nil where the recording has none, or none that can be read
	Chair     source.Stated[measure.Span] // a claim: from the first touch to the last rinse
	Uses      []source.Text
	Kit       []source.Text
	Range     source.Text
	Accept    []Acceptance
	Draft     bool // ready: no

	Doc      *markdown.Document
	Intro    *markdown.Section // what stands before the first step; nil for nothing
	Steps    []*Step
	Formulas []*Formula
	Care     []source.Text
	Sheets   []*sheet.Sheet    // by the names of their files
	Small    map[string][]byte // small drawings that its text shows, by their paths in the course
	Drawings []*Drawing        // of sheets, in the order of the text

	Questions  []*Question
	Practicals []*Practical
}

// Outcome is something a learner can do after the lesson.
type Outcome struct {
	Name source.Text
	Text source.Text
}

// Hair describes the model's hair.
type Hair struct {
	Zones   []Zone
	Warmth  source.Text
	White   source.Text
	Length  source.Text // one of [amount.Lengths], or empty
	Density source.Text // one of [amount.Densities], or empty
	Porous  bool        // very porous: it takes more
}

// Head returns the hair as what decides how much it takes; ok is false where its
// length is not stated.
func (h Hair) Head() (head amount.Head, ok bool) {
	head = amount.Head{Length: amount.Length(h.Length.Value), Density: amount.Density(h.Density.Value), Porous: h.Porous}
	return head, h.Length.Value != ""
}

// Zone is the hair of one zone of the head, roots or lengths for example.
type Zone struct {
	Name source.Text
	Hair source.Stated[formula.Hair]
}

// Recording is the film or sound a lesson was made from, as its header names it.
type Recording struct {
	Film     source.Text // a file of the lesson's folder
	Captions source.Text // a file of the lesson's folder
	Link     source.Text // where the film is hosted
	Length   source.Stated[time.Duration]
}

// Set reports whether there is a film or sound to look at.
func (r Recording) Set() bool { return r.Film.Value != "" || r.Link.Value != "" }

// Film is a film or sound in the course.
type Film struct {
	Path string // from the course
	media.Info
}

// RecordingLength returns how long the recording runs: what its file says, or where
// there is none what the header says, and where that stands; ok is false where
// neither is known.
func (l *Lesson) RecordingLength() (length time.Duration, at source.Span, ok bool) {
	stated := l.Recording.Length
	if l.Film != nil && l.Film.Length > 0 {
		return l.Film.Length, l.Recording.Film.Span, true
	}
	return stated.Value, stated.Span, stated.Set()
}

// Acceptance lets one finding of a rule stand, with a reason.
type Acceptance struct {
	Rule    source.Text
	At      source.Text // the name of a formula or a head sheet; empty for the whole lesson
	Because source.Text
	Span    source.Span
}

// Step is one titled part of a lesson.
type Step struct {
	*markdown.Section
	Number int     // from 1
	Time   Stretch // where it stands in the recording
}

// Stretch is a part of a recording. Until is zero where only the start was given.
type Stretch struct {
	From, Until time.Duration
	Span        source.Span
}

// Set reports whether the step has a time.
func (s Stretch) Set() bool { return s.Span.Valid() }

// Formula is a formula block and where in the lesson it stands.
type Formula struct {
	*formula.Block
	Fence *markdown.Block
	Step  *Step // nil before the first step
}

// Formula returns the formula of a name.
func (l *Lesson) Formula(name string) (*Formula, bool) {
	for _, f := range l.Formulas {
		if f.Name.Value == name {
			return f, true
		}
	}
	return nil, false
}
