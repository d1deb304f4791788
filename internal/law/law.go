// Package law knows what the law limits in colour for hair that is ready for use.
//
// It holds the few limits that a formula can be held against, for the countries whose
// text was read. Local codes may be stricter, licensed practice rules, and a text grows
// old: every law carries the year of the text that was read.
package law

import (
	"slices"
	"strings"

	"plait/internal/exact"
	"plait/internal/peroxide"
)

// Law is what holds in a country, or in the European Union as a whole.
type Law struct {
	Code     string // two letters (ISO 3166), EU for the Union; "" for the strictest reading
	Place    string // "the United Kingdom"
	Act      string // the text that was read
	State    string // how old that text is: "about 2021"
	Peroxide peroxide.Strength
	limits   map[string]Limit
}

// Limit is the most of a substance after mixing, as a share of the ready-to-use
// preparation.
type Limit struct {
	Share exact.Number
	Entry string // of the act
}

// Limit returns what the law allows of a substance, by its name in small letters or
// capitals; ok is false for one whose limit is not known here.
func (l Law) Limit(substance string) (limit Limit, ok bool) {
	limit, ok = l.limits[strings.ToLower(strings.TrimSpace(substance))]
	return limit, ok
}

// String names the act and how old the text is that was read.
func (l Law) String() string { return l.Act + ", text of " + l.State }

// Cite names the act with the entry of a limit and how old the text is that was read.
func (l Law) Cite(limit Limit) string { return l.Act + ", " + limit.Entry + ", text of " + l.State }

// annex is Annex III to Regulation (EC) No 1223/2009, column "maximum concentration in
// ready for use preparation": entry 12(a) as replaced by Regulation (EU) 2019/831, the
// others as exported from the Commission's database of cosmetic ingredients about 2021.
// Regulation (EU) 2024/996 touched it later and was not read in full, so a range file
// states limits of its own with the date they were checked.
var annex = map[string]Limit{
	"ammonia":                           {exact.Of(6, 100), "entry 4"}, // as NH3
	"n-substituted p-phenylenediamines": {exact.Of(3, 100), "entry 8"}, // free base; several together by the sum of ratios
	"p-phenylenediamine":                {exact.Of(2, 100), "entry 8a"},
	"methylphenylenediamines":           {exact.Of(5, 100), "entry 9"}, // other than toluene-2,5-diamine, free base
	"toluene-2,5-diamine":               {exact.Of(2, 100), "entry 9a"},
	"toluene-2,5-diamine sulphate":      {exact.Of(36, 1000), "entry 9a"}, // agrees with the base by molar mass
	"resorcinol":                        {exact.Of(125, 10000), "entry 22"},
}

// annexPeroxide is entry 12(a): 12 %, 40 volumes, present or released. The column says
// "ready for use", and bottles for the trade stop there too, so bottle and bowl are
// both held to it.
var annexPeroxide = peroxide.Percent(exact.Int(12))

// state is how old the text of the annex is, which nothing but the export tells.
const state = "about 2021"

var (
	union = Law{
		Code: "EU", Place: "the European Union", Act: "Regulation (EC) No 1223/2009, Annex III", State: state,
		Peroxide: annexPeroxide, limits: annex,
	}
	kingdom = Law{
		Code: "GB", Place: "the United Kingdom", Act: "Regulation (EC) No 1223/2009, Annex III, as the United Kingdom kept it", State: state,
		Peroxide: annexPeroxide, limits: annex,
	}
)

// members are the countries in which the Union's annex holds: its members, and Iceland,
// Liechtenstein and Norway, which take it over through the European Economic Area.
var members = map[string]string{
	"AT": "Austria", "BE": "Belgium", "BG": "Bulgaria", "CY": "Cyprus", "CZ": "Czechia", "DE": "Germany", "DK": "Denmark",
	"EE": "Estonia", "ES": "Spain", "FI": "Finland", "FR": "France", "GR": "Greece", "HR": "Croatia", "HU": "Hungary",
	"IE": "Ireland", "IS": "Iceland", "IT": "Italy", "LI": "Liechtenstein", "LT": "Lithuania", "LU": "Luxembourg",
	"LV": "Latvia", "MT": "Malta", "NL": "the Netherlands", "NO": "Norway", "PL": "Poland", "PT": "Portugal", "RO": "Romania",
	"SE": "Sweden", "SI": "Slovenia", "SK": "Slovakia",
}

// also are two codes that people write in place of a country's own.
var also = map[string]string{"UK": "GB", "EL": "GR"}

// Of returns the law of a country by its two letters, or of the Union by EU; ok is
// false for one whose law is not known here.
func Of(code string) (l Law, ok bool) {
	code = strings.ToUpper(code)
	if own, ok := also[code]; ok {
		code = own
	}
	switch place, member := members[code]; {
	case code == union.Code:
		return union, true
	case code == kingdom.Code:
		return kingdom, true
	case member:
		l = union
		l.Code, l.Place = code, place
		return l, true
	}
	return Law{}, false
}

// Codes returns the codes of all laws that are known here, the Union first.
func Codes() []string {
	codes := []string{kingdom.Code}
	for code := range members {
		codes = append(codes, code)
	}
	slices.Sort(codes)
	return append([]string{union.Code}, codes...)
}

// Strictest returns the strictest reading of all laws known here, which holds where a
// course states none.
func Strictest() Law { return strictest }

var strictest = func() Law {
	l := Law{
		Act:   union.Act + ", in the stricter reading of the European Union and the United Kingdom",
		State: state, Peroxide: union.Peroxide, limits: map[string]Limit{},
	}
	for _, own := range []Law{union, kingdom} {
		if own.Peroxide.Cmp(l.Peroxide) < 0 {
			l.Peroxide = own.Peroxide
		}
		for name, limit := range own.limits {
			if least, ok := l.limits[name]; !ok || limit.Share.Less(least.Share) {
				l.limits[name] = limit
			}
		}
	}
	return l
}()
