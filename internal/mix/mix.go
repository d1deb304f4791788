// Package mix turns a formula into what stands on the scale.
//
// A [Formula] is what has been decided: shades in proportion, additives, developers,
// the ratio and one weight to fix the size. [Compute] answers with a [Bowl]: every
// weight exactly, every weight as the course's scale can show it with parts that
// still add up, the strength in the bowl and the level the colour reads. Nothing
// is rounded before that. The package knows no files and no words of an author;
// what is impossible comes back as an error for the caller to place.
package mix

import (
	"errors"
	"slices"

	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/peroxide"
	"plait/internal/shade"
)

// Formula is one bowl before it is weighed.
type Formula struct {
	Shades     []Shade
	Additives  []Additive
	Developers []Developer   // empty: the colour is used as it is
	Ratio      measure.Ratio // colour to developer; zero where there is no developer
	Size       measure.Mass
	SizeOf     Size
}

// Shade is one colour of a formula and its share of the colour, in parts, grams
// or per cent: only the proportion among the shades counts.
type Shade struct {
	Code  shade.Code
	Share exact.Number
}

// Additive is something dosed beside colour and developer. Where PerColour is set
// it is a share of the colour's weight, else Mass is its weight at the formula's
// own size; it keeps its proportion when the bowl is made larger or smaller.
type Additive struct {
	Name      string
	PerColour exact.Number
	Mass      measure.Mass
}

// Developer is one developer of a formula and its share of the developer. One with
// a share of nothing, as a blend can leave it, is not weighed.
type Developer struct {
	Strength peroxide.Strength
	Share    exact.Number
}

// Size says what the weight of a formula is the weight of.
type Size uint8

// A formula's size is the weight of its colour, or of everything in the bowl.
const (
	OfColour Size = iota
	OfMixed
)

// Role says what a part of a bowl is.
type Role uint8

// The roles, in the order they go into the bowl.
const (
	ColourRole Role = iota
	AdditiveRole
	DeveloperRole
)

// String returns the role's name: colour, additive or developer.
func (r Role) String() string {
	return [...]string{ColourRole: "colour", AdditiveRole: "additive", DeveloperRole: "developer"}[r]
}

// Part is one thing to weigh.
type Part struct {
	Role     Role
	Name     string            // shade code or additive name; "" for a developer
	Shade    shade.Code        // of a colour
	Strength peroxide.Strength // of a developer
	Exact    measure.Mass
	Weighed  measure.Mass // on the scale; parts add up to the weighed total
}

// Bowl is a computed formula.
type Bowl struct {
	Parts     []Part
	Step      measure.Mass // what the scale can show
	Colour    measure.Mass
	Additives measure.Mass
	Developer measure.Mass
	Mixed     measure.Mass
	Ratio     measure.Ratio     // as wanted; zero without developer
	Weighed   measure.Ratio     // of the weights on the scale
	Bottle    peroxide.Strength // of the developer, blended where there are several
	Strength  peroxide.Strength // of everything in the bowl
	Level     shade.Reading     // valid where HasLevel
	HasLevel  bool
}

// Errors of [Compute]. A caller that reads text reports them where they arise and
// never gets this far.
var (
	ErrNoShade   = errors.New("a formula needs at least one shade")
	ErrShare     = errors.New("every part must be more than nothing")
	ErrSize      = errors.New("the amount must be more than nothing")
	ErrNoRatio   = errors.New("a developer needs a ratio")
	ErrAdditives = errors.New("the additives alone weigh more than the whole bowl")
	ErrScale     = errors.New("the scale step must be more than nothing")
)

// Compute weighs a formula on a scale that shows multiples of step.
func Compute(f Formula, step measure.Mass) (Bowl, error) {
	if err := f.validate(step); err != nil {
		return Bowl{}, err
	}
	b := Bowl{Step: step, Colour: f.colour()}
	if b.Colour.Grams().Sign() <= 0 {
		return Bowl{}, ErrAdditives
	}
	b.Parts = make([]Part, 0, len(f.Shades)+len(f.Additives)+len(f.Developers))
	b.addShades(f.Shades)
	b.addAdditives(f.Additives)
	b.addDevelopers(f.Developers, f.Ratio)
	b.Mixed = measure.Total(b.Colour, b.Additives, b.Developer)
	if !b.Developer.IsZero() {
		b.Strength = peroxide.Mixed(
			peroxide.Amount{Mass: b.Developer, Strength: b.Bottle},
			peroxide.Amount{Mass: b.Mixed.Sub(b.Developer)},
		)
	}
	b.weigh()
	return b, nil
}

func (f Formula) validate(step measure.Mass) error {
	switch {
	case step.Grams().Sign() <= 0:
		return ErrScale
	case len(f.Shades) == 0:
		return ErrNoShade
	case f.Size.Grams().Sign() <= 0:
		return ErrSize
	case len(f.Developers) > 0 && (f.Ratio.Colour.Sign() <= 0 || f.Ratio.Developer.Sign() <= 0):
		return ErrNoRatio
	}
	for _, s := range f.Shades {
		if s.Share.Sign() <= 0 {
			return ErrShare
		}
	}
	for _, a := range f.Additives {
		if a.PerColour.Sign() < 0 || a.Mass.Grams().Sign() < 0 || a.PerColour.IsZero() && a.Mass.IsZero() {
			return ErrShare
		}
	}
	return f.validateDevelopers()
}

func (f Formula) validateDevelopers() error {
	nothing := len(f.Developers) > 0
	for _, d := range f.Developers {
		if d.Share.Sign() < 0 {
			return ErrShare
		}
		nothing = nothing && d.Share.IsZero()
	}
	if nothing {
		return ErrShare
	}
	return nil
}

// colour returns the weight of the colour. Of a bowl of mass m at 1:r with
// additives of share a of the colour and w grams beside it, the colour is
//
//	(m − w) ÷ (1 + r + a).
func (f Formula) colour() measure.Mass {
	if f.SizeOf == OfColour {
		return f.Size
	}
	perColour := exact.One
	if len(f.Developers) > 0 {
		perColour = perColour.Add(f.Ratio.PerColour())
	}
	rest := f.Size
	for _, a := range f.Additives {
		perColour = perColour.Add(a.PerColour)
		rest = rest.Sub(a.Mass)
	}
	return rest.Times(exact.One.Quo(perColour))
}

func (b *Bowl) addShades(shades []Shade) {
	weights := make([]exact.Number, len(shades))
	levels := make([]shade.Level, len(shades))
	total := exact.Zero
	for i, s := range shades {
		weights[i], levels[i] = s.Share, s.Code.Level
		total = total.Add(s.Share)
	}
	for _, s := range shades {
		b.Parts = append(b.Parts, Part{
			Role: ColourRole, Name: s.Code.Text, Shade: s.Code,
			Exact: b.Colour.Times(s.Share.Quo(total)),
		})
	}
	if mean, ok := shade.Mean(weights, levels); ok {
		b.Level, b.HasLevel = shade.Read(mean), true
	}
}

func (b *Bowl) addAdditives(additives []Additive) {
	for _, a := range additives {
		mass := a.Mass.Add(b.Colour.Times(a.PerColour))
		b.Parts = append(b.Parts, Part{Role: AdditiveRole, Name: a.Name, Exact: mass})
		b.Additives = b.Additives.Add(mass)
	}
}

func (b *Bowl) addDevelopers(developers []Developer, ratio measure.Ratio) {
	if len(developers) == 0 {
		return
	}
	b.Ratio = ratio
	b.Developer = b.Colour.Times(ratio.PerColour())
	total := exact.Zero
	for _, d := range developers {
		total = total.Add(d.Share)
	}
	amounts := make([]peroxide.Amount, 0, len(developers))
	for _, d := range developers {
		if d.Share.IsZero() {
			continue
		}
		mass := b.Developer.Times(d.Share.Quo(total))
		b.Parts = append(b.Parts, Part{Role: DeveloperRole, Strength: d.Strength, Exact: mass})
		amounts = append(amounts, peroxide.Amount{Mass: mass, Strength: d.Strength})
	}
	b.Bottle = peroxide.Mixed(amounts...)
}

// weigh fills in the weights on the scale.
func (b *Bowl) weigh() {
	masses := make([]measure.Mass, len(b.Parts))
	for i, p := range b.Parts {
		masses[i] = p.Exact
	}
	for i, w := range Split(masses, b.Step) {
		b.Parts[i].Weighed = w
	}
	b.weighRatio()
}

// weighRatio fills in the ratio that the weights on the scale really have.
func (b *Bowl) weighRatio() {
	b.Weighed = measure.Ratio{}
	colour, developer := b.WeighedTotal(ColourRole), b.WeighedTotal(DeveloperRole)
	if !colour.IsZero() && !developer.IsZero() {
		b.Weighed = measure.NewRatio(colour, developer)
	}
}

// WeighedTotal returns the sum of the weights on the scale of the given roles,
// of all parts where none is named.
func (b Bowl) WeighedTotal(roles ...Role) measure.Mass {
	var sum measure.Mass
	for _, p := range b.Parts {
		if len(roles) == 0 || slices.Contains(roles, p.Role) {
			sum = sum.Add(p.Weighed)
		}
	}
	return sum
}

// ColourShare returns the share of the bowl that is colour: a half at 1:1, a third
// at 1:2. What is in the tube is thinned to that share of itself.
func (b Bowl) ColourShare() exact.Number { return b.Colour.Per(b.Mixed) }

// DyeShare returns the share of the colour that is no clear: 3/4 where 10 g of clear
// are mixed with 30 g of a shade.
func (b Bowl) DyeShare() exact.Number {
	var dye measure.Mass
	for _, p := range b.Parts {
		if p.Role == ColourRole && !p.Shade.IsClear() {
			dye = dye.Add(p.Exact)
		}
	}
	return dye.Per(b.Colour)
}

// Drift returns by what share the ratio on the scale differs from the one wanted:
// 0.022 where 1:2 became 1:2.0435. It is zero without a developer.
func (b Bowl) Drift() exact.Number {
	if b.Ratio.IsZero() || b.Weighed.IsZero() {
		return exact.Zero
	}
	return b.Weighed.PerColour().Quo(b.Ratio.PerColour()).Sub(exact.One)
}
