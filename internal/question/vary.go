package question

import (
	"strings"

	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

// MaxVariants is how many practice variants one question may have.
const MaxVariants = 60

const ruleVary = "question/vary"

// readPaper reads what is kept for papers: `yes` for the whole question, or figures as
// in vary.
func (b *Block) readPaper(f *yamlpos.Fields, r *yamlpos.Reader) {
	b.Paper.Span = f.KeySpan("paper")
	if n := f.Node("paper"); n != nil && n.Kind == yamlpos.Map {
		b.Paper.Vary = b.readVary(f, "paper", r)
		return
	}
	b.Paper.Alone, _ = f.Flag("paper")
}

// readVary reads the values that keys of given take: "30 g to 90 g by 15 g", or a list.
func (b *Block) readVary(f *yamlpos.Fields, key string, r *yamlpos.Reader) []Vary {
	var list []Vary
	many := 1
	for _, p := range f.Entries(key) {
		fail := func(at source.Span, help, format string, args ...any) {
			r.Report(diag.Errorf(ruleVary, at, format, args...).WithHelp("%s", help))
		}
		if _, given := b.Given.Entry(p.Key.Value); !given {
			fail(p.Key.Span, "vary a key that stands in given", "%q is not given, so it cannot vary", p.Key.Value)
			continue
		}
		v := Vary{Key: p.Key}
		if p.Value != nil && p.Value.Kind == yamlpos.List {
			v.Values = r.Texts(p.Value, "`"+key+"`")
		} else if t, ok := r.Text(p.Value, "`"+key+"`"); ok {
			v.Values = steps(t, fail)
		}
		many *= max(len(v.Values), 1)
		list = append(list, v)
	}
	if many > MaxVariants {
		r.Report(diag.Errorf(ruleVary, f.KeySpan(key), "%d variants are more than the %d a question may have", many, MaxVariants).
			WithHelp("take longer steps, or vary fewer keys"))
		return nil
	}
	return list
}

// steps counts "30 g to 90 g by 15 g" out into its values. All stand at the place of
// the text.
func steps(t source.Text, fail func(at source.Span, help, format string, args ...any)) []source.Text {
	const help = "write a first value, a last and a step, as in 30 g to 90 g by 15 g, or a list in brackets"
	ends, by, stepped := t.Cut(" by ")
	from, to, ranged := ends.Cut(" to ")
	if !stepped || !ranged {
		fail(t.Span, help, "%q does not say which values to take", t.Value)
		return nil
	}
	first, unit, ok1 := counted(from.Value)
	last, unit2, ok2 := counted(to.Value)
	step, unit3, ok3 := counted(by.Value)
	switch {
	case !ok1 || !ok2 || !ok3:
		fail(t.Span, help, "%q does not count from a number to a number", t.Value)
		return nil
	case unit != unit2 || unit != unit3:
		fail(t.Span, help, "%q counts in different units", t.Value)
		return nil
	case step.Sign() <= 0 || last.Less(first):
		fail(t.Span, help, "%q counts to nowhere", t.Value)
		return nil
	case exact.Int(MaxVariants).Less(last.Sub(first).Quo(step)):
		fail(t.Span, "take longer steps", "%q are more values than the %d a question may have", t.Value, MaxVariants)
		return nil
	}
	var out []source.Text
	for n := first; !last.Less(n); n = n.Add(step) {
		out = append(out, source.Text{Value: strings.TrimSpace(n.Decimal(6) + " " + unit), Span: t.Span})
	}
	return out
}

// counted reads a number with a unit that stands for itself.
func counted(s string) (n exact.Number, unit string, ok bool) {
	number, unit := measure.CutUnit(s)
	n, err := measure.ParseNumber(number)
	return n, unit, err == nil
}
