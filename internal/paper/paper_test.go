package paper_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"plait/internal/answer"
	"plait/internal/answerfile"
	"plait/internal/build"
	"plait/internal/derive"
	"plait/internal/exact"
	"plait/internal/paper"
	"plait/internal/question"
	"plait/internal/register"
	"plait/layouts"
)

// Whoever is drawn for: as many as the paper asks, none twice, each from its pool, and
// the same once more.
func TestDraw(t *testing.T) {
	p, _ := demo(t)
	rapid.Check(t, func(t *rapid.T) {
		who := answerfile.Learner{Name: rapid.String().Draw(t, "name"), Class: rapid.String().Draw(t, "class")}
		asked := p.Draw(p.Seed(who))
		if !slices.Equal(asked, p.Draw(p.Seed(who))) {
			t.Fatal("one learner, two draws")
		}
		at := 0
		seen := map[int]bool{}
		for _, d := range p.Draws {
			for range d.Questions.Value {
				a := asked[at]
				if seen[a.Question] || !slices.Contains(d.Pool, a.Question) || a.Figures >= len(p.Questions[a.Question].Figures) {
					t.Fatalf("draw %v of %v", asked, d.Pool)
				}
				seen[a.Question] = true
				at++
			}
		}
		if at != len(asked) || at != p.Asked {
			t.Fatalf("%d of %d asked", len(asked), p.Asked)
		}
	})
}

// A draw takes what it names: a module, a difficulty, a kind. The demo uses each.
func TestPools(t *testing.T) {
	p, _ := demo(t)
	hard, kinds := 0, 0
	for _, d := range p.Draws {
		if len(d.Pool) == 0 {
			t.Errorf("nothing to draw from: %+v", d.Draw)
		}
		for at, q := range p.Questions {
			want := (d.Module.Value == "" || q.Module.Name.Value == d.Module.Value) &&
				(d.Outcome.Value == "" || q.Lesson.Name+"/"+q.Tests.Value == d.Outcome.Value) &&
				(d.Difficulty.Value == "" || string(q.Hard) == d.Difficulty.Value) &&
				(len(d.Kinds) == 0 || string(q.Kind) == d.Kinds[0].Value)
			if got := slices.Contains(d.Pool, at); got != want {
				t.Errorf("%s in the pool of %+v: %v", q.ID(), d.Draw, got)
			}
		}
		if d.Difficulty.Value != "" {
			hard++
		}
		kinds += len(d.Kinds)
	}
	if hard == 0 || kinds == 0 {
		t.Errorf("the demo draws %d times by difficulty and by %d kinds", hard, kinds)
	}
}

// The true answer is right however it is spelled, and a neighbour beyond the tolerance is
// wrong: for every question of the demo with all its figures.
func TestJudgeEveryQuestion(t *testing.T) {
	p, _ := demo(t)
	dice := rand.New(rand.NewPCG(1, 2))
	for _, q := range p.Questions {
		for i, f := range q.Figures {
			for spelling := range 4 {
				if given := right(t, q, i, spelling); !q.Judge(i, given) {
					t.Errorf("%s: %q is wrong", f.Ask, given)
				}
			}
			if given := wrong(q, i, dice); q.Judge(i, given) {
				t.Errorf("%s: %q is right", f.Ask, given)
			}
			if len(f.Shown) == 0 && f.Key.Unit != answer.Moment && f.Key.Unit != answer.Ratio {
				for _, off := range []exact.Number{f.Key.Near.Add(exact.Of(1, 1000)), f.Key.Near.Neg().Sub(exact.Of(1, 1000))} {
					if given := f.Key.Value.Number.Add(off).Decimal(6); q.Judge(i, given) {
						t.Errorf("%s: %s is right", f.Ask, given)
					}
				}
			}
			for _, nonsense := range []string{"", "-1", "0 x", "99", "0 0 0 0", "NaN", strings.Repeat("9", 400)} {
				if q.Judge(i, nonsense) {
					t.Errorf("%s: %q is right", f.Ask, nonsense)
				}
			}
		}
	}
}

// Of what can be chosen, ordered or paired exactly one way is right.
func TestOneWayIsRight(t *testing.T) {
	p, _ := demo(t)
	for _, q := range p.Questions {
		for i, f := range q.Figures {
			if len(f.Shown) == 0 {
				continue
			}
			n := 0
			for _, given := range choices(q, &f) {
				if q.Judge(i, given) {
					n++
				}
			}
			if n != 1 {
				t.Errorf("%s: %d ways are right", f.Ask, n)
			}
		}
	}
}

// Lists are shown in alphabetical order, figures by their size, so that their order does
// not say what is right.
func TestOrderSaysNothing(t *testing.T) {
	p, _ := demo(t)
	for _, q := range p.Questions {
		for _, f := range q.Figures {
			if len(f.Options) == 0 && q.Kind != question.Order {
				continue
			}
			folded := make([]string, len(f.Shown))
			for i, s := range f.Shown {
				folded[i] = strings.ToLower(s)
			}
			if !slices.IsSorted(folded) && !strings.ContainsAny(f.Shown[0][:1], "0123456789") {
				t.Errorf("%s: %q", f.Ask, f.Shown)
			}
		}
	}
}

// handMarked is a sitting with its mark worked out by hand: which of the questions drawn
// for the learner are answered right.
func TestHandMarked(t *testing.T) {
	p, book := demo(t)
	who := answerfile.Learner{Name: "Ada Thorn", Class: "Tuesday"}
	dice := rand.New(rand.NewPCG(3, 4))
	for _, c := range []struct {
		right  string // 1 right, 0 wrong, - left blank, by the order of the draw
		want   int
		passed bool
	}{
		{"111111111111", 12, true},
		{"000000000000", 0, false},
		{"------------", 0, false},
		{"111111111000", 9, true},   // just enough: 70 % of 12 is 8.4
		{"111111110000", 8, false},  // one too few
		{"111101111111", 11, false}, // the fifth must be right
		{"1111-1111111", 11, false},
	} {
		s := sit(t, p, who, 0, rand.New(rand.NewPCG(0, 0)))
		answers := []sheet{}
		for i, asked := range p.Draw(p.Seed(who)) {
			q, given := p.Questions[asked.Question], ""
			switch c.right[i] {
			case '1':
				given = right(t, q, asked.Figures, i)
			case '0':
				given = wrong(q, asked.Figures, dice)
			default:
				continue
			}
			answers = append(answers, sheet{"question": q.ID(), "figures": asked.Figures, "given": given})
		}
		s["answers"] = answers
		got := marked(t, book, s)
		if got.Right != c.want || got.Of != 12 || got.Needed != 9 || got.Passed != c.passed || len(got.Doubts) != 0 {
			t.Errorf("%s: %d of %d, needed %d, passed %v, doubts %v", c.right, got.Right, got.Of, got.Needed, got.Passed, got.Doubts)
		}
	}
}

func marked(t *testing.T, book *paper.Book, s sheet) register.Sitting {
	t.Helper()
	file, err := answerfile.Read("a.json", s.file(t))
	if err != nil {
		t.Fatal(err)
	}
	got, err := book.Mark(file)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func expectRefused(t *testing.T, book *paper.Book, s sheet, what string) {
	t.Helper()
	file, err := answerfile.Read("a.json", s.file(t))
	if err != nil {
		t.Fatal(err)
	}
	_, err = book.Mark(file)
	var fault *answerfile.Fault
	if !errors.As(err, &fault) || !strings.Contains(fault.What, what) || fault.Help == "" {
		t.Errorf("got %v, want %s", err, what)
	}
}

func TestOtherFiles(t *testing.T) {
	p, book := demo(t)
	ada := func(key string, v any) sheet {
		s := sit(t, p, answerfile.Learner{Name: "Ada", Class: "7"}, 0, rand.New(rand.NewPCG(0, 0)))
		s[key] = v
		return s
	}
	expectRefused(t, book, ada("course", "elsewhere"), "elsewhere")
	expectRefused(t, book, ada("paper", "second"), "no paper")
	expectRefused(t, book, ada("text", "0000000000000000"), "have changed")
	expectRefused(t, book, ada("seed", "0xff"), "drawn by")
	expectDoubts(t, marked(t, book, ada("edition", "2025 autumn"))) // the same questions: no matter
	expectDoubts(t, marked(t, book, ada("learner", sheet{"name": "Bea", "class": "7"})), register.OtherDraw)
	expectDoubts(t, marked(t, book, ada("saved", "2020-01-01T00:00:00Z")), register.Early)
	expectDoubts(t, marked(t, book, ada("answers", []sheet{{"question": "gloss/none", "figures": 0, "given": "1"}})), register.Unknown)
	expectDoubts(t, marked(t, book, ada("practicals", []sheet{{"practical": "gloss/none", "assessor": "B", "date": "2026-05-12", "outcome": "shown", "shown": []int{}}})), register.Unknown)
	beyond := sheet{"practical": "brassy-gloss/weighing", "assessor": "B", "date": "2026-05-12", "outcome": "shown", "shown": []int{0, 0, 2, 77}}
	if s := marked(t, book, ada("practicals", []sheet{beyond})); len(s.SignOff) != 1 || s.SignOff[0].Points != 2 || s.SignOff[0].Of != 3 {
		t.Errorf("signed off: %+v", s.SignOff)
	}
}

func expectDoubts(t *testing.T, s register.Sitting, want ...register.Doubt) {
	t.Helper()
	if !slices.Equal(s.Doubts, want) && len(s.Doubts)+len(want) > 0 {
		t.Errorf("doubts %v, want %v", s.Doubts, want)
	}
}

// The pass mark is rounded up, by whole numbers: of 20 at 70 % are 14, of 15 at 80 %
// and 75 % 12, of 7 at 70 % 5 (worked by hand).
func TestNeeded(t *testing.T) {
	for _, c := range []struct{ percent, of, want int64 }{{70, 20, 14}, {80, 15, 12}, {75, 15, 12}, {70, 7, 5}, {100, 9, 9}, {1, 1, 1}} {
		p := &paper.Paper{PassMark: exact.Of(c.percent, 100)}
		if got := p.Needed(int(c.of)); got != int(c.want) {
			t.Errorf("%d at %d %%: got %d, want %d", c.of, c.percent, got, c.want)
		}
	}
}

// The key cannot be found. Nothing in the built site tells an answer of the paper: no
// page that asks its figures, no explanation of its questions, no digest of an answer.
func TestKeyIsNotInTheSite(t *testing.T) {
	result, err := build.Read(context.Background(), build.Options{Files: os.DirFS(root), Layouts: layouts.FS})
	if err != nil {
		t.Fatal(err)
	}
	tree, err := result.Pages()
	if err != nil {
		t.Fatal(err)
	}
	p, _ := demo(t)
	own := "papers/" + p.Name + ".html"
	for _, f := range tree.Files() {
		text := bytes.ReplaceAll(f.Data, []byte("\u00a0"), []byte(" "))
		for _, q := range p.Questions {
			for i, figures := range q.Figures {
				if f.Path != own && holds(text, figures.Ask) {
					t.Errorf("%s asks what the paper asks: %s", f.Path, figures.Ask)
				}
				for _, digest := range digests(q, i, right(t, q, i, 0)) {
					if bytes.Contains(text, []byte(digest)) {
						t.Errorf("%s holds a digest of the answer to %s", f.Path, figures.Ask)
					}
				}
			}
			if f.Path == own && q.Because.Value != "" && holds(text, q.Because.Value) {
				t.Errorf("the paper explains %s", q.ID())
			}
			if f.Path != own && q.Paper.Alone && bytes.Contains(text, []byte(q.ID())) {
				t.Errorf("%s knows of %s", f.Path, q.ID())
			}
		}
		if f.Path != own {
			continue
		}
		for _, field := range []string{"right", "truth", "working", "slips", "value=\"true", "correct", "\"near\"", "checked"} {
			if bytes.Contains(bytes.ToLower(script(text)), []byte(field)) {
				t.Errorf("the paper's data has %q", field)
			}
		}
	}
}

// No card to practise with, in whatever words, is the sum of a paper: what is sought, the
// figures it starts from and the answer are never all three the same.
func TestPractisedSumsAreNotAsked(t *testing.T) {
	result, err := build.Read(context.Background(), build.Options{Files: os.DirFS(root), Layouts: layouts.FS})
	if err != nil {
		t.Fatal(err)
	}
	practised := map[string]string{}
	for _, l := range result.Course.Lessons {
		for _, q := range result.Derived.Practice(l) {
			practised[sum(&q.Solution)] = q.Ask
			for _, v := range q.Practice() {
				practised[sum(&v.Solution)] = v.Ask
			}
		}
	}
	if len(practised) < 20 {
		t.Fatalf("%d sums are practised", len(practised))
	}
	p, _ := demo(t)
	for _, q := range p.Questions {
		for _, f := range q.Figures {
			if ask, ok := practised[sum(&f.Solution)]; ok && len(f.Shown) == 0 {
				t.Errorf("%s\nis practised as\n%s", f.Ask, ask)
			}
		}
	}
}

// sum is what a question works out: what is sought, from which figures, and the answer.
func sum(s *derive.Solution) string {
	figures := number.FindAllString(s.Ask, -1)
	slices.Sort(figures)
	return fmt.Sprint(s.Sought, figures, s.Key)
}

var number = regexp.MustCompile(`\d+(?:[.,:]\d+)*`)

// holds finds a text as it stands in HTML or in JSON.
func holds(page []byte, text string) bool {
	html := strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&#34;", "'", "&#39;", "+", "&#43;").Replace(text)
	return bytes.Contains(page, []byte(html)) || bytes.Contains(page, []byte(text))
}

// script is the data that a page's script works with.
func script(page []byte) []byte {
	_, rest, _ := bytes.Cut(page, []byte(`<script type="application/json">`))
	data, _, _ := bytes.Cut(rest, []byte("</script>"))
	return data
}

// digests are the usual ones of an answer, by itself and with its question.
func digests(q *paper.Question, figures int, given string) []string {
	var out []string
	for _, text := range []string{given, q.Figures[figures].Key.String(), q.ID() + given, q.ID() + "/" + given, q.Figures[figures].Ask + given} {
		sum := sha256.Sum256([]byte(text))
		out = append(out, hex.EncodeToString(sum[:])[:16], fmt.Sprintf("%x", sum[16:24]))
	}
	return out
}

// A search that finds nothing proves something only where it would find.
func TestKeyWouldBeFound(t *testing.T) {
	p, _ := demo(t)
	q := p.Questions[0]
	if !holds([]byte("<h3>"+strings.ReplaceAll(q.Figures[0].Ask, "'", "&#39;")+"</h3>"), q.Figures[0].Ask) {
		t.Error("a question is not found")
	}
	if d := digests(q, 0, "red"); !bytes.Contains([]byte("b1f51a511f1da0cd348b8f8598db32e61cb963e5fc69e2b41485bf99590ed75a"), []byte(d[0])) {
		t.Error("the digest of red is not found")
	}
}

func BenchmarkMark(b *testing.B) {
	p, book := demo(b)
	data := sit(b, p, answerfile.Learner{Name: "Ada Thorn"}, 0, rand.New(rand.NewPCG(0, 0))).file(b)
	for b.Loop() {
		file, err := answerfile.Read("a.json", data)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := book.Mark(file); err != nil {
			b.Fatal(err)
		}
	}
}
