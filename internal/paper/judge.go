package paper

import (
	"slices"
	"strconv"
	"strings"

	"plait/internal/question"
)

// Judge reports whether what a learner gave is right. A page writes a typed answer as
// it was typed, and all else as numbers from 0 with spaces between: of what was chosen,
// the numbers of the options shown; of an order, the place of each thing shown; of pairs,
// the number of what stands beside each. Anything that cannot be understood is wrong.
func (q *Question) Judge(figures int, given string) bool {
	f := q.Figures[figures]
	switch {
	case q.Kind == question.Order:
		return slices.Equal(numbers(given), f.rightOrder(q))
	case q.Kind == question.Pairs:
		return slices.Equal(numbers(given), f.rightPairs(q))
	case len(f.Options) > 0:
		chosen := numbers(given)
		slices.Sort(chosen)
		return slices.Equal(chosen, f.rightOptions())
	}
	right, err := f.Key.Accepts(given)
	return err == nil && right
}

// numbers reads "2 0 1"; nil for anything else.
func numbers(s string) []int {
	var out []int
	for _, field := range strings.Fields(s) {
		n, err := strconv.Atoi(field)
		if err != nil || n < 0 {
			return nil
		}
		out = append(out, n)
	}
	return out
}

// rightOptions returns which of the options shown are right, in order.
func (f *Figures) rightOptions() []int {
	var right []int
	for _, o := range f.Options {
		if o.Right {
			right = append(right, slices.Index(f.Shown, o.Text))
		}
	}
	slices.Sort(right)
	return right
}

// rightOrder returns for each thing shown the place it belongs in.
func (f *Figures) rightOrder(q *Question) []int {
	right := make([]int, len(q.Order))
	for place, t := range q.Order {
		right[slices.Index(f.Shown, t.Value)] = place
	}
	return right
}

// rightPairs returns for each left side shown which right side belongs to it.
func (f *Figures) rightPairs(q *Question) []int {
	right := make([]int, len(q.Pairs))
	for _, p := range q.Pairs {
		right[slices.Index(f.Shown, p.Left.Value)] = slices.Index(f.Beside, p.Right.Value)
	}
	return right
}

// Several reports whether more than one option is right.
func (f *Figures) Several() bool { return len(f.rightOptions()) > 1 }

// Key tells the right answer in lines, for the printed key.
func (q *Question) Key(figures int) []string {
	f := q.Figures[figures]
	var lines []string
	switch {
	case q.Kind == question.Order:
		for i, t := range q.Order {
			lines = append(lines, strconv.Itoa(i+1)+". "+t.Value)
		}
	case q.Kind == question.Pairs:
		for _, p := range q.Pairs {
			lines = append(lines, p.Left.Value+" – "+p.Right.Value)
		}
	case len(f.Options) > 0:
		for _, i := range f.rightOptions() {
			lines = append(lines, f.Shown[i])
		}
	default:
		text := f.Key.String()
		if !f.Key.Near.IsZero() {
			text += ", or up to " + f.Key.Near.Decimal(3) + " off"
		}
		lines = []string{text}
	}
	return lines
}
