// Package preview shows a site while its course is being written.
//
// A [Server] answers this computer alone, straight from an [artifact.Tree] in
// memory; only pictures and film are read from the course's folder. Whoever builds
// the course hands each result to [Server.Update], and every open page follows. One
// that has changed takes in what is new of it, and all else on it stays as it is, or
// it loads itself again at the place where it was. Where the course
// has errors all stay as they were, under a list of what is to be mended; warnings
// and notes are a small count that opens the same list. Before there has been a
// build without errors the list is the page.
//
// Pages must be made for this: they hold a script element for [Script] and their
// content policy allows connections to their own server.
package preview

import (
	"cmp"
	"crypto/rand"
	"fmt"
	"io/fs"
	"slices"
	"sync"

	"plait/internal/artifact"
	"plait/internal/diag"
)

// Script is the path of the script that pages of a preview load.
const Script = ownPaths + "preview.js"

// Result is the outcome of one build.
type Result struct {
	Tree        *artifact.Tree // the site; nil where the build made none
	Inputs      fs.FS          // what the tree names and does not hold; its files can seek
	Diagnostics []diag.Diagnostic
	// Whole says that scripts of the course's own may be at work on the pages, which
	// cannot do with new elements on a page that is open.
	Whole bool
}

// Server holds the last site that was built without errors. Its methods are safe
// for concurrent use.
type Server struct {
	run   string        // tells the lists of this run from those of earlier ones
	slots chan struct{} // one for each request that is being answered

	mu      sync.Mutex
	builds  int // results so far
	now     state
	streams map[chan struct{}]bool // one for each page that listens
}

// state is what pages see between two results. It is never changed, only replaced.
type state struct {
	tree   *artifact.Tree // of the last good build, nil for none yet
	made   *sync.Map      // pages of the tree that were asked for: path to func() ([]byte, error)
	inputs fs.FS
	whole  bool // as in Result

	// Of the last build, good or not:
	list   string // names what was found, "" where that is nothing
	found  []diag.Diagnostic
	failed bool // it made no site
}

// New returns a server that has nothing to show yet.
func New() *Server {
	return &Server{
		run:     rand.Text(),
		slots:   make(chan struct{}, maxRequests),
		streams: map[chan struct{}]bool{},
	}
}

// Update shows the result of a build on all open pages. A result that has an error
// or no tree leaves the site as it was. The tree is not to be changed any more.
func (s *Server) Update(r Result) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.builds++
	next := state{tree: r.Tree, made: &sync.Map{}, inputs: r.Inputs, whole: r.Whole, found: worstFirst(r.Diagnostics)}
	if next.failed = r.Tree == nil || diag.HasErrors(r.Diagnostics); next.failed {
		next.tree, next.made, next.inputs, next.whole = s.now.tree, s.now.made, s.now.inputs, s.now.whole
	}
	if next.failed || len(next.found) > 0 {
		next.list = fmt.Sprintf("%s-%d", s.run, s.builds)
	}
	s.now = next
	for stream := range s.streams {
		wake(stream)
	}
}

// bytes returns what a file of the tree holds that is no input; a page that is made
// when it is asked for is made once.
func (s state) bytes(f artifact.File) ([]byte, error) {
	if f.Make == nil {
		return f.Data, nil
	}
	once, _ := s.made.LoadOrStore(f.Path, sync.OnceValues(f.Bytes))
	return once.(func() ([]byte, error))()
}

// worstFirst orders what was found for the list.
func worstFirst(found []diag.Diagnostic) []diag.Diagnostic {
	sorted := diag.Sorted(found)
	slices.SortStableFunc(sorted, func(a, b diag.Diagnostic) int { return cmp.Compare(a.Severity, b.Severity) })
	return sorted
}

func (s *Server) state() state {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.now
}

// subscribe returns a channel that tells of updates, or nil where too many pages
// listen already.
func (s *Server) subscribe() chan struct{} {
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.streams) >= maxStreams {
		return nil
	}
	stream := make(chan struct{}, 1)
	s.streams[stream] = true
	return stream
}

func (s *Server) unsubscribe(stream chan struct{}) {
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(s.streams, stream)
}

// wake tells a stream that there is something new. One that has not looked since
// the last time will see this as well, so nothing waits and nothing piles up.
func wake(stream chan struct{}) {
	select {
	case stream <- struct{}{}:
	default:
	}
}
