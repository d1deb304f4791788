package bench

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// BenchmarkDrawing measures what a head sheet costs in a cold build by a program just started:
// one that no build has drawn before, and one that an earlier build has. It is the difference
// to a course that has no sheets and is the same in all else.
func BenchmarkDrawing(b *testing.B) {
	const lessons, sheets = 100, 5
	plait := program(b)
	with, without := newPlace(b, lessons), newPlace(b, lessons)
	without.takeSheetsOut(b)
	cold := func(p *place, forgetDrawings bool) float64 {
		p.forget(b)
		if forgetDrawings {
			os.RemoveAll(os.Getenv("XDG_CACHE_HOME"))
		}
		return took(func() {
			if out, err := exec.Command(plait, "build", "--course", p.dir, "--out", p.out).CombinedOutput(); err != nil {
				b.Fatalf("%v: %s", err, out)
			}
		}).Seconds() * 1000
	}
	var drawn, kept []float64
	for range max(b.N, leastRounds) {
		first, again := cold(without, true), cold(without, false)
		drawn = append(drawn, (cold(with, true)-first)/sheets)
		kept = append(kept, (cold(with, false)-again)/sheets)
	}
	show(b, row{"a sheet drawn", lessons, drawn, "ms", ""})
	show(b, row{"one drawn before", lessons, kept, "ms", "0"})
}

// takeSheetsOut takes all head sheets out of the course.
func (p *place) takeSheetsOut(b *testing.B) {
	b.Helper()
	plans, err := filepath.Glob(filepath.Join(p.dir, "lessons", "*", "plan.head.yaml"))
	if err != nil || len(plans) == 0 {
		b.Fatalf("there are no head sheets: %v", err)
	}
	for _, plan := range plans {
		text := filepath.Join(filepath.Dir(plan), "lesson.md")
		data, err := os.ReadFile(text)
		if err != nil {
			b.Fatal(err)
		}
		lines := strings.Split(string(data), "\n")
		var left bytes.Buffer
		for i, line := range lines {
			if !strings.Contains(line, "](plan.head.yaml)") {
				left.WriteString(line)
				if i < len(lines)-1 {
					left.WriteByte('\n')
				}
			}
		}
		if err := os.WriteFile(text, left.Bytes(), 0o666); err != nil {
			b.Fatal(err)
		}
		if err := os.Remove(plan); err != nil {
			b.Fatal(err)
		}
	}
	settle(b, p.dir)
}
