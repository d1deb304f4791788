package reference

import (
	"fmt"
	"strings"
	"testing"

	"plait/internal/exact"
	"plait/internal/law"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/peroxide"
	"plait/internal/shade"
)

// schoolVolume is the molar volume of a gas that school books use, in litres.
const schoolVolume = 22.4

// gramsPerLitre is the peroxide in a litre of so many volumes: the inverse of what the
// program computes.
func gramsPerLitre(volumes, molarVolume float64) float64 {
	return volumes / peroxide.Oxygen(1, molarVolume)
}

func strengths() []entry {
	const atm, bar = peroxide.MolarVolumeAtmosphere, peroxide.MolarVolumeBar
	perCent := func(volumes, molarVolume float64) float64 { return gramsPerLitre(volumes, molarVolume) / 10 }
	moles := func(volumes, molarVolume float64) float64 {
		return gramsPerLitre(volumes, molarVolume) / peroxide.MolarMass
	}
	row := func(volumes int64, want string) entry {
		return computed(fmt.Sprintf("%d vol: %% w/v at 1 atm and at 1 bar, by the trade's rule, mol/L", volumes), molar, want, func(*testing.T) string {
			v := float64(volumes)
			return fmt.Sprintf("%.4f, %.4f, %s, %.4f", perCent(v, atm), perCent(v, bar), vol(volumes).Percent(), moles(v, atm))
		})
	}
	back := func(strength float64, want string) entry {
		return computed(fmt.Sprintf("%g %% w/v in volumes at 1 atm and at 1 bar", strength), molar, want, func(*testing.T) string {
			return fmt.Sprintf("%.3f, %.3f", peroxide.Oxygen(strength*10, atm), peroxide.Oxygen(strength*10, bar))
		})
	}
	off := func(molarVolume float64) float64 {
		return (vol(1).Percent().Float()/perCent(1, molarVolume) - 1) * 100
	}
	return []entry{
		near("30 vol in mol/L, with 22.4 L", chemistry, "2.678", 0.001, func() float64 { return moles(30, schoolVolume) }),
		near("30 vol in g/L, with 22.4 L", chemistry, "91.1", 0.05, func() float64 { return gramsPerLitre(30, schoolVolume) }),
		near("30 vol in % w/v, with 22.4 L", chemistry, "9.11", 0.005, func() float64 { return perCent(30, schoolVolume) }),
		near("10 vol in g/mL", chemistry, "0.0303", 0.0001, func() float64 { return gramsPerLitre(10, atm) / 1000 }),
		near("10 vol in % w/v", chemistry, "3.03", 0.01, func() float64 { return perCent(10, atm) }),
		near("10 vol in mol/L", chemistry, "0.89", 0.005, func() float64 { return moles(10, atm) }),
		near("volumes for each mol/L, with 22.4 L", chemistry, "11.2", 1e-9, func() float64 { return peroxide.Oxygen(peroxide.MolarMass, schoolVolume) }),
		near("mg of peroxide in 1 mL of 0.02 M permanganate, 0.05 mmol", britishPh, "1.701", 0.0017, func() float64 { return 0.05 * peroxide.MolarMass }),
		near("mL of oxygen from 1.701 mg", britishPh, "0.56", 0.00056, func() float64 { return peroxide.Oxygen(0.001701, atm) * 1000 }),
		near("6 % w/v is about 20 times its volume", britishPh, "19.753", 0.02, func() float64 { return peroxide.Oxygen(60, atm) }),
		near("the least that 6 % may give, 5 % w/v", britishPh, "16.461", 0.017, func() float64 { return peroxide.Oxygen(50, atm) }),
		near("the most that 6 % may give, 7 % w/v", britishPh, "23.045", 0.024, func() float64 { return peroxide.Oxygen(70, atm) }),
		near("% w/v for each volume at 1 atm", molar, "0.3035071", 5e-8, func() float64 { return perCent(1, atm) }),
		near("% w/v for each volume at 1 bar", molar, "0.2995383", 5e-8, func() float64 { return perCent(1, bar) }),
		near("% w/v for each volume, with 22.4 L", arithmetic, "0.3036964", 5e-8, func() float64 { return perCent(1, schoolVolume) }),
		near("the trade's rule is low against 1 atm, in per cent of it", arithmetic, "-1.156", 0.0005, func() float64 { return off(atm) }),
		near("the trade's rule is high against 1 bar, in per cent of it", arithmetic, "0.154", 0.0005, func() float64 { return off(bar) }),
		row(5, "1.5175, 1.4977, 1.5, 0.4462"),
		row(7, "2.1246, 2.0968, 2.1, 0.6246"),
		row(10, "3.0351, 2.9954, 3, 0.8923"),
		row(13, "3.9456, 3.8940, 3.9, 1.1600"),
		row(20, "6.0701, 5.9908, 6, 1.7846"),
		row(30, "9.1052, 8.9861, 9, 2.6769"),
		row(40, "12.1403, 11.9815, 12, 3.5692"),
		row(100, "30.3507, 29.9538, 30, 8.9230"),
		back(3, "9.884, 10.015"),
		back(6, "19.769, 20.031"),
		back(9, "29.653, 30.046"),
		back(12, "39.538, 40.062"),
		back(1.9, "6.260, 6.343"),
		back(4, "13.179, 13.354"),
		computed("60 g of 6 %: mL of oxygen, and what 20 vol promise", arithmetic, "1186 and 1200", func(t *testing.T) string {
			b := line(t, "60 g 6N, 6 % at 1:1", tenths)
			held := b.Developer.Grams().Mul(b.Bottle.Percent()).Quo(exact.Int(100))
			return fmt.Sprintf("%.0f and %s", peroxide.Oxygen(held.Float(), atm)*1000, b.Developer.Grams().Mul(b.Bottle.Volumes()))
		}),
		not("12 % and 6 % by weight in per cent by volume", density, "everything is weighed at density 1.00, and the page says so"),
	}
}

// pairs holds a developer typed in both units against the rule about it.
func pairs() []entry {
	pair := func(typed, from, want string) entry {
		return computed(typed, from, want, func(t *testing.T) string {
			c := judged(t, nil, "kind: permanent\ncolour: 30 g 6N\nratio: 1:1\ndeveloper: "+typed, tenths)
			if c.verdict(t, "formula/pair") == "error" {
				return "refused"
			}
			return "accepted"
		})
	}
	return []entry{
		pair("10 vol (3 %)", usefulDru, "accepted"),
		pair("40 vol (12 %)", euLaw, "accepted"),
		pair("20 vol (9 %)", arithmetic, "refused"),
		pair("13 vol (4 %)", arithmetic, "accepted"),
		pair("6.5 vol (1.9 %)", arithmetic, "accepted"),
		pair("7 vol (1.9 %)", arithmetic, "refused"),
	}
}

// developers prints the exact weights of a bowl's developers.
func developers(b mix.Bowl) string {
	var out []string
	for _, p := range b.Parts {
		if p.Role == mix.DeveloperRole {
			out = append(out, p.Exact.Grams().String())
		}
	}
	return strings.Join(out, " + ")
}

func blends() []entry {
	// A blend is typed as the developer of a bowl at 1:1, so that it weighs what the
	// colour weighs. Volumes count as grams at density 1.00.
	blend := func(amount, wanted, strong, weak, from, want string) entry {
		return computed(amount+" of "+wanted+" from "+strong+" and "+weak, from, want, func(t *testing.T) string {
			return developers(line(t, amount+" 6N, "+wanted+" from "+strong+" and "+weak+" at 1:1", tenths))
		})
	}
	pooled := func(problem, from, want string, amounts ...peroxide.Amount) entry {
		return computed(problem, from, want, func(*testing.T) string {
			s := peroxide.Mixed(amounts...)
			return s.String() + ", " + s.Volumes().Decimal(3) + " vol"
		})
	}
	of := func(g, strength int64) peroxide.Amount {
		return peroxide.Amount{Mass: grams(g), Strength: percent(strength)}
	}
	return []entry{
		blend("50 g", "30 %", "70 %", "20 %", technician, "10 + 40"),
		pooled("3000 mL of 40 %, 1000 of 60 %, 1000 of 70 %", handout, "50 %, 166.667 vol", of(3000, 40), of(1000, 60), of(1000, 70)),
		pooled("20 parts of 95 % with 25 parts of 50 %", handout, "70 %, 233.333 vol", of(20, 95), of(25, 50)),
		blend("80 g", "50 %", "90 %", "10 %", alligation, "40 + 40"),
		blend("100 g", "20 %", "30 %", "10 %", alligation, "50 + 50"),
		blend("300 g", "4 %", "2 %", "5 %", homework, "100 + 200"),
		blend("120 g", "1 %", "3 %", "0 %", slides+"; answer derived", "40 + 80"),
		blend("120 g", "0.02 %", "2 %", "0 %", slides, "1.2 + 118.8"),
		blend("4000 g", "0.05 %", "10 %", "0 %", slides, "20 + 3980"),
		blend("90 g", "6 %", "12 %", "3 %", arithmetic, "30 + 60"),
		blend("100 g", "9 %", "12 %", "0 %", arithmetic, "75 + 25"),
		blend("80 g", "9 %", "12 %", "6 %", arithmetic, "40 + 40"),
		blend("60 g", "1.9 %", "6 %", "0 %", arithmetic, "19 + 41"),
		blend("82 g", "3 %", "6 %", "1.9 %", arithmetic, "22 + 60"),
		blend("100 g", "13 vol", "30 vol", "10 vol", arithmetic, "15 + 85"),
		blend("100 g", "25 vol", "40 vol", "20 vol", arithmetic, "25 + 75"),
		pooled("30 g of 12 %, 20 g of 6 % and 10 g of 3 %", arithmetic, "8.5 %, 28.333 vol", of(30, 12), of(20, 6), of(10, 3)),
		computed("12 % to add to 500 g of 6 % to reach 8 %", arithmetic, "250", func(t *testing.T) string {
			b := line(t, "100 g 6N, 8 % from 12 % and 6 % at 1:1", tenths)
			return b.ToPart(2, grams(500)).Parts[1].Exact.Grams().String()
		}),
		refused("9 % from 3 % and 6 %", arithmetic, "90 g 6N, 9 % from 3 % and 6 % at 1:1", "outside the two"),
	}
}

func bowls() []entry {
	in := func(problem, from, text, want string) entry {
		return computed(problem, from, want, func(t *testing.T) string {
			return line(t, text, tenths).Strength.Percent().Decimal(4) + " %"
		})
	}
	var out []entry
	for _, row := range []struct{ developer, one, oneHalf, two, twoHalf, three string }{
		{"10 vol", "1.5 %", "1.8 %", "2 %", "2.1429 %", "2.25 %"},
		{"20 vol", "3 %", "3.6 %", "4 %", "4.2857 %", "4.5 %"},
		{"30 vol", "4.5 %", "5.4 %", "6 %", "6.4286 %", "6.75 %"},
		{"40 vol", "6 %", "7.2 %", "8 %", "8.5714 %", "9 %"},
	} {
		at := func(ratio, want string) entry {
			return in(row.developer+" at "+ratio, arithmetic, "30 g 6N, "+row.developer+" at "+ratio, want)
		}
		out = append(out, at("1:1", row.one), at("1:1.5", row.oneHalf), at("1:2", row.two), at("1:2.5", row.twoHalf), at("1:3", row.three))
	}
	bottle := func(onHair int64, ratio int64, want string) entry {
		return computed(fmt.Sprintf("developer for %d.%d %% on the hair at 1:%d", onHair/10, onHair%10, ratio), arithmetic, want, func(*testing.T) string {
			s := peroxide.BottleFor(peroxide.Percent(exact.Of(onHair, 10)), measure.Ratio{Colour: exact.One, Developer: exact.Int(ratio)})
			return s.String() + ", " + s.VolumesString()
		})
	}
	return append(out,
		in("extra-high-lift blonde, 6 %: 40 vol at 1:1", textbook, "30 g 10N, 40 vol at 1:1", "6 %"),
		in("extra-high-lift blonde, 8 %: 40 vol at 1:2", textbook, "30 g 10N, 40 vol at 1:2", "8 %"),
		in("light blonde, 4.5 %: 30 vol at 1:1", textbook, "30 g 8N, 30 vol at 1:1", "4.5 %"),
		in("medium blonde and darker, 3 %: 20 vol at 1:1", textbook, "30 g 6N, 20 vol at 1:1", "3 %"),
		in("1.9 % at 1:2", arithmetic, "30 g 6N, 1.9 % at 1:2", "1.2667 %"),
		in("30 g of powder and 60 g of 6 %", arithmetic, "30 g PW, 6 % at 1:2", "4 %"),
		in("25 g of powder and 75 g of 9 %", arithmetic, "25 g PW, 9 % at 1:3", "6.75 %"),
		computed("6 % from 1:1 to 1:2: strength and share of colour", arithmetic, "3 % and 1/2, 4 % and 1/3", func(t *testing.T) string {
			one, two := line(t, "30 g 6N, 6 % at 1:1", tenths), line(t, "30 g 6N, 6 % at 1:2", tenths)
			return fmt.Sprintf("%s and 1/%s, %s and 1/%s", one.Strength, exact.One.Quo(one.ColourShare()), two.Strength, exact.One.Quo(two.ColourShare()))
		}),
		bottle(45, 1, "9 %, 30 vol"),
		bottle(40, 2, "6 %, 20 vol"),
		refused("a printed powder's six shares are not taken for 100 %", textbook,
			"61.69 % 1A + 22.37 % 1B + 13.56 % 1C + 1.49 % 1D + 1.19 % 1E + 1.19 % 1F, 6 % at 1:2, 30 g", "101.49 %"),
		not("dye precursors, ammonia and pH of a blonde and a black shade", textbook, "what a tube holds is the maker's; a range states only what the law limits"),
	)
}

func laws() []entry {
	onCard := func(t *testing.T, ingredients, block string) (*shade.Range, card) {
		t.Helper()
		rng := rangeOf(t, letters+"ingredients:\n"+ingredients)
		return rng, judged(t, rng, "kind: permanent\n"+block, tenths)
	}
	precursor := func(problem, block, want string) entry {
		return computed(problem, annex, want, func(t *testing.T) string {
			rng, c := onCard(t, "  toluene-2,5-diamine: {content: 3.6 %, limit: 2 %}\n", block)
			return asPercent(rng.Ingredients[0].InBowl(c.ColourShare())) + ", " + c.verdict(t, "law/ingredient")
		})
	}
	together := func(problem, one, two, want string) entry {
		return computed(problem, annex, want, func(t *testing.T) string {
			dyes := "  one: {content: " + one + ", limit: 3 %, group: entry 8}\n  two: {content: " + two + ", limit: 3 %, group: entry 8}\n"
			rng, c := onCard(t, dyes, "colour: 30 g 6N\ndeveloper: 20 vol\nratio: 1:1")
			var held []shade.Held
			for _, i := range rng.Ingredients {
				held = append(held, shade.Held{Share: i.InBowl(c.ColourShare()), Limit: i.Limit})
			}
			return shade.Load(held).Decimal(4) + ", " + c.verdict(t, "law/ingredients-together")
		})
	}
	inTube := func(ratio, want string) entry {
		return computed("the most in a tube for 2 % after mixing at "+ratio, arithmetic, want, func(t *testing.T) string {
			return asPercent(shade.MostInTube(exact.Of(2, 100), line(t, "30 g 6N, 6 % at "+ratio, tenths).ColourShare()))
		})
	}
	ceiling := func(strength, want string) entry {
		return computed("a bottle of "+strength+" at 1:1: in the bowl, and the rule", euLaw, want, func(t *testing.T) string {
			c := judged(t, nil, "kind: permanent\ncolour: 30 g 6N\nratio: 1:1\ndeveloper: "+strength, tenths)
			return c.Strength.String() + ", " + c.verdict(t, "formula/ceiling")
		})
	}
	limit := func(name, want string) entry {
		return computed("limit of "+name+" after mixing", annex, want, func(*testing.T) string {
			l, _ := law.Strictest().Limit(name)
			return asPercent(l.Share)
		})
	}
	return []entry{
		ceiling("12 %", "6 %, nothing"),
		ceiling("13 %", "6.5 %, error"),
		precursor("3.6 % of a precursor in the tube at 1:1, limit 2 %", "colour: 30 g 6N\ndeveloper: 20 vol\nratio: 1:1", "1.8 %, nothing"),
		precursor("the same with half as much developer as colour", "colour: 60 g 6N\ndeveloper: 30 g of 20 vol", "2.4 %, error"),
		inTube("1:1", "4 %"), inTube("1:1.5", "5 %"), inTube("1:2", "6 %"),
		together("1.2 % and 1.5 % under one limit of 3 %", "2.4 %", "3 %", "0.9, nothing"),
		together("2 % and 1.5 % under one limit of 3 %", "4 %", "3 %", "1.1667, error"),
		limit("p-phenylenediamine", "2 %"), limit("toluene-2,5-diamine", "2 %"), limit("toluene-2,5-diamine sulphate", "3.6 %"),
		limit("resorcinol", "1.25 %"), limit("ammonia", "6 %"),
		limit("N-substituted p-phenylenediamines", "3 %"), limit("methylphenylenediamines", "5 %"),
		near("the sulphate's limit in base, by the masses 220.24 and 122.17", arithmetic, "1.8027", 0.005, func() float64 {
			base, _ := law.Strictest().Limit("toluene-2,5-diamine")
			sulphate, _ := law.Strictest().Limit("toluene-2,5-diamine sulphate")
			return sulphate.Share.Quo(base.Share).Float()
		}),
		not("peroxide on skin, nails and lashes; thioglycolic acid", annex, "plait mixes colour and lightener for hair"),
	}
}
