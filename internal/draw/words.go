package draw

import (
	"fmt"
	"strings"

	"plait/internal/scalp"
)

// title returns the name of a drawing: "Four sections, left profile".
func (d *Drawings) title(v View) string { return d.sheet.Title + ", " + v.Long() }

// describe says in words which sections a view shows and how large each is: "4 nape:
// 14.6 % of the scalp, 88 cm²".
func (d *Drawings) describe(s *scene, keys []int32) string {
	seen := make([]float64, len(d.sheet.Plan.Sections))
	for i, k := range keys {
		if k > skin {
			seen[k-1] += s.extent(s.mesh.Polygons[i].Corners)
		}
	}
	shares := scalp.Shares(d.sheet.Plan.Sections)
	var list []string
	for i, section := range d.sheet.Plan.Sections {
		if seen[i] < leastSeen {
			continue
		}
		number := ""
		if n := d.sheet.Sections[i].Number; n > 0 {
			number = fmt.Sprintf("%d ", n)
		}
		list = append(list, fmt.Sprintf("%s%s: %s of the scalp, %.0f cm²", number, section.Name, shares[i], section.Area))
	}
	switch {
	case len(list) == 0:
		return "No hair is seen from this side."
	case d.sheet.Silent:
		return fmt.Sprintf("Partings, with %d of the sections seen from this side.", len(list))
	}
	return "Sections seen from this side. " + strings.Join(list, "; ") + "."
}
