package reference

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"text/tabwriter"
)

// entry is one outside figure: either computed, or with the reason why it is not.
type entry struct {
	problem string
	source  string
	want    string
	within  float64 // how far a lone number may be off; 0 where it is held to the last digit
	got     func(t *testing.T) string
	not     string // why it is not computed
}

// subject is a part of the table.
type subject struct {
	name    string
	entries []entry
}

func table() []subject {
	return []subject{
		{"strength of peroxide", strengths()},
		{"volumes beside per cent", pairs()},
		{"blending and dilution", blends()},
		{"strength in the bowl", bowls()},
		{"law", laws()},
		{"shade codes", codes()},
		{"hues and warmth", hues()},
		{"level of a mixture", mixtures()},
		{"lift and target", lifts()},
		{"too strong a developer", excesses()},
		{"white hair", whites()},
		{"filling", fillings()},
		{"lightener and high-lift", lighteners()},
		{"ounces", ounces()},
		{"ratios", ratios()},
		{"grams of a bowl", weights()},
		{"on the scale", scales()},
		{"grams typed beside a ratio", typedWeights()},
		{"how much for a head", heads()},
		{"how much for a class", classes()},
		{"time on the hair", times()},
		{"the service in time", services()},
		{"skin test", skinTests()},
		{"cutting", cuts()},
	}
}

// computed is an entry that must come out exactly as written.
func computed(problem, source, want string, got func(t *testing.T) string) entry {
	return entry{problem: problem, source: source, want: want, got: got}
}

// near is an entry whose source rounds: a number that may be off by so much.
func near(problem, source, want string, within float64, got func() float64) entry {
	return entry{problem: problem, source: source, want: want, within: within,
		got: func(*testing.T) string { return strconv.FormatFloat(got(), 'g', 7, 64) }}
}

// not is an entry that is not computed.
func not(problem, source, why string) entry {
	return entry{problem: problem, source: source, not: why}
}

func TestTable(t *testing.T) {
	var text strings.Builder
	out := tabwriter.NewWriter(&text, 0, 0, 2, ' ', 0)
	seen := map[string]bool{}
	held, left := 0, 0
	for _, s := range table() {
		fmt.Fprintf(out, "\n%s\tsource\texpected\tgot\tresult\n", strings.ToUpper(s.name))
		for _, e := range s.entries {
			if name := s.name + ": " + e.problem; seen[name] {
				t.Errorf("%s stands in the table twice", name)
			} else {
				seen[name] = true
			}
			row := e.expected() + "\tcannot be computed\tFAILS" // stands where the entry stops the test
			switch passed := t.Run(s.name+"/"+e.problem, func(t *testing.T) { row = hold(t, e) }); {
			case passed && e.not == "":
				held++
			case passed:
				left++
			}
			fmt.Fprintf(out, "%s\t%s\t%s\n", e.problem, e.source, row)
		}
	}
	if err := out.Flush(); err != nil {
		t.Fatal(err)
	}
	t.Logf("%s\n%d figures: %d hold, %d are not applicable", text.String(), len(seen), held, left)
}

// hold judges an entry and returns the rest of its row.
func hold(t *testing.T, e entry) string {
	if fault := e.fault(); fault != "" {
		t.Error(fault)
		return "–\t–\t" + fault
	}
	if e.not != "" {
		return "–\t–\tnot applicable: " + e.not
	}
	got := e.got(t)
	if !e.holds(got) {
		t.Errorf("%s: got %s, want %s", e.source, got, e.expected())
		return e.expected() + "\t" + got + "\tFAILS"
	}
	return e.expected() + "\t" + got + "\tpass"
}

// fault returns what is wrong with the entry itself.
func (e entry) fault() string {
	switch {
	case e.source == "":
		return "it names no source"
	case e.got == nil && e.not == "":
		return "it is neither computed nor has it a reason why not"
	case e.got != nil && e.not != "":
		return "it is computed and has a reason why not"
	case e.got != nil && e.want == "":
		return "it expects nothing"
	}
	return ""
}

func (e entry) holds(got string) bool {
	if e.within == 0 {
		return got == e.want
	}
	want, err := strconv.ParseFloat(e.want, 64)
	if err != nil {
		return false
	}
	have, err := strconv.ParseFloat(got, 64)
	return err == nil && math.Abs(have-want) <= e.within
}

func (e entry) expected() string {
	if e.within == 0 {
		return e.want
	}
	return fmt.Sprintf("%s ± %g", e.want, e.within)
}

// The table's own judgement: it turns away what does not match and what says nothing.
func TestEntry(t *testing.T) {
	one := func(*testing.T) string { return "1" }
	expect := func(e entry, faulty, holds bool) {
		t.Helper()
		if got := e.fault() != ""; got != faulty {
			t.Errorf("%+v: faulty %t, want %t", e, got, faulty)
		}
		if got := e.holds("1.01"); got != holds {
			t.Errorf("%+v holds 1.01: %t, want %t", e, got, holds)
		}
	}
	expect(entry{source: "arithmetic", want: "1.01", got: one}, false, true)
	expect(entry{source: "arithmetic", want: "1", got: one}, false, false)
	expect(entry{source: "arithmetic", want: "1", within: 0.02, got: one}, false, true)
	expect(entry{source: "arithmetic", want: "1", within: 0.001, got: one}, false, false)
	expect(entry{source: "arithmetic", want: "one", within: 0.02, got: one}, false, false)
	expect(entry{source: "arithmetic", want: "1"}, true, false)
	expect(entry{source: "arithmetic", got: one, want: "1", not: "because"}, true, false)
	expect(entry{source: "arithmetic", got: one}, true, false)
	expect(entry{want: "1", got: one}, true, false)
}
