package cli

import (
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"time"

	"plait/internal/course"
	"plait/internal/disk"
)

// What a build may take before memory is collected more often than collecting costs
// little, in bytes: so much for any course, and so much for each lesson with its page.
const (
	roomForAny    = 104 << 20
	roomForLesson = 73 << 10
)

// heldOfLesson is what is held of a lesson until its pages are written, in bytes, about.
const heldOfLesson = 39 << 10

// leastPercent and mostPercent bound how far the heap may grow between two collections. A
// build is short, and most of what it makes it keeps.
const (
	leastPercent = 100
	mostPercent  = 400
)

// percentFor returns how far the heap may grow between two collections in so much room: as
// far as fills it once all lessons are held. Growing further while they are read gains
// little then, and scatters what is held among what is not, in memory that is lost to all
// that comes after.
func percentFor(lessons, room int) int {
	return min(max(100*room/(max(lessons, 1)*heldOfLesson)-100, leastPercent), mostPercent)
}

// PreviewPercent is the same for a preview, which is long and whose course may grow.
const PreviewPercent = 200

// idleAfter is how long a preview has nothing to do before it uses the time to collect memory.
const idleAfter = 50 * time.Millisecond

// Tidy collects the memory of a preview while nobody waits for it, where a third of the way to
// the next collection is gone: an edit that meets a collection takes three times as long.
func Tidy() {
	samples := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}, {Name: "/gc/heap/live:bytes"}}
	metrics.Read(samples)
	if held, live := samples[0].Value.Uint64(), samples[1].Value.Uint64(); held > live+live*PreviewPercent/100/3 {
		runtime.GC()
	}
}

// roomToMark is what marking may take before memory is collected more often, in bytes: a
// class of ten thousand fits with room to spare, however busy the machine.
const roomToMark = 400 << 20

// keepWithin collects memory more often the nearer it comes to so many bytes, and returns
// what ends that.
func keepWithin(bytes int64) (end func()) {
	limit := debug.SetMemoryLimit(bytes)
	return func() { debug.SetMemoryLimit(limit) }
}

// makeRoom lets a build use memory instead of time, and returns what ends that.
func makeRoom(dir string) (end func()) {
	lessons := 0
	if folder, err := disk.Open(dir); err == nil {
		names, _ := course.LessonFolders(folder) // what is wrong with the folder is said by who reads it
		lessons = len(names)
		_ = folder.Close()
	}
	room := roomForAny + lessons*roomForLesson
	percent := debug.SetGCPercent(percentFor(lessons, room))
	limit := debug.SetMemoryLimit(int64(room))
	return func() {
		debug.SetGCPercent(percent)
		debug.SetMemoryLimit(limit)
	}
}
