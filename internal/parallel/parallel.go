// Package parallel does the same to many things at once. Callers keep each result by
// its index, so that the number of workers never shows.
package parallel

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// Each calls do for 0 up to n-1 from some workers; 0 means one per processor. It
// starts no more calls after one has failed and returns the failure of the lowest
// index it has seen. Each call gets the number of its worker, for scratch memory of
// its own.
func Each(workers, n int, do func(worker, i int) error) error {
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	var next atomic.Int64
	var stop atomic.Bool
	faults := make([]error, n)
	var group sync.WaitGroup
	for worker := range min(workers, n) {
		group.Go(func() {
			for !stop.Load() {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				if faults[i] = do(worker, i); faults[i] != nil {
					stop.Store(true)
				}
			}
		})
	}
	group.Wait()
	for _, err := range faults {
		if err != nil {
			return err
		}
	}
	return nil
}

// All calls do for 0 up to n-1 from some workers, as [Each] does, where nothing can fail.
func All(workers, n int, do func(i int)) {
	_ = Each(workers, n, func(_, i int) error { do(i); return nil }) // never an error
}
