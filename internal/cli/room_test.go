package cli

import (
	"runtime"
	"runtime/debug"
	"testing"
)

// Memory is collected where enough has been left lying about, and not again straight after.
func TestTidy(t *testing.T) {
	defer debug.SetGCPercent(debug.SetGCPercent(-1)) // nobody else collects
	collections := func() uint32 {
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.NumGC
	}
	runtime.GC()
	before := collections()
	Tidy()
	if n := collections() - before; n != 0 {
		t.Errorf("collected %d times for nothing", n)
	}
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	for left := m.HeapAlloc; left > 0; left -= min(left, 1<<20) {
		litter = make([]byte, 1<<20)
	}
	Tidy()
	Tidy()
	if n := collections() - before; n != 1 {
		t.Errorf("collected %d times for as much again", n)
	}
}

// litter is written to the heap, and nothing else.
var litter []byte
