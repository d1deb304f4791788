package draw

import (
	"fmt"
	"html"
	"sort"
	"strings"
)

// areas returns the tints and the hatching of all sections that are seen, as one group
// a section, and leaves out the hatching of the smallest ones where there is no room
// for all.
func (d *Drawings) areas(s *scene, keys []int32, borders []border, room int) string {
	n := len(d.sheet.Plan.Sections)
	tints, hatches := make([]string, n), make([]string, n)
	total := 0
	for i := range n {
		data := outline(borders, int32(i)+1)
		if data == "" {
			continue
		}
		tint := d.sheet.Sections[i].Tint
		tints[i] = element(fmt.Sprintf(`class="t %s" fill="%s" stroke="none"`,
			html.EscapeString(tint.Class), html.EscapeString(tint.Fill)), data)
		if h := d.hatches[i]; !h.plain() {
			hatches[i] = element(`class="x"`, s.hatch(keys, int32(i)+1, h))
		}
		total += len(tints[i]) + len(hatches[i]) + groupBytes
	}
	for _, i := range d.smallestFirst() {
		if total > room {
			total -= len(hatches[i])
			hatches[i] = ""
		}
	}
	var b strings.Builder
	b.WriteString(`<g stroke="#555" stroke-width=".7" fill-rule="evenodd">`)
	for i, section := range d.sheet.Plan.Sections {
		if tints[i] != "" {
			fmt.Fprintf(&b, `<g data-section="%s">%s%s</g>`, html.EscapeString(section.Name), tints[i], hatches[i])
		}
	}
	b.WriteString("</g>")
	return b.String()
}

// groupBytes is about what the group of a section takes.
const groupBytes = 40

// smallestFirst lists the sections by area.
func (d *Drawings) smallestFirst() []int {
	order := make([]int, len(d.sheet.Plan.Sections))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool {
		return d.sheet.Plan.Sections[order[a]].Area < d.sheet.Plan.Sections[order[b]].Area
	})
	return order
}
