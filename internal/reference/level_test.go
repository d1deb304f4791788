package reference

import (
	"fmt"
	"strings"
	"testing"

	"plait/internal/derive"
	"plait/internal/hair"
	"plait/internal/shade"
)

func codes() []entry {
	in := func(rng, code, want string) entry {
		return computed(code, codeGuide, want, func(t *testing.T) string {
			c := lineOf(t, rangeOf(t, rng), "30 g "+code+", 6 % at 1:1", tenths).Parts[0].Shade
			return strings.TrimSpace(fmt.Sprintf("level %d %s", c.Level, strings.Join(c.Tones, " ")))
		})
	}
	turnedAway := func(problem, rng, code, more, saying string) entry {
		return computed(problem, codeGuide, "refused: "+saying, func(t *testing.T) string {
			told := refusesBlock(t, rangeOf(t, rng), "kind: permanent\ncolour: 30 g "+code+"\ndeveloper: 6 %\nratio: 1:1\n"+more)
			if !strings.Contains(told, saying) {
				return told
			}
			return "refused: " + saying
		})
	}
	return []entry{
		in(digits, "6.34", "level 6 3 4"),
		in(digits, "6.3", "level 6 3"),
		in(digits, "6/3", "level 6 3"),
		in(digits, "6-3", "level 6 3"),
		in(digits, "10.1", "level 10 1"),
		in(digits, "6.03", "level 6 0 3"),
		in(digits, "6.33", "level 6 3 3"),
		in(letters, "6RV", "level 6 R V"),
		in(digits, "7", "level 7"),
		turnedAway("6 alone, which this range does not list", digits, "6", "", "no shade"),
		in(digits, "0.11", "level 0 1 1"),
		computed("13.1 in a range of levels 1 to 12", codeGuide, "refused: outside the levels", func(*testing.T) string {
			rng, told := readRange(strings.Replace(digits, `"10.1"`, `"13.1"`, 1))
			if rng != nil || !strings.Contains(told, "outside the levels") {
				return "taken: " + told
			}
			return "refused: outside the levels"
		}),
		turnedAway("6,3", digits, "6,3", "", "write 6.3"),
		turnedAway("medium brown for a number, as level names differ", letters, "6N", "hair: medium brown natural", "medium brown"),
		not("letters of an anthropologist's scale of hair colours", anthropo, "no mapping of it to levels is published"),
	}
}

func hues() []entry {
	across := func(one, other string) entry {
		return computed("across the wheel from "+one+", and back", college, other+", "+one, func(t *testing.T) string {
			h, ok := shade.ParseHue(one)
			if !ok {
				t.Fatalf("there is no hue %s", one)
			}
			return h.Opposite().String() + ", " + h.Opposite().Opposite().String()
		})
	}
	warmth := func(level shade.Level, want string) entry {
		return computed(fmt.Sprintf("warmth at level %d, and what cancels it", level), charts, want, func(*testing.T) string {
			return shade.Undertone(level).String() + ", " + shade.Undertone(level).Opposite().String()
		})
	}
	return []entry{
		across("red", "green"), across("red-orange", "blue-green"), across("orange", "blue"),
		across("yellow-orange", "blue-violet"), across("yellow", "violet"), across("yellow-green", "red-violet"),
		warmth(1, "red, green"), warmth(2, "red, green"), warmth(3, "red, green"), warmth(4, "red, green"),
		warmth(5, "red-orange, blue-green"), warmth(6, "orange, blue"), warmth(7, "yellow-orange, blue-violet"),
		warmth(8, "yellow, violet"), warmth(9, "yellow, violet"), warmth(10, "yellow, violet"),
		computed("warmth never turns back on the way to light", bleaching, "red, red-orange, orange, yellow-orange, yellow", func(*testing.T) string {
			var order []string
			for l := shade.Darkest; l <= shade.Lightest; l++ {
				if h := shade.Undertone(l).String(); len(order) == 0 || order[len(order)-1] != h {
					order = append(order, h)
				}
			}
			return strings.Join(order, ", ")
		}),
		computed("blue on yellow turns green, violet does not", practice, "true, false", func(*testing.T) string {
			return fmt.Sprintf("%t, %t", hair.TurnsGreen(shade.Blue, shade.Yellow), hair.TurnsGreen(shade.Violet, shade.Yellow))
		}),
		not("colour difference, chroma and hue of two measured heads of hair", luster, "swatches are illustrations; nothing is computed from their colours"),
	}
}

func mixtures() []entry {
	reads := func(problem, text, want string) entry {
		return computed(problem, arithmetic, want, func(t *testing.T) string {
			level := line(t, text, tenths).Level
			return level.Mean.String() + ", reads " + derive.Reading(level)
		})
	}
	return []entry{
		reads("2 parts of 5 and 1 of 7", "2 parts 5N + 1 part 7N, 6 vol at 1:2, 30 g", "17/3, reads 6"),
		reads("1 part of 4 and 1 of 7", "1 part 4N + 1 part 7N, 6 vol at 1:2, 30 g", "5.5, reads between 5 and 6"),
		reads("3 parts of 6 and 1 of 8", "3 parts 6N + 1 part 8N, 6 vol at 1:2, 30 g", "6.5, reads between 6 and 7"),
		reads("1 part of 5, 2 of 6 and 1 of 8", "1 part 5N + 2 parts 6N + 1 part 8N, 6 vol at 1:2, 30 g", "6.25, reads 6"),
		reads("30 g of 7 and 20 g of 9", "30 g 7N + 20 g 9N, 6 vol at 1:2", "7.8, reads 8"),
		computed("30 g of 6 with 10 g of clear: level and share of dye", arithmetic, "6, 75 %", func(t *testing.T) string {
			b := lineOf(t, rangeOf(t, letters), "30 g 6N + 10 g CL, 6 vol at 1:2", tenths)
			return derive.Reading(b.Level) + ", " + asPercent(b.DyeShare())
		}),
		computed("30 g of 6 with 10 g of a mixer of level 0", practice, "6", func(t *testing.T) string {
			return derive.Reading(lineOf(t, rangeOf(t, digits), "30 g 6.0 + 10 g 0.11, 6 vol at 1:2", tenths).Level)
		}),
	}
}
