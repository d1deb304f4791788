package page

import (
	"io/fs"

	"plait/internal/asset"
)

// Sets of script and style sheet. A page calls in one of them.
const (
	usualSet  = "plait"
	lessonSet = "plait-lesson"
	paperSet  = "plait-paper"
	reviseSet = "plait-revise"
)

var sets = []string{usualSet, lessonSet, paperSet, reviseSet}

// setOf returns what a kind of page calls in.
func setOf(kind string) string {
	switch kind {
	case "lesson":
		return lessonSet
	case "paper":
		return paperSet
	case "sheet":
		return lessonSet
	case "revise":
		return reviseSet
	}
	return usualSet
}

// Theme is the look of a course made ready: templates parsed, scripts and styles
// bundled. It depends on the layouts alone, so one theme serves every build until
// the layouts change. It is safe for concurrent use.
type Theme struct {
	templates *Templates
	bundle    *asset.Bundle
	find      []byte // the script of the find page, without an index
	questions []byte // the script of questions, without any
	player    player
	work      []byte // the script of bowls and head sheets
}

// NewTheme makes a theme of layouts; see [asset.Overlay] for a course with files
// of its own. What was bundled before is in kept, which may be nil. An error names the
// file and the line.
func NewTheme(layouts fs.FS, kept *Kept) (*Theme, error) {
	var bundles *asset.Bundles
	if kept != nil {
		bundles = &kept.bundles
	}
	templates, err := ParseTemplates(layouts)
	if err != nil {
		return nil, err
	}
	bundle, err := asset.Build(layouts, bundles, sets...)
	if err != nil {
		return nil, err
	}
	find, err := asset.Script(layouts, bundles, "scripts/find.js", "plaitFind")
	if err != nil {
		return nil, err
	}
	questions, err := asset.Script(layouts, bundles, "scripts/plait-questions.js", "plaitQuestions")
	if err != nil {
		return nil, err
	}
	player, err := newPlayer(layouts, bundles)
	if err != nil {
		return nil, err
	}
	work, err := asset.Script(layouts, bundles, "scripts/plait-work.js", "")
	if err != nil {
		return nil, err
	}
	return &Theme{templates: templates, bundle: bundle, find: find, questions: questions, player: player, work: work}, nil
}
