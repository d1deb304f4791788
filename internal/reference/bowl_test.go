package reference

import (
	"strings"
	"testing"
	"testing/fstest"

	"plait/internal/check"
	"plait/internal/course"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/formula"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/internal/source"
)

const (
	tenths = "0.1 g"
	whole  = "1 g"
)

func mass(t *testing.T, text string) measure.Mass {
	t.Helper()
	m, err := measure.ParseMass(text)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func grams(n int64) measure.Mass { return measure.Grams(exact.Int(n)) }

func percent(n int64) peroxide.Strength { return peroxide.Percent(exact.Int(n)) }

func vol(n int64) peroxide.Strength { return peroxide.Volumes(exact.Int(n)) }

func asPercent(n exact.Number) string { return n.Mul(exact.Int(100)).Decimal(4) + " %" }

// line takes a bowl in its short form all the way to the scale.
func line(t *testing.T, text, step string) mix.Bowl {
	t.Helper()
	return lineOf(t, nil, text, step)
}

func lineOf(t *testing.T, rng *shade.Range, text, step string) mix.Bowl {
	t.Helper()
	block, found := formula.ParseLine(asText(text))
	c, faults := derive.Bowl(block, rng, mass(t, step))
	if found = append(found, faults...); !c.OK || diag.HasErrors(found) {
		t.Fatalf("%s: %s", text, words(found))
	}
	return c.Bowl
}

// refuses says how a bowl in its short form is turned away, "taken" where it is not.
func refuses(t *testing.T, text string) string {
	t.Helper()
	block, found := formula.ParseLine(asText(text))
	return answer(t, nil, block, found)
}

// refusesBlock is refuses for a block in YAML.
func refusesBlock(t *testing.T, rng *shade.Range, body string) string {
	t.Helper()
	block, found := readBlock(body)
	return answer(t, rng, block, found)
}

func answer(t *testing.T, rng *shade.Range, block *formula.Block, found []diag.Diagnostic) string {
	t.Helper()
	if !block.Broken {
		_, faults := derive.Bowl(block, rng, mass(t, tenths))
		found = append(found, faults...)
	}
	if !diag.HasErrors(found) {
		return "taken"
	}
	return words(found)
}

func readBlock(body string) (*formula.Block, []diag.Diagnostic) {
	return formula.Read(asText("bowl"), source.NewFile("lesson", []byte(body)).Fragment())
}

// refused expects that a bowl in its short form is turned away with these words.
func refused(problem, from, text string, saying ...string) entry {
	want := "refused: " + strings.Join(saying, ", ")
	return computed(problem, from, want, func(t *testing.T) string {
		told := refuses(t, text)
		for _, s := range saying {
			if !strings.Contains(told, s) {
				return told
			}
		}
		return want
	})
}

func asText(s string) source.Text {
	return source.Text{Value: s, Span: source.NewFile("bowl", []byte(s)).Whole()}
}

func words(found []diag.Diagnostic) string {
	var b strings.Builder
	if err := diag.WriteText(&b, found, diag.TextOptions{}); err != nil {
		return err.Error()
	}
	return b.String()
}

// card is a bowl as a lesson holds it, judged by the rules.
type card struct {
	mix.Bowl
	found []diag.Diagnostic
}

// judged takes a formula block through reading, weighing and the rules.
func judged(t *testing.T, rng *shade.Range, body, step string) card {
	t.Helper()
	block, found := readBlock(body)
	c, faults := derive.Bowl(block, rng, mass(t, step))
	if found = append(found, faults...); !c.OK || diag.HasErrors(found) {
		t.Fatalf("%s: %s", body, words(found))
	}
	settings := course.Settings{Scale: mass(t, step)}
	return card{c.Bowl, check.Bowl(&course.Course{Settings: settings}, block, c)}
}

// verdict returns the severity with which a rule speaks, "nothing" where it is still.
func (c card) verdict(t *testing.T, rule string) string {
	t.Helper()
	if _, ok := check.Find(rule); !ok {
		t.Fatalf("there is no rule %s", rule)
	}
	for _, d := range c.found {
		if d.Rule == rule {
			return d.Severity.String()
		}
	}
	return "nothing"
}

// letters is a range whose codes are a level and letters, as an author types it.
const letters = `name: Meadow
checked: 2026-03-01
code: {style: letters}
levels: {1: a, 2: b, 3: c, 4: d, 5: e, 6: f, 7: g, 8: h, 9: i, 10: j}
clear: [CL]
tones: {N: {name: natural}, G: {name: gold, base: yellow-orange}, R: {name: red, base: red}, V: {name: violet, base: violet}}
shades: [4N, 5N, 6N, 6G, 6RV, 7N, 7G, 8N, 8G, 9N, 10N, CL]
kinds: {permanent: {strengths: [3 %, 6 %, 9 %, 12 %]}, demi: {strengths: [1.8 %]}}
`

// digits is a range of twelve levels whose codes are a level, a separator and digits.
const digits = `name: Saltmarsh
checked: 2026-03-01
code: {style: digits, separators: [".", "/", "-"]}
levels: {1: a, 2: b, 3: c, 4: d, 5: e, 6: f, 7: g, 8: h, 9: i, 10: j, 11: k, 12: l}
tones: {0: {name: natural}, 1: {name: blue ash, base: blue}, 3: {name: gold, base: yellow-orange}, 4: {name: copper, base: red-orange}}
shades: ["6.34", "6.3", "10.1", "6.0", "6.03", "6.33", "7", "0.11"]
kinds: {permanent: {strengths: [6 %]}}
`

// readRange reads a range file; the text is what the reader found fault with.
func readRange(body string) (*shade.Range, string) {
	const name = "content/ranges/sample.yaml"
	rng, found := course.ReadRange(fstest.MapFS{name: {Data: []byte(body)}}, name)
	if diag.HasErrors(found) {
		return nil, words(found)
	}
	return rng.Range, ""
}

func rangeOf(t *testing.T, body string) *shade.Range {
	t.Helper()
	rng, faults := readRange(body)
	if rng == nil {
		t.Fatal(faults)
	}
	return rng
}
