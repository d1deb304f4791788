package cli

import (
	"fmt"
	"strings"

	"plait/internal/measure"
	"plait/internal/mix"
)

// againFlags ask for a bowl to be weighed again: for another weight of colour, with what
// is left of one part, or after too much of one was poured.
type againFlags struct {
	Colour string `help:"Weigh it again for this much colour." placeholder:"WEIGHT" xor:"again"`
	Left   string `help:"Weigh it again so that what is left of one part is used up, as in \"14 g 7B\"." placeholder:"WEIGHT PART" xor:"again"`
	Poured string `help:"Too much of one part is in the bowl, as in \"22 g 6N\": say what the others must become." placeholder:"WEIGHT PART" xor:"again"`
}

// asked reports whether one of the flags was given.
func (a againFlags) asked() bool { return a.Colour+a.Left+a.Poured != "" }

// weigh returns the bowl weighed again and, after a slip of the hand, what is still to
// add of each part.
func (a againFlags) weigh(b mix.Bowl) (bowl mix.Bowl, add []measure.Mass, err error) {
	switch {
	case a.Colour != "":
		colour, err := positive("--colour", a.Colour)
		if err != nil {
			return b, nil, err
		}
		return b.ToColour(colour), nil, nil
	case a.Left != "":
		part, left, err := partOf("--left", a.Left, b)
		if err != nil {
			return b, nil, err
		}
		return b.ToPart(part, left), nil, nil
	case a.Poured != "":
		part, mass, err := partOf("--poured", a.Poured, b)
		if err != nil {
			return b, nil, err
		}
		poured := make([]measure.Mass, len(b.Parts))
		poured[part] = mass
		rescue := b.Rescue(poured)
		return rescue.Bowl, rescue.Add, nil
	}
	return b, nil, nil
}

func positive(flag, text string) (measure.Mass, error) {
	m, err := measure.ParseMass(text)
	if err == nil && m.IsZero() {
		err = fmt.Errorf("%s is nothing to weigh", text)
	}
	if err != nil {
		return m, useError{fmt.Errorf("%s: %w", flag, err)}
	}
	return m, nil
}

// partOf reads a weight and the part of a bowl that it is a weight of: "14 g 7B", "60 g
// of developer".
func partOf(flag, text string, b mix.Bowl) (part int, m measure.Mass, err error) {
	var names []string
	for i, p := range b.Parts {
		name := p.Name
		if p.Role == mix.DeveloperRole {
			name = p.Strength.Name()
		}
		names = append(names, name)
		weight, found := strings.CutSuffix(strings.TrimSpace(text), name)
		if !found && p.Role == mix.DeveloperRole {
			weight, found = strings.CutSuffix(strings.TrimSpace(text), p.Role.String())
		}
		if !found {
			continue
		}
		m, err = positive(flag, strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(weight), " of")))
		return i, m, err
	}
	return 0, m, useError{fmt.Errorf("%s %q: write a weight and one of the parts, as in %q; the parts are: %s",
		flag, text, "14 g "+names[0], strings.Join(names, ", "))}
}

// stillToAdd says what a bowl still needs after a slip of the hand.
func stillToAdd(b mix.Bowl, add []measure.Mass) string {
	var parts []string
	for i, p := range b.Parts {
		name := p.Name
		if p.Role == mix.DeveloperRole {
			name = p.Strength.Name()
		}
		if !add[i].IsZero() {
			parts = append(parts, add[i].String()+" "+name)
		}
	}
	if len(parts) == 0 {
		return "nothing is to be added"
	}
	return "still to add: " + strings.Join(parts, ", ")
}
