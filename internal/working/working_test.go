package working_test

import (
	"fmt"
	"go/constant"
	"go/token"
	"go/types"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"plait/internal/course"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/formula"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/source"
	"plait/internal/working"
)

// bowl computes a formula block on a scale of tenths of a gram.
func bowl(t *testing.T, body string) (*formula.Block, derive.Computed) {
	t.Helper()
	file := source.NewFile("formula", []byte("kind: demi\n"+body))
	block, found := formula.Read(source.Text{Value: "bowl", Span: file.Whole()}, file.Fragment())
	computed, faults := derive.Bowl(block, nil, measure.Grams(exact.Of(1, 10)))
	if found = append(found, faults...); diag.HasErrors(found) {
		t.Fatalf("%s: %v", body, found)
	}
	return block, computed
}

func expectWorking(t *testing.T, body string, want ...string) {
	t.Helper()
	var got []string
	for _, l := range working.Of(bowl(t, body)) {
		got = append(got, l.String())
	}
	if !slices.Equal(got, want) {
		t.Errorf("%s\ngot\n  %s\nwant\n  %s", body, strings.Join(got, "\n  "), strings.Join(want, "\n  "))
	}
}

// Worked problems: each line was reckoned by hand.
func TestWorking(t *testing.T) {
	// 2 parts 6N and 1 part 6G, 45 g of colour at 1:1.5.
	expectWorking(t, "colour: 2 parts 6N + 1 part 6G\ndeveloper: 20 vol\nratio: 1:1.5\namount: 45 g colour",
		"colour: 45 g",
		"parts: 2 + 1 = 3",
		"one part: 45 g ÷ 3 = 15 g",
		"6N: 45 g × 2 ÷ 3 = 30 g",
		"6G: 45 g × 1 ÷ 3 = 15 g",
		"developer: 45 g × 1.5 = 67.5 g",
		"in the bowl: 45 g + 67.5 g = 112.5 g",
		"strength: 6 % × 67.5 g ÷ 112.5 g = 3.6 %",
		"average level: (2 × 6 + 1 × 6) ÷ 3 = 6",
		"on the scale, in steps of 0.1 g: 30 g + 15 g + 67.5 g = 112.5 g",
	)
	// 70 g at 1:2 does not come out even, and says so.
	expectWorking(t, "colour: 6N\ndeveloper: 6 vol\nratio: 1:2\namount: 70 g mixed",
		"colour: 70 g ÷ (1 + 2) ≈ 23.33 g",
		"developer: 23.33 g × 2 ≈ 46.67 g",
		"in the bowl: 23.33 g + 46.67 g = 70 g",
		"strength: 1.8 % × 46.67 g ÷ 70 g = 1.2 %",
		"average level: (1 × 6) ÷ 1 = 6",
		"on the scale, in steps of 0.1 g: 23.3 g + 46.7 g = 70 g",
		"ratio on the scale: 46.7 g ÷ 23.3 g ≈ 1:2.0043",
	)
	// 100 g of 13 vol are 15 g of 30 vol and 85 g of 10 vol.
	expectWorking(t, "colour: 30 g 8N + 20 g CL\nadd: 10 % of colour bond cream\ndeveloper: 13 vol from 30 vol and 10 vol\nratio: 1:2",
		"colour: 30 g + 20 g = 50 g",
		"bond cream: 50 g × 10 % = 5 g",
		"developer: 50 g × 2 = 100 g",
		"30 vol: 100 g × (13 − 10) ÷ (30 − 10) = 15 g",
		"10 vol: 100 g × (30 − 13) ÷ (30 − 10) = 85 g",
		"in the bowl: 50 g + 5 g + 100 g = 155 g",
		"strength: 3.9 % × 100 g ÷ 155 g ≈ 2.52 %",
		"average level: (30 × 8) ÷ 30 = 8",
		"on the scale, in steps of 0.1 g: 30 g + 20 g + 5 g + 15 g + 85 g = 155 g",
	)
	// Colour used as it is, dosed by share.
	expectWorking(t, "colour: 60 % 7N + 40 % 7G\ndeveloper: none\namount: 50 g colour",
		"colour: 50 g",
		"7N: 50 g × 60 % = 30 g",
		"7G: 50 g × 40 % = 20 g",
		"average level: (60 × 7 + 40 × 7) ÷ 100 = 7",
		"on the scale, in steps of 0.1 g: 30 g + 20 g = 50 g",
	)
}

// Property: what a step shows as its sum comes to its result, reckoned by Go's own
// constants, and the results are the bowl's own figures.
func TestEveryStepAddsUp(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		body := randomBowl(random)
		block, computed := bowl(t, body)
		lines := working.Of(block, computed)
		for _, l := range lines {
			expectAddsUp(t, body, l)
		}
		b := computed.Bowl
		want := map[string]string{
			"colour": b.Colour.String(), "developer": b.Developer.String(), "in the bowl": b.Mixed.String(),
			"strength": b.Strength.String(), "average level": b.Level.Mean.Decimal(2),
			"on the scale, in steps of 0.1 g": b.WeighedTotal().String(),
		}
		for _, p := range b.Parts {
			if p.Role != mix.DeveloperRole {
				want[p.Name] = p.Exact.String()
			}
		}
		for what := range want {
			expectResult(t, body, lines, what, want[what])
		}
	}
}

// randomBowl writes a bowl of one to three shades, by parts or by weight.
func randomBowl(random *rand.Rand) string {
	unit := []string{" parts", " g"}[random.IntN(2)]
	var shades []string
	for i := range 2 + random.IntN(2) {
		shades = append(shades, fmt.Sprintf("%d%s %dN", 1+random.IntN(40), unit, 4+i))
	}
	body := "colour: " + strings.Join(shades, " + ") +
		fmt.Sprintf("\ndeveloper: %d vol\nratio: 1:1.%d", 5+random.IntN(36), random.IntN(10))
	if random.IntN(2) == 0 {
		body += fmt.Sprintf("\nadd: %d %% of colour bond cream", 1+random.IntN(20))
	}
	if unit == " g" {
		return body
	}
	return body + fmt.Sprintf("\namount: %d g %s", 10+random.IntN(200), []string{"colour", "mixed"}[random.IntN(2)])
}

func expectResult(t *testing.T, body string, lines []working.Line, what, want string) {
	t.Helper()
	for _, l := range lines {
		if l.What == what {
			if l.Result != want {
				t.Errorf("%s: %s, and the bowl has %s", body, l, want)
			}
			return
		}
	}
	// The weights of shades that were typed stand in the sum of the colour.
	if !strings.HasSuffix(what, "N") {
		t.Errorf("%s: nothing says how %s comes about", body, what)
	}
}

var figure = regexp.MustCompile(`\d+(\.\d+)?`)

// expectAddsUp reckons a sum. Its terms are written to two places, so it may be off by
// what those leave out.
func expectAddsUp(t *testing.T, body string, l working.Line) {
	t.Helper()
	if l.Sum == "" {
		return
	}
	hundredth := "/100.0"
	if strings.HasSuffix(l.Result, "%") {
		hundredth = ""
	}
	sum := figure.ReplaceAllStringFunc(l.Sum, func(n string) string {
		if strings.Contains(n, ".") {
			return n
		}
		return n + ".0"
	})
	sum = strings.NewReplacer("×", "*", "÷", "/", "−", "-", " g", "", " %", hundredth).Replace(sum)
	v, err := types.Eval(token.NewFileSet(), nil, token.NoPos, sum)
	if err != nil {
		t.Fatalf("%s: %q is no sum: %v", body, l, err)
	}
	got, _ := constant.Float64Val(v.Value)
	want, _ := constant.Float64Val(constant.MakeFromLiteral(figure.FindString(strings.TrimPrefix(l.Result, "1:")), token.FLOAT, 0))
	if math.Abs(got-want) > 0.02*math.Max(1, want/20) {
		t.Errorf("%s: %s, and it comes to %g", body, l, got)
	}
}

// Derived by addition: 3, 4 and 5 minutes with a wait of 2 end at 14, and 35 minutes
// later all of it comes off at 49.
func TestService(t *testing.T) {
	const colour = "colour: 6N\ndeveloper: 6 vol\nratio: 1:2\namount: 30 g colour\n"
	expectService(t, colour+"apply: {nape: 3 min, crown: 4 min, wait: 2 min, front: 5 min}\ntime: 30-35 min from last section",
		"application ends: 0 min + 3 min + 4 min + 2 min + 5 min = 14 min",
		"rinse by: 14 min + 35 min = 49 min",
		"nape has it at most: 49 min − 0 min = 49 min",
		"crown has it at most: 49 min − 3 min = 46 min",
		"front has it at most: 49 min − 9 min = 40 min",
	)
	expectService(t, colour+"start: 5 min\napply: 90 s\ntime: up to 45 min from first touch",
		"application ends: 5 min + 90 s = 390 s",
		"rinse by: 5 min + 45 min = 50 min",
		"the hair covered first has it: 50 min − 5 min = 45 min",
		"the hair covered last has it: 50 min − 390 s = 2610 s",
	)
}

func expectService(t *testing.T, body string, want ...string) {
	t.Helper()
	text := "---\ntitle: First\nsummary: A bowl.\n---\n\n## Mix\n\n```formula cover\nkind: demi\n" + body + "\n```\n"
	l, found := lesson.Read(fstest.MapFS{"lessons/01-first/lesson.md": {Data: []byte(text)}}, "lessons/01-first")
	c := &course.Course{Settings: course.Settings{Scale: measure.Grams(exact.Of(1, 10))}, Lessons: []*lesson.Lesson{l}}
	d, faults := derive.Run(c)
	if found = append(found, faults...); diag.HasErrors(found) {
		t.Fatal(found)
	}
	row, ok := d.Row(d.Formulas[0])
	if !ok {
		t.Fatalf("%s: the bowl is not laid out", body)
	}
	var got []string
	for _, l := range working.Service(row) {
		got = append(got, l.String())
	}
	if !slices.Equal(got, want) {
		t.Errorf("%s\ngot\n  %s\nwant\n  %s", body, strings.Join(got, "\n  "), strings.Join(want, "\n  "))
	}
}
