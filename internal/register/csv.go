package register

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
	"time"
)

// CSV returns one line a sitting, as RFC 4180 has it, for a spreadsheet.
func (r *Register) CSV() ([]byte, error) {
	return table(func(row func(...string)) {
		row("class", "name", "paper", "edition", "right", "of", "per cent", "needed", "passed", "counts", "missed outcomes", "doubts", "started", "saved", "file")
		for _, s := range r.Sittings {
			row(s.Class, s.Name, s.Paper, s.Edition, strconv.Itoa(s.Right), strconv.Itoa(s.Of), Share(s.Right, s.Of), strconv.Itoa(s.Needed),
				yesNo(s.Passed), yesNo(!s.Replaced), strings.Join(s.Missed, " "), doubts(s.Doubts), moment(s.Started), moment(s.Saved), s.File)
		}
	})
}

// AnswersCSV returns one line an answer.
func (r *Register) AnswersCSV() ([]byte, error) {
	return table(func(row func(...string)) {
		row("class", "name", "paper", "saved", "counts", "module", "outcome", "question", "figures", "given", "right")
		for _, s := range r.Sittings {
			saved, counts := moment(s.Saved), yesNo(!s.Replaced)
			for _, a := range s.Answers {
				row(s.Class, s.Name, s.Paper, saved, counts, a.Module, a.Outcome, a.Question, strconv.Itoa(a.Figures+1), a.Given, yesNo(a.Right))
			}
		}
	})
}

// PracticalsCSV returns one line a practical that was signed off.
func (r *Register) PracticalsCSV() ([]byte, error) {
	return table(func(row func(...string)) {
		row("class", "name", "practical", "outcome", "verdict", "points", "of", "assessor", "date")
		for _, p := range r.SignedOff() {
			row(p.Learner.Class, p.Learner.Name, p.Practical, p.Outcome, string(p.Verdict), strconv.Itoa(p.Points), strconv.Itoa(p.Of), p.Assessor, p.Date)
		}
	})
}

// table writes the rows that fill hands to it one by one.
func table(fill func(row func(...string))) ([]byte, error) {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.UseCRLF = true // RFC 4180
	fill(func(cells ...string) {
		for i, cell := range cells {
			cells[i] = tame(cell)
		}
		_ = w.Write(cells) // Error says it below
	})
	w.Flush()
	if err := w.Error(); err != nil {
		return nil, fmt.Errorf("register: %w", err)
	}
	return out.Bytes(), nil
}

// tame keeps a spreadsheet from taking a learner's text for a formula: such a cell
// begins with an apostrophe (as the OWASP advice on CSV injection has it).
func tame(cell string) string {
	if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
		return "'" + cell
	}
	return cell
}

// Share returns a share in per cent with one decimal place, rounded half up: "66.7".
// Of nothing there is none.
func Share(n, of int) string {
	if of == 0 {
		return ""
	}
	tenths := (2000*n + of) / (2 * of)
	return fmt.Sprintf("%d.%d", tenths/10, tenths%10)
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

func doubts(list []Doubt) string {
	words := make([]string, len(list))
	for i, d := range list {
		words[i] = string(d)
	}
	return strings.Join(words, ", ")
}

func moment(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.UTC().Format(time.RFC3339)
}
