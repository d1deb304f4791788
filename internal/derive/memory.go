package derive

import (
	"slices"
	"sync"

	"plait/internal/scalp"
	"plait/internal/sheet"
	"plait/internal/silhouette"
)

// Sheets are parted with the detail of print: their areas are then right to 0.02 %,
// the drawings are smooth, and a check and a page give the same figures. What is
// cut needs no more than the detail of a preview, since lengths change slowly.
const (
	planDetail = scalp.Print
	cutDetail  = scalp.Preview
)

// What was worked out last is kept over all builds of a process: in a live preview a
// sheet that has not changed costs nothing. A plan takes some 5 MB.
var (
	memory = kept[string, *worked]{most: 16}            // by the text of the sheet
	bases  = kept[baseKey, func() *scalp.Base]{most: 8} // heads ready to be parted
)

// kept keeps values by what they were made from, those asked for last.
type kept[K comparable, V any] struct {
	mu     sync.Mutex
	most   int
	keys   []K // the one asked for last at the end
	values []V
}

// get returns the kept value of a key, or keeps a new one.
func (k *kept[K, V]) get(key K, make func() V) V {
	k.mu.Lock()
	defer k.mu.Unlock()
	var value V
	if i := slices.Index(k.keys, key); i >= 0 {
		value = k.values[i]
		k.drop(i)
	} else {
		value = make()
	}
	k.keys, k.values = append(k.keys, key), append(k.values, value)
	if len(k.keys) > k.most {
		k.drop(0)
	}
	return value
}

func (k *kept[K, V]) drop(i int) {
	k.keys, k.values = slices.Delete(k.keys, i, i+1), slices.Delete(k.values, i, i+1)
}

// worked is a sheet worked out, each part when it is first asked for. Nothing in it
// depends on more than the text of the sheet.
type worked struct {
	parted func() *scalp.Plan
	fell   func() *silhouette.Fallen
	facts  func() facts
}

// newWorked prepares what a sheet comes to.
func newWorked(s *sheet.Sheet) *worked {
	w := &worked{}
	part := sync.OnceValues(func() (*scalp.Plan, error) { return baseOf(s.Head, planDetail).Part(s.Taken()) })
	w.parted = func() *scalp.Plan { plan, _ := part(); return plan }
	w.fell = sync.OnceValue(func() *silhouette.Fallen { return fall(s) })
	w.facts = sync.OnceValue(func() facts {
		if f, ok := recalled(s.File.Text()); ok {
			return f
		}
		plan, err := part()
		if err != nil {
			return facts{fault: err}
		}
		return facts{
			area: plan.Area, sections: plan.Sections, warnings: plan.Warnings,
			cut: summary(s, w.fell()),
		}
	})
	return w
}

// facts is the small part of what a sheet comes to, for as long as the course is
// there.
type facts struct {
	fault    error
	area     float64
	sections []scalp.Section
	warnings []*scalp.Problem
	cut      *Cut
}

type baseKey struct {
	head   sheet.Head
	detail scalp.Detail
}

// baseOf returns a head ready to be parted.
func baseOf(h sheet.Head, detail scalp.Detail) *scalp.Base {
	return bases.get(baseKey{h, detail}, func() func() *scalp.Base {
		return sync.OnceValue(func() *scalp.Base { return scalp.New(h.New(), detail) })
	})()
}
