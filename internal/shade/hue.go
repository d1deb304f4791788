package shade

import "slices"

// Hue is one of the twelve hues of the colour wheel, in order round it. The zero
// Hue is none.
type Hue uint8

// The wheel, from red by yellow and blue back to red (Hair Colour for
// Hairstylists: Level 2, BCcampus 2021, ch. 1.1).
const (
	NoHue Hue = iota
	Red
	RedOrange
	Orange
	YellowOrange
	Yellow
	YellowGreen
	Green
	BlueGreen
	Blue
	BlueViolet
	Violet
	RedViolet
)

var hueNames = []string{
	"", "red", "red-orange", "orange", "yellow-orange", "yellow", "yellow-green",
	"green", "blue-green", "blue", "blue-violet", "violet", "red-violet",
}

// Hues returns the names of the twelve hues in the order of the wheel.
func Hues() []string { return slices.Clone(hueNames[1:]) }

// ParseHue reads the name of a hue.
func ParseHue(name string) (Hue, bool) {
	i := slices.Index(hueNames, name)
	return Hue(max(i, 0)), i > 0
}

// String returns the hue's name, "" for none.
func (h Hue) String() string { return hueNames[h] }

// Opposite returns the hue across the wheel, which cancels this one: red and
// green, orange and blue, yellow and violet.
func (h Hue) Opposite() Hue {
	if h == NoHue {
		return NoHue
	}
	return (h-1+6)%12 + 1
}

// Near reports whether two hues are the same or neighbours on the wheel.
func (h Hue) Near(o Hue) bool {
	if h == NoHue || o == NoHue {
		return false
	}
	d := (int(h) - int(o) + 12) % 12
	return d <= 1 || d == 11
}
