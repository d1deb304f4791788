package paper_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"plait/internal/answer"
	"plait/internal/answerfile"
	"plait/internal/build"
	"plait/internal/diag"
	"plait/internal/paper"
	"plait/internal/question"
	"plait/internal/register"
	"plait/layouts"
)

var update = flag.Bool("update", false, "write the answer files of the demo class anew")

// The demo course and the answer files of its invented class.
const (
	root        = "../.."
	classFolder = root + "/content/papers/class"
)

// demo returns the paper of the demo course and the book it is marked by.
func demo(t testing.TB) (*paper.Paper, *paper.Book) {
	t.Helper()
	result, err := build.Read(context.Background(), build.Options{Files: os.DirFS(root), Layouts: layouts.FS})
	if err != nil || diag.HasErrors(result.Diagnostics) {
		t.Fatalf("%v %v", err, result.Diagnostics)
	}
	papers := paper.All(result.Course, result.Derived)
	for _, p := range papers {
		if p.Name == "first-colours" {
			return p, paper.NewBook(result.Course, papers)
		}
	}
	t.Fatal("the demo has no paper first-colours")
	return nil, nil
}

// right returns an answer that is right: a typed one in one of several spellings, else
// the one choice, order or pairing that is.
func right(t testing.TB, q *paper.Question, figures, spelling int) string {
	t.Helper()
	f := q.Figures[figures]
	if len(f.Shown) == 0 {
		return spelled(f.Key, spelling)
	}
	for _, given := range choices(q, &f) {
		if q.Judge(figures, given) {
			return given
		}
	}
	t.Fatalf("%s has no right answer", q.ID())
	return ""
}

// spelled writes a figure as different learners would.
func spelled(k answer.Key, spelling int) string {
	text := k.String()
	number, unit, _ := strings.Cut(text, " ")
	switch spelling % 4 {
	case 1:
		return number
	case 2:
		return strings.Replace(text, ".", ",", 1)
	case 3:
		return number + unit
	}
	return text
}

// choices lists all that can be given where something is shown.
func choices(q *paper.Question, f *paper.Figures) []string {
	n := len(f.Shown)
	var out []string
	if q.Kind == question.Order || q.Kind == question.Pairs {
		for _, order := range permutations(n) {
			out = append(out, strings.Trim(fmt.Sprint(order), "[]"))
		}
		return out
	}
	for set := 1; set < 1<<n; set++ {
		var chosen []string
		for i := range n {
			if set>>i&1 == 1 {
				chosen = append(chosen, strconv.Itoa(i))
			}
		}
		if f.Several() || len(chosen) == 1 {
			out = append(out, strings.Join(chosen, " "))
		}
	}
	return out
}

func permutations(n int) [][]int {
	if n == 0 {
		return [][]int{{}}
	}
	var out [][]int
	for _, p := range permutations(n - 1) {
		for at := 0; at <= len(p); at++ {
			out = append(out, slices.Insert(slices.Clone(p), at, n-1))
		}
	}
	return out
}

// wrong returns an answer that a learner may give who does not know.
func wrong(q *paper.Question, figures int, dice *rand.Rand) string {
	f := q.Figures[figures]
	if len(f.Shown) > 0 {
		list := slices.DeleteFunc(choices(q, &f), func(given string) bool { return q.Judge(figures, given) })
		return list[dice.IntN(len(list))]
	}
	for _, s := range f.Slips {
		if text := f.Key.Unit.Text(s.Value); !q.Judge(figures, text) {
			return text
		}
	}
	for _, text := range []string{"45", "12:00", "1:3"} {
		if !q.Judge(figures, text) {
			return text
		}
	}
	return "?"
}

// sheet is an answer file in the making.
type sheet map[string]any

// file writes a sheet with its digest. Maps are written with their keys in order and
// without white space, which for texts such as these is RFC 8785.
func (s sheet) file(t testing.TB) []byte {
	t.Helper()
	content := encode(t, s, "")
	sum := sha256.Sum256(bytes.TrimSpace(content))
	whole := sheet{"digest": hex.EncodeToString(sum[:])}
	for key, v := range s {
		whole[key] = v
	}
	return encode(t, whole, " ")
}

func encode(t testing.TB, v any, indent string) []byte {
	t.Helper()
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", indent)
	if err := e.Encode(v); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// sit lets a learner of some ability answer the paper. ability and the difficulties are
// on the scale of G. Rasch's model: the chance to be right is 1/(1 + e^(difficulty − ability)).
func sit(t testing.TB, p *paper.Paper, who answerfile.Learner, ability float64, dice *rand.Rand) sheet {
	t.Helper()
	seed := p.Seed(who)
	answers := []sheet{}
	for i, asked := range p.Draw(seed) {
		q := p.Questions[asked.Question]
		chance := 1 / (1 + math.Exp(difficulty(q)-ability))
		if q.Name.Value == "which-side" { // a question that the quick ones read too much into
			chance = 1 / (1 + math.Exp(ability-0.8))
		}
		given := ""
		switch {
		case dice.Float64() < chance:
			given = right(t, q, asked.Figures, i)
		case dice.Float64() < 0.85:
			given = wrong(q, asked.Figures, dice)
		default:
			continue // left blank
		}
		answers = append(answers, sheet{"question": q.ID(), "figures": asked.Figures, "given": given})
	}
	started := time.Date(2026, 5, 12, 9, 0, dice.IntN(60), 0, time.UTC)
	return sheet{
		"version": 1, "course": p.CourseID, "edition": p.Edition, "paper": p.Name, "text": p.Text, "seed": paper.SeedText(seed),
		"learner": sheet{"name": who.Name, "class": who.Class}, "answers": answers, "practicals": []sheet{},
		"started": started.Format(time.RFC3339), "saved": started.Add(time.Duration(22+dice.IntN(17)) * time.Minute).Format(time.RFC3339),
	}
}

func difficulty(q *paper.Question) float64 {
	d := float64(len(q.ID())%5)/2 - 1
	switch {
	case q.Hard == question.Hard:
		d += 1.2
	case q.Name.Value == "burning":
		d = -2.5
	}
	return d
}

// learners are invented.
var learners = []string{
	"Ada Thorn", "Ben Cole", "Cleo Marsh", "Dov Amsel", "Elif Karaca", "Fay Winter", "Gus Ferry", "Hana Okoye", "Ivo Brandt", "Jun Park", "Kit Rowan", "Lena Sorrel",
	"Mo Farrow", "Nia Blythe", "Oskar Lind", "Pia Merino", "Quinn Ashby", "Rosa Delgado", "Sol Hartley", "Tess Moor", "Uma Pillai", "Vik Rasmus", "Wren Castle", "Zoë Quill",
}

// class makes the answer files of the demo class: 24 learners, one of whom handed in
// twice, and some files that somebody should look at.
func class(t testing.TB, p *paper.Paper) map[string][]byte {
	t.Helper()
	files := map[string][]byte{}
	for i, name := range learners {
		dice := rand.New(rand.NewPCG(20260512, uint64(i)))
		who := answerfile.Learner{Name: name, Class: "Tuesday"}
		s := sit(t, p, who, 0.9+1.1*dice.NormFloat64(), dice)
		s["practicals"] = signed(i, dice)
		file := strings.ToLower(strings.ReplaceAll(strings.ReplaceAll(name, "ë", "e"), " ", "-")) + ".json"
		switch name {
		case "Ben Cole": // took longer than there was
			s["saved"] = "2026-05-12T09:52:10Z"
		case "Kit Rowan": // handed in half-way, and again at the end
			half := sheet{}
			for key, v := range s {
				half[key] = v
			}
			half["answers"], half["saved"] = s["answers"].([]sheet)[:5], "2026-05-12T09:11:40Z"
			files["kit-rowan-half.json"] = half.file(t)
		}
		files[file] = s.file(t)
		switch name {
		case "Ivo Brandt": // changed on the way
			files[file] = bytes.Replace(files[file], []byte(`"name": "Ivo Brandt"`), []byte(`"name": "Ivo Brandt "`), 1)
		case "Tess Moor": // answered under another name
			s["learner"] = sheet{"name": "Tess Moor", "class": "Thursday"}
			files[file] = s.file(t)
		}
	}
	return files
}

// signed is what assessors saw of the practical: most learners by one, some by two.
func signed(i int, dice *rand.Rand) []sheet {
	if i%8 == 7 {
		return []sheet{}
	}
	list := []sheet{seen("M. Bell", dice.Float64() < 0.7, dice)}
	if i%2 == 0 {
		agrees := dice.Float64() < 0.85
		list = append(list, seen("R. Frost", (list[0]["outcome"] == "shown") == agrees, dice))
	}
	return list
}

func seen(assessor string, well bool, dice *rand.Rand) sheet {
	s := sheet{"practical": "brassy-gloss/weighing", "assessor": assessor, "date": "2026-05-12", "outcome": "shown", "shown": []int{0, 1, 2}}
	if !well {
		s["outcome"], s["shown"] = "not yet", []int{dice.IntN(3)}
	}
	return s
}

// The answer files of the demo class fit the paper as it is. Where its questions have
// changed they are written anew: go test ./internal/paper -update.
func TestDemoClass(t *testing.T) {
	p, book := demo(t)
	if *update {
		if err := os.RemoveAll(classFolder); err != nil {
			t.Fatal(err)
		}
		if err := os.MkdirAll(classFolder, 0o755); err != nil {
			t.Fatal(err)
		}
		for name, data := range class(t, p) {
			if err := os.WriteFile(filepath.Join(classFolder, name), data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	names, err := filepath.Glob(classFolder + "/*.json")
	if err != nil || len(names) != len(learners)+1 {
		t.Fatalf("%d answer files, want %d: go test ./internal/paper -update writes them (%v)", len(names), len(learners)+1, err)
	}
	reg := register.New(p.CourseID)
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		file, err := answerfile.Read(filepath.Base(name), data)
		if err != nil {
			t.Fatal(err)
		}
		s, err := book.Mark(file)
		if err != nil {
			t.Fatalf("%v\nThe paper has changed: go test ./internal/paper -update", err)
		}
		reg.Add([]register.Sitting{s})
	}
	counting := reg.Counting(p.Name)
	if len(counting) != len(learners) || len(reg.Sittings) != len(learners)+1 {
		t.Errorf("%d sittings, %d of them count", len(reg.Sittings), len(counting))
	}
	doubted := map[string][]register.Doubt{}
	for _, s := range counting {
		if len(s.Doubts) > 0 {
			doubted[s.Name] = s.Doubts
		}
	}
	for name, want := range map[string][]register.Doubt{"Ben Cole": {register.Overtime}, "Ivo Brandt ": {register.Damaged, register.OtherDraw}, "Tess Moor": {register.OtherDraw}} {
		if !slices.Equal(doubted[name], want) {
			t.Errorf("%s: doubts %v, want %v", name, doubted[name], want)
		}
	}
	if len(doubted) != 3 {
		t.Errorf("doubted: %v", doubted)
	}
}
