package cli

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"plait/internal/amount"
	"plait/internal/course"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/shade"
)

type orderCommand struct {
	courseFlag
	Heads  *int     `help:"For how many heads; the course's own class if left out." placeholder:"N"`
	Waste  string   `help:"What is lost on top; the course's own, or 10 %, if left out." placeholder:"SHARE"`
	Lesson []string `help:"Only the bowls of this lesson; can stand several times." placeholder:"NAME" sep:"none"`
	Module []string `help:"Only the bowls of this module; can stand several times." placeholder:"NAME" sep:"none"`
	As     string   `help:"text for people, json for programs, csv for a spreadsheet." enum:"text,json,csv" default:"text" placeholder:"text|json|csv"`
}

// Run prints what a class has to buy.
func (cmd orderCommand) Run(ctx context.Context, c console) error {
	result, err := readSound(ctx, cmd.Course, c)
	if err != nil {
		return err
	}
	defer result.close()
	heads, waste, err := cmd.class(result.Course)
	if err != nil {
		return err
	}
	lessons, err := cmd.lessons(result.Course)
	if err != nil {
		return err
	}
	order, err := result.Derived.Order(result.Course, lessons, heads, waste)
	if err != nil {
		return useError{err}
	}
	switch cmd.As {
	case "json":
		return writeOrderJSON(c.out, order)
	case "csv":
		return writeOrderCSV(c.out, order)
	}
	_, err = io.WriteString(c.out, orderText(order))
	return err
}

// class returns for how many heads and with how much waste to reckon.
func (cmd orderCommand) class(c *course.Course) (heads int, waste exact.Number, err error) {
	heads, waste = c.Class.Heads.Value, amount.UsualWaste
	if cmd.Heads != nil {
		heads = *cmd.Heads
		if heads < 1 || heads > course.MostHeads {
			return 0, waste, useError{fmt.Errorf("--heads %d: a class has 1 to %d heads", heads, course.MostHeads)}
		}
	}
	if heads == 0 {
		return 0, waste, useError{fmt.Errorf("for how many heads? add --heads 12, or write class: {heads: 12} in %s", course.SettingsFile)}
	}
	if c.Class.Waste.Set() {
		waste = c.Class.Waste.Value
	}
	if cmd.Waste != "" {
		if waste, err = amount.ParseWaste(cmd.Waste); err != nil {
			return 0, waste, useError{fmt.Errorf("--waste: %w", err)}
		}
	}
	return heads, waste, nil
}

// lessons returns the lessons that were asked for, in the order they are taught: all
// where none was named.
func (cmd orderCommand) lessons(c *course.Course) ([]*lesson.Lesson, error) {
	if len(cmd.Lesson)+len(cmd.Module) == 0 {
		return c.Lessons, nil
	}
	wanted := map[*lesson.Lesson]bool{}
	for _, name := range cmd.Lesson {
		l, ok := c.Lesson(name)
		if !ok {
			return nil, unknownName("lesson", name, lessonNames(c))
		}
		wanted[l] = true
	}
	for _, name := range cmd.Module {
		i := slices.IndexFunc(c.Modules, func(m *course.Module) bool { return m.Name.Value == name })
		if i < 0 {
			return nil, unknownName("module", name, moduleNames(c))
		}
		for _, l := range c.Modules[i].Lessons {
			wanted[l] = true
		}
	}
	return slices.DeleteFunc(slices.Clone(c.Lessons), func(l *lesson.Lesson) bool { return !wanted[l] }), nil
}

func lessonNames(c *course.Course) []string {
	var names []string
	for _, l := range c.Lessons {
		names = append(names, l.Name)
	}
	return names
}

func moduleNames(c *course.Course) []string {
	var names []string
	for _, m := range c.Modules {
		names = append(names, m.Name.Value)
	}
	return names
}

func unknownName(what, name string, names []string) error {
	if near := diag.DidYouMean(name, names); near != "" {
		return useError{fmt.Errorf("there is no %s %q; did you mean %s?", what, name, near)}
	}
	return useError{fmt.Errorf("there is no %s %q; there are: %s", what, name, strings.Join(names, ", "))}
}

// orderText is an order for people: a table for each range, what it costs, and what
// was counted.
func orderText(o *derive.Order) string {
	var b strings.Builder
	if len(o.Lines) == 0 {
		return "Nothing to buy: these lessons mix no bowl.\n"
	}
	fmt.Fprintf(&b, "For %s, %s of waste on top; each bowl once a head: %s.\n",
		counted(o.Heads, "head"), percent(o.Waste), strings.Join(orderLessons(o), ", "))
	rows := [][]string{}
	for i, l := range o.Lines {
		if i == 0 || l.Range != o.Lines[i-1].Range {
			rows = append(rows, nil, []string{groupName(l), "needed", "spare", "in stock", "to buy", "packs", "cost"})
		}
		rows = append(rows, []string{l.Name(), shownMass(l.Needed), shownMass(l.Spare), shownMass(l.Stock), shownMass(l.Buy), packs(l), cost(l)})
	}
	writeTable(&b, rows)
	b.WriteString("\n")
	for _, t := range o.Totals {
		fmt.Fprintf(&b, "Total %s\n", t)
	}
	if len(o.Unpriced) > 0 {
		var names []string
		for _, l := range o.Unpriced {
			names = append(names, fullName(l))
		}
		fmt.Fprintf(&b, "Without a price: %s\n", strings.Join(names, ", "))
	}
	return b.String()
}

func orderLessons(o *derive.Order) []string {
	names := make([]string, len(o.Lessons))
	for i, l := range o.Lessons {
		names[i] = l.Name
	}
	return names
}

func groupName(l derive.OrderLine) string {
	if l.Range == nil {
		return "Additives"
	}
	return l.Range.Name
}

func fullName(l derive.OrderLine) string {
	if l.Range == nil {
		return l.Name()
	}
	return l.Range.Name + " " + l.Name()
}

func percent(n exact.Number) string { return n.Mul(exact.Int(100)).Decimal(2) + " %" }

// shownMass prints a weight of an order to a tenth of a gram.
func shownMass(m measure.Mass) string {
	if m.IsZero() {
		return "-"
	}
	return m.Grams().Decimal(1) + " g"
}

func packs(l derive.OrderLine) string {
	switch {
	case l.Pack.Size.IsZero():
		return "pack unknown"
	case l.Packs == 0:
		return "-"
	}
	return fmt.Sprintf("%d × %s", l.Packs, l.Pack.Size)
}

func cost(l derive.OrderLine) string {
	switch {
	case l.Packs == 0 && !l.Pack.Size.IsZero():
		return "-"
	case l.Cost.Currency == "":
		return "price unknown"
	}
	return l.Cost.String()
}

// writeTable prints rows in columns, the first to the left and all others to the
// right; a row of nothing is an empty line.
func writeTable(b *strings.Builder, rows [][]string) {
	var widths []int
	for _, row := range rows {
		for i, cell := range row {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	for _, row := range rows {
		for i, cell := range row {
			room := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell))
			if i == 0 {
				b.WriteString(cell + room)
			} else {
				b.WriteString("  " + room + cell)
			}
		}
		b.WriteString("\n")
	}
}

// orderJSON is the JSON form of an order. Weights are grams and shares are fractions
// of one, both as decimal strings of at most two and four places; money is a decimal
// string with two places.
type orderJSON struct {
	Version int             `json:"version"`
	Heads   int             `json:"heads"`
	Waste   string          `json:"waste"`   // a fraction of one: "0.1" is a tenth
	Lessons []string        `json:"lessons"` // names of the lessons whose bowls are counted
	Lines   []orderLineJSON `json:"lines"`
	Totals  []moneyJSON     `json:"totals"` // one for each currency
}

// orderLineJSON is one line of an order.
type orderLineJSON struct {
	Range  string     `json:"range,omitempty"` // the range's name in the course; none for an additive
	Role   string     `json:"role"`            // colour, developer or additive
	Item   string     `json:"item"`            // a shade code, a strength in per cent, or an additive's name
	Needed string     `json:"needed"`
	Spare  string     `json:"spare"`
	Stock  string     `json:"stock"`
	Buy    string     `json:"buy"`            // needed + spare − stock, at least nothing
	Pack   string     `json:"pack,omitempty"` // what a pack holds; none where it is not known
	Packs  int64      `json:"packs"`          // 0 where the pack is not known
	Cost   *moneyJSON `json:"cost,omitempty"` // none where the price is not known
}

// moneyJSON is an amount of money.
type moneyJSON struct {
	Amount   string `json:"amount"`
	Currency string `json:"currency"` // three letters, ISO 4217
}

func writeOrderJSON(w io.Writer, o *derive.Order) error {
	out := orderJSON{
		Version: 1, Heads: o.Heads, Waste: o.Waste.Decimal(4),
		Lessons: orderLessons(o), Lines: []orderLineJSON{}, Totals: []moneyJSON{},
	}
	for _, l := range o.Lines {
		line := orderLineJSON{
			Role: l.Role.String(), Item: l.Item.Name, Range: l.Item.Range,
			Needed: gramsText(l.Needed), Spare: gramsText(l.Spare), Stock: gramsText(l.Stock), Buy: gramsText(l.Buy), Packs: l.Packs,
		}
		if !l.Pack.Size.IsZero() {
			line.Pack = gramsText(l.Pack.Size)
		}
		if l.Cost.Currency != "" {
			line.Cost = &moneyJSON{Amount: money(l.Cost), Currency: l.Cost.Currency}
		}
		out.Lines = append(out.Lines, line)
	}
	for _, t := range o.Totals {
		out.Totals = append(out.Totals, moneyJSON{Amount: money(t), Currency: t.Currency})
	}
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	return enc.Encode(out)
}

func gramsText(m measure.Mass) string { return m.Grams().Decimal(2) }

// money prints an amount without its currency, "7.90".
func money(p shade.Price) string {
	text, _, _ := strings.Cut(p.String(), " ")
	return text
}

// writeOrderCSV prints an order as RFC 4180 has it, for a spreadsheet: one header,
// one line an item, plain numbers without units.
func writeOrderCSV(w io.Writer, o *derive.Order) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	rows := [][]string{{"range", "role", "item", "needed_g", "spare_g", "stock_g", "buy_g", "pack_g", "packs", "cost", "currency"}}
	for _, l := range o.Lines {
		pack, count := "", ""
		if !l.Pack.Size.IsZero() {
			pack, count = gramsText(l.Pack.Size), strconv.FormatInt(l.Packs, 10)
		}
		rows = append(rows, []string{
			plainCell(l.Item.Range), l.Role.String(), plainCell(l.Name()),
			gramsText(l.Needed), gramsText(l.Spare), gramsText(l.Stock), gramsText(l.Buy),
			pack, count, money(l.Cost), l.Cost.Currency,
		})
	}
	return errors.Join(out.WriteAll(rows), out.Error())
}

// plainCell keeps a spreadsheet from taking a name for a formula: one that begins
// like a formula gets an apostrophe in front, which spreadsheets read as "text".
func plainCell(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return "'" + s
	}
	return s
}
