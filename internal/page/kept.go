package page

import (
	"bytes"
	"encoding/gob"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"sync"

	"plait/internal/artifact"
	"plait/internal/asset"
	"plait/internal/derive"
	"plait/internal/highlight"
	"plait/internal/lesson"
	"plait/internal/sheet"
	"plait/internal/source"
)

// Kept is what one build of a process leaves to the next: drawings of head sheets, by
// all that they show, and what they come to, so that a sheet that has not changed costs
// nothing; bundled scripts and styles, by what they were made of; what lessons add to the
// files that all are in, and their pictures, while the lessons are the very same; and what is
// known of pictures and films, until [Kept.Forget]. The zero Kept is ready; one serves one
// build at a time.
type Kept struct {
	Once bool // there is one build in this process: what is known of files is not kept

	mu        sync.Mutex
	fresh     bool                     // something was drawn that was not known
	now, last map[string]func() *drawn // of this build and the one before
	pictures  map[string]asset.Picture // by path in the course
	texts     []text                   // of the build before
	hung      []*pictures              // those of texts
	gallery   *artifact.Tree           // all of them
	films     map[string]string        // names by content, by path in the course
	bundles   asset.Bundles
	sheets    []derive.KnownSheet       // of this build
	parted    bool                      // some of them were not known
	derived   *derive.Derived           // of the build before
	shares    map[*lesson.Lesson]*share // of the build before
	styles    map[string]style          // by set
	samples   int                       // how many samples were coloured before this build
}

// begin starts a build. What the last one did not ask for of drawings is gone.
func (k *Kept) begin() {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.now, k.last, k.fresh = map[string]func() *drawn{}, k.now, false
	k.samples = highlight.Known()
	if k.pictures == nil {
		k.pictures, k.films = map[string]asset.Picture{}, map[string]string{}
	}
}

// knowSheets keeps what the head sheets of this build come to.
func (k *Kept) knowSheets(d *derive.Derived) {
	before := k.sheets
	k.sheets, k.parted = d.KnownSheets()
	if slices.EqualFunc(k.sheets, before, func(a, b derive.KnownSheet) bool { return a.Text == b.Text }) {
		k.parted = false
	}
}

// Forget drops what is known of files that have changed, come or gone; a folder stands
// for all that lies in it. A text whose pictures have changed has been read anew and is another.
func (k *Kept) Forget(changed []string) {
	k.mu.Lock()
	defer k.mu.Unlock()
	forget(k.pictures, changed)
	forget(k.films, changed)
}

func forget[V any](known map[string]V, changed []string) {
	for name := range known {
		if slices.ContainsFunc(changed, func(c string) bool { return source.Related(name, c) }) {
			delete(known, name)
		}
	}
}

// share returns the share of a lesson as the build before made it, nil where the lesson or what
// stands in it of its module has changed.
func (k *Kept) share(d *derive.Derived, l *lesson.Lesson, module string) *share {
	if s := k.shares[l]; s != nil && s.module == module && d.SameOf(l, k.derived) {
		return s
	}
	return nil
}

// style is a style sheet with what it was made of.
type style struct {
	bundle *asset.Bundle
	tints  []asset.Tint
	file   asset.File
}

// style returns the style sheet of a set, that of the build before where nothing of it has
// changed.
func (k *Kept) style(bundle *asset.Bundle, set string, tints []asset.Tint) asset.File {
	if s, ok := k.styles[set]; ok && s.bundle == bundle && slices.Equal(s.tints, tints) {
		return s.file
	}
	if k.styles == nil {
		k.styles = map[string]style{}
	}
	k.styles[set] = style{bundle, tints, bundle.Style(set, tints)}
	return k.styles[set].file
}

// keepShares keeps the shares of lessons for the next build.
func (k *Kept) keepShares(d *derive.Derived, lessons []*lesson.Lesson, shares []*share) {
	if k.Once {
		return
	}
	k.derived, k.shares = d, make(map[*lesson.Lesson]*share, len(lessons))
	for i, l := range lessons {
		k.shares[l] = shares[i]
	}
}

// remembered returns what is known of a file, or reads it. A link is read each time: it
// can lead to something else unseen.
func remembered[V any](k *Kept, known map[string]V, files fs.FS, name string, read func(fs.FS, string) (V, error)) (V, error) {
	k.mu.Lock()
	v, ok := known[name]
	k.mu.Unlock()
	if ok {
		return v, nil
	}
	v, err := read(files, name)
	if err != nil || k.Once || source.Linked(files, name) {
		return v, err
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	known[name] = v
	return v, nil
}

// get returns what was drawn for a key, in this build or the one before, or draws it.
func (k *Kept) get(key string, make func() *drawn) *drawn {
	k.mu.Lock()
	once, ok := k.now[key]
	if !ok {
		once, ok = k.last[key]
	}
	if !ok {
		once = sync.OnceValue(make)
		k.fresh = true
	}
	k.now[key] = once
	k.mu.Unlock()
	return once()
}

// keptDrawing is a drawn sheet as it is written.
type keptDrawing struct {
	Key      string
	Views    []keptView // by the names of the views
	Swatches []string
}

type keptView struct {
	View    sheet.View
	Picture []byte
}

// keptWork is what takes long to make and is the same in every build of a program until
// what it is made of changes.
type keptWork struct {
	Sheets   []derive.KnownSheet
	Drawings []keptDrawing
	Bundles  []asset.Bundled
	Samples  []highlight.Sample
}

// Work returns what the last build drew, bundled and coloured, to be loaded by another
// process; ok is false where that is what was loaded, or nothing.
func (k *Kept) Work() (data []byte, ok bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	bundles, fresh := k.bundles.List()
	if !k.fresh && len(k.now) == len(k.last) && !fresh && highlight.Known() == k.samples && !k.parted {
		return nil, false
	}
	work := keptWork{Sheets: k.sheets, Bundles: bundles, Samples: highlight.Samples()}
	for _, key := range slices.Sorted(maps.Keys(k.now)) {
		d, out := k.now[key](), keptDrawing{Key: key}
		for v, picture := range d.views {
			out.Views = append(out.Views, keptView{v, picture})
		}
		slices.SortFunc(out.Views, func(a, b keptView) int { return strings.Compare(a.View.String(), b.View.String()) })
		out.Swatches = d.swatches
		work.Drawings = append(work.Drawings, out)
	}
	var text bytes.Buffer
	if err := gob.NewEncoder(&text).Encode(work); err != nil {
		panic(err) // texts always encode
	}
	return text.Bytes(), true
}

// LoadWork takes what another process of the same program left. Data that cannot be read
// is as good as none.
func (k *Kept) LoadWork(data []byte) {
	var work keptWork
	if err := gob.NewDecoder(bytes.NewReader(data)).Decode(&work); err != nil {
		return
	}
	derive.LoadSheets(work.Sheets)
	k.bundles.Load(work.Bundles)
	highlight.Load(work.Samples)
	k.now = map[string]func() *drawn{}
	for _, in := range work.Drawings {
		d := &drawn{views: map[sheet.View][]byte{}, swatches: in.Swatches}
		for _, v := range in.Views {
			d.views[v.View] = v.Picture
		}
		k.now[in.Key] = func() *drawn { return d }
	}
}
