package formula

import (
	"plait/internal/diag"
	"plait/internal/measure"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

// Keys are the keys of a formula block, in the order the handbook gives them.
var Keys = []string{
	"on", "kind", "range", "colour", "add", "developer", "ratio", "amount", "apply", "start", "time", "hair", "target",
	"mixed", "strength", "level",
}

// Read reads a formula block: its name, and its body in YAML. It always answers;
// what could not be read is reported and marks the block broken.
func Read(name source.Text, body *source.Fragment) (*Block, []diag.Diagnostic) {
	node, faults := yamlpos.Parse(body)
	y := yamlpos.NewReader(faults...)
	b := &Block{Name: name, Span: body.Anchor()}
	if name.Value != "" {
		b.Span = name.Span
	}
	f := y.Fields(node, "a formula block", Keys...)
	r := &reader{}
	b.readWhere(f, r)
	b.readColour(f, r)
	b.readDeveloper(f, r)
	b.readService(f, r)
	b.readClaims(f, r)
	y.Report(r.found...)
	b.Broken = b.Broken || node == nil || diag.HasErrors(y.Diagnostics())
	return b, y.Diagnostics()
}

func (b *Block) readWhere(f *yamlpos.Fields, r *reader) {
	if f.Has("on") {
		b.On = f.Texts("on")
		b.Sections = unquoted(f)
	}
	if t, ok := f.Need("kind"); ok {
		b.Kind, _ = r.kind(t)
	}
	b.Range, _ = f.Text("range")
}

func (r *reader) kind(t source.Text) (source.Stated[shade.Kind], bool) {
	k, ok := shade.ParseKind(t.Value)
	if !ok {
		r.errorf("formula/kind", t.Span, "%q is not a kind of colour", t.Value)
		r.help("%s", oneOf(t.Value, shade.Kinds()))
		return source.Stated[shade.Kind]{}, false
	}
	return source.Stated[shade.Kind]{Value: k, Span: t.Span}, true
}

func oneOf(word string, kinds []shade.Kind) string {
	names, list := make([]string, len(kinds)), ""
	for i, k := range kinds {
		names[i] = string(k)
		if i > 0 {
			list += ", "
		}
		list += names[i]
	}
	if near := diag.DidYouMean(word, names); near != "" {
		return "did you mean " + near + "? the kinds are: " + list
	}
	return "the kinds are: " + list
}

func (b *Block) readColour(f *yamlpos.Fields, r *reader) {
	if !f.Has("colour") {
		if f.Span().Valid() {
			r.errorf("formula/no-shade", b.Span, "a formula needs at least one shade")
			r.help("add a line such as colour: 2 parts 8N + 1 part 8V")
		}
	} else if t, ok := f.Text("colour"); ok {
		b.Colour = r.colour(t)
	}
	if f.Has("add") {
		b.Additives = r.additives(f.Texts("add"))
	}
	if t, ok := f.Text("amount"); ok {
		b.Amount, _ = r.amount(t, false)
	}
}

func (b *Block) readDeveloper(f *yamlpos.Fields, r *reader) {
	if t, ok := f.Need("developer"); ok {
		b.Developer, _ = r.developer(t)
	}
	if t, ok := f.Text("ratio"); ok {
		b.Ratio, _ = parsed(r, "formula/ratio", t, measure.ParseRatio)
	}
}

func (b *Block) readService(f *yamlpos.Fields, r *reader) {
	b.readApplication(f, r)
	if t, ok := f.Text("start"); ok {
		b.Start, _ = r.start(t)
	}
	if t, ok := f.Text("time"); ok {
		b.Time, _ = r.time(t)
		if !b.Time.ZeroStated && b.Kind.Value == shade.Lightener {
			b.Time.Zero = FirstTouch
		}
	}
	if t, ok := f.Text("hair"); ok {
		if h, fine := r.hair(t); fine {
			b.Hair = source.Stated[Hair]{Value: h, Span: t.Span}
		}
	}
	if t, ok := f.Text("target"); ok {
		if v, fine := r.target(t); fine {
			b.Target = source.Stated[Target]{Value: v, Span: t.Span}
		}
	}
}

func (b *Block) readClaims(f *yamlpos.Fields, r *reader) {
	if t, ok := f.Text("mixed"); ok {
		b.Mixed, _ = parsed(r, "formula/unit", t, measure.ParseMass)
	}
	if t, ok := f.Text("strength"); ok {
		b.Strength, _ = parsed(r, "formula/developer", t, peroxide.Parse)
	}
	if t, ok := f.Text("level"); ok {
		b.Level, _ = parsed(r, "formula/level", t, claimedLevel)
	}
}

// unquoted returns the places of `on` that stand without quotes.
func unquoted(f *yamlpos.Fields) []source.Text {
	var plain []source.Text
	n := f.Node("on")
	if n == nil {
		return nil
	}
	for _, item := range append(n.Items, n) {
		if item != nil && item.Kind == yamlpos.Scalar && !item.Quoted {
			plain = append(plain, item.Value)
		}
	}
	return plain
}
