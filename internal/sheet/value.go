package sheet

import (
	"slices"
	"strconv"
	"strings"

	"plait/internal/diag"
	"plait/internal/scalp"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

// The rules that reading reports.
const (
	rulePlace   = "head/place"
	ruleNumber  = "head/number"
	ruleWord    = "head/word"
	ruleParting = "head/parting"
	ruleName    = "head/name"
	ruleView    = "head/view"
	ruleTooMany = "head/too-many"

	ruleElevation = "cut/elevation"
	ruleGuide     = "cut/guide"
)

// The units that may stand behind a number.
var (
	centimetres  = []string{"cm"}
	squares      = []string{"cm2", "cm²"}
	degrees      = []string{"degrees", "°"}
	shares       = []string{"%"}
	hairsPerArea = []string{"per cm2", "per cm²"}
	noUnit       []string
)

// quantity is a number with what it may be.
type quantity struct {
	units []string
	scalp.Bounds
}

// parseNumber reads digits with at most one point and at most one of the units
// behind them.
func parseNumber(text string, units []string) (value float64, places int, ok bool) {
	for _, u := range units {
		if rest, found := strings.CutSuffix(text, u); found {
			text = strings.TrimRight(rest, " ")
			break
		}
	}
	digits := strings.TrimPrefix(text, "-")
	whole, fraction, _ := strings.Cut(digits, ".")
	if whole == "" || strings.Trim(whole+fraction, "0123456789") != "" || strings.HasSuffix(digits, ".") {
		return 0, 0, false
	}
	value, err := strconv.ParseFloat(text, 64)
	return value, len(fraction), err == nil
}

// number reads a number that lies within bounds.
func number(r *yamlpos.Reader, t source.Text, what string, q quantity) (Number, bool) {
	value, places, ok := parseNumber(t.Value, q.units)
	if !ok {
		r.Report(diag.Errorf(ruleNumber, t.Span, "%s is %q, want a number%s", what, t.Value, inUnit(q.units)).
			WithHelp("write a number with a decimal point%s", mayOmit(q.units)))
		return Number{}, false
	}
	if !q.Hold(value) {
		r.Report(outOf(ruleNumber, t.Span, what, t.Value, q.Bounds, unitOf(q.units)))
		return Number{}, false
	}
	return Number{Value: value, Places: places, Span: t.Span}, true
}

// outOf says that a number, in the words of its author, lies outside its bounds.
func outOf(rule string, at source.Span, what, value string, b scalp.Bounds, unit string) diag.Diagnostic {
	return diag.Errorf(rule, at, "%s is %s, and it must lie between %s and %s%s", what, value, plain(b.Least), plain(b.Most), unit).
		WithHelp("write a number from %s to %s", plain(b.Least), plain(b.Most))
}

// plain prints a number as it can be typed, rounded to where nobody can measure.
func plain(x float64) string {
	s := strconv.FormatFloat(x, 'f', 2, 64)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

func unitOf(units []string) string {
	if len(units) == 0 {
		return ""
	}
	if units[0] == "cm" || units[0] == "degrees" {
		return " " + units[0]
	}
	return " " + units[len(units)-1]
}

// inUnit says in which unit a number is wanted.
func inUnit(units []string) string {
	unit := unitOf(units)
	if unit == "" || strings.HasPrefix(unit, " per ") {
		return unit
	}
	return " in" + unit
}

func mayOmit(units []string) string {
	if len(units) == 0 {
		return ""
	}
	return "; the unit" + unitOf(units) + " may be left out"
}

// measure reads a key's number, typed in the unit of the quantity.
func measure(f *yamlpos.Fields, key string, q quantity) (Number, bool) {
	t, ok := f.Text(key)
	if !ok {
		return Number{}, false
	}
	return number(f.Reader(), t, "`"+key+"`", q)
}

// stated is measure as a stated value.
func stated(f *yamlpos.Fields, key string, q quantity) source.Stated[float64] {
	n, _ := measure(f, key, q)
	return source.Stated[float64]{Value: n.Value, Span: n.Span}
}

// word reads one of the words that are known and reports any other.
func word[T ~string](r *yamlpos.Reader, rule string, t source.Text, what string, known []T) (source.Stated[T], bool) {
	if slices.Contains(known, T(t.Value)) {
		return source.Stated[T]{Value: T(t.Value), Span: t.Span}, true
	}
	r.Report(diag.Errorf(rule, t.Span, "%q is no %s", t.Value, what).WithHelp("%s", suggest(t.Value, strs(known), "the words are")))
	return source.Stated[T]{}, false
}

func strs[T ~string](words []T) []string {
	list := make([]string, len(words))
	for i, w := range words {
		list[i] = string(w)
	}
	return list
}

// suggest lists the words that are known behind an introduction, the one that was
// probably meant before them.
func suggest(typed string, known []string, introduction string) string {
	if len(known) == 0 {
		return introduction + ": none"
	}
	list := introduction + ": " + strings.Join(known, ", ")
	if near := diag.DidYouMean(typed, known); near != "" {
		return "did you mean " + near + "? " + list
	}
	return list
}
