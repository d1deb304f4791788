package amount

import (
	"errors"

	"plait/internal/exact"
	"plait/internal/measure"
)

// ErrNoSize is returned by [Share] where there is nothing to share by.
var ErrNoSize = errors.New("the sections have no size to share the amount by")

// Share shares a weight out over sections in proportion to their sizes, areas on the
// head for example. The parts add up to the whole. A size of zero takes nothing;
// one below zero, or none above, is an error.
func Share(whole measure.Mass, sizes []exact.Number) ([]measure.Mass, error) {
	total := exact.Sum(sizes...)
	if total.Sign() <= 0 {
		return nil, ErrNoSize
	}
	parts := make([]measure.Mass, len(sizes))
	for i, size := range sizes {
		if size.Sign() < 0 {
			return nil, ErrNoSize
		}
		parts[i] = whole.Times(size.Quo(total))
	}
	return parts, nil
}
