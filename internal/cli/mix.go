package cli

import (
	"cmp"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"plait/internal/check"
	"plait/internal/course"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/disk"
	"plait/internal/exact"
	"plait/internal/formula"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/shade"
	"plait/internal/source"
	"plait/internal/working"
)

type mixCommand struct {
	courseFlag
	Formula []string `arg:"" help:"The bowl: shades, developer with ratio, size."`
	Range   string   `help:"The range of shades, where the course has several." placeholder:"NAME"`
	Scale   string   `help:"What the last digit of your scale stands for. If left out it is the course's own, or 0.1 g." placeholder:"WEIGHT"`
	againFlags
	Working bool   `help:"Write out the arithmetic as well, step by step."`
	As      string `help:"text for people, json for programs." enum:"text,json" default:"text" placeholder:"text|json"`
}

// Help is what --help says beside the arguments.
func (mixCommand) Help() string {
	return `Say the bowl as you would on the floor, with commas between its parts:

  plait mix "2 parts 6N + 1 part 7B, 10 vol at 1:1.5, 45 g"
  plait mix "20 g 6N + 10 g 7B, 6 % at 1:1"
  plait mix "60 % 7N + 40 % 7B, permanent, 20 vol, 120 g mixed"
  plait mix "30 g PW, add 5 % of colour bond cream, lightener, 20 vol"
  plait mix "30 g 8N, no developer"

After a slip of the hand, or with a tube that is nearly empty, it weighs the bowl again:

  plait mix "2 parts 6N + 1 part 7B, 10 vol at 1:1.5, 45 g" --poured "33 g 6N"
  plait mix "2 parts 6N + 1 part 7B, 10 vol at 1:1.5, 45 g" --left "12 g 7B"

A size without a word is the weight of the colour; "mixed" makes it everything in the bowl.
The ratio is colour to developer. In the folder of a course its shades and rules are known;
elsewhere plait does the arithmetic and nothing more.`
}

// Run weighs one bowl. In a course its ranges are known and its rules hold;
// elsewhere only the arithmetic does.
func (cmd mixCommand) Run(c console) error {
	around, err := cmd.surroundings(c)
	if err != nil {
		return err
	}
	line := source.NewFile("formula", []byte(strings.Join(cmd.Formula, " "))).Whole()
	block, found := formula.ParseLine(source.Text{Value: line.Text(), Span: line})
	computed, faults := derive.Bowl(block, around.rng, around.settings.Scale, around.ranges...)
	found = append(found, faults...)
	if computed.OK {
		found = append(found, check.Bowl(&course.Course{Settings: around.settings}, block, computed)...)
	}
	found = diag.Sorted(found)
	if err := printDiagnostics(c.err, found, c); err != nil {
		return err
	}
	if !computed.OK || diag.HasErrors(found) {
		return errCourse
	}
	var steps []working.Line
	if cmd.Working {
		steps = working.Of(block, computed)
	}
	bowl, add, err := cmd.weigh(computed.Bowl)
	if err != nil {
		return err
	}
	computed.Bowl = bowl
	if cmd.As == "json" {
		return writeBowlJSON(c.out, bowl, add, steps)
	}
	return cmd.writeBowl(c.out, block, computed, add, steps)
}

// surroundings is what a bowl is mixed in: the settings and the range of a course,
// or nothing but a scale.
type surroundings struct {
	settings course.Settings
	rng      *shade.Range   // of the bowl; nil where there is none
	ranges   []*shade.Range // of the course, which shades can be said to be of
}

func (cmd mixCommand) inCourse() bool {
	_, err := os.Stat(filepath.Join(cmd.Course, filepath.FromSlash(course.SettingsFile)))
	return err == nil
}

func (cmd mixCommand) surroundings(c console) (surroundings, error) {
	s := surroundings{settings: course.Settings{Scale: measure.Grams(exact.Of(1, 10))}}
	if cmd.inCourse() {
		var err error
		if s, err = cmd.readSurroundings(c); err != nil {
			return s, err
		}
	} else if cmd.Range != "" {
		return s, useError{fmt.Errorf("there is no course in %s to take the range %s from; name it with --course", shortPath(cmd.Course), cmd.Range)}
	}
	if cmd.Scale != "" {
		m, err := measure.ParseMass(cmd.Scale)
		if err != nil || m.IsZero() {
			return s, useError{fmt.Errorf("--scale %s: write a weight, as in 0.1 g or 1 g", cmd.Scale)}
		}
		s.settings.Scale = m
	}
	return s, nil
}

// readSurroundings reads what a bowl needs of a course, and none of its lessons. It
// stops where that has errors: a range read by half would blame the bowl.
func (cmd mixCommand) readSurroundings(c console) (surroundings, error) {
	folder, err := disk.Open(cmd.Course)
	if err != nil {
		return surroundings{}, err
	}
	defer folder.Close()
	settings, found := course.ReadSettings(folder)
	files, err := course.RangeFiles(folder)
	if err != nil {
		found = append(found, course.Unlisted(course.RangesFolder, err))
	}
	var ranges []*course.Range
	for _, name := range files {
		r, faults := course.ReadRange(folder, name)
		ranges, found = append(ranges, r), append(found, faults...)
	}
	if diag.HasErrors(found) {
		if err := printDiagnostics(c.err, diag.Sorted(found), c); err != nil {
			return surroundings{}, err
		}
		return surroundings{}, errCourse
	}
	s := surroundings{settings: settings}
	for _, r := range ranges {
		s.ranges = append(s.ranges, r.Range)
	}
	s.rng, err = cmd.pick(settings.Range.Value, s.ranges)
	return s, err
}

// pick returns the range named on the command line, else the course's own choice,
// else the only one; nil where the course has none.
func (cmd mixCommand) pick(own string, ranges []*shade.Range) (*shade.Range, error) {
	name := cmp.Or(cmd.Range, own)
	if name == "" && len(ranges) == 0 {
		return nil, nil
	}
	ids := make([]string, len(ranges))
	for i, r := range ranges {
		if r.ID == name || name == "" && len(ranges) == 1 {
			return r, nil
		}
		ids[i] = r.ID
	}
	if name == "" {
		return nil, useError{fmt.Errorf("which range? name one with --range: %s", strings.Join(ids, ", "))}
	}
	return nil, useError{fmt.Errorf("there is no range %q; the ranges are: %s", name, cmp.Or(strings.Join(ids, ", "), "none"))}
}

// writeBowl prints a bowl the way it goes onto the scale.
func (cmd mixCommand) writeBowl(w io.Writer, block *formula.Block, c derive.Computed, add []measure.Mass, steps []working.Line) error {
	var b strings.Builder
	bowl := c.Bowl
	for _, p := range bowl.Parts {
		name := p.Name
		switch r := c.RangeOf(p.Shade); {
		case p.Role == mix.DeveloperRole:
			name = p.Strength.Name() + " (" + p.Strength.Other() + ")"
		case p.Role == mix.ColourRole && r != c.Range:
			name += " of " + r.Name
		}
		fmt.Fprintf(&b, "%12s  %s\n", p.Weighed, name)
	}
	fmt.Fprintf(&b, "%12s  in the bowl\n\n", bowl.WeighedTotal())
	if add != nil {
		fmt.Fprintf(&b, "%s, if nothing else is in the bowl yet\n\n", stillToAdd(bowl, add))
	}
	if !bowl.Developer.IsZero() {
		fmt.Fprintf(&b, "ratio     %s%s\n", bowl.Ratio, weighedRatio(bowl))
		fmt.Fprintf(&b, "strength  %s in the bowl, from %s in the bottle\n", bowl.Strength, bowl.Bottle)
	}
	if bowl.HasLevel {
		fmt.Fprintf(&b, "reads     level %s (average %s)\n", derive.Reading(bowl.Level), bowl.Level.Mean.Decimal(2))
	}
	for i, step := range steps {
		if i == 0 {
			b.WriteString("\nworking" + map[bool]string{true: " of the bowl as it was said"}[cmd.asked()] + "\n")
		}
		fmt.Fprintf(&b, "  %s\n", step)
	}
	if block.Amount.Bare && !cmd.asked() {
		fmt.Fprintf(&b, "\n%s is read as the weight of the %s; for that much in the bowl write: %s mixed\n", block.Amount.Mass.Value, c.ColourWord(), block.Amount.Mass.Value)
	}
	if c.Range == nil {
		b.WriteString("\nNo range of shades is at hand: only the arithmetic was checked.\n")
	}
	b.WriteString("The maker's directions come first. This promises no result on hair.\n")
	_, err := io.WriteString(w, b.String())
	return err
}

// weighedRatio says what the ratio is on the scale where that is not the one
// wanted.
func weighedRatio(b mix.Bowl) string {
	if b.Weighed.Equal(b.Ratio) {
		return ""
	}
	return ", on the scale " + b.Weighed.String()
}

// bowlJSON is the JSON form of a bowl. Weights and strengths are decimal or
// fraction strings, exact; weighed values are what the scale shows.
type bowlJSON struct {
	Version   int        `json:"version"`
	Parts     []partJSON `json:"parts"`
	Colour    string     `json:"colour"`
	Developer string     `json:"developer"`
	Mixed     string     `json:"mixed"`
	Weighed   string     `json:"weighed"`
	Ratio     string     `json:"ratio,omitempty"`
	Strength  string     `json:"strength"`
	Level     string     `json:"level,omitempty"`
	Add       []string   `json:"add,omitempty"`     // after a slip: what is still to add of each part
	Working   []string   `json:"working,omitempty"` // the arithmetic, a line a step
}

type partJSON struct {
	Role     string `json:"role"`
	Name     string `json:"name"`
	Exact    string `json:"exact"`
	Weighed  string `json:"weighed"`
	Strength string `json:"strength,omitempty"`
}

func writeBowlJSON(w io.Writer, b mix.Bowl, add []measure.Mass, steps []working.Line) error {
	out := bowlJSON{
		Version: 1, Parts: []partJSON{},
		Colour: b.Colour.Grams().String(), Developer: b.Developer.Grams().String(),
		Mixed: b.Mixed.Grams().String(), Weighed: b.WeighedTotal().Grams().String(),
		Strength: b.Strength.Percent().String(),
	}
	if !b.Ratio.IsZero() {
		out.Ratio = b.Ratio.Colour.String() + ":" + b.Ratio.Developer.String()
	}
	if b.HasLevel {
		out.Level = b.Level.Mean.String()
	}
	for _, p := range b.Parts {
		part := partJSON{Role: p.Role.String(), Name: p.Name, Exact: p.Exact.Grams().String(), Weighed: p.Weighed.Grams().String()}
		if p.Role == mix.DeveloperRole {
			part.Name, part.Strength = p.Strength.Name(), p.Strength.Percent().String()
		}
		out.Parts = append(out.Parts, part)
	}
	for _, m := range add {
		out.Add = append(out.Add, m.Grams().String())
	}
	for _, step := range steps {
		out.Working = append(out.Working, step.String())
	}
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	return enc.Encode(out)
}
