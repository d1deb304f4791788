package formula

import (
	"regexp"
	"strings"
	"sync"

	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/internal/source"
)

// ParseLine reads the short form of a bowl: the colour, the developer with its
// ratio, the amount, with commas between them,
//
//	2 parts 6N + 1 part 7B, 10 vol at 1:1.5, 45 g
//
// and optionally a kind of colour, a time and what is added to it, as in "add 5 % of
// colour bond cream". An amount without a word is the weight of the colour.
func ParseLine(t source.Text) (*Block, []diag.Diagnostic) {
	b, r := &Block{Span: t.Span}, &reader{}
	r.decimalCommas(t)
	clauses := t.Split(",")
	if len(r.found) == 0 {
		b.Colour = r.colour(clauses[0])
	}
	// Behind a fault nothing is read: what follows is often not what it seems.
	if len(r.found) == 0 {
		for _, c := range clauses[1:] {
			r.clause(b, c)
			if len(r.found) > 0 {
				break
			}
		}
	}
	switch {
	case len(r.found) > 0:
	case !b.Developer.Span.Valid():
		r.errorf("formula/developer", t.Span, "this bowl has no developer")
		r.help("say the strength and the ratio, as in: %s, 20 vol at 1:1.5, 45 g\nor, for colour used as it is: %s, no developer, 45 g", clauses[0].Value, clauses[0].Value)
	case !b.Amount.Span.Valid() && b.Colour[0].Unit != Grams:
		r.errorf("formula/amount", t.Span, "this bowl has no size")
		r.help("say how much colour, as in: %s, 45 g", t.Value)
	}
	b.Broken = len(r.found) > 0
	return b, r.found
}

// decimalCommas refuses a comma between two digits. It may stand for the decimal
// point or separate two values, and nothing tells which.
func (r *reader) decimalCommas(t source.Text) {
	for i := 1; i+1 < len(t.Value); i++ {
		if t.Value[i] == ',' && isDigit(t.Value[i-1]) && isDigit(t.Value[i+1]) {
			start := len(strings.TrimRight(t.Value[:i], "0123456789."))
			end := len(t.Value) - len(strings.TrimLeft(t.Value[i+1:], "0123456789."))
			number := t.Slice(start, end)
			r.errorf("formula/syntax", number.Span, "the comma in %q can be read in two ways", number.Value)
			r.help("write %s for one number, %s for two things", strings.Replace(number.Value, ",", ".", 1), strings.Replace(number.Value, ",", ", ", 1))
			return
		}
	}
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// clause reads one of the parts behind the colour; each is known by its form, in
// small letters or capitals.
func (r *reader) clause(b *Block, t source.Text) {
	word := strings.ToLower(t.Value)
	_, isKind := shade.ParseKind(word)
	switch {
	case word == "":
		r.errorf("formula/syntax", t.Span, "nothing stands behind this comma")
		r.help("take the comma away, or say what belongs there")
	case isKind:
		if r.once(b.Kind.Set(), t, "kind of colour") {
			b.Kind, _ = r.kind(source.Text{Value: word, Span: t.Span})
		}
	case strings.HasPrefix(word, "add "):
		if r.once(len(b.Additives) > 0, t, "addition") {
			b.Additives = r.additives([]source.Text{t.Slice(len("add "), len(t.Value)).Trim()})
		}
	case word == "no developer" || word == "none":
		if r.once(b.Developer.Span.Valid(), t, "developer") {
			b.Developer = Developer{None: true, Span: t.Span}
		}
	case strings.Contains(word, ":") || strings.Contains(word, " at ") || isStrength(word):
		r.strengthAndRatio(b, t)
	case strings.Contains(word, "min"):
		if r.once(b.Time.Set(), t, "time") {
			b.Time, _ = r.time(t)
		}
	default:
		if r.once(b.Amount.Span.Valid(), t, "amount") {
			r.lineAmount(b, t)
		}
	}
}

// lineAmount reads the size of the bowl, which may be a shade behind a comma.
func (r *reader) lineAmount(b *Block, t source.Text) {
	amount, ok := r.amount(t, true)
	b.Amount = amount
	_, last := lastWord(t)
	if _, tone := measure.CutUnit(last.Value); !ok && tone != "" && shade.LooksLikeCode(last.Value) {
		r.help("write a size as in 45 g, and a plus between shades, as in 2 parts 6N + 1 part 7B")
	}
}

// once reports a value that was there before and returns whether it was not.
func (r *reader) once(before bool, t source.Text, what string) bool {
	if before {
		r.errorf("formula/syntax", t.Span, "a second %s: %s", what, t.Value)
		r.help("keep one of the two; between shades stands a plus, as in 2 parts 6N + 1 part 7B")
	}
	return !before
}

func isStrength(s string) bool {
	_, err := peroxide.Parse(s)
	return err == nil || strings.Contains(s, "vol")
}

// strengthAndRatio reads "10 vol at 1:1.5", "10 vol 1:1.5" or one of the two alone.
func (r *reader) strengthAndRatio(b *Block, t source.Text) {
	strength, ratio := cutRatio(t)
	if strength.Value != "" && r.once(b.Developer.Span.Valid(), strength, "developer") {
		b.Developer, _ = r.developer(strength)
	}
	if ratio.Value != "" && r.once(b.Ratio.Set(), ratio, "ratio") {
		b.Ratio, _ = parsed(r, "formula/ratio", ratio, measure.ParseRatio)
	}
}

// atWord is the word between a strength and a ratio.
var atWord = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(?i)(^|[ \t])at[ \t]`) })

// cutRatio cuts a text before its ratio: at the word "at", else before the number
// in front of the colon.
func cutRatio(t source.Text) (before, ratio source.Text) {
	if at := atWord().FindStringIndex(t.Value); at != nil {
		return t.Slice(0, at[0]).Trim(), t.Slice(at[1], len(t.Value)).Trim()
	}
	colon := strings.IndexByte(t.Value, ':')
	if colon < 0 {
		return t, t.Slice(len(t.Value), len(t.Value))
	}
	number := strings.TrimRight(t.Value[:colon], " \t")
	start := len(strings.TrimRight(number, "0123456789./-"))
	return t.Slice(0, start).Trim(), t.Slice(start, len(t.Value)).Trim()
}

// Short prints the bowl in the short form, as far as it was typed; [ParseLine]
// reads it back.
func (b *Block) Short() string {
	clauses := []string{b.ShortColour()}
	if len(b.Additives) > 0 {
		clauses = append(clauses, "add "+b.shortAdditives())
	}
	if d := b.ShortDeveloper(); d != "" {
		clauses = append(clauses, d)
	}
	if b.Amount.Mass.Set() {
		of := " colour"
		if b.Amount.Of != 0 {
			of = " mixed"
		}
		clauses = append(clauses, grams(b.Amount.Mass.Value)+of)
	}
	return strings.Join(clauses, ", ")
}

// ShortColour prints the colour as it was dosed, "2 parts 8N + 1 part 8V".
func (b *Block) ShortColour() string {
	items := make([]string, len(b.Colour))
	for i, it := range b.Colour {
		items[i] = it.dose() + " " + it.Code.Value
		if it.Range.Value != "" {
			items[i] += " of " + it.Range.Value
		}
	}
	return strings.Join(items, " + ")
}

// shortAdditives prints what is added as it was dosed, "5 % of colour bond cream".
func (b *Block) shortAdditives() string {
	items := make([]string, len(b.Additives))
	for i, a := range b.Additives {
		dose := grams(a.Mass)
		if a.Mass.IsZero() {
			dose = number(a.PerColour.Mul(exact.Int(100))) + " % of colour"
		}
		items[i] = dose + " " + a.Name.Value
	}
	return strings.Join(items, " + ")
}

func (it Item) dose() string {
	n := number(it.Value)
	switch {
	case it.Unit == Grams:
		return n + " g"
	case it.Unit == Percent:
		return n + " %"
	case n == "1":
		return "1 part"
	}
	return n + " parts"
}

func grams(m measure.Mass) string { return number(m.Grams()) + " g" }

// number prints a number as it can be typed: as a decimal where that ends within
// the places that are read, else as a fraction.
func number(n exact.Number) string {
	if n.Mul(exact.Int(1_000_000)).IsInt() {
		return n.Decimal(6)
	}
	return n.String()
}

// ShortDeveloper prints the developer and the ratio typed with it, "6 vol at 1:2".
func (b *Block) ShortDeveloper() string {
	d := b.Developer
	if d.None {
		return "no developer"
	}
	if !d.Strength.Set() {
		return ""
	}
	out := shortStrength(d.Strength)
	if len(d.From) == 2 {
		out += " from " + shortStrength(d.From[0]) + " and " + shortStrength(d.From[1])
	}
	if d.Weight.Set() {
		out = grams(d.Weight.Value) + " of " + out
	}
	if b.Ratio.Set() {
		out += " at " + number(b.Ratio.Value.Colour) + ":" + number(b.Ratio.Value.Developer)
	}
	return out
}

// shortStrength prints a strength in the unit it was typed in.
func shortStrength(s source.Stated[peroxide.Strength]) string {
	if strings.Contains(s.Span.Text(), "%") {
		return number(s.Value.Percent()) + " %"
	}
	return number(s.Value.Volumes()) + " vol"
}
