package path

import "strconv"

// Data is path data in the making: what stands in the d attribute of a path element
// (Scalable Vector Graphics 2, chapter 9). Commands are relative and numbers are
// spelt as short as they can be. The zero Data is empty.
type Data struct {
	text    []byte
	at      Dot  // the current point
	start   Dot  // of the subpath
	command byte // the last one, which need not be repeated
	spaced  bool // the last number had a decimal point, so the next may start with one
}

// Add adds a chain: on from the current point if it starts there, else as a new
// subpath.
func (d *Data) Add(c Chain) {
	if len(d.text) == 0 || d.command == 'z' || d.at != c.From {
		d.move(c.From)
	}
	for _, s := range c.Segments {
		d.segment(s)
	}
}

// Close leads the subpath back to its start.
func (d *Data) Close() {
	if d.command == 0 || d.command == 'z' {
		return
	}
	d.text = append(d.text, 'z')
	d.command, d.at = 'z', d.start
}

// String returns the path data.
func (d *Data) String() string { return string(d.text) }

// Len returns the length of the path data in bytes.
func (d *Data) Len() int { return len(d.text) }

// Line returns the path data of one chain, closed where it is a loop.
func Line(c Chain) string {
	var d Data
	d.Add(c)
	if len(c.Segments) > 1 && c.End() == c.From {
		d.Close()
	}
	return d.String()
}

// Area returns the path data of one chain whose end is led back to its start.
func Area(c Chain) string {
	var d Data
	d.Add(c)
	d.Close()
	return d.String()
}

func (d *Data) move(to Dot) {
	d.letter('m')
	d.dot(to)
	d.at, d.start = to, to
	d.command = 'l' // what a pair of numbers after a move means
}

func (d *Data) segment(s Segment) {
	switch {
	case s.Curved:
		d.letter('c')
		d.dot(s.C1)
		d.dot(s.C2)
		d.dot(s.To)
	case s.To.Y == d.at.Y:
		d.letter('h')
		d.number(s.To.X - d.at.X)
	case s.To.X == d.at.X:
		d.letter('v')
		d.number(s.To.Y - d.at.Y)
	default:
		d.letter('l')
		d.dot(s.To)
	}
	d.at = s.To
}

func (d *Data) letter(command byte) {
	if command == d.command && command != 'm' {
		return
	}
	d.text = append(d.text, command)
	d.command = command
}

// dot writes a dot relative to the current point.
func (d *Data) dot(to Dot) {
	d.number(to.X - d.at.X)
	d.number(to.Y - d.at.Y)
}

// number writes a number of tenths, with a space before it only where it would run
// into the one before.
func (d *Data) number(tenths int32) {
	text := Decimal(tenths)
	last := d.text[len(d.text)-1]
	followsNumber := last >= '0' && last <= '9'
	if followsNumber && text[0] != '-' && !(text[0] == '.' && d.spaced) {
		d.text = append(d.text, ' ')
	}
	d.text = append(d.text, text...)
	d.spaced = tenths%perPixel != 0
}

// Decimal spells a number of tenths without needless zeros: 5 is ".5", −30 is "−3".
func Decimal(tenths int32) string {
	text := ""
	if tenths < 0 {
		text, tenths = "-", -tenths
	}
	whole, rest := tenths/perPixel, tenths%perPixel
	if whole != 0 || rest == 0 {
		text += strconv.Itoa(int(whole))
	}
	if rest != 0 {
		text += "." + strconv.Itoa(int(rest))
	}
	return text
}
