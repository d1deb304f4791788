package page

import (
	"fmt"
	"html"
	"html/template"
	"strconv"
	"strings"
	"unicode/utf8"

	"plait/internal/asset"
	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/shade"
)

// The bar of a bowl shows its parts in proportion, with running totals under it
// as on a scale that is not zeroed between two pours. It is a drawing, in per cent
// of the width it is given; colours come by class, patterns by name.

// How much of a bar a label needs, in per cent of the bar's width: on the
// narrowest phone, and on a card with room. What fits with room only has the
// class room, which the style sheet hides on a phone.
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
const developerPattern = "pattern_9"

var partPatterns = []string{"", "pattern_2", "pattern_3", "pattern_4", "pattern_5"}

// piece is one part of a bowl as it is drawn.
type piece struct {
	label, swatch, pattern string
	from, upTo             float64 // per cent
	total                  string  // running total at its end
}

// weights fills in what a card shows of the weights of a bowl: the parts, the bar
// and its running totals, what it all adds up to, and the same for the script. What is
// mixed with the developer is called colour or powder.
func (v *BowlView) weights(b mix.Bowl, colour string, rangeOf rangeOf) {
	data := BowlData{Colour: colour, Step: b.Step.Grams().String(), Kinds: make([]string, 0, len(b.Parts)), Weights: make([]string, 0, len(b.Parts))}
	v.Parts = make([]PartView, 0, len(b.Parts))
	pieces := make([]piece, len(b.Parts))
	total := b.WeighedTotal()
	var running measure.Mass
	for i, p := range b.Parts {
		from := running
		running = running.Add(p.Weighed)
		pieces[i] = piece{
			label:   partCode(p),
			swatch:  partSwatch(p, rangeOf),
			pattern: partPattern(i, p.Role),
			from:    from.Per(total).Float() * 100,
			upTo:    running.Per(total).Float() * 100,
			total:   grams(running),
		}
		v.Parts = append(v.Parts, PartView{
			Chip:   chip(pieces[i].swatch, pieces[i].pattern),
			Code:   pieces[i].label,
			Name:   partName(p, rangeOf),
			Weight: grams(p.Weighed),
			Total:  pieces[i].total,
		})
		data.Kinds = append(data.Kinds, partKind[p.Role])
		data.Weights = append(data.Weights, p.Exact.Grams().String())
	}
	v.Bar, v.Marks = bar(pieces), marks(pieces)
	v.Mixed, v.Split = grams(total), madeOf(b, colour)
	v.Data = data.script()
}

// bar draws the parts side by side.
func bar(pieces []piece) template.HTML {
	var memory [1 << 10]byte
	svg := drawing(memory[:0])
	svg = svg.add(`<svg class="bar" aria-hidden="true">`)
	for i, p := range pieces {
		x, width := percent(p.from), percent(p.upTo-p.from)
		svg = svg.add(`<rect class="`, p.swatch, `" x="`, x, `" width="`, width, `" height="100%"/>`)
		if p.pattern != "" {
			svg = svg.add(`<rect fill="url(#`, p.pattern, `)" x="`, x, `" width="`, width, `" height="100%"/>`)
		}
		if i > 0 {
			svg = svg.add(`<rect class="gap" x="`, x, `" width="2" height="100%"/>`)
		}
		if class := labelClass(p.label, p.upTo-p.from); class != "" {
			svg = svg.add(`<text class="`, p.swatch, ` `, class, `" x="`, x, `" dx="12" y="50%" dy=".35em">`, html.EscapeString(p.label), `</text>`)
		}
	}
	svg = svg.add(`</svg>`)
	return template.HTML(svg)
}

// drawing is SVG that is being written. A page has some hundred lines of it, for which
// formats would take longer than all else on it.
type drawing []byte

// add appends pieces of SVG. Text among them is escaped already.
func (d drawing) add(pieces ...string) drawing {
	for _, p := range pieces {
		d = append(d, p...)
	}
	return d
}

// labelClass says where a part's name fits its length of the bar: anywhere, with
// room only, or, with "", nowhere.
func labelClass(name string, width float64) string {
	letters := float64(utf8.RuneCountInString(name))
	switch {
	case width < roomMargin+letters*roomShare:
		return ""
	case width < phoneMargin+letters*phoneShare:
		return "room"
	}
	return "fits"
}

// marks draws the running totals. The script finds them by the number of parts
// that are in the bowl at the mark.
func marks(pieces []piece) template.HTML {
	var memory [1 << 10]byte
	svg := drawing(memory[:0])
	svg = svg.add(`<svg class="marks" aria-hidden="true">`)
	svg = svg.mark(0, 0, "0", "")
	last := 0.0
	for i, p := range pieces {
		gap := min(p.upTo-last, 100-p.upTo)
		switch {
		case i == len(pieces)-1:
			svg = svg.mark(100, i+1, p.total, "")
			continue
		case gap < marksApart:
			continue
		case gap < marksApartRoom:
			svg = svg.mark(p.upTo, i+1, p.total, ` class="room"`)
		default:
			svg = svg.mark(p.upTo, i+1, p.total, "")
		}
		last = p.upTo
	}
	svg = svg.add(`</svg>`)
	return template.HTML(svg)
}

// mark appends one running total.
func (d drawing) mark(at float64, parts int, text, class string) drawing {
	x := percent(at)
	return d.add(`<line x1="`, x, `" x2="`, x, `" y1="2" y2="8"`, class, `/><text x="`, x, `" y="21" data-upto="`, strconv.Itoa(parts), `"`, class, `>`, text, `</text>`)
}

// stripe is a bowl as a plain coloured bar beside a lesson's title.
func stripe(b mix.Bowl, rangeOf rangeOf) template.HTML {
	var memory [1 << 10]byte
	svg := drawing(memory[:0])
	svg = svg.add(`<svg class="bar" aria-hidden="true">`)
	at := 0.0
	for _, p := range b.Parts {
		width := p.Exact.Per(b.Mixed).Float() * 100
		svg = svg.add(`<rect class="`, partSwatch(p, rangeOf), `" x="`, percent(at), `" width="`, percent(width), `" height="100%"/>`)
		at += width
	}
	svg = svg.add(`</svg>`)
	return template.HTML(svg)
}

// chip is a small swatch, coloured by the style sheet.
func chip(swatch, pattern string) template.HTML {
	fill := ""
	if pattern != "" {
		fill = `<rect fill="url(#` + pattern + `)" width="100%" height="100%"/>`
	}
	return template.HTML(`<svg class="chip ` + swatch + `" aria-hidden="true">` + fill + `</svg>`)
}

func partCode(p mix.Part) string {
	if p.Role == mix.DeveloperRole {
		return spaced(p.Strength.Name())
	}
	return p.Name
}

// rangeOf returns the range that a shade is of.
type rangeOf func(shade.Code) *shade.Range

func partName(p mix.Part, of rangeOf) string {
	switch p.Role {
	case mix.DeveloperRole:
		return "developer, " + spaced(p.Strength.Other())
	case mix.ColourRole:
		return shadeName(p.Shade, of(p.Shade))
	}
	return ""
}

// shadeName puts the range's words for a level and its tones together: light
// blonde, violet.
func shadeName(c shade.Code, r *shade.Range) string {
	var words []string
	level := r.Names[c.Level]
	if level != "" {
		words = append(words, level)
	}
	for i, t := range c.Tones {
		switch name := r.Tones[t].Name; {
		case i > 0 && c.Tones[i-1] == t: // 0.11
			words[len(words)-1] = "intense " + name
		case !strings.HasSuffix(level, name): // else the level is called by its tone
			words = append(words, name)
		}
	}
	return strings.Join(words, ", ")
}

// partSwatch is the class of a part's colour.
func partSwatch(p mix.Part, of rangeOf) string {
	switch p.Role {
	case mix.DeveloperRole:
		return "dev"
	case mix.AdditiveRole:
		return asset.Tint{}.Class()
	}
	return tint(p.Shade, of(p.Shade)).Class()
}

// tint is what the swatch of a shade shows: its level and its first tone that has
// a hue.
func tint(c shade.Code, r *shade.Range) asset.Tint {
	t := asset.Tint{Level: c.Level}
	if bases := r.Bases(c); len(bases) > 0 {
		t.Hue = bases[0]
	}
	return t
}

// levelSwatch is the class of a level of the ladder.
func levelSwatch(level shade.Level) string { return asset.Tint{Level: level}.Class() }

func partPattern(i int, role mix.Role) string {
	if role == mix.DeveloperRole {
		return developerPattern
	}
	return partPatterns[i%len(partPatterns)]
}

// partKind names the roles of parts for the script.
var partKind = map[mix.Role]string{mix.ColourRole: "colour", mix.AdditiveRole: "extra", mix.DeveloperRole: "developer"}

// script returns the data as JSON for a script element. <, > and & are written as escapes,
// so the element cannot end early.
func (d BowlData) script() template.JS {
	var memory [256]byte
	out := appendJSONText(append(memory[:0], `{"colour":`...), d.Colour)
	out = appendJSONText(append(out, `,"step":`...), d.Step)
	out = appendJSONTexts(append(out, `,"kinds":`...), d.Kinds)
	out = appendJSONTexts(append(out, `,"weights":`...), d.Weights)
	return template.JS(append(out, '}'))
}

// madeOf says what the total of a bowl is made of: 30 g colour + 60 g developer. What is
// mixed with the developer is called colour or powder.
func madeOf(b mix.Bowl, colour string) string {
	var of []string
	for _, role := range []struct {
		mix.Role
		word string
	}{{mix.ColourRole, colour}, {mix.AdditiveRole, "additives"}, {mix.DeveloperRole, "developer"}} {
		if sum := b.WeighedTotal(role.Role); !sum.IsZero() {
			of = append(of, grams(sum)+" "+role.word)
		}
	}
	return strings.Join(of, " + ")
}

// percent prints a place on a bar for SVG.
func percent(p float64) string { return exact.Of(int64(p*100+0.5), 100).With("%", 2) }

// nbsp keeps a figure and its unit on one line.
const nbsp = "\u00a0"

func grams(m measure.Mass) string { return m.Grams().With(nbsp+"g", 2) }

// spaced replaces the spaces of a figure with its unit by ones that do not break.
func spaced(s string) string { return strings.ReplaceAll(s, " ", nbsp) }

// together keeps the figures of a text with their units; its words may go apart.
func together(s string) string {
	words := strings.Split(s, " ")
	for i, w := range words[:len(words)-1] {
		if w != "" && w[len(w)-1] >= '0' && w[len(w)-1] <= '9' {
			words[i] = w + nbsp
		} else {
			words[i] = w + " "
		}
	}
	return strings.Join(words, "")
}

// plain undoes what keeps figures together on a page.
func plain(s string) string { return apart.Replace(s) }

var apart = strings.NewReplacer(nbsp, " ", dash, "–")

// plaitLobes is how many lobes the drawn plait has, and lobeApart how far they
// stand from each other.
const (
	plaitLobes = 40
	lobeApart  = 30
)

// plait draws the lobes of the plait on the home page from level 1 to 10; their
// shape is the template's.
func plait() template.HTML {
	var svg strings.Builder
	for i := range plaitLobes {
		turn := ""
		if i%2 == 1 {
			turn = " scale(1 -1)"
		}
		level := shade.Level(i*10/plaitLobes + 1)
		fmt.Fprintf(&svg, `<use href="#plait_lobe" class="%s" transform="translate(%d)%s"/>`, levelSwatch(level), i*lobeApart, turn)
	}
	return template.HTML(svg.String())
}
