package reference

import (
	"fmt"
	"strings"
	"testing"

	"plait/internal/amount"
	"plait/internal/derive"
	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/mix"
)

func ounces() []entry {
	us, uk := measure.USFluidOunce, measure.UKFluidOunce
	times := func(n int64, ounce exact.Number, places int) func(*testing.T) string {
		return func(*testing.T) string { return exact.Int(n).Mul(ounce).Decimal(places) }
	}
	in := func(mL int64) func(*testing.T) string {
		return func(*testing.T) string {
			return exact.Int(mL).Quo(us).Decimal(4) + " and " + exact.Int(mL).Quo(uk).Decimal(4)
		}
	}
	return []entry{
		computed("US fluid ounce in mL: 231 × 2.54³ ÷ 128", usGallon, "29.5735295625", times(1, us, 10)),
		computed("UK fluid ounce in mL: 4546.09 ÷ 160", ukGallon, "28.4130625", times(1, uk, 10)),
		computed("US over UK fluid ounce", arithmetic, "1.0408427308", func(*testing.T) string { return us.Quo(uk).Decimal(10) }),
		computed("ounce of mass in g: 453.59237 ÷ 16", pound, "28.349523125", func(*testing.T) string { return measure.Ounce.Grams().Decimal(9) }),
		computed("2 US fl oz in mL, and not the 60 that labels print", usGallon+"; against "+labels, "59.1471", times(2, us, 4)),
		computed("2 UK fl oz in mL", ukGallon, "56.8261", times(2, uk, 4)),
		computed("60 mL in US and UK fl oz", arithmetic, "2.0288 and 2.1117", in(60)),
		computed("16 US fl oz in mL", usGallon, "473.1765", times(16, us, 4)),
		computed("32 US fl oz in mL", usGallon, "946.3529", times(32, us, 4)),
		computed("1000 mL in US and UK fl oz", arithmetic, "33.814 and 35.1951", in(1000)),
		computed("2 oz of mass in g", pound, "56.699", func(*testing.T) string { return measure.Ounce.Times(exact.Int(2)).Grams().Decimal(3) }),
		refused("2 oz in a bowl, with its three readings", arithmetic, "2 oz 6N, 20 vol at 1:1", "56.7 g", "59.15 mL", "56.83 mL"),
		computed("1½ US fl oz of colour at 1:2, density 1.00: g of developer", arithmetic, "88.721", func(t *testing.T) string {
			colour := measure.Grams(us.Mul(exact.Of(3, 2)))
			return line(t, "30 g 6N, 20 vol at 1:2", tenths).ToColour(colour).Developer.Grams().Decimal(3)
		}),
	}
}

func ratios() []entry {
	usual := func(kind, ratio, from, want string) entry {
		return computed(kind+" at "+ratio+" where the maker gives none", from, want, func(t *testing.T) string {
			block := "kind: " + kind + "\ncolour: 30 g 8N\ndeveloper: 6 %\nratio: " + ratio
			return judged(t, nil, block, tenths).verdict(t, "formula/ratio-usual")
		})
	}
	return []entry{
		refused("a bare 2:1, as one book prints it, is not matched", bothWays, "30 g 8N, 6 vol at 2:1", "write 1:2"),
		usual("permanent", "1:1", college, "nothing"), usual("permanent", "1:1.5", practice, "nothing"), usual("permanent", "1:3", practice, "warning"),
		usual("high-lift", "1:2", practice, "nothing"),
		usual("demi", "1:2", college, "nothing"), usual("demi", "1:1", college, "warning"),
		usual("toner", "1:4", committee+": 1:1 to 1:3", "warning"),
		usual("lightener", "1:1", practice, "nothing"), usual("lightener", "1:3", practice, "nothing"), usual("lightener", "1:4", practice, "warning"),
	}
}

// exactly prints the exact weights of a bowl and their total.
func exactly(b mix.Bowl) string {
	var out []string
	for _, p := range b.Parts {
		out = append(out, p.Exact.Grams().String())
	}
	return strings.Join(out, " + ") + " = " + b.Mixed.Grams().String()
}

func weights() []entry {
	bowl := func(problem, text, want string) entry {
		return computed(problem, arithmetic, want, func(t *testing.T) string { return exactly(line(t, text, tenths)) })
	}
	return []entry{
		bowl("60 g at 1:1", "1 part 6N, 20 vol at 1:1, 60 g mixed", "30 + 30 = 60"),
		bowl("75 g at 1:1.5", "1 part 6N, 20 vol at 1:1.5, 75 g mixed", "30 + 45 = 75"),
		bowl("90 g at 1:2", "1 part 6N, 20 vol at 1:2, 90 g mixed", "30 + 60 = 90"),
		bowl("100 g at 1:3", "1 part 6N, 20 vol at 1:3, 100 g mixed", "25 + 75 = 100"),
		bowl("70 g at 1:2", "1 part 6N, 20 vol at 1:2, 70 g mixed", "70/3 + 140/3 = 70"),
		bowl("55 g at 1:1.2", "1 part 6N, 20 vol at 1:1.2, 55 g mixed", "25 + 30 = 55"),
		bowl("105 g at 1:2.5", "1 part 6N, 20 vol at 1:2.5, 105 g mixed", "30 + 75 = 105"),
		bowl("40 g of cream at 1:1.5", "40 g 6N, 20 vol at 1:1.5", "40 + 60 = 100"),
		bowl("35 g of cream at 1:2", "35 g 6N, 20 vol at 1:2", "35 + 70 = 105"),
		bowl("28 g of cream at 1:1.25", "28 g 6N, 20 vol at 1:1.25", "28 + 35 = 63"),
		bowl("22.5 g of cream at 1:1.5", "22.5 g 6N, 20 vol at 1:1.5", "22.5 + 33.75 = 56.25"),
		bowl("2 parts of natural and 1 of gold, 45 g of colour at 1:1.5", "2 parts 6N + 1 part 6G, 20 vol at 1:1.5, 45 g", "30 + 15 + 67.5 = 112.5"),
		bowl("3 + 1 + 1 parts, 50 g of colour at 1:1", "3 parts 6N + 1 part 6G + 1 part 6R, 20 vol at 1:1, 50 g", "30 + 10 + 10 + 50 = 100"),
		bowl("3 + 1 parts, 120 g in all at 1:2", "3 parts 6N + 1 part 6G, 20 vol at 1:2, 120 g mixed", "30 + 10 + 80 = 120"),
		bowl("10 % of mixer in 60 g of colour", "90 % 6N + 10 % 0V, 20 vol at 1:1, 60 g", "54 + 6 + 60 = 120"),
	}
}

// weighed prints what a scale shows of a bowl.
func weighed(b mix.Bowl) string {
	var out []string
	for _, p := range b.Parts {
		out = append(out, p.Weighed.Grams().String())
	}
	return strings.Join(out, " + ")
}

func scales() []entry {
	var out []entry
	for _, row := range []struct{ problem, text, inTenths, inGrams, ratio string }{
		{"70 g at 1:2", "1 part 6N, 20 vol at 1:2, 70 g mixed", "23.3 + 46.7", "23 + 47", "1:2.0435, 2.2 %"},
		{"45 g at 1:1.5", "1 part 6N, 20 vol at 1:1.5, 45 g mixed", "18 + 27", "18 + 27", "1:1.5, 0 %"},
		{"37 g at 1:1.5", "1 part 6N, 20 vol at 1:1.5, 37 g mixed", "14.8 + 22.2", "15 + 22", "1:1.4667, -2.2 %"},
		{"50 g of 2 + 1 + 4.5", "2 parts 6N + 1 part 6G, 20 vol at 1:1.5, 50 g mixed", "13.3 + 6.7 + 30", "13 + 7 + 30", "1:1.5, 0 %"},
		{"80 g of 3 + 2 + 7.5", "3 parts 6N + 2 parts 6G, 20 vol at 1:1.5, 80 g mixed", "19.2 + 12.8 + 48", "19 + 13 + 48", "1:1.5, 0 %"},
	} {
		out = append(out,
			computed(row.problem+" in tenths", arithmetic, row.inTenths, func(t *testing.T) string { return weighed(line(t, row.text, tenths)) }),
			computed(row.problem+" in grams", arithmetic, row.inGrams, func(t *testing.T) string { return weighed(line(t, row.text, whole)) }),
			computed(row.problem+" in grams: the ratio really weighed, and by how much it is off", arithmetic, row.ratio, func(t *testing.T) string {
				b := line(t, row.text, whole)
				return b.Weighed.String() + ", " + b.Drift().Mul(exact.Int(100)).Decimal(1) + " %"
			}))
	}
	const thirds = "1 part 6N + 1 part 6G + 1 part 6R, no developer, 100 g"
	return append(out,
		computed("100 g in three equal parts, in tenths", arithmetic, "33.4 + 33.3 + 33.3", func(t *testing.T) string { return weighed(line(t, thirds, tenths)) }),
		computed("100 g in three equal parts, in grams", arithmetic, "34 + 33 + 33", func(t *testing.T) string { return weighed(line(t, thirds, whole)) }))
}

func typedWeights() []entry {
	typed := func(problem, colour, developer, want string) entry {
		return computed(problem, arithmetic, want, func(t *testing.T) string {
			block := "kind: permanent\ncolour: " + colour + " 6N\ndeveloper: " + developer + " of 20 vol\nratio: 1:1.5"
			return judged(t, nil, block, whole).verdict(t, "formula/developer-weight")
		})
	}
	return []entry{
		typed("40 g and 60 g at 1:1.5", "40 g", "60 g", "nothing"),
		typed("40 g and 55 g at 1:1.5", "40 g", "55 g", "error"),
		typed("30 g and 46 g at 1:1.5 on a scale of grams", "30 g", "46 g", "note"),
	}
}

func heads() []entry {
	head := func(length amount.Length, want string) entry {
		return computed("mix for hair: "+string(length), practice, want, func(*testing.T) string {
			return estimate(amount.Head{Length: length, Density: amount.Medium})
		})
	}
	shoulder := amount.Head{Length: amount.Shoulder, Density: amount.Medium}
	changed := func(problem, want string, change func(*amount.Head)) entry {
		return computed("to the shoulder, "+problem, practice, want, func(*testing.T) string {
			h := shoulder
			change(&h)
			return estimate(h)
		})
	}
	reaches := func(problem, from string, g int64, h amount.Head) entry {
		return computed(problem, from, "within", func(*testing.T) string {
			if e, ok := amount.PerHead(h); ok && e.Least.Cmp(grams(g)) <= 0 && e.Most.Cmp(grams(g)) >= 0 {
				return "within"
			}
			return estimate(h)
		})
	}
	return []entry{
		reaches("100 g of permanent mix, to the shoulder", committee, 100, shoulder),
		reaches("60 g of mix on the roots alone, 30 and 30", rootsOnly, 60, amount.Head{Length: amount.Regrowth, Density: amount.Medium}),
		head(amount.Regrowth, "40 to 60 g"), head(amount.Short, "60 g"), head(amount.Chin, "80 to 90 g"),
		head(amount.Shoulder, "100 to 120 g"), head(amount.BelowShoulder, "140 to 160 g"), head(amount.MidBack, "180 to 220 g"),
		changed("fine", "80 to 96 g", func(h *amount.Head) { h.Density = amount.Fine }),
		changed("dense", "125 to 150 g", func(h *amount.Head) { h.Density = amount.Dense }),
		changed("very porous", "120 to 144 g", func(h *amount.Head) { h.Porous = true }),
		changed("lightener", "130 to 156 g", func(h *amount.Head) { h.Lightener = true }),
		not("100 000 hairs of 70 µm: 115.45 cm³ and 65 973 cm² at 30 cm, 38.48 and 21 991 at 10; 1.516 mg of 100 g for each cm²", arithmetic,
			"a picture to reason with: no weight to mix comes from counting hairs"),
		not("grams of hair, at a density of 1.32 from memory", arithmetic, "product is weighed, hair is not"),
		not("grams of product for each cm² of scalp", scalpArea, "areas of scalp share a bowl out and never dose it"),
	}
}

// estimate prints what a head takes.
func estimate(h amount.Head) string {
	e, ok := amount.PerHead(h)
	switch {
	case !ok:
		return "unknown"
	case e.Least.Cmp(e.Most) == 0:
		return e.Least.String()
	}
	return e.Least.Grams().String() + " to " + e.Most.String()
}

func classes() []entry {
	class := func(problem string, heads int, waste, tube, bowl, want string) entry {
		return computed(problem, arithmetic, want, func(t *testing.T) string {
			share, err := amount.ParseWaste(waste)
			if err != nil {
				t.Fatal(err)
			}
			c, d := service(t, letters+"packs: {colour: "+tube+", developer: 1000 g}\n", bowl)
			o, err := d.Order(c, c.Lessons, heads, share)
			if err != nil {
				t.Fatal(err)
			}
			return packs(o)
		})
	}
	return []entry{
		class("12 heads of 60 g at 1:1.5, 10 % of waste", 12, "10 %", "60 g",
			"colour: 6N\ndeveloper: 20 vol\nratio: 1:1.5\namount: 60 g mixed", "316.8 g in 6 × 60 g, 475.2 g in 1 × 1000 g"),
		class("8 heads of 100 g at 1:2, 5 % of waste", 8, "5 %", "100 g",
			"colour: 6N\ndeveloper: 20 vol\nratio: 1:2\namount: 100 g mixed", "280 g in 3 × 100 g, 560 g in 1 × 1000 g"),
		computed("waste where none is said", practice, "10 %", func(*testing.T) string { return asPercent(amount.UsualWaste) }),
	}
}

// packs prints what an order buys.
func packs(o *derive.Order) string {
	var out []string
	for _, l := range o.Lines {
		out = append(out, fmt.Sprintf("%s in %d × %s", l.Buy, l.Packs, l.Pack.Size))
	}
	return strings.Join(out, ", ")
}
