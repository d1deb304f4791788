package draft

import (
	"fmt"
	"slices"
	"strings"

	"plait/internal/heard"
	"plait/internal/measure"
)

// perParagraph is how many sentences stand in one paragraph of the draft.
const perParagraph = 4

// writeStep writes a step: its heading, what was said, the bowls that are mixed in it
// and its cautions.
func (d *drafter) writeStep(w *strings.Builder, step int) {
	said := d.of(d.begins[step], d.end(step))
	at := d.Cues[d.begins[step]].From
	if step == 0 {
		at = 0 // chapters begin at the beginning
	}
	fmt.Fprintf(w, "## %s %s\n\n", measure.Clock(at), escape(title(said)))
	for i := 0; i < len(said); i += perParagraph {
		for j, s := range said[i:min(i+perParagraph, len(said))] {
			if j > 0 {
				w.WriteByte('\n')
			}
			w.WriteString(escape(s.text))
		}
		w.WriteString("\n\n")
	}
	for _, b := range d.bowls {
		if b.step == step {
			d.writeBowl(w, b)
		}
	}
	if d.cutting() && d.sheetStep() == step {
		fmt.Fprintf(w, "![The partings and the cut](%s)\n\n", SheetFile)
	}
	d.writeCare(w, step, said)
}

// escape keeps what was said from being read as Markdown.
func escape(s string) string {
	s = strings.NewReplacer(`\`, `\\`, "`", "\\`", "*", `\*`, "_", `\_`, "[", `\[`, "]", `\]`, "<", `\<`, "&", `\&`, "{", `\{`, "|", `\|`, "~", `\~`, "!", `\!`).Replace(s)
	if s == "" {
		return s
	}
	if strings.ContainsRune("#>+-=:", rune(s[0])) {
		return `\` + s
	}
	digits := len(s) - len(strings.TrimLeft(s, "0123456789"))
	if digits > 0 && digits < len(s) && (s[digits] == '.' || s[digits] == ')') {
		return s[:digits] + `\` + s[digits:]
	}
	return s
}

// Words of a caution, and what it warns of.
var (
	warnings = []string{"never", "careful", "do not", "dont", "please", "have to", "must", "stop", "no heat", "keep off", "stay off", "wear"}
	hazards  = []string{
		"skin", "scalp", "eyes", "gloves", "burn", "burns", "itching", "sore", "allergy", "patch test", "skin test", "strand test",
		"overlap", "breathe", "dust", "mask", "heat", "elasticity", "stretch", "broken", "breaks",
	}
)

// writeCare writes the sentences of a step that warn of something as its cautions, and
// in the first step asks for the tests of the house.
func (d *drafter) writeCare(w *strings.Builder, step int, said []sentence) {
	var lines []string
	if step == 0 && len(d.bowls) > 0 {
		for _, test := range d.Tests {
			lines = append(lines, "- ?   # the house wants the "+test+" named. When was it done, and what did it show?")
		}
	}
	for i, s := range said {
		text := " " + plain(s.text) + " "
		if !has(text, hazards) || !has(text, warnings) || i+1 < len(said) && pointsBack(said[i+1]) {
			continue
		}
		warning, at := s.text, s.at
		if i > 0 && pointsBack(s) {
			warning, at = said[i-1].text+" "+s.text, said[i-1].at
		}
		lines = append(lines, fmt.Sprintf("- %s   # %s", yamlText(warning), measure.Clock(at)))
	}
	if len(lines) > 0 {
		fmt.Fprintf(w, "```care\n%s\n```\n\n", strings.Join(lines, "\n"))
	}
}

// pointsBack reports whether a warning is about what the sentence before it names: "If it
// breaks, stop."
func pointsBack(s sentence) bool {
	text := " " + plain(s.text) + " "
	return strings.HasPrefix(text, " if it ") && has(text, hazards) && has(text, warnings)
}

func has(text string, words []string) bool {
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(text, " "+w+" ") })
}

// Left names the block at the end of a draft that lists what was heard and not placed. As long as
// it is there the lesson is not published.
const Left = "heard-and-not-placed"

// writeLeft lists what was heard and has no place yet, with its time.
func (d *drafter) writeLeft(w *strings.Builder) {
	var lines []string
	for i, f := range d.facts {
		if !d.placed[i] {
			lines = append(lines, fmt.Sprintf("- %s %s %s: “%s”", measure.Clock(f.At), f.Kind, f.Value(), f.Said))
		}
	}
	for _, f := range d.unlisted {
		lines = append(lines, fmt.Sprintf("- %s shade %s, which no range of this course lists", measure.Clock(f.At), f.Code))
	}
	if len(d.bowls) == 0 {
		lines = append(lines, d.placesNamed()...)
	}
	for _, f := range d.measures {
		lines = append(lines, fmt.Sprintf("- %s %s cm: “%s”", measure.Clock(f.At), f.Number.Decimal(2), f.Said))
	}
	if len(lines) > 0 {
		fmt.Fprintf(w, "```open %s\n%s\n```\n", Left, strings.Join(lines, "\n"))
	}
}

// placesNamed lists the sections that were named where no bowl says what goes on
// them.
func (d *drafter) placesNamed() []string {
	var lines []string
	seen := map[string]bool{}
	for _, f := range d.facts {
		if f.Kind == heard.Section && !f.Withdrawn && !seen[f.Place] {
			seen[f.Place] = true
			lines = append(lines, fmt.Sprintf("- %s section %s: “%s”", measure.Clock(f.At), f.Place, f.Said))
		}
	}
	return lines
}
