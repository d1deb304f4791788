package disk

import (
	"sync"
	"sync/atomic"
)

// each calls do for 0 up to n-1 from several goroutines. It starts no more calls
// after one has failed and returns the failure of the lowest index it has seen.
// Each call gets the number of its worker, for scratch memory of its own.
func each(workers, n int, do func(worker, i int) error) error {
	workers = min(max(workers, 1), n)
	var next atomic.Int64
	var stop atomic.Bool
	faults := make([]error, n)
	var group sync.WaitGroup
	for worker := range workers {
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
