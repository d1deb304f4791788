package question

import (
	"fmt"
	"slices"
	"strings"

	"plait/internal/diag"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

// Keys are the keys of a question block, in the order the handbook gives them.
var Keys = []string{
	"ask", "given", "find", "answer", "choose", "order", "pairs", "level", "place",
	"near", "tests", "because", "slips", "vary", "paper", "difficulty",
}

// Bounds of what one question may hold: far above what a learner can take in.
const (
	maxList = 12  // options, things to order, pairs
	maxAsk  = 600 // bytes of the question
)

const (
	ruleKind = "question/kind"
	ruleList = "question/list"
	ruleSlip = "question/slip"
)

// Read reads a question block: its name, and its body in YAML. It always answers; what
// could not be read is reported and marks the block broken.
func Read(name source.Text, body *source.Fragment) (*Block, []diag.Diagnostic) {
	node, faults := yamlpos.Parse(body)
	r := yamlpos.NewReader(faults...)
	b := &Block{Name: name, Span: blame(name, body), Hard: Middle}
	f := r.Fields(node, "a question block", Keys...)
	if t, ok := f.Need("ask"); ok {
		b.Ask = t
		if len(t.Value) > maxAsk {
			r.Report(diag.Errorf(ruleList, t.Span, "a question of %d bytes is too long to be one", len(t.Value)).
				WithHelp("ask in a sentence or two, and tell the rest in the text before it"))
		}
	}
	if f.Has("given") {
		b.readGiven(f, r)
	}
	b.readKind(f, r)
	b.Near, _ = f.Text("near")
	b.Tests, _ = f.Need("tests")
	b.Because, _ = f.Text("because")
	if f.Has("slips") {
		b.readSlips(f.Node("slips"), r)
	}
	if f.Has("vary") {
		b.Vary = b.readVary(f, "vary", r)
	}
	if f.Has("paper") {
		b.readPaper(f, r)
	}
	if t, ok := f.Text("difficulty"); ok {
		b.readDifficulty(t, r)
	}
	b.Broken = node == nil || diag.HasErrors(r.Diagnostics())
	return b, r.Diagnostics()
}

// blame is where a block as a whole is blamed: at its name, else at its fence.
func blame(name source.Text, body *source.Fragment) source.Span {
	if name.Value != "" {
		return name.Span
	}
	return body.Anchor()
}

func (b *Block) readGiven(f *yamlpos.Fields, r *yamlpos.Reader) {
	given := r.Fields(f.Node("given"), "`given`", GivenKeys...)
	var entries []Entry
	for _, key := range GivenKeys {
		if t, ok := given.Text(key); ok {
			entries = append(entries, Entry{Key: source.Text{Value: key, Span: given.KeySpan(key)}, Text: t})
		}
	}
	var found []diag.Diagnostic
	b.Given, found = NewGiven(entries)
	r.Report(found...)
}

// readKind reads the one key that says how the question is answered. An answer beside
// find is a claim and no second kind.
func (b *Block) readKind(f *yamlpos.Fields, r *yamlpos.Reader) {
	var there []string
	for _, k := range Kinds() {
		if f.Has(string(k)) && (k != Answer || !f.Has(string(Find))) {
			there = append(there, string(k))
		}
	}
	switch {
	case len(there) == 1:
		b.Kind = Kind(there[0])
	case !f.Span().Valid():
		return
	case len(there) == 0:
		r.Report(diag.Errorf(ruleKind, b.Span, "the question has no answer").
			WithHelp("say what is right with one of find, answer, choose, order, pairs, level, place"))
	default:
		r.Report(diag.Errorf(ruleKind, f.KeySpan(there[1]), "%s and %s are two ways to answer one question", there[0], there[1]).
			WithHelp("keep one of them, or ask two questions"))
	}
	b.Find, _ = f.Text("find")
	b.Answer, _ = f.Text("answer")
	b.Level, _ = f.Text("level")
	b.Place, _ = f.Text("place")
	if f.Has("choose") {
		b.readChoose(f.Node("choose"), r)
	}
	if f.Has("order") {
		b.Order = f.Texts("order")
		checkList(r, "order", b.Order, f.KeySpan("order"), 3)
	}
	if f.Has("pairs") {
		b.readPairs(f, r)
	}
}

// readChoose reads {right: …, wrong: […]}, or {of: strength, from: […]} where plait
// works out which is right.
func (b *Block) readChoose(node *yamlpos.Node, r *yamlpos.Reader) {
	f := r.Fields(node, "`choose`", "right", "wrong", "of", "from")
	if !f.Span().Valid() {
		return
	}
	add := func(key string, right bool) {
		for _, t := range f.Texts(key) {
			b.Choose.Options = append(b.Choose.Options, Option{Text: t, Right: right})
		}
	}
	computed := f.Has("of") || f.Has("from")
	if computed && (f.Has("right") || f.Has("wrong")) {
		r.Report(diag.Errorf(ruleKind, f.Span(), "this list says which is right and asks plait to work it out").
			WithHelp("keep right and wrong, or of and from"))
		return
	}
	if computed {
		b.Choose.Of, _ = f.Need("of")
		if f.Require("from") {
			add("from", false)
		}
	} else {
		if f.Require("right") {
			add("right", true)
		}
		if f.Require("wrong") {
			add("wrong", false)
		}
	}
	texts := make([]source.Text, len(b.Choose.Options))
	for i, o := range b.Choose.Options {
		texts[i] = o.Text
	}
	checkList(r, "choose", texts, f.Span(), 2)
}

func (b *Block) readPairs(f *yamlpos.Fields, r *yamlpos.Reader) {
	var left, right []source.Text
	for _, p := range f.Entries("pairs") {
		if t, ok := r.Text(p.Value, "`pairs`"); ok {
			b.Pairs = append(b.Pairs, Pair{Left: p.Key, Right: t})
			left, right = append(left, p.Key), append(right, t)
		}
	}
	checkList(r, "pairs", left, f.KeySpan("pairs"), 2)
	checkList(r, "pairs", right, f.KeySpan("pairs"), 2)
}

// checkList reports a list with too few or too many things, or one thing twice.
func checkList(r *yamlpos.Reader, key string, texts []source.Text, at source.Span, least int) {
	fail := func(at source.Span, help, format string, args ...any) {
		r.Report(diag.Errorf(ruleList, at, format, args...).WithHelp("%s", help))
	}
	switch {
	case len(texts) < least:
		fail(at, fmt.Sprintf("write at least %d", least), "%s with %d is no question", key, len(texts))
		return
	case len(texts) > maxList:
		fail(at, fmt.Sprintf("write at most %d", maxList), "%s with %d is more than a learner can weigh up", key, len(texts))
		return
	}
	for i, t := range texts {
		first := slices.IndexFunc(texts, func(o source.Text) bool { return strings.EqualFold(o.Value, t.Value) })
		if first < i {
			fail(t.Span, "write each once", "%q stands there twice", t.Value)
		}
	}
}

// readSlips reads a list of named slips, or a map from a slip or a wrong answer to what
// to say about it.
func (b *Block) readSlips(node *yamlpos.Node, r *yamlpos.Reader) {
	if node == nil {
		return
	}
	if node.Kind == yamlpos.Map {
		for _, p := range r.Entries(node, "`slips`") {
			s := Slip{Wrong: p.Key, Named: namedSlip(p.Key.Value)}
			if s.Named == "" || p.Value == nil || p.Value.Kind != yamlpos.Null {
				s.Say, _ = r.Text(p.Value, "what to say about a slip")
			}
			b.Slips = append(b.Slips, s)
		}
	} else {
		for _, t := range r.Texts(node, "`slips`") {
			s := Slip{Wrong: t, Named: namedSlip(t.Value)}
			if s.Named == "" {
				reportSlip(r, t)
				continue
			}
			b.Slips = append(b.Slips, s)
		}
	}
	if len(b.Slips) > maxList {
		r.Report(diag.Errorf(ruleSlip, node.Span, "%d slips are more than can tempt anyone", len(b.Slips)).
			WithHelp("keep the %d likeliest at most", maxList))
	}
}

func namedSlip(s string) NamedSlip {
	if slices.Contains(NamedSlips(), NamedSlip(s)) {
		return NamedSlip(s)
	}
	return ""
}

// reportSlip reports a slip in a list that has neither a name nor words.
func reportSlip(r *yamlpos.Reader, t source.Text) {
	words := make([]string, len(NamedSlips()))
	for i, s := range NamedSlips() {
		words[i] = string(s)
	}
	help := "the named slips are: " + strings.Join(words, ", ") + "; for any other write a map, slips: {26 g: what to say}"
	if near := diag.DidYouMean(t.Value, words); near != "" {
		help = fmt.Sprintf("did you mean %q? %s", near, help)
	}
	r.Report(diag.Errorf(ruleSlip, t.Span, "nothing says what to tell who answers %q", t.Value).WithHelp("%s", help))
}

func (b *Block) readDifficulty(t source.Text, r *yamlpos.Reader) {
	switch d := Difficulty(t.Value); d {
	case Easy, Middle, Hard:
		b.Hard = d
	default:
		r.Report(diag.Errorf(ruleKind, t.Span, "%q is no difficulty", t.Value).WithHelp("write easy, middle or hard"))
	}
}

// ReadPractical reads a practical block.
func ReadPractical(name source.Text, body *source.Fragment) (*Practical, []diag.Diagnostic) {
	node, faults := yamlpos.Parse(body)
	r := yamlpos.NewReader(faults...)
	p := &Practical{Name: name, Span: blame(name, body)}
	f := r.Fields(node, "a practical block", "tests", "show")
	p.Tests, _ = f.Need("tests")
	if f.Require("show") {
		p.Show = f.Texts("show")
	}
	if len(p.Show) > 2*maxList {
		r.Report(diag.Errorf(ruleList, f.KeySpan("show"), "a checklist of %d is too long to tick while somebody works", len(p.Show)).
			WithHelp("split it into two practicals"))
	}
	p.Broken = node == nil || diag.HasErrors(r.Diagnostics())
	return p, r.Diagnostics()
}
