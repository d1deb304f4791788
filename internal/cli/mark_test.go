package cli

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"plait/internal/answerfile"
	"plait/internal/paper"
	"plait/internal/starter"
)

// paperLength is how many questions the paper of the benchmark asks.
const paperLength = 40

// examined puts a course into a folder whose one paper asks for as many weights as
// paperLength says.
func examined(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, starter.Files()); err != nil {
		t.Fatal(err)
	}
	var lesson strings.Builder
	lesson.WriteString("---\ntitle: Weights\nsummary: Many bowls.\noutcomes: {weighs: Weigh a bowl}\n---\n\n## Weigh\n\nTwo sides of one ratio.\n")
	for i := range paperLength {
		fmt.Fprintf(&lesson, "\n```question weigh-%d\nask: A bowl has %d g of colour at 1:2. How much developer goes in?\ngiven: {colour: %d g, ratio: \"1:2\"}\nfind: developer\npaper: yes\ntests: weighs\n```\n", i, 10+i, 10+i)
	}
	put := func(name, text string) {
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	put(filepath.Join(dir, "lessons", "02-weights", "lesson.md"), lesson.String())
	settings, err := os.ReadFile(filepath.Join(dir, "content", "course.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	put(filepath.Join(dir, "content", "course.yaml"), strings.Replace(string(settings), "lessons: [first-bowl]", "lessons: [first-bowl, weights]", 1))
	put(filepath.Join(dir, "content", "papers", "weights.yaml"), fmt.Sprintf("title: Weights\npass: 50 %%\ndraw: [{questions: %d, lesson: weights}]\n", paperLength))
	return dir
}

// handIn writes the answer file of a learner who gets the first answers right and weighs
// a gram too much for the others.
func handIn(t testing.TB, dir string, p *paper.Paper, learner, right int) {
	t.Helper()
	who := answerfile.Learner{Name: fmt.Sprintf("Learner %05d", learner), Class: "Tuesday"}
	seed := p.Seed(who)
	answers := []map[string]any{}
	for i, asked := range p.Draw(seed) {
		q := p.Questions[asked.Question]
		var grams int
		if _, err := fmt.Sscanf(q.Figures[asked.Figures].Ask, "A bowl has %d g", &grams); err != nil {
			t.Fatal(err)
		}
		given := 2 * grams
		if i >= right {
			given++
		}
		answers = append(answers, map[string]any{"question": q.ID(), "figures": asked.Figures, "given": fmt.Sprintf("%d g", given)})
	}
	started := time.Date(2026, 5, 12, 9, 0, 0, 0, time.UTC)
	file := map[string]any{
		"version": 1, "course": p.CourseID, "edition": p.Edition, "paper": p.Name, "text": p.Text, "seed": paper.SeedText(seed),
		"learner": map[string]any{"name": who.Name, "class": who.Class}, "answers": answers, "practicals": []any{},
		"started": started, "saved": started.Add(30 * time.Minute),
	}
	content, err := json.Marshal(file)
	if err != nil {
		t.Fatal(err)
	}
	sum := sha256.Sum256(content)
	file["digest"] = hex.EncodeToString(sum[:])
	if content, err = json.Marshal(file); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%05d.json", learner)), content, 0o600); err != nil {
		t.Fatal(err)
	}
}

// class hands in the paper of an examined course for some learners, of whom each knows
// one answer more than the one before, and returns the folder.
func class(t testing.TB, course string, learners int) string {
	t.Helper()
	result, err := readSound(context.Background(), course, console{err: os.Stderr})
	if err != nil {
		t.Fatal(err)
	}
	defer result.close()
	sat, dir := paper.All(result.Course, result.Derived)[0], t.TempDir()
	for i := range learners {
		handIn(t, dir, sat, i, i%(paperLength+1))
	}
	return dir
}

func markClass(t testing.TB, course, files string) string {
	t.Helper()
	var out, errs bytes.Buffer
	if got := run(context.Background(), []string{"mark", files, "--course", course, "--out", t.TempDir()}, console{out: &out, err: &errs}); got != exitFine {
		t.Fatalf("exit %d: %s", got, errs.String())
	}
	return out.String()
}

// By hand: of 41 learners, with 0 to 40 right, the 21 with 20 and more pass at 50 %.
func TestMarkManyQuestions(t *testing.T) {
	course := examined(t)
	if out := markClass(t, course, class(t, course, 41)); !strings.Contains(out, "41 learners  21 passed") {
		t.Errorf("want 21 of 41 to pass: %s", out)
	}
}

// BenchmarkMarkClass marks 10,000 answer files of 40 questions into a register, with its
// report; peak-MB is what the process took at most.
func BenchmarkMarkClass(b *testing.B) {
	course := examined(b)
	files := class(b, course, 10_000)
	for b.Loop() {
		markClass(b, course, files)
	}
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		b.Fatal(err)
	}
	b.ReportMetric(float64(used.Maxrss)/1024, "peak-MB")
}
