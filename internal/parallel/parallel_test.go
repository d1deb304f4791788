package parallel

import (
	"errors"
	"sync/atomic"
	"testing"
)

func TestEachVisitsAllOnce(t *testing.T) {
	for _, workers := range []int{0, 1, 3, 100} {
		var seen [40]atomic.Int32
		err := Each(workers, len(seen), func(worker, i int) error {
			if workers > 0 && worker >= workers {
				t.Errorf("worker %d of %d", worker, workers)
			}
			seen[i].Add(1)
			return nil
		})
		if err != nil {
			t.Error(err)
		}
		for i := range seen {
			if n := seen[i].Load(); n != 1 {
				t.Errorf("%d workers visited %d %d times", workers, i, n)
			}
		}
	}
}

func TestEachStopsAtAFailure(t *testing.T) {
	bad := errors.New("bad")
	var calls int
	err := Each(1, 10, func(_, i int) error {
		calls++
		if i == 3 {
			return bad
		}
		return nil
	})
	if err != bad || calls != 4 {
		t.Errorf("got %v after %d calls, want the failure after 4", err, calls)
	}
}
