package course

import (
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/law"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

// RangeFiles returns the files of the ranges, in order.
func RangeFiles(fsys fs.FS) ([]string, error) { return filesIn(fsys, RangesFolder, ".yaml") }

var rangeKeys = []string{
	"name", "checked", "code", "levels", "clear", "powder", "tones", "shades", "kinds", "packs", "prices", "undertone", "ingredients", "with",
}

// ReadRange reads a range of shades.
func ReadRange(fsys fs.FS, name string) (*Range, []diag.Diagnostic) {
	rng := &Range{Range: &shade.Range{ID: strings.TrimSuffix(path.Base(name), ".yaml")}}
	file, fault := lesson.ReadText(fsys, name)
	rng.File = file
	if fault != nil {
		rng.Partial = true
		return rng, []diag.Diagnostic{*fault}
	}
	node, faults := yamlpos.Parse(file.Fragment())
	r := &rangeReader{Reader: yamlpos.NewReader(faults...), out: rng.Range, file: rng}
	f := r.Fields(node, "a range", rangeKeys...)
	if t, ok := f.Need("name"); ok {
		rng.Name = t.Value
	}
	r.checked(f)
	if f.Require("code") {
		r.code(f.Node("code"))
	}
	if f.Require("levels") {
		r.levels(f.Entries("levels"))
	}
	if f.Require("tones") {
		r.tones(f.Entries("tones"))
	}
	if f.Has("clear") {
		rng.Grammar.Clear = values(f.Texts("clear"))
	}
	if f.Has("powder") {
		rng.Grammar.Powder = values(f.Texts("powder"))
	}
	if f.Require("shades") && !diag.HasErrors(r.Diagnostics()) { // codes are taken apart by what stands above
		r.shades(f.Texts("shades"))
	}
	if f.Require("kinds") {
		r.kinds(f.Entries("kinds"))
	}
	r.packs(f)
	if f.Has("undertone") {
		r.undertone(f.Entries("undertone"))
	}
	if f.Has("ingredients") {
		r.ingredients(f.Entries("ingredients"))
	}
	if f.Has("with") {
		rng.with = f.Texts("with")
		rng.With = values(rng.with)
	}
	rng.Partial = diag.HasErrors(r.Diagnostics())
	return rng, r.Diagnostics()
}

type rangeReader struct {
	*yamlpos.Reader
	out  *shade.Range
	file *Range
}

func (r *rangeReader) errorf(rule string, at source.Span, help, format string, args ...any) {
	r.Report(diag.Errorf(rule, at, format, args...).WithHelp("%s", help))
}

var dateForm = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$`)
})

func (r *rangeReader) checked(f *yamlpos.Fields) {
	if t, ok := f.Need("checked"); ok {
		r.out.Checked = r.date(t)
	}
}

// date reads the day on which something was last read from its source, "" where it
// is none.
func (r *rangeReader) date(t source.Text) string {
	if !dateForm().MatchString(t.Value) {
		r.errorf("range/checked", t.Span, "write the day the rules were last read from the maker, as in 2026-03-01", "%q is not a date", t.Value)
		return ""
	}
	return t.Value
}

func (r *rangeReader) code(node *yamlpos.Node) {
	f := r.Fields(node, "`code`", "style", "separators")
	t, ok := f.Need("style")
	if !ok {
		return
	}
	switch t.Value {
	case "letters":
	case "digits":
		r.out.Grammar.Style = shade.Digits
		r.out.Grammar.Separators = []string{"."}
		if f.Has("separators") {
			r.out.Grammar.Separators = values(f.Texts("separators"))
		}
	default:
		r.errorf("range/code", t.Span, "write letters (8V) or digits (8.2)", "%q is no way of writing codes", t.Value)
	}
}

func (r *rangeReader) levels(pairs []yamlpos.Pair) {
	r.out.Names = map[shade.Level]string{}
	for _, p := range pairs {
		level, ok := r.level(p.Key)
		if !ok {
			continue
		}
		caption, ok := r.Text(p.Value, "the caption of a level")
		if !ok {
			continue
		}
		r.out.Names[level] = caption.Value
		if r.out.Darkest == 0 || level < r.out.Darkest {
			r.out.Darkest = level
		}
		r.out.Lightest = max(r.out.Lightest, level)
	}
}

// highest is the highest level that any scale in the trade has.
const highest = 13

func (r *rangeReader) level(t source.Text) (shade.Level, bool) {
	n, err := strconv.Atoi(t.Value)
	if err != nil || n < 1 || n > highest {
		r.errorf("range/level", t.Span, "levels are whole numbers from 1 (black); most ranges end at 10", "%q is not a level", t.Value)
		return 0, false
	}
	return shade.Level(n), true
}

func (r *rangeReader) tones(pairs []yamlpos.Pair) {
	r.out.Tones = map[string]shade.Tone{}
	for _, p := range pairs {
		f := r.Fields(p.Value, "a tone", "name", "base")
		tone := shade.Tone{Code: p.Key.Value}
		if t, ok := f.Need("name"); ok {
			tone.Name = t.Value
		}
		if t, ok := f.Text("base"); ok {
			tone.Base = r.hue(t)
		}
		r.out.Tones[tone.Code] = tone
		r.out.Grammar.Tones = append(r.out.Grammar.Tones, tone.Code)
	}
}

func (r *rangeReader) hue(t source.Text) shade.Hue {
	h, ok := shade.ParseHue(t.Value)
	if !ok {
		help := "the hues are: " + strings.Join(shade.Hues(), ", ")
		if near := diag.DidYouMean(t.Value, shade.Hues()); near != "" {
			help = "did you mean " + near + "? " + help
		}
		r.errorf("range/hue", t.Span, help, "%q is not a hue of the colour wheel", t.Value)
	}
	return h
}

func (r *rangeReader) shades(texts []source.Text) {
	for _, t := range texts {
		code, err := r.out.Grammar.Parse(t.Value)
		switch {
		case err != nil:
			r.errorf("range/code", t.Span, "write the code as this range does, or mend code and tones above", "%s", err)
			continue
		case code.Level != 0 && (code.Level < r.out.Darkest || code.Level > r.out.Lightest):
			r.errorf("range/level", t.Span, "add the level under levels, or mend the code", "shade %q lies outside the levels of the range", t.Value)
			continue
		case slices.Contains(r.out.Shades, t.Value):
			r.errorf("range/shade-twice", t.Span, "delete one of them", "shade %q is listed twice", t.Value)
			continue
		}
		for _, tone := range code.Tones {
			if _, ok := r.out.Tones[tone]; !ok {
				r.errorf("range/code", t.Span, "add the tone under tones", "shade %q has the tone %q, which has no meaning in this range", t.Value, tone)
			}
		}
		r.out.Shades = append(r.out.Shades, t.Value)
	}
}

func (r *rangeReader) kinds(pairs []yamlpos.Pair) {
	r.out.Kinds = map[shade.Kind]shade.Terms{}
	for _, p := range pairs {
		kind, ok := shade.ParseKind(p.Key.Value)
		if !ok {
			r.errorf("range/kind", p.Key.Span, "the kinds are: "+kindList(), "%q is not a kind of colour", p.Key.Value)
			continue
		}
		r.out.Kinds[kind] = r.terms(p.Value)
	}
}

func kindList() string {
	var names []string
	for _, k := range shade.Kinds() {
		names = append(names, string(k))
	}
	return strings.Join(names, ", ")
}

func (r *rangeReader) terms(node *yamlpos.Node) shade.Terms {
	var terms shade.Terms
	f := r.Fields(node, "a kind of colour", "ratio", "time", "strengths")
	if t, ok := f.Text("ratio"); ok {
		terms.Ratio = value(r, "range/ratio", t, measure.ParseRatio)
	}
	if t, ok := f.Text("time"); ok {
		terms.Time = value(r, "range/time", t, measure.ParseSpan)
	}
	if f.Has("strengths") {
		for _, t := range f.Texts("strengths") {
			s := value(r, "range/strength", t, peroxide.Parse)
			if most := law.Strictest().Peroxide; most.Cmp(s) < 0 {
				r.errorf("range/strength", t.Span, "the law stops at "+most.String()+" ("+most.VolumesString()+")", "%s is stronger than any developer may be", s)
			}
			terms.Strengths = append(terms.Strengths, s)
		}
	}
	return terms
}

// value reads a text by a parser of the domain.
func value[T any](r *rangeReader, rule string, t source.Text, parse func(string) (T, error)) T {
	v, err := parse(t.Value)
	if err != nil {
		r.Report(diag.FromError(rule, t.Span, err))
	}
	return v
}

func (r *rangeReader) packs(f *yamlpos.Fields) {
	if f.Has("packs") {
		p := r.Fields(f.Node("packs"), "`packs`", packKeys...)
		r.out.Colour.Size = r.packSize(p, "colour")
		r.out.Developer.Size = r.packSize(p, "developer")
		r.out.Powder.Size = r.packSize(p, "powder")
	}
	if f.Has("prices") {
		p := r.Fields(f.Node("prices"), "`prices`", packKeys...)
		r.out.Colour.Price = r.price(p, "colour")
		r.out.Developer.Price = r.price(p, "developer")
		r.out.Powder.Price = r.price(p, "powder")
		r.oneCurrency(f.KeySpan("prices"))
	}
}

// packKeys are what a range is sold as.
var packKeys = []string{"colour", "developer", "powder"}

// oneCurrency holds that what the range costs can be added up.
func (r *rangeReader) oneCurrency(at source.Span) {
	var first string
	for _, p := range []shade.Pack{r.out.Colour, r.out.Developer, r.out.Powder} {
		switch currency := p.Price.Currency; {
		case currency == "" || currency == first:
		case first == "":
			first = currency
		default:
			r.errorf("range/currency", at, "give all prices of a range in one currency", "prices in %s and in %s", first, currency)
			return
		}
	}
}

func (r *rangeReader) packSize(f *yamlpos.Fields, key string) measure.Mass {
	t, ok := f.Text(key)
	if !ok {
		return measure.Mass{}
	}
	m, err := measure.ParseMass(t.Value)
	switch {
	case err != nil:
		r.Report(diag.FromError("range/pack", t.Span, err))
	case m.IsZero():
		r.errorf("range/pack", t.Span, "write what the pack holds, as in 60 g", "a pack of nothing")
	}
	return m
}

func (r *rangeReader) price(f *yamlpos.Fields, key string) shade.Price {
	t, ok := f.Text(key)
	if !ok {
		return shade.Price{}
	}
	amount, currency, _ := t.Cut(" ")
	n, err := measure.ParseNumber(amount.Value)
	if err != nil || !currencyForm().MatchString(currency.Value) {
		r.errorf("range/price", t.Span, "write the amount and the currency, as in 7.90 GBP", "%q is not a price", t.Value)
		return shade.Price{}
	}
	hundredths, whole := n.Mul(exact.Int(100)).Int64()
	if !whole {
		r.errorf("range/price", amount.Span, "prices have two decimals", "%q has a part of a penny", amount.Value)
	}
	return shade.Price{Hundredths: hundredths, Currency: currency.Value}
}

var currencyForm = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[A-Z]{3}$`) })

// warmthOrder is the order in which hair lightens, whatever the level numbers are.
var warmthOrder = []shade.Hue{shade.Red, shade.RedOrange, shade.Orange, shade.YellowOrange, shade.Yellow}

func (r *rangeReader) undertone(pairs []yamlpos.Pair) {
	r.out.Warmth = map[shade.Level]shade.Hue{}
	for _, p := range pairs {
		level, ok := r.level(p.Key)
		if !ok {
			continue
		}
		t, ok := r.Text(p.Value, "an undertone")
		if !ok {
			continue
		}
		hue := r.hue(t)
		if hue != shade.NoHue && !slices.Contains(warmthOrder, hue) {
			r.errorf("range/undertone", t.Span, "undertones run red, red-orange, orange, yellow-orange, yellow", "no hair lightens to %s", hue)
			continue
		}
		r.out.Warmth[level] = hue
	}
	r.checkWarmthOrder(pairs)
}

// checkWarmthOrder holds a maker's table against the one thing all sources agree
// on: as hair gets lighter its warmth goes from red through orange to yellow.
func (r *rangeReader) checkWarmthOrder(pairs []yamlpos.Pair) {
	for _, p := range pairs {
		level, err := strconv.Atoi(p.Key.Value)
		if err != nil {
			continue
		}
		darker, here := r.out.Warmth[shade.Level(level-1)], r.out.Warmth[shade.Level(level)]
		if darker != shade.NoHue && here != shade.NoHue && slices.Index(warmthOrder, here) < slices.Index(warmthOrder, darker) {
			r.errorf("range/undertone", p.Value.Span, "as hair gets lighter its warmth goes from red through orange to yellow, never back",
				"level %d is %s, but level %d below it is already %s", level, here, level-1, darker)
		}
	}
}

func values(texts []source.Text) []string {
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = t.Value
	}
	return out
}
