package cli

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"plait/internal/build"
	"plait/internal/check"
	"plait/internal/course"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/formula"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/shade"
	"plait/internal/source"
)

type mixCommand struct {
	courseFlag
	Formula string `arg:"" help:"The bowl, in quotes: '2 parts 6N + 1 part 7B, 10 vol at 1:1.5, 45 g'."`
	Range   string `help:"The range of shades, where the course has several." placeholder:"NAME"`
	Scale   string `help:"What the last digit of the scale stands for; the course's own, or 0.1 g, if left out." placeholder:"WEIGHT"`
	As      string `help:"How to print the bowl: ${enum}." enum:"text,json" default:"text"`
}

// Run weighs one bowl. In a course its ranges are known and its rules hold;
// elsewhere only the arithmetic does.
func (cmd mixCommand) Run(ctx context.Context, c console) error {
	line := source.NewFile("formula", []byte(cmd.Formula)).Whole()
	block, found := formula.ParseLine(source.Text{Value: cmd.Formula, Span: line})
	around, err := cmd.surroundings(ctx)
	if err != nil {
		return err
	}
	computed, faults := derive.Bowl(block, around.rng, around.settings.Scale)
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
	if cmd.As == "json" {
		return writeBowlJSON(c.out, computed.Bowl)
	}
	return writeBowl(c.out, block, computed, cmd.inCourse())
}

// surroundings is what a bowl is mixed in: the settings and the range of a course,
// or nothing but a scale.
type surroundings struct {
	settings course.Settings
	rng      *shade.Range
}

func (cmd mixCommand) inCourse() bool {
	_, err := os.Stat(filepath.Join(cmd.Course, filepath.FromSlash(course.SettingsFile)))
	return err == nil
}

func (cmd mixCommand) surroundings(ctx context.Context) (surroundings, error) {
	s := surroundings{settings: course.Settings{Scale: measure.Grams(exact.Of(1, 10))}}
	if cmd.inCourse() {
		result, err := readCourse(ctx, cmd.Course, build.Options{})
		if err != nil {
			return s, err
		}
		defer result.close()
		s.settings = result.Course.Settings
		if s.rng, err = cmd.pick(result.Course); err != nil {
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

// pick returns the range named on the command line, else the course's own choice.
func (cmd mixCommand) pick(c *course.Course) (*shade.Range, error) {
	name := cmd.Range
	if name == "" {
		name = c.Range.Value
	}
	var ids []string
	for _, r := range c.Ranges {
		ids = append(ids, r.ID)
		if r.ID == name || name == "" && len(c.Ranges) == 1 {
			return r.Range, nil
		}
	}
	return nil, useError{fmt.Errorf("which range? name one with --range: %s", strings.Join(ids, ", "))}
}

// writeBowl prints a bowl the way it goes onto the scale.
func writeBowl(w io.Writer, block *formula.Block, c derive.Computed, inCourse bool) error {
	var b strings.Builder
	bowl := c.Bowl
	for _, p := range bowl.Parts {
		name := p.Name
		if p.Role == mix.DeveloperRole {
			name = p.Strength.VolumesString() + " (" + p.Strength.String() + ")"
		}
		fmt.Fprintf(&b, "%12s  %s\n", p.Weighed, name)
	}
	fmt.Fprintf(&b, "%12s  in the bowl\n\n", bowl.WeighedTotal())
	if !bowl.Developer.IsZero() {
		fmt.Fprintf(&b, "ratio     %s%s\n", bowl.Ratio, weighedRatio(bowl))
		fmt.Fprintf(&b, "strength  %s in the bowl, from %s in the bottle\n", bowl.Strength, bowl.Bottle)
	}
	if bowl.HasLevel {
		fmt.Fprintf(&b, "reads     level %s (average %s)\n", derive.Reading(bowl.Level), bowl.Level.Mean.Decimal(2))
	}
	if block.Amount.Bare {
		fmt.Fprintf(&b, "\n%s is read as the weight of the colour; for that much in the bowl write: %s mixed\n", block.Amount.Mass.Value, block.Amount.Mass.Value)
	}
	if !inCourse {
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
}

type partJSON struct {
	Role     string `json:"role"`
	Name     string `json:"name"`
	Exact    string `json:"exact"`
	Weighed  string `json:"weighed"`
	Strength string `json:"strength,omitempty"`
}

func writeBowlJSON(w io.Writer, b mix.Bowl) error {
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
			part.Name, part.Strength = p.Strength.VolumesString(), p.Strength.Percent().String()
		}
		out.Parts = append(out.Parts, part)
	}
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	return enc.Encode(out)
}
