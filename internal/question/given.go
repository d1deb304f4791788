package question

import (
	"errors"
	"strconv"
	"strings"
	"time"

	"plait/internal/answer"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/formula"
	"plait/internal/measure"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/internal/source"
)

// GivenKeys are what a question can start from, in the order the handbook gives them.
var GivenKeys = []string{
	"formula", "bowl", "colour", "mixed", "developer", "ratio", "strength", "strong", "weak",
	"hair", "target", "level", "shade", "apply", "time", "at", "heads", "waste", "pack",
}

// Given is what a question starts from. A bowl is a formula of the lesson or a short
// form; the values beside it take the place of its own.
type Given struct {
	Entries []Entry // as typed, in their order

	Formula source.Text    // a formula of the lesson
	Bowl    *formula.Block // a bowl in the short form

	Colour    source.Stated[measure.Mass]
	Mixed     source.Stated[measure.Mass]
	Developer source.Stated[measure.Mass]      // its weight
	Bottle    source.Stated[peroxide.Strength] // its strength
	Ratio     source.Stated[measure.Ratio]
	Strength  source.Stated[peroxide.Strength] // in the bowl, or one to convert or to blend
	Strong    source.Stated[peroxide.Strength] // two developers to blend
	Weak      source.Stated[peroxide.Strength]

	Hair   source.Stated[formula.Hair]
	Target source.Stated[shade.Level]
	Level  source.Stated[shade.Level]
	Shade  source.Text // a code of the range

	Apply source.Stated[time.Duration] // how long the application takes
	Time  source.Stated[time.Duration] // how long it stays on
	At    source.Stated[time.Duration] // the time of day, since midnight

	Heads source.Stated[int]
	Waste source.Stated[exact.Number] // a fraction of one
	Pack  source.Stated[measure.Mass]
}

// Entry is one key of given with its text.
type Entry struct{ Key, Text source.Text }

// NewGiven reads the values of given from their texts.
func NewGiven(entries []Entry) (Given, []diag.Diagnostic) {
	g := Given{Entries: entries}
	r := &givenReader{}
	for _, e := range entries {
		g.read(r, e)
	}
	if g.Formula.Value != "" && g.Bowl != nil {
		r.fault(g.Bowl.Span, "keep one of the two", "a formula and a bowl, and a question starts from one")
	}
	return g, r.found
}

// With returns what is given with other texts for some keys.
func (g *Given) With(texts map[string]source.Text) (Given, []diag.Diagnostic) {
	entries := make([]Entry, len(g.Entries))
	for i, e := range g.Entries {
		if t, ok := texts[e.Key.Value]; ok {
			e.Text = t
		}
		entries[i] = e
	}
	return NewGiven(entries)
}

// Entry returns what was typed for a key.
func (g *Given) Entry(key string) (source.Text, bool) {
	for _, e := range g.Entries {
		if e.Key.Value == key {
			return e.Text, true
		}
	}
	return source.Text{}, false
}

const ruleGiven = "question/given"

type givenReader struct{ found []diag.Diagnostic }

func (r *givenReader) fault(at source.Span, help, format string, args ...any) {
	r.found = append(r.found, diag.Errorf(ruleGiven, at, format, args...).WithHelp("%s", help))
}

// stated reads a value by one of the parsers of the trade, whose errors say what to
// write.
func stated[T any](r *givenReader, t source.Text, parse func(string) (T, error)) source.Stated[T] {
	v, err := parse(t.Value)
	if err != nil {
		r.found = append(r.found, diag.FromError(ruleGiven, t.Span, err))
		return source.Stated[T]{}
	}
	return source.Stated[T]{Value: v, Span: t.Span}
}

func (g *Given) read(r *givenReader, e Entry) {
	t := e.Text
	switch e.Key.Value {
	case "formula":
		g.Formula = t
	case "bowl":
		block, found := formula.ParseLine(t)
		r.found = append(r.found, found...)
		g.Bowl = block
	case "colour":
		g.Colour = r.weight(t)
	case "mixed":
		g.Mixed = r.weight(t)
	case "pack":
		g.Pack = r.weight(t)
	case "developer":
		g.readDeveloper(r, t)
	case "ratio":
		g.Ratio = stated(r, t, measure.ParseRatio)
	case "strength":
		g.Strength = stated(r, t, peroxide.Parse)
	case "strong":
		g.Strong = stated(r, t, peroxide.Parse)
	case "weak":
		g.Weak = stated(r, t, peroxide.Parse)
	case "shade":
		g.Shade = t
	case "apply":
		g.Apply = r.duration(t)
	case "time":
		g.Time = r.duration(t)
	case "at":
		g.At = stated(r, t, moment)
	case "waste":
		g.Waste = stated(r, t, measure.ParsePercent)
	default:
		g.readHead(r, e.Key.Value, t)
	}
}

// readHead reads what is given of hair and of heads.
func (g *Given) readHead(r *givenReader, key string, t source.Text) {
	switch key {
	case "hair":
		hair, found := formula.ParseHair(t)
		r.found = append(r.found, found...)
		g.Hair = hair
	case "target":
		g.Target = r.level(t)
	case "level":
		g.Level = r.level(t)
	case "heads":
		n, err := strconv.Atoi(t.Value)
		if err != nil || n < 1 || n > 10_000 {
			r.fault(t.Span, "write how many heads, as in 12", "%q is no number of heads", t.Value)
			return
		}
		g.Heads = source.Stated[int]{Value: n, Span: t.Span}
	}
}

// readDeveloper reads the weight of a developer, its strength, or both: "60 g",
// "20 vol", "60 g of 20 vol".
func (g *Given) readDeveloper(r *givenReader, t source.Text) {
	weight, strength, both := t.Cut(" of ")
	if both {
		g.Developer = r.weight(weight)
		g.Bottle = stated(r, strength, peroxide.Parse)
		return
	}
	if m, err := measure.ParseMass(t.Value); err == nil && !m.IsZero() {
		g.Developer = source.Stated[measure.Mass]{Value: m, Span: t.Span}
		return
	}
	g.Bottle = stated(r, t, peroxide.Parse)
}

func (r *givenReader) weight(t source.Text) source.Stated[measure.Mass] {
	m := stated(r, t, measure.ParseMass)
	if m.Set() && m.Value.IsZero() {
		r.fault(t.Span, "write a weight, as in 30 g", "a weight of nothing")
		return source.Stated[measure.Mass]{}
	}
	return m
}

func (r *givenReader) duration(t source.Text) source.Stated[time.Duration] {
	span := stated(r, t, measure.ParseSpan)
	if span.Set() && span.Value.Min != span.Value.Max {
		r.fault(t.Span, "write one time, as in "+measure.Minutes(span.Value.Max), "%s is a span, and one time is wanted", span.Value)
		return source.Stated[time.Duration]{}
	}
	return source.Stated[time.Duration]{Value: span.Value.Max, Span: span.Span}
}

// moment reads a time of day.
func moment(s string) (time.Duration, error) {
	v, err := answer.Parse(s, answer.Moment)
	if errors.Is(err, answer.ErrEmpty) {
		return 0, errors.New("no time is given; write a time of day, such as 10:52")
	}
	if err != nil {
		return 0, err
	}
	minutes, _ := v.Number.Int64()
	return time.Duration(minutes) * time.Minute, nil
}

func (r *givenReader) level(t source.Text) source.Stated[shade.Level] {
	n, err := strconv.Atoi(strings.TrimSpace(t.Value))
	if err != nil || n < int(shade.Darkest) || n > int(shade.Lightest) {
		r.fault(t.Span, "levels run from 1 (black) to 10 (lightest blonde)", "%q is not a level", t.Value)
		return source.Stated[shade.Level]{}
	}
	return source.Stated[shade.Level]{Value: shade.Level(n), Span: t.Span}
}
