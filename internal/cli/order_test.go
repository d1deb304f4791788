package cli

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"plait/internal/amount"
	"plait/internal/derive"
	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/mix"
)

// A name that a spreadsheet would run as a formula is kept as text, and one with
// commas, quotes and line ends comes back whole (RFC 4180).
func TestOrderAsCSV(t *testing.T) {
	expect := func(name, want string) {
		t.Helper()
		line := derive.OrderLine{Role: mix.AdditiveRole}
		line.Item = amount.Item{Name: name}
		line.Buy = measure.Grams(exact.Of(70, 3))
		var out bytes.Buffer
		if err := writeOrderCSV(&out, &derive.Order{Lines: []derive.OrderLine{line}}); err != nil {
			t.Fatal(err)
		}
		if lines := strings.Count(out.String(), "\r\n"); lines < 2 {
			t.Errorf("%q: %d lines end as RFC 4180 has it, want 2", name, lines)
		}
		rows, err := csv.NewReader(&out).ReadAll()
		if err != nil || len(rows) != 2 {
			t.Fatalf("%q: %d rows, %v", name, len(rows), err)
		}
		if got := rows[1][2]; got != want {
			t.Errorf("%q is written %q, want %q", name, got, want)
		}
		if got := rows[1][6]; got != "23.33" {
			t.Errorf("%q: to buy %s, want 23.33", name, got)
		}
	}
	expect("bond cream", "bond cream")
	expect("cream, thick", "cream, thick")
	expect(`the "blue" one`, `the "blue" one`)
	expect("two\nlines", "two\nlines")
	expect("=1+1", "'=1+1")
	expect("+1", "'+1")
	expect("-1", "'-1")
	expect("@SUM(A1)", "'@SUM(A1)")
	expect("\t=1", "'\t=1")
}
