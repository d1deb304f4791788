package segment

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

func TestChain(t *testing.T) {
	for _, test := range []struct {
		name string
		fits [][]float64
		gaps []float64
		want []int
	}{
		{"nothing", nil, nil, nil},
		{"no subjects", [][]float64{{}}, nil, nil},
		{"one unit", [][]float64{{0, 1}}, nil, []int{0}},
		{"another subject is worth its cost", [][]float64{{1, 0}, {1, 0}, {0, 1}, {0, 1}}, []float64{-1.5, -1.5, -1.5}, []int{0, 2}},
		{"and here it is not", [][]float64{{1, 0}, {1, 0}, {0, 1}, {1, 0}}, []float64{-1.5, -1.5, -1.5}, []int{0}},
		{"the same subject again", [][]float64{{1, 0}, {1, 0}, {1, 0}}, []float64{-1, 0.5}, []int{0, 2}},
	} {
		if got := Chain(test.fits, test.gaps); !slices.Equal(got, test.want) {
			t.Errorf("%s: %v, want %v", test.name, got, test.want)
		}
	}
}

// worth is the most that any chain of subjects with the given beginnings comes to: each segment
// has the subject that fits it best.
func worth(fits [][]float64, gaps []float64, begins []int) float64 {
	sum := 0.0
	for n, from := range begins {
		to := len(fits)
		if n+1 < len(begins) {
			to = begins[n+1]
		}
		if from > 0 {
			sum += gaps[from-1]
		}
		best := math.Inf(-1)
		for s := range fits[0] {
			fit := 0.0
			for i := from; i < to; i++ {
				fit += fits[i][s]
			}
			best = max(best, fit)
		}
		sum += best
	}
	return sum
}

// No other way to cut a short row is worth more.
func TestChainIsBest(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		n, subjects := 1+rng.IntN(8), 1+rng.IntN(3)
		fits, gaps := make([][]float64, n), make([]float64, n-1)
		for i := range fits {
			fits[i] = make([]float64, subjects)
			for s := range fits[i] {
				fits[i][s] = float64(rng.IntN(8)) / 4
			}
		}
		for i := range gaps {
			gaps[i] = float64(rng.IntN(16))/4 - 3
		}
		got := worth(fits, gaps, Chain(fits, gaps))
		for cuts := range 1 << (n - 1) {
			begins := []int{0}
			for i := 1; i < n; i++ {
				if cuts>>(i-1)&1 == 1 {
					begins = append(begins, i)
				}
			}
			if other := worth(fits, gaps, begins); other > got+1e-9 {
				t.Fatalf("%v with %v: %v is worth %v, and %v comes to %v", fits, gaps, begins, other, Chain(fits, gaps), got)
			}
		}
	}
}
