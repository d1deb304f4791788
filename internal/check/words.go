package check

import (
	"fmt"

	"plait/internal/derive"
)

// levels prints a number of levels.
func levels(n int) string {
	switch n {
	case 0:
		return "no level"
	case 1:
		return "one level"
	}
	return fmt.Sprintf("%d levels", n)
}

// strengthWords names the developer as a person would ask for it.
func strengthWords(f *derive.Formula) string {
	if f.Bowl.Developer.IsZero() {
		return "colour without developer"
	}
	return f.Bowl.Bottle.Name()
}

// makers names the ranges of a bowl with a verb, in its form for one and for several:
// "Meadow gives", "Meadow and Saltmarsh give".
func makers(f *derive.Formula, one, several string) string {
	if len(f.Also) > 0 {
		one = several
	}
	return f.Makers() + " " + one
}
