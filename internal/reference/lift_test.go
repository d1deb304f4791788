package reference

import (
	"fmt"
	"strings"
	"testing"

	"plait/internal/derive"
	"plait/internal/exact"
	"plait/internal/hair"
	"plait/internal/peroxide"
	"plait/internal/shade"
)

// permanent is the block of a permanent colour on natural hair.
func permanent(colour, developer string, natural, target int) string {
	return fmt.Sprintf("kind: permanent\ncolour: %s\ndeveloper: %s\nratio: 1:1\nhair: %d natural\ntarget: %d", colour, developer, natural, target)
}

func lifts() []entry {
	by := func(developer peroxide.Strength, from, want string) entry {
		return computed("lift of natural hair by "+developer.VolumesString(), from, want, func(*testing.T) string {
			l := hair.LiftBy(developer)
			return fmt.Sprintf("%d to %d", l.Min, l.Max)
		})
	}
	shadeFor := func(natural, target shade.Level, from, want string) entry {
		return computed(fmt.Sprintf("shade for natural %d, target %d", natural, target), from, want, func(*testing.T) string {
			return fmt.Sprint(hair.ShadeFor(natural, target))
		})
	}
	// told is how the rules answer a shade and a developer for a target, on a range of
	// levels 1 to 10.
	told := func(problem, from, colour, developer string, natural, target int, want string) entry {
		return computed(problem, from, want, func(t *testing.T) string {
			c := judged(t, rangeOf(t, letters), permanent(colour, developer, natural, target), tenths)
			return "lift " + c.verdict(t, "formula/lift") + ", shade " + c.verdict(t, "formula/target-level")
		})
	}
	developer := func(natural, target shade.Level, want string) entry {
		return computed(fmt.Sprintf("developer for natural %d, target %d", natural, target), practice, want, func(*testing.T) string {
			s, ok := hair.DeveloperFor(hair.LiftWanted(natural, target), false)
			if !ok {
				return "lightener"
			}
			return s.VolumesString()
		})
	}
	return []entry{
		by(peroxide.Percent(exact.Of(18, 10)), practice, "0 to 0"),
		by(vol(10), notes, "0 to 1"), by(vol(20), notes, "1 to 2"), by(vol(30), notes, "2 to 3"), by(vol(40), notes, "3 to 4"),
		shadeFor(4, 7, guide, "10"),
		computed("natural 2, shade 6: the result", educators, "4", func(*testing.T) string { return derive.Reading(hair.Result(2, 6)) }),
		computed("both rules are one equation for every natural level up to the target", arithmetic, "55 pairs, 0 differ", func(*testing.T) string {
			pairs, differ := 0, 0
			for target := shade.Darkest; target <= shade.Lightest; target++ {
				for natural := shade.Darkest; natural <= target; natural++ {
					pairs++
					if !hair.Result(natural, hair.ShadeFor(natural, target)).Mean.Equal(exact.Int(int64(target))) {
						differ++
					}
				}
			}
			return fmt.Sprintf("%d pairs, %d differ", pairs, differ)
		}),
		shadeFor(5, 7, arithmetic, "9"),
		computed("natural 5, shade 9: the result", arithmetic, "7", func(*testing.T) string { return derive.Reading(hair.Result(5, 9)) }),
		shadeFor(6, 9, arithmetic, "12"),
		shadeFor(3, 8, arithmetic, "13"),
		shadeFor(7, 5, practice, "5"),
		told("9N with 20 vol from 5 to 7", arithmetic, "30 g 9N", "20 vol", 5, 7, "lift nothing, shade nothing"),
		told("7N with 20 vol from 5 to 7: the shade is the target's", arithmetic, "30 g 7N", "20 vol", 5, 7, "lift nothing, shade warning"),
		told("10N with 30 vol from 6 to 9, which needs a 12", arithmetic, "30 g 10N", "30 vol", 6, 9, "lift warning, shade nothing"),
		told("10N with 40 vol from 3 to 8, too far for colour", textbook, "30 g 10N", "40 vol", 3, 8, "lift warning, shade nothing"),
		told("10N with 30 vol from 5 to 8, which needs an 11", arithmetic, "30 g 10N", "30 vol", 5, 8, "lift warning, shade nothing"),
		told("4N with 40 vol from 4 to 7: the tube decides", "trade educators' notes", "30 g 4N", "40 vol", 4, 7, "lift nothing, shade warning"),
		computed("colour does not lift coloured hair", practice, "warning", func(t *testing.T) string {
			block := strings.Replace(permanent("30 g 9N", "20 vol", 5, 7), "5 natural", "5 coloured", 1)
			return judged(t, rangeOf(t, letters), block, tenths).verdict(t, "formula/lifts-coloured")
		}),
		developer(5, 6, "20 vol"), developer(5, 7, "20 vol"), developer(5, 8, "30 vol"), developer(5, 9, "40 vol"), developer(4, 9, "lightener"),
		developer(6, 6, "10 vol"),
		computed("developer for no lift where white hair must be covered", practice, "20 vol", func(*testing.T) string {
			s, _ := hair.DeveloperFor(0, true)
			return s.VolumesString()
		}),
	}
}

func excesses() []entry {
	excess := func(natural, target, volumes int, want string) entry {
		return computed(fmt.Sprintf("natural %d, target %d, %d vol: levels too much, warmth, how grave", natural, target, volumes), arithmetic, want, func(t *testing.T) string {
			developer := fmt.Sprintf("%d vol", volumes)
			c := judged(t, rangeOf(t, letters), permanent(fmt.Sprintf("30 g %dN", target), developer, natural, target), tenths)
			e := hair.ExcessOf(shade.Level(natural), shade.Level(target), c.Bottle)
			found := c.verdict(t, "formula/over-strength")
			if e.Levels == 0 {
				return "0, " + found
			}
			return fmt.Sprintf("%d, %s of level %d, %s", e.Levels, shade.Undertone(e.Opened), e.Opened, found)
		})
	}
	return []entry{
		excess(6, 6, 40, "3, yellow of level 9, warning"),
		excess(5, 6, 30, "1, yellow-orange of level 7, note"),
		excess(5, 7, 20, "0, nothing"),
		excess(6, 5, 30, "2, yellow of level 8, warning"),
		excess(6, 6, 20, "1, yellow-orange of level 7, note"),
		computed("more than 3 % on coloured hair with a shade no lighter than it: 6N, 20 vol at 1:1.5 and at 1:1", practice, "3.6 %, warning; 3 %, nothing", func(t *testing.T) string {
			on := func(ratio string) string {
				c := judged(t, nil, "kind: permanent\ncolour: 30 g 6N\ndeveloper: 20 vol\nratio: "+ratio+"\nhair: 6 coloured", tenths)
				return c.Strength.String() + ", " + c.verdict(t, "formula/needless-strength")
			}
			return on("1:1.5") + "; " + on("1:1")
		}),
	}
}

func whites() []entry {
	// share is how the rule about the natural series answers a bowl on white hair.
	share := func(problem, from, colour, white, want string) entry {
		return computed(problem, from, want, func(t *testing.T) string {
			block := "kind: permanent\ncolour: " + colour + "\ndeveloper: 20 vol\nratio: 1:1\nhair: \"6 natural, " + white + " white\"\ntarget: 6"
			return judged(t, rangeOf(t, letters), block, tenths).verdict(t, "formula/natural-share")
		})
	}
	natural := func(colour int64, white exact.Number, from, want string) entry {
		return computed(fmt.Sprintf("%d g of colour on hair %s white", colour, asPercent(white)), from, want, func(*testing.T) string {
			least, _ := hair.NaturalShare(white)
			part := grams(colour).Times(least)
			return part.String() + " + " + grams(colour).Sub(part).String()
		})
	}
	return []entry{
		computed("half white, the rest 3, shade 7: on white and on the rest", educators, "7 and 5", func(*testing.T) string {
			white, rest := hair.OnWhite(3, 7)
			return fmt.Sprintf("%d and %s", white, derive.Reading(rest))
		}),
		natural(60, exact.Half, whiteHair, "30 g + 30 g"),
		natural(45, exact.Of(30, 100), practice, "15 g + 30 g"),
		natural(60, exact.Of(80, 100), practice, "40 g + 20 g"),
		natural(60, exact.Of(24, 100), practice, "0 g + 60 g"),
		share("half natural at 50 % white", whiteHair, "30 g 6N + 30 g 6G", "50 %", "nothing"),
		share("a gram less at 50 % white", whiteHair, "29 g 6N + 31 g 6G", "50 %", "warning"),
		share("15 + 30 g at 30 % white", practice, "15 g 6N + 30 g 6G", "30 %", "nothing"),
		share("14 + 31 g at 30 % white", practice, "14 g 6N + 31 g 6G", "30 %", "warning"),
		share("40 + 20 g at 80 % white", practice, "40 g 6N + 20 g 6G", "80 %", "nothing"),
		share("39 + 21 g at 80 % white", practice, "39 g 6N + 21 g 6G", "80 %", "warning"),
		share("no natural at 24 % white", practice, "30 g 6G", "24 %", "nothing"),
		computed("40 % white, share rounded up to the next quarter, 60 g", arithmetic, "30 g + 30 g", func(*testing.T) string {
			part := grams(60).Times(hair.NaturalShareByQuarters(exact.Of(40, 100)))
			return part.String() + " + " + grams(60).Sub(part).String()
		}),
		computed("half white: permanent 7, permanent 8, demi 6, and demi 6 with the word cover on a fifth", college+"; trade educators' notes", "nothing, warning, warning, note", func(t *testing.T) string {
			on := func(kind, colour, developer, white, target string) string {
				block := "kind: " + kind + "\ncolour: 30 g " + colour + "\ndeveloper: " + developer + "\nratio: 1:1\nhair: \"6 natural, " + white + " white\"\ntarget: " + target
				return judged(t, rangeOf(t, letters), block, tenths).verdict(t, "formula/white-cover")
			}
			return strings.Join([]string{
				on("permanent", "7N", "20 vol", "50 %", "7"), on("permanent", "8N", "20 vol", "50 %", "8"),
				on("demi", "6N", "6 vol", "50 %", "6"), on("demi", "6N", "6 vol", "20 %", "6 cover white"),
			}, ", ")
		}),
		not("softening resistant white first, 3 % for 10 minutes", whiteHair, "a step tells it; it is no bowl of a colour"),
	}
}

func fillings() []entry {
	fill := func(from, target int, state, want string) entry {
		return computed(fmt.Sprintf("%s %d to %d", state, from, target), practice, want, func(t *testing.T) string {
			block := fmt.Sprintf("kind: demi\ncolour: 30 g %dN\ndeveloper: 6 vol\nratio: 1:2\nhair: %d %s\ntarget: %d", target, from, state, target)
			found := judged(t, nil, block, tenths).verdict(t, "formula/filling")
			if found == "nothing" {
				return found
			}
			f := hair.FillingFor(shade.Level(from), shade.Level(target), shade.Undertone)
			steps := map[bool]string{false: "one step", true: "two steps"}[f.TwoSteps]
			return found + ", " + f.Hue.String() + ", " + steps
		})
	}
	return []entry{
		fill(9, 5, "lightened", "warning, red-orange, one step"),
		fill(7, 5, "lightened", "nothing"),
		fill(10, 3, "lightened", "warning, red, two steps"),
		fill(7, 5, "natural", "nothing"),
		fill(9, 5, "natural", "nothing"),
	}
}

func lighteners() []entry {
	return []entry{
		computed("high-lift at 12 % and 1:2, on the hair", textbook, "8 %", func(t *testing.T) string {
			return judged(t, nil, "kind: high-lift\ncolour: 30 g 10N\ndeveloper: 12 %\nratio: 1:2", tenths).Strength.String()
		}),
		computed("high-lift on natural 6 and natural 5", practice, "true, false", func(*testing.T) string {
			return fmt.Sprintf("%t, %t", hair.SuitsHighLift(hair.Natural, 6), hair.SuitsHighLift(hair.Natural, 5))
		}),
		computed("the strongest developer with lightener on the scalp", practice, "6 %", func(*testing.T) string { return hair.OnScalpLimit.String() }),
		computed("how often lightening hair is looked at", practice, "5-10 min", func(*testing.T) string { return hair.LightenerCheck.String() }),
	}
}
