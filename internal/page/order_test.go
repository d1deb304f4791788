package page

import (
	"strings"
	"testing"

	"plait/internal/course"
)

// 8V is in two bowls of the course, 10 g and a sixth of 10 g a head: 12 heads take 140 g,
// a tenth on top is 154 g, and three tubes of 60 g hold it.
func TestOrderPage(t *testing.T) {
	file, _ := rendered(t).Get("order.html")
	page := plain(string(file.Data))
	for _, want := range []string{
		"For 12 heads", "10 % on top",
		`<th scope="row">8V</th><td>3 × 60 g</td><td>154 g</td><td>23.70 GBP</td><td>140 g</td><td>14 g</td><td>–</td>`,
		`data-do="print"`,
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %s", want)
		}
	}
	home, _ := rendered(t).Get("index.html")
	if !strings.Contains(string(home.Data), `href="order.html"`) {
		t.Error("home does not lead to the order")
	}
}

// A course that names no class has no such page.
func TestNoOrderWithoutAClass(t *testing.T) {
	b := &builder{course: &course.Course{}}
	for _, j := range b.jobs() {
		if j.path == orderPage {
			t.Error("there is an order for nobody")
		}
	}
}
