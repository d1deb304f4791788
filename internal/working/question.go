package working

import (
	"fmt"
	"slices"
	"time"

	"plait/internal/derive"
	"plait/internal/exact"
	"plait/internal/hair"
	"plait/internal/measure"
)

// upTo says which lines of a bowl's working lead to a quantity. A shade or an additive
// needs the first of them and its own.
var upTo = map[string][]string{
	"colour":        {"colour"},
	"developer":     {"colour", "developer"},
	"mixed":         {"colour", "developer", "in the bowl"},
	"strength":      {"colour", "developer", "in the bowl", "strength"},
	"reads":         {"average level"},
	"average level": {"average level"},
	"to buy":        {"colour"},
	"packs":         {"colour"},
}

// Question returns how the answer of a question comes about: the lines of the bowl's
// own working that lead to it, then what goes beyond the bowl. It is empty where nothing
// was worked out.
func Question(s *derive.Solution) []Line {
	if s.Sought == "" {
		return nil
	}
	var lines []Line
	if s.Computed.OK {
		lines = bowlLines(s)
	}
	if more := beyond[s.Sought]; more != nil {
		w := &writer{bowl: s.Computed.Bowl}
		more(w, s)
		lines = append(lines, w.lines...)
	}
	return lines
}

// bowlLines keeps the lines of the bowl's working that lead to what is sought.
func bowlLines(s *derive.Solution) []Line {
	wanted, known := upTo[s.Sought]
	if !known {
		wanted = []string{"colour", "parts", "one part", s.Sought}
	}
	if s.Sought == "developer" || s.Sought == "mixed" || s.Sought == "strength" {
		for _, p := range s.Computed.Bowl.Parts {
			if p.Name == "" || s.Sought == "developer" {
				continue
			}
			wanted = append(slices.Clone(wanted), p.Name)
		}
	}
	var out []Line
	for _, l := range Of(s.Block, s.Computed) {
		if slices.Contains(wanted, l.What) {
			out = append(out, l)
		}
	}
	return out
}

// beyond writes what is no part of a bowl.
var beyond = map[string]func(*writer, *derive.Solution){
	"strength": func(w *writer, s *derive.Solution) {
		if s.Computed.OK && !s.Computed.Bowl.Bottle.IsZero() {
			return
		}
		r := s.Given.Ratio.Value
		sum := fmt.Sprintf("%s × %s ÷ (%s + %s)", s.Given.Bottle.Value, number(r.Developer), number(r.Colour), number(r.Developer))
		w.result("strength", sum, s)
	},
	"bottle": func(w *writer, s *derive.Solution) {
		r := s.Given.Ratio.Value
		sum := fmt.Sprintf("%s × (%s + %s) ÷ %s", s.Given.Strength.Value, number(r.Colour), number(r.Developer), number(r.Developer))
		w.result("bottle", sum, s)
	},
	"strong": blend(true),
	"weak":   blend(false),
	"percent": func(w *writer, s *derive.Solution) {
		w.result("per cent", number(s.Key.Value.Number.Mul(exact.Of(10, 3)))+" vol × 0.3", s)
	},
	"volume": func(w *writer, s *derive.Solution) {
		w.result("volume", number(s.Key.Value.Number.Mul(exact.Of(3, 10)))+" % ÷ 0.3", s)
	},
	"ratio": func(w *writer, s *derive.Solution) {
		w.result("ratio", s.Computed.Bowl.Developer.String()+" ÷ "+s.Computed.Bowl.Colour.String(), s)
	},
	"shade level": func(w *writer, s *derive.Solution) {
		natural, target := s.Levels()
		if target <= natural {
			w.result("shade level", "", s)
			return
		}
		w.result("shade level", fmt.Sprintf("2 × %d − %d", target, natural), s)
	},
	"lift": func(w *writer, s *derive.Solution) {
		natural, target := s.Levels()
		if hair.LiftWanted(natural, target) > 0 {
			w.result("lift", fmt.Sprintf("%d − %d", target, natural), s)
		}
	},
	"result": func(w *writer, s *derive.Solution) {
		natural, _ := s.Levels()
		if applied := s.Given.Level.Value; applied > natural {
			w.result("result", fmt.Sprintf("(%d + %d) ÷ 2", natural, applied), s)
		}
	},
	"exposure":    func(w *writer, s *derive.Solution) { w.result("first section", stays(s), s) },
	"finish time": func(w *writer, s *derive.Solution) { w.result("off by", moment(s.Given.At.Value)+" + "+stays(s), s) },
	"to buy":      toBuy,
	"packs": func(w *writer, s *derive.Solution) {
		toBuy(w, s)
		w.add("packs", s.Buy.String()+" ÷ "+s.Given.Pack.Value.String()+", rounded up", s.Key.String(), true)
	},
}

// result adds the line that ends in the answer.
func (w *writer) result(what, sum string, s *derive.Solution) {
	w.add(what, sum, s.Key.String(), s.Key.Value.Number.EndsWithin(massPlaces))
}

// blend writes the share of one of two developers, as a bowl's own working does.
func blend(strong bool) func(*writer, *derive.Solution) {
	return func(w *writer, s *derive.Solution) {
		what, own, other := "stronger", s.Given.Strong.Value, s.Given.Weak.Value
		if !strong {
			what, own, other = "weaker", other, own
		}
		w.result(what, s.Given.Developer.Value.String()+" × "+percentages(s.Given.Strength.Value, own, other), s)
	}
}

// stays is the time from the first section to the rinse.
func stays(s *derive.Solution) string {
	apply, stay := s.Service()
	if apply == 0 {
		return measure.Minutes(stay)
	}
	return measure.Minutes(apply) + " + " + measure.Minutes(stay)
}

// moment prints a time of day.
func moment(d time.Duration) string {
	return fmt.Sprintf("%d:%02d", int(d.Hours()), int(d.Minutes())%60)
}

func toBuy(w *writer, s *derive.Solution) {
	sum := fmt.Sprintf("%s × %d", s.Computed.Bowl.Colour, s.Given.Heads.Value)
	if waste := s.Given.Waste.Value; !waste.IsZero() {
		sum += " × " + number(exact.One.Add(waste))
	}
	w.mass("to buy", sum, s.Buy)
}
