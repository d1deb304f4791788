package page

import (
	"encoding/json"
	"fmt"
	"html/template"
	"strconv"
	"strings"
	"unicode/utf8"

	"plait/internal/asset"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/shade"
)

// How much of a bar a label needs, in per cent of the bar's width: on the
// narrowest phone, and on a card with room.
const (
	phoneShare  = 4.2 // for each letter
	phoneMargin = 10.0
	roomShare   = 1.9
	roomMargin  = 4.5

	marksApart     = 7.0  // running totals closer than this are left out
	marksApartRoom = 15.0 // and closer than this where there is no room
)

// developerPattern marks developers; other parts take theirs in turn, the first
// of them none.
const developerPattern = "p9"

var partPatterns = []string{"", "p2", "p3", "p4", "p5"}

// weights fills in what a card shows of the weights of a bowl: the parts with
// their place on the bar, the running totals under it, what it all adds up to, and
// the same for the script.
func (v *BowlView) weights(b mix.Bowl, r *shade.Range) {
	v.Mixed = grams(b.WeighedTotal())
	v.Split = madeOf(b)
	data := BowlData{Name: v.Title, Said: v.Said, Step: b.Step.Grams().String()}
	total := b.WeighedTotal().Grams().Float()
	v.Marks = []MarkView{{X: "0%", Anchor: "start", Text: "0"}}
	var running measure.Mass
	var last float64
	for i, p := range b.Parts {
		from := running.Grams().Float() / total * 100
		running = running.Add(p.Weighed)
		upTo := running.Grams().Float() / total * 100
		part := PartView{
			Code:    partCode(p),
			Name:    partName(p, r),
			Weight:  grams(p.Weighed),
			Total:   grams(running),
			Swatch:  partSwatch(p, r),
			Pattern: partPattern(i, p.Role),
			X:       percent(from),
			Width:   percent(upTo - from),
			Later:   i > 0,
		}
		part.label(upTo - from)
		v.Parts = append(v.Parts, part)
		data.Parts = append(data.Parts, PartData{Code: part.Code, Kind: partKind[p.Role], Weight: p.Exact.Grams().String()})
		if m, ok := mark(i+1, len(b.Parts), upTo, last, running); ok {
			v.Marks = append(v.Marks, m)
			last = upTo
		}
	}
	v.Data = data.script()
}

// partKind names the roles of parts for the script.
var partKind = map[mix.Role]string{mix.ColourRole: "colour", mix.AdditiveRole: "extra", mix.DeveloperRole: "developer"}

// script returns the data as JSON for a script element. The encoder writes <, >
// and & as escapes, so the element cannot end early.
func (d BowlData) script() template.JS {
	text, err := json.Marshal(d)
	if err != nil {
		panic(err) // a structure of strings always encodes
	}
	return template.JS(text)
}

// madeOf says what the total of a bowl is made of: 30 g colour + 60 g developer.
func madeOf(b mix.Bowl) string {
	var of []string
	for _, role := range []struct {
		mix.Role
		word string
	}{{mix.ColourRole, "colour"}, {mix.AdditiveRole, "additives"}, {mix.DeveloperRole, "developer"}} {
		if sum := b.WeighedTotal(role.Role); !sum.IsZero() {
			of = append(of, grams(sum)+" "+role.word)
		}
	}
	return strings.Join(of, " + ")
}

// mark returns the running total at a place of the bar unless it would run into
// its neighbours.
func mark(n, of int, at, last float64, running measure.Mass) (MarkView, bool) {
	m := MarkView{X: percent(at), Anchor: "middle", UpTo: n, Text: grams(running)}
	if n == of {
		m.Anchor = "end"
		return m, true
	}
	gap := min(at-last, 100-at)
	m.Room = gap < marksApartRoom
	return m, gap >= marksApart
}

// label decides whether the part's code fits on its length of the bar.
func (p *PartView) label(width float64) {
	letters := float64(utf8.RuneCountInString(p.Code))
	if width < roomMargin+letters*roomShare {
		return
	}
	p.Label = p.Code
	p.Room = width < phoneMargin+letters*phoneShare
}

func partCode(p mix.Part) string {
	if p.Role == mix.DeveloperRole {
		return spaced(p.Strength.VolumesString())
	}
	return p.Name
}

func partName(p mix.Part, r *shade.Range) string {
	switch p.Role {
	case mix.DeveloperRole:
		return "developer, " + spaced(p.Strength.String())
	case mix.ColourRole:
		return shadeName(p.Shade, r)
	}
	return ""
}

// shadeName puts the range's words for a level and its tones together: light
// blonde, violet.
func shadeName(c shade.Code, r *shade.Range) string {
	name := r.Names[c.Level]
	for _, t := range c.Tones {
		if name != "" {
			name += ", "
		}
		name += r.Tones[t].Name
	}
	return name
}

// partSwatch is the class of a part's colour, by its first tone with a hue.
func partSwatch(p mix.Part, r *shade.Range) string {
	switch p.Role {
	case mix.DeveloperRole:
		return "dev"
	case mix.AdditiveRole:
		return asset.Swatch(0, shade.NoHue)
	}
	hue := shade.NoHue
	if bases := r.Bases(p.Shade); len(bases) > 0 {
		hue = bases[0]
	}
	return asset.Swatch(p.Shade.Level, hue)
}

func partPattern(i int, role mix.Role) string {
	if role == mix.DeveloperRole {
		return developerPattern
	}
	return partPatterns[i%len(partPatterns)]
}

// stripe is the bowl as a plain coloured bar beside a lesson's title.
func stripe(b mix.Bowl, r *shade.Range) []Stripe {
	total := b.Mixed.Grams().Float()
	var out []Stripe
	at := 0.0
	for _, p := range b.Parts {
		width := p.Exact.Grams().Float() / total * 100
		out = append(out, Stripe{Swatch: partSwatch(p, r), X: percent(at), Width: percent(width)})
		at += width
	}
	return out
}

// percent prints a share of a bar for SVG.
func percent(p float64) string {
	return strconv.FormatFloat(float64(int(p*100+0.5))/100, 'f', -1, 64) + "%"
}

// nbsp keeps a figure and its unit on one line.
const nbsp = "\u00a0"

func grams(m measure.Mass) string { return m.Grams().Decimal(2) + nbsp + "g" }

// spaced replaces the spaces of a figure with its unit by ones that do not break.
func spaced(s string) string {
	return strings.ReplaceAll(s, " ", nbsp)
}

// plaitLobes is how many lobes the drawn plait has.
const plaitLobes = 40

// lobes returns the pieces of the plait on the home page, from level 1 to 10.
func lobes() []Lobe {
	out := make([]Lobe, plaitLobes)
	for i := range out {
		place := fmt.Sprintf("translate(%d)", i*30)
		if i%2 == 1 {
			place += " scale(1 -1)"
		}
		out[i] = Lobe{Class: asset.Swatch(shade.Level(i*10/plaitLobes+1), shade.NoHue), Place: place}
	}
	return out
}
