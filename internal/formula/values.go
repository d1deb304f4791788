package formula

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/hair"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

// reader turns texts into values and collects what is wrong with them.
type reader struct {
	found []diag.Diagnostic
}

func (r *reader) errorf(rule string, at source.Span, format string, args ...any) {
	r.found = append(r.found, diag.Errorf(rule, at, format, args...))
}

func (r *reader) help(format string, args ...any) {
	last := len(r.found) - 1
	r.found[last] = r.found[last].WithHelp(format, args...)
}

// parsed reads a value by one of the parsers of the domain, whose errors say what
// is wrong and what to write.
func parsed[T any](r *reader, rule string, t source.Text, parse func(string) (T, error)) (source.Stated[T], bool) {
	v, err := parse(t.Value)
	if err != nil {
		r.found = append(r.found, diag.FromError(rule, t.Span, err))
		return source.Stated[T]{}, false
	}
	return source.Stated[T]{Value: v, Span: t.Span}, true
}

// brackets cuts a claim in brackets off the end: "2 parts 8N (20 g)".
func (r *reader) brackets(t source.Text) (body, claim source.Text) {
	i := strings.IndexByte(t.Value, '(')
	if i < 0 {
		return t.Trim(), source.Text{}
	}
	if !strings.HasSuffix(t.Value, ")") {
		r.errorf("formula/syntax", t.Span, "the bracket in %q is not closed at the end", t.Value)
		r.help("put the closing bracket last, as in 2 parts 8N (20 g)")
		return t.Slice(0, i).Trim(), source.Text{}
	}
	return t.Slice(0, i).Trim(), t.Slice(i+1, len(t.Value)-1).Trim()
}

// mostShades bounds a bowl. Nobody weighs a tenth of it; without a bound a line as long
// as a file would have a finding for each of its shades.
const mostShades = 50

// colour reads "2 parts 8N (20 g) + 1 part 8V".
func (r *reader) colour(t source.Text) []Item {
	if t.Value == "" {
		r.errorf("formula/no-shade", t.Span, "a formula needs at least one shade")
		r.help("write the shades with parts or grams, as in 2 parts 8N + 1 part 8V")
		return nil
	}
	parts := t.Split("+")
	if len(parts) > mostShades {
		r.errorf("formula/parts", t.Span, "%d shades are too many for one bowl", len(parts))
		r.help("mix at most %d shades; make two bowls of it", mostShades)
		return nil
	}
	var items []Item
	for _, part := range parts {
		item, ok := r.item(part)
		if !ok {
			continue
		}
		if len(items) > 0 && items[0].Unit != item.Unit {
			r.errorf("formula/parts", item.Span, "%s beside %s: dose all shades of a bowl the same way", item.Unit.word(), items[0].Unit.word())
			r.help("give all shades in parts, all in grams or all in per cent")
			continue
		}
		items = append(items, item)
	}
	return items
}

func (u Unit) word() string { return [...]string{"parts", "grams", "per cent"}[u] }

// item reads one shade with its dose. A shade alone is one part.
func (r *reader) item(t source.Text) (Item, bool) {
	body, claim := r.brackets(t)
	item := Item{Span: t.Span}
	if body.Value == "" {
		r.errorf("formula/no-shade", t.Span, "there is no shade here")
		r.help("write a dose and a shade on each side of the plus, as in 20 g 8N + 10 g 8V")
		return item, false
	}
	dose, code, of := cutShade(body)
	item.Code, item.Range = code, of
	if !r.dose(&item, body, dose.Value) {
		return item, false
	}
	if item.Value.IsZero() {
		r.errorf("formula/parts", body.Span, "%s of %s: every shade needs more than nothing", dose.Value, code.Value)
		r.help("leave the shade out, or give it a dose")
		return item, false
	}
	return item, r.itemClaim(&item, claim)
}

// cutShade cuts a dose, a shade and the range that it is said to be of: "2 parts 8N",
// "2 parts of 8N", "1 part 8.2 of saltmarsh".
func cutShade(t source.Text) (dose, code, of source.Text) {
	dose, code = lastWord(t)
	before, word := lastWord(dose)
	if word.Value != "of" {
		return dose, code, source.Text{}
	}
	before, shadeOf := lastWord(before)
	if shadeOf.Value == "" || endsDose(shadeOf.Value, code.Value) {
		return dose, code, source.Text{}
	}
	return before, shadeOf, code
}

// endsDose reports whether a word before "of" ends a dose, as parts, 2parts and 60% do,
// and is no shade, as CL, 8.2 and 8N are. The name of a range, which is a file's, begins
// with a small letter: it tells 6G of meadow from 6g of 8N.
func endsDose(word, next string) bool {
	number, unit := measure.CutUnit(word)
	known := slices.Contains(doseUnits, strings.ToLower(unit))
	switch {
	case number == "":
		return known || strings.ToLower(unit) == unit
	case unit == "":
		return shade.LooksLikeCode(next)
	}
	return known && (next[0] < 'a' || next[0] > 'z')
}

// doseUnits are the units of a dose that could stand without a space behind the number.
var doseUnits = []string{"part", "parts", "%", "g", "gram", "grams", "kg", "mg"}

// dose reads what stands before a shade: "2 parts", "20 g", "60 %", each also with
// "of" behind it. Nothing is one part.
func (r *reader) dose(item *Item, at source.Text, dose string) bool {
	dose = strings.TrimSpace(strings.TrimSuffix(" "+dose, " of"))
	if dose == "" {
		item.Value = exact.One
		return true
	}
	if dose == yamlpos.Question {
		r.errorf("text/open", at.Span, "how much %s is an open question", item.Code.Value)
		r.help("write parts or grams before the shade, as in 2 parts %s", item.Code.Value)
		return false
	}
	number, unit := measure.CutUnit(dose)
	if number == "" {
		r.errorf("formula/unit", at.Span, "%q is no dose of a shade", dose)
		r.help("%s", doseHelp)
		return false
	}
	n, err := measure.ParseNumber(number)
	if err != nil {
		r.found = append(r.found, diag.FromError("formula/parts", at.Span, err))
		return false
	}
	switch strings.ToLower(unit) {
	case "part", "parts":
		item.Unit, item.Value = Parts, n
		return true
	case "%", "per cent", "percent":
		item.Unit, item.Value = Percent, n
		return true
	}
	m, err := measure.ParseMass(dose)
	if err != nil {
		r.found = append(r.found, diag.FromError("formula/unit", at.Span, err))
		r.help("%s", doseHelp)
		return false
	}
	item.Unit, item.Value = Grams, m.Grams()
	return true
}

const doseHelp = "write parts or grams before a shade and a plus between shades, as in 2 parts 8N + 1 part 8V or 20 g 8N + 10 g 8V"

func (r *reader) itemClaim(item *Item, claim source.Text) bool {
	if claim.Value == "" {
		return true
	}
	if item.Unit == Grams {
		r.errorf("formula/syntax", claim.Span, "the weight of %s stands there twice", item.Code.Value)
		r.help("keep one of the two")
		return false
	}
	m, ok := parsed(r, "formula/unit", claim, measure.ParseMass)
	item.Claim = m
	return ok
}

// additives reads "5 % of colour bond cream + 3 g drops".
func (r *reader) additives(texts []source.Text) []Additive {
	var out []Additive
	for _, t := range texts {
		for _, part := range t.Split("+") {
			if a, ok := r.additive(part); ok {
				out = append(out, a)
			}
		}
	}
	return out
}

func (r *reader) additive(t source.Text) (Additive, bool) {
	a := Additive{Span: t.Span}
	if dose, name, ok := t.Cut(" of colour "); ok {
		share, ok := parsed(r, "formula/unit", dose, measure.ParsePercent)
		if !ok {
			return a, false
		}
		a.Name, a.PerColour = name, share.Value
	} else {
		dose, name, found := t.Cut(" g ")
		if !found || name.Value == "" {
			r.errorf("formula/syntax", t.Span, "%q is not an additive with its dose", t.Value)
			r.help("write 5 %% of colour bond cream, or 3 g bond cream")
			return a, false
		}
		n, ok := parsed(r, "formula/unit", dose, measure.ParseNumber)
		if !ok {
			return a, false
		}
		a.Name, a.Mass = name, measure.Grams(n.Value)
	}
	if a.PerColour.IsZero() && a.Mass.IsZero() {
		r.errorf("formula/parts", t.Span, "nothing of %s", a.Name.Value)
		r.help("leave it out, or give it a dose")
		return a, false
	}
	return a, true
}

// developer reads "6 vol", "60 g of 6 vol", "20 vol (6 %)",
// "13 vol from 30 vol and 10 vol" or "none".
func (r *reader) developer(t source.Text) (Developer, bool) {
	d := Developer{Span: t.Span}
	if t.Value == "none" {
		d.None = true
		return d, true
	}
	body, pair := r.brackets(t)
	ok := true
	if pair.Value != "" {
		d.Pair, ok = parsed(r, "formula/developer", pair, peroxide.Parse)
	}
	if weight, strength, found := body.Cut(" of "); found {
		body = strength
		m, fine := parsed(r, "formula/unit", weight, measure.ParseMass)
		d.Weight, ok = m, ok && fine
		if fine && m.Value.IsZero() {
			r.errorf("formula/parts", weight.Span, "no developer at all")
			r.help("write developer: none for a colour used as it is")
			ok = false
		}
	}
	if wanted, stocks, found := body.Cut(" from "); found {
		body = wanted
		for _, s := range stocks.Split(" and ") {
			from, fine := parsed(r, "formula/developer", s, peroxide.Parse)
			d.From, ok = append(d.From, from), ok && fine
		}
		if len(d.From) != 2 {
			r.errorf("formula/developer", stocks.Span, "a developer is blended from two")
			r.help("write 13 vol from 30 vol and 10 vol")
			ok = false
		}
	}
	var fine bool
	d.Strength, fine = parsed(r, "formula/developer", body, peroxide.Parse)
	return d, ok && fine
}

// amount reads "30 g colour", "90 g mixed" or "by section"; bare says whether the
// word may be missing.
func (r *reader) amount(t source.Text, bare bool) (Amount, bool) {
	a := Amount{Span: t.Span}
	if t.Value == "by section" {
		a.BySection = true
		return a, true
	}
	weight, of := weightOf(t)
	body := weight
	switch {
	case strings.EqualFold(of.Value, "colour"):
	case strings.EqualFold(of.Value, "mixed"):
		a.Of = mix.OfMixed
	case of.Value == "" && bare:
		a.Bare = true
	default:
		if _, err := measure.ParseMass(weight.Value); err == nil {
			r.errorf("formula/amount", t.Span, "%s of what? a bowl's size is the weight of its colour or of everything in it", weight.Value)
			r.help("write %s colour or %s mixed", weight.Value, weight.Value)
			return a, false
		}
		body = t
	}
	m, ok := parsed(r, "formula/unit", body, measure.ParseMass)
	if ok && m.Value.IsZero() {
		r.errorf("formula/amount", body.Span, "an amount of nothing")
		r.help("write how much to mix, as in 30 g colour")
		ok = false
	}
	a.Mass = m
	return a, ok
}

// weightOf cuts an amount behind its unit: "30 g colour" into "30 g" and "colour".
func weightOf(t source.Text) (weight, of source.Text) {
	number, _ := measure.CutUnit(t.Value)
	at := len(number)
	at += len(t.Value[at:]) - len(strings.TrimLeft(t.Value[at:], " \t"))
	if i := strings.IndexAny(t.Value[at:], " \t"); i >= 0 {
		return t.Slice(0, at+i), t.Slice(at+i, len(t.Value)).Trim()
	}
	return t, t.Slice(len(t.Value), len(t.Value))
}

// time reads "15 min from last section" or "up to 45 min from first touch".
func (r *reader) time(t source.Text) (Time, bool) {
	out := Time{Span: t.Span}
	span, zero, found := t.Cut(" from ")
	if found {
		out.ZeroStated = true
		switch strings.TrimPrefix(zero.Value, "the ") {
		case "last section":
		case "first touch":
			out.Zero = FirstTouch
		default:
			r.errorf("formula/time", zero.Span, "%q is no moment a time can count from", zero.Value)
			r.help("write from last section (the end of application) or from first touch")
			return out, false
		}
	}
	v, ok := parsed(r, "formula/time", span, measure.ParseSpan)
	if ok && v.Value.Max == 0 {
		r.errorf("formula/time", span.Span, "no time at all")
		r.help("write how long it stays on, as in 15 min from last section")
		ok = false
	}
	out.Value = v.Value
	return out, ok
}

// ParseHair reads "8 lightened" or "6 natural, 30 % white". A level alone is
// natural hair.
func ParseHair(t source.Text) (source.Stated[Hair], []diag.Diagnostic) {
	r := &reader{}
	h, ok := r.hair(t)
	if !ok {
		return source.Stated[Hair]{}, r.found
	}
	return source.Stated[Hair]{Value: h, Span: t.Span}, nil
}

func (r *reader) hair(t source.Text) (Hair, bool) {
	h := Hair{State: hair.Natural}
	base, white, found := t.Cut(",")
	if found {
		share, ok := strings.CutSuffix(white.Value, " white")
		if !ok {
			r.errorf("formula/hair", white.Span, "%q is not a share of white hair", white.Value)
			r.help("write 6 natural, 30 %% white")
			return h, false
		}
		n, ok := parsed(r, "formula/hair", source.Text{Value: share, Span: white.Span}, measure.ParsePercent)
		if !ok {
			return h, false
		}
		if exact.One.Less(n.Value) {
			r.errorf("formula/hair", white.Span, "%s is more than all of it", white.Value)
			r.help("write a share of 100 %% or less")
			return h, false
		}
		h.White = n.Value
	}
	level, state, _ := base.Cut(" ")
	if state.Value != "" {
		s, ok := hair.ParseState(state.Value)
		if !ok {
			r.errorf("formula/hair", state.Span, "%q is not a state of hair", state.Value)
			r.help("write natural, coloured or lightened")
			return h, false
		}
		h.State = s
	}
	l, ok := r.level(level)
	if ok && l > shade.Lightest {
		r.errorf("formula/level", level.Span, "hair of level %d lies beyond the scale", l)
		r.help("hair runs from 1 (black) to 10 (lightest blonde)")
		return h, false
	}
	h.Level = l
	return h, ok
}

// level reads a whole level. How far a scale goes is the range's to say; none goes
// beyond 13.
func (r *reader) level(t source.Text) (shade.Level, bool) {
	const highest = 13
	n, err := strconv.Atoi(t.Value)
	if err != nil || n < int(shade.Darkest) || n > highest {
		r.errorf("formula/level", t.Span, "%q is not a level", t.Value)
		r.help("levels run from 1 (black) to 10 (lightest blonde)")
		return 0, false
	}
	return shade.Level(n), true
}

// target reads "8 cool", "6", "6, cover white" or "6 cool, cover white".
func (r *reader) target(t source.Text) (Target, bool) {
	level, tone, _ := t.Cut(" ")
	if number, comma := strings.CutSuffix(level.Value, ","); comma {
		level = level.Slice(0, len(number))
	}
	l, ok := r.level(level)
	if ok && l > shade.Lightest {
		r.errorf("formula/level", level.Span, "a target of %d lies beyond the scale", l)
		r.help("targets run from 1 (black) to 10 (lightest blonde)")
		return Target{}, false
	}
	out := Target{Level: l, Tone: tone.Value}
	for _, words := range []string{"cover white", "cover"} {
		if rest, covers := strings.CutSuffix(out.Tone, words); covers {
			out.Tone, out.Cover = strings.TrimRight(rest, ", "), true
		}
	}
	return out, ok
}

// claimedLevel reads a level that may lie between two: 5.5, or 17/3.
func claimedLevel(s string) (exact.Number, error) {
	n, err := measure.ParseNumber(s)
	if err != nil {
		return n, err
	}
	if n.IsZero() || exact.Int(13).Less(n) {
		return exact.Zero, fmt.Errorf("%q is not a level; levels run from 1 (black) to 10 (lightest blonde)", s)
	}
	return n, nil
}

// lastWord cuts the last word off a text.
func lastWord(t source.Text) (before, last source.Text) {
	i := strings.LastIndexAny(t.Value, " \t") + 1
	return t.Slice(0, i).Trim(), t.Slice(i, len(t.Value))
}
