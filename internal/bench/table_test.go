package bench

import (
	"flag"
	"fmt"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"text/tabwriter"
	"time"
)

var sizes = flag.String("lessons", "100,1000", "how many lessons the courses have")

// lessons returns the sizes of the courses.
func lessons(b *testing.B) []int {
	b.Helper()
	var list []int
	for text := range strings.SplitSeq(*sizes, ",") {
		n, err := strconv.Atoi(text)
		if err != nil || n < 2 {
			b.Fatalf("-lessons %s: want numbers from 2 up with commas between", *sizes)
		}
		list = append(list, n)
	}
	return list
}

// leastRounds is how often each thing is measured at the least.
const leastRounds = 7

// row is a line of the table: what was measured, against what there is to reach.
type row struct {
	what   string
	lesson int // lessons in the course
	values []float64
	unit   string
	must   string
}

var rows []row

// show keeps a row for the table and reports its median.
func show(b *testing.B, r row) {
	b.Helper()
	b.ReportMetric(quantile(r.values, 0.5), r.unit)
	// A benchmark is called again where it was too short; the last call counts.
	rows = slices.DeleteFunc(rows, func(old row) bool {
		return old.what == r.what && old.lesson == r.lesson && old.unit == r.unit
	})
	rows = append(rows, r)
}

// quantile returns the value that a share of the values is not above.
func quantile(values []float64, share float64) float64 {
	sorted := slices.Sorted(slices.Values(values))
	return sorted[min(int(share*float64(len(sorted))), len(sorted)-1)]
}

// milliseconds returns durations as numbers.
func milliseconds(list []time.Duration) []float64 {
	out := make([]float64, len(list))
	for i, d := range list {
		out[i] = d.Seconds() * 1000
	}
	return out
}

// ratios divides durations that were measured in turn.
func ratios(of, by []time.Duration) []float64 {
	out := make([]float64, len(of))
	for i := range of {
		out[i] = of[i].Seconds() / by[i].Seconds()
	}
	return out
}

func TestMain(m *testing.M) {
	code := m.Run()
	printTable()
	os.Exit(code)
}

// printTable prints the rows with their medians, the quartiles beside them and what one
// in twenty is above.
func printTable() {
	if len(rows) == 0 {
		return
	}
	if r, ok := perLesson(); ok {
		rows = append(rows, r)
	}
	w := tabwriter.NewWriter(os.Stdout, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "\nwhat\tlessons\tmedian\tquartiles\tp95\tunit\tmust\tof")
	for _, r := range rows {
		fmt.Fprintf(w, "%s\t%d\t%.3g\t%.3g to %.3g\t%.3g\t%s\t%s\t%d\n", r.what, r.lesson,
			quantile(r.values, 0.5), quantile(r.values, 0.25), quantile(r.values, 0.75), quantile(r.values, 0.95), r.unit, r.must, len(r.values))
	}
	w.Flush()
	if load, err := os.ReadFile("/proc/loadavg"); err == nil {
		fmt.Printf("load of the machine, measuring included: %s", load)
	}
}

// perLesson compares what a lesson of a course of ten thousand costs with one of a hundred,
// where both were built.
func perLesson() (row, bool) {
	const few, many = 100, 10_000
	cold := map[int]float64{}
	for _, r := range rows {
		if r.what == "cold" && r.unit == "ms" {
			cold[r.lesson] = quantile(r.values, 0.5) / float64(r.lesson)
		}
	}
	if cold[few] == 0 || cold[many] == 0 {
		return row{}, false
	}
	return row{"cost of a lesson", many, []float64{cold[many] / cold[few]}, "x-100-lessons", "1.3"}, true
}

func sorted[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
