package course

import (
	"time"

	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/peroxide"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

// House is what the salon that publishes the course allows; it can only be
// stricter than law and maker.
type House struct {
	Strongest source.Stated[peroxide.Strength] // the strongest developer
	Longest   source.Stated[time.Duration]     // the longest time on hair
	Without   []source.Text                    // codes of shades that are not used
	Natural   source.Text                      // set: natural shades on white hair by quarters
	Tests     []source.Text                    // what every lesson with oxidative colour must name
	Pass      source.Stated[exact.Number]      // the least share of a paper that passes
}

// readHouse reads the house rules. One that cannot be read is an error, as it would
// silently protect nobody.
func (s *Settings) readHouse(node *yamlpos.Node, r *yamlpos.Reader) {
	if node == nil {
		return
	}
	f := r.Fields(node, "`house`", "strongest", "longest", "without", "natural", "tests", "pass")
	if t, ok := f.Text("strongest"); ok {
		v, err := peroxide.Parse(t.Value)
		if err != nil {
			r.Report(diag.FromError(ruleHouse, t.Span, err))
		} else {
			s.House.Strongest = source.Stated[peroxide.Strength]{Value: v, Span: t.Span}
		}
	}
	if t, ok := f.Text("longest"); ok {
		s.readLongest(t, r)
	}
	if f.Has("without") {
		s.House.Without = f.Texts("without")
	}
	if t, ok := f.Text("natural"); ok {
		s.readNatural(t, r)
	}
	if f.Has("tests") {
		s.House.Tests = f.Texts("tests")
	}
	if t, ok := f.Text("pass"); ok {
		v, fault := passMark(ruleHouse, t)
		if fault != nil {
			r.Report(*fault)
		}
		s.House.Pass = v
	}
}

const ruleHouse = "house/rules"

// readNatural reads how much of the natural series white hair takes. There is one way
// that is stricter than the usual one.
func (s *Settings) readNatural(t source.Text, r *yamlpos.Reader) {
	if t.Value != "by quarters" {
		r.Report(diag.Errorf(ruleHouse, t.Span, "%q is no rule about natural shades", t.Value).
			WithHelp("write natural: by quarters, for as many quarters of the colour as the share of white reaches, or leave it out"))
		return
	}
	s.House.Natural = t
}

func (s *Settings) readLongest(t source.Text, r *yamlpos.Reader) {
	v, err := measure.ParseSpan(t.Value)
	switch {
	case err != nil:
		r.Report(diag.FromError(ruleHouse, t.Span, err))
	case v.Min != v.Max && v.Min != 0 || v.Max == 0:
		r.Report(diag.Errorf(ruleHouse, t.Span, "the longest time is one time, not %s", t.Value).
			WithHelp("write it as in longest: 45 min"))
	default:
		s.House.Longest = source.Stated[time.Duration]{Value: v.Max, Span: t.Span}
	}
}
