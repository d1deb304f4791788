package page

import (
	"regexp"
	"strconv"
	"strings"
	"testing"
)

var codeRun = regexp.MustCompile(`M(\d+) (\d+)h(\d+)v1h-(\d+)z`)

// modules paints the path of a code, row by row, a # for black.
func modules(t *testing.T, svg string, side int) []string {
	t.Helper()
	rows := make([][]byte, side)
	for i := range rows {
		rows[i] = []byte(strings.Repeat(".", side))
	}
	for _, m := range codeRun.FindAllStringSubmatch(svg, -1) {
		x, _ := strconv.Atoi(m[1])
		y, _ := strconv.Atoi(m[2])
		n, _ := strconv.Atoi(m[3])
		for i := range n {
			rows[y][x+i] = '#'
		}
	}
	lines := make([]string, side)
	for i, r := range rows {
		lines[i] = string(r)
	}
	return lines
}

// A code has the three eyes of ISO/IEC 18004, section 6.3.3, the timing pattern
// between them, and four empty modules around.
func TestCode(t *testing.T) {
	svg, err := code("https://school.example/films/lessons/gloss.html?t=12#mix-slowly")
	if err != nil {
		t.Fatal(err)
	}
	size := regexp.MustCompile(`viewBox="0 0 (\d+) `).FindStringSubmatch(string(svg))
	side, _ := strconv.Atoi(size[1])
	rows := modules(t, string(svg), side)
	eye := []string{"#######", "#.....#", "#.###.#", "#.###.#", "#.###.#", "#.....#", "#######"}
	far := side - quiet - len(eye)
	for _, corner := range [][2]int{{quiet, quiet}, {far, quiet}, {quiet, far}} {
		for i, want := range eye {
			if got := rows[corner[1]+i][corner[0] : corner[0]+len(want)]; got != want {
				t.Errorf("row %d of the eye at %v is %s, want %s", i, corner, got, want)
			}
		}
	}
	for i := quiet + 8; i < far-1; i++ {
		if black := rows[quiet+6][i] == '#'; black != (i%2 == 0) {
			t.Errorf("module %d of the timing pattern is wrong", i)
		}
	}
	empty := strings.Repeat(".", side)
	for i := range quiet {
		if rows[i] != empty || rows[side-1-i] != empty {
			t.Errorf("row %d of the border is not empty", i)
		}
	}
	if _, err := code(strings.Repeat("x", 5000)); err == nil {
		t.Error("an address that fits no code was drawn")
	}
}

const planned = "-- lessons/01-gloss/plan.head.yaml --\nsections:\n  - part: ear to ear\n"

// A code stands for each step on the sheet of a course that has an address, and on
// no other.
func TestCodesOnTheSheet(t *testing.T) {
	sheet := func(replace ...string) string {
		t.Helper()
		replace = append(replace, "-- lessons/01-gloss/a.en.vtt --", planned+"-- lessons/01-gloss/a.en.vtt --", "\nLook.\n", "\n![Where](plan.head.yaml)\n")
		f, ok := renderRecorded(t, replace...).Get("sheets/gloss.html")
		if !ok {
			t.Fatal("there is no sheet")
		}
		return string(f.Data)
	}
	page := sheet()
	if n := strings.Count(page, `shape-rendering="crispEdges"`); n != 4 {
		t.Errorf("%d codes stand on the sheet, want 4", n)
	}
	if want := `<a href="../lessons/gloss.html#mix-slowly"><b>0:12</b> Mix slowly</a>`; !strings.Contains(page, want) {
		t.Errorf("the sheet lacks %s", want)
	}
	if page := sheet("address: https://school.example/films\n", ""); strings.Contains(page, "crispEdges") {
		t.Error("a course without an address has codes")
	}
	if page := sheet("recording: {link: \"https://films.example/gloss.webm\", captions: a.en.vtt, length: \"1:00\"}\n", ""); strings.Contains(page, "crispEdges") {
		t.Error("a lesson without a film has codes")
	}
}
