package asset

import (
	"bytes"
	"os/exec"
	"testing"

	"plait/layouts"
)

// moduleInNode returns the last value of a module's script and what follows it, a text.
func moduleInNode(t *testing.T, entry, global, then string) string {
	t.Helper()
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("no node")
	}
	script, err := Script(layouts.FS, nil, entry, global)
	if err != nil {
		t.Fatal(err)
	}
	run := exec.Command(node, "--eval", "process.stdout.write(require('vm').runInThisContext(require('fs').readFileSync(0, 'utf8')))")
	run.Stdin = bytes.NewReader(append(script, then...))
	out, err := run.Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// Leitner's five boxes (1972, from memory): from the first, right, right, wrong and right
// lead to boxes 2, 3, 1 and 2, each answered when it is due; never beyond the fifth, and
// a right answer before a card is due moves nothing.
func TestBoxes(t *testing.T) {
	const walk = `;(() => {
		const day = 86400, go = answers => {
			let at = 1e6, reviews = []
			return answers.map(right => {
				reviews.push(at * 2 + (right ? 1 : 0))
				const p = plaitBoxes.place(reviews)
				at = p.due
				return p.box
			}).join(" ")
		}
		const early = plaitBoxes.place([2e6 + 1, 2e6 + 3])
		return [go([1, 1, 0, 1]), go([1, 1, 1, 1, 1, 1]), early.box + " " + (early.due - 1e6) / day].join("; ")
	})()`
	if got, want := moduleInNode(t, "scripts/boxes.js", "plaitBoxes", walk), "2 3 1 2; 2 3 4 5 5 5; 2 2"; got != want {
		t.Errorf("the boxes are %s, want %s", got, want)
	}
}
