// Package sheet is the notation of a head sheet: what an author writes in a file
// such as plan.head.yaml.
//
//	sections:
//	  - part: ear to ear
//	  - {part: level, at: occipital bone, to: ear back, of: back, gives: [back, nape]}
//	draw: {views: [left, back], number: [nape, back, front]}
//	cut: [{of: nape, elevation: 45, guide: {length: 5, at: hairline, travels: yes}}]
//
// [Read] gives a [Sheet], in which every value keeps its place. Nothing is parted
// or cut here: the steps are ready for package scalp, and a [Cut] becomes a guide
// and a lift of package strand. What can be computed but was typed all the same is
// a claim, for the rules to hold against the truth. Lengths are in cm and areas in
// cm²; angles are typed in degrees and kept in radians.
package sheet

import (
	"strings"

	"plait/internal/scalp"
	"plait/internal/source"
	"plait/internal/strand"
)

// Ending is how the name of a head sheet's file ends.
const Ending = ".head.yaml"

// Sheet is a head sheet as it was written.
type Sheet struct {
	Name  string // the file's name without its ending
	File  *source.File
	Title source.Text

	Head    Head
	Steps   []Step
	Draw    Draw
	Product Product
	Cuts    []Cut
	Before  Number // length of the hair before the cut, in cm
	Fall    source.Stated[strand.Dressing]

	// Claims: what follows from the rest.
	Areas  []Claim // of sections, in cm²
	Shares []Claim // of sections, of the scalp in per cent

	// Broken is set where something could not be read and was reported: the sheet
	// cannot be worked out.
	Broken bool
}

// Span returns where the sheet as a whole is blamed.
func (s *Sheet) Span() source.Span {
	if s.Title.Span.Valid() {
		return s.Title.Span
	}
	return s.File.Span(0, 0)
}

// nameOf returns the name of the sheet in a file.
func nameOf(file string) string {
	return strings.TrimSuffix(file[strings.LastIndexByte(file, '/')+1:], Ending)
}

// Head is the head a sheet is drawn on. The zero Head is the reference head.
type Head struct {
	Ball          bool    // the ball that results are known on
	Circumference float64 // 0 for that of the reference head
}

// Step is one parting.
type Step struct {
	Taken scalp.Step  // ready to be taken
	Kind  source.Text // "ear to ear"
	Of    []source.Text
	Gives []source.Text
	Span  source.Span

	places []source.Text          // that its options name
	spans  map[string]source.Span // of its options' values
}

// option returns where an option is blamed, the kind of parting where it is not
// there.
func (s *Step) option(key string) source.Span {
	if at, ok := s.spans[key]; ok {
		return at
	}
	return s.Kind.Span
}

// Draw says what is drawn. A list that is empty was not given.
type Draw struct {
	Views  []source.Stated[View] // where a picture names none
	Number []source.Text         // sections in the order of work
	Plain  bool                  // hatch: none
	Hidden bool                  // partings behind the head are drawn too
	Arrows []Arrow
}

// Arrow shows which way is worked on a section.
type Arrow struct {
	On  source.Text
	Run source.Stated[Run]
}

// Run is a direction along the head.
type Run string

// The directions of arrows. Left and right are the model's.
const (
	RunDown     Run = "down"
	RunUp       Run = "up"
	RunToFace   Run = "toward face"
	RunFromFace Run = "away from face"
	RunLeft     Run = "left"
	RunRight    Run = "right"
)

// Product is what coats the hair, for an estimate of what a section takes. A value
// that is not set was not given.
type Product struct {
	Length  source.Stated[float64] // cm of hair
	Density source.Stated[float64] // hairs per cm²
	Coat    source.Stated[float64] // g per cm² of scalp
	Ratio   source.Stated[float64] // g of product for a g of hair
	Span    source.Span
}

// Set reports whether the sheet speaks of product.
func (p Product) Set() bool { return p.Span.Valid() }

// Claim is a typed number of something that has a name: a section, or a place on
// the head.
type Claim struct {
	Of   source.Text
	Says Number
}

// Number is a number as it was typed.
type Number struct {
	Value  float64
	Places int // decimal places typed
	Span   source.Span
}

// Set reports whether the number was typed.
func (n Number) Set() bool { return n.Span.Valid() }
