package draw

import (
	"bytes"
	"fmt"
	"html"
	"strconv"
)

// Colours of a drawing without a style sheet. They are the ones of the site in light;
// its style sheet gives those of dark and print by the classes.
const (
	ink      = "#241a15"
	skinFill = "#fdfaf6"
	grey     = "#666"
	arrowRed = "#8a1c1c"
)

// Picture is the frame of a drawing: what it shows in words, and its part of the page.
//
// A drawing needs no style sheet: presentation attributes give every colour and
// width. Short classes stand beside them, in an element of class "hd":
//
//	k  skin            e  an ear          i  an iris
//	a  thin lines      b  heavy lines     o  outlines
//	h  hairline        p  partings        q  hidden partings
//	t  a tint          x  hatching        n  numbers
//	l  leader lines    w  arrows          u  the light edge under an arrow
type Picture struct {
	ID          string // unique on its page
	Title       string
	Description string
	Box         Box
}

// Open writes the start of a picture: the svg element, its accessible name and
// description.
func (p Picture) Open(b *bytes.Buffer) {
	size := p.Box.Max.Sub(p.Box.Min)
	id := html.EscapeString(p.ID)
	fmt.Fprintf(b, `<svg class="hd" viewBox="%s %s %s %s" role="img" aria-labelledby="%s-t %s-d" fill="none" stroke="`+ink+
		`" stroke-width="1.3" stroke-linecap="round" stroke-linejoin="round">`,
		whole(p.Box.Min.X), whole(p.Box.Min.Y), whole(size.X), whole(size.Y), id, id)
	fmt.Fprintf(b, `<title id="%s-t">%s</title><desc id="%s-d">%s</desc>`,
		id, html.EscapeString(p.Title), id, html.EscapeString(p.Description))
	b.WriteString(inner)
}

// inner opens what the description says in words: it is kept from readers of the page.
const inner = `<g aria-hidden="true">`

// Close writes the end of a picture.
func (p Picture) Close(b *bytes.Buffer) { b.WriteString("</g></svg>") }

// whole spells a coordinate of a view box, in whole pixels.
func whole(v float64) string { return strconv.FormatFloat(v, 'f', 0, 64) }

// element returns a path element, nothing where there is no path. The attributes are
// given as they stand in the file.
func element(attributes, data string) string {
	if data == "" {
		return ""
	}
	return `<path ` + attributes + ` d="` + data + `"/>`
}

func skinned(data string) string {
	return element(`class="k" fill="`+skinFill+`" stroke="none"`, data)
}

func eared(data string) string { return element(`class="e" fill="`+skinFill+`"`, data) }

func drawn(data string) string { return element(`class="a"`, data) }

func heavy(data string) string { return element(`class="b" stroke-width="1.9"`, data) }

func pupils(data string) string { return element(`class="i" fill="`+grey+`"`, data) }

func outlined(data string) string { return element(`class="o" stroke-width="2.2"`, data) }
