package page

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"plait/internal/artifact"
	"plait/internal/asset"
	"plait/internal/course"
	"plait/internal/lesson"
	"plait/internal/markdown"
	"plait/internal/parallel"
)

// text is a text of the course with the folder that its pictures are named from.
type text struct {
	folder string
	doc    *markdown.Document
	small  map[string][]byte // pictures that have been read, by path in the course
}

// texts returns the texts of the course: its lessons, and behind them its standing pages.
func (b *builder) texts() []text {
	list := make([]text, 0, len(b.course.Lessons)+len(b.course.Pages))
	for _, l := range b.course.Lessons {
		list = append(list, text{l.Folder, l.Doc, l.Small})
	}
	for _, p := range b.course.Pages {
		list = append(list, text{course.PagesFolder, p.Doc, p.Small})
	}
	return list
}

// pictures are those of one text, in the order of their paths in the course. They are not
// changed once made.
type pictures []named

// named is a picture with its path in the course.
type named struct {
	name string
	asset.Picture
}

// of returns the picture of a path.
func (p pictures) of(name string) asset.Picture {
	if at, found := p.find(name); found {
		return p[at].Picture
	}
	return asset.Picture{}
}

// find returns where the picture of a path stands among others, or would.
func (p pictures) find(name string) (at int, found bool) {
	return slices.BinarySearchFunc(p, name, func(n named, name string) int { return strings.Compare(n.name, name) })
}

// readPictures reads the pictures of all texts, several texts at a time. Those of a text that is
// the very same are known from the build before.
func (b *builder) readPictures(files fs.FS) error {
	texts := b.texts()
	read := make([]*pictures, len(texts))
	var todo []int
	for i, t := range texts {
		if read[i] = b.memory.hungOf(i, t); read[i] == nil {
			todo = append(todo, i)
		}
	}
	err := parallel.Each(b.workers, len(todo), func(_, i int) (err error) {
		read[todo[i]], err = b.picturesOf(files, texts[todo[i]])
		return err
	})
	if err != nil {
		return err
	}
	b.pictures = read
	b.gallery, err = b.memory.hang(texts, read)
	return err
}

// picturesOf reads the pictures of a text.
func (b *builder) picturesOf(files fs.FS, t text) (*pictures, error) {
	var list pictures
	for _, img := range t.doc.Images {
		name := path.Join(t.folder, img.Target.Value)
		at, known := list.find(name)
		if known || lesson.IsSheet(name) {
			continue
		}
		read := asset.ReadPicture
		if data := t.small[name]; data != nil {
			read = func(_ fs.FS, name string) (asset.Picture, error) { return asset.NewPicture(name, data), nil }
		}
		p, err := remembered(b.memory, b.memory.pictures, files, name, read)
		if err != nil {
			return nil, fmt.Errorf("picture of %s: %w", t.folder, err)
		}
		list = slices.Insert(list, at, named{name, p})
	}
	return &list, nil
}

// hungOf returns the pictures of a text as the build before read them, nil where another text, or
// another version of it, stood in its place.
func (k *Kept) hungOf(i int, t text) *pictures {
	if i < len(k.texts) && k.texts[i].doc == t.doc {
		return k.hung[i]
	}
	return nil
}

// hang returns the pictures of all texts as files, those of the build before where no text shows
// others. Two of one name and one content are one file.
func (k *Kept) hang(texts []text, read []*pictures) (*artifact.Tree, error) {
	same := len(texts) == len(k.hung)
	for i := 0; same && i < len(texts); i++ {
		same = k.hung[i] == read[i] || slices.EqualFunc(*k.hung[i], *read[i], func(a, b named) bool { return a.name == b.name && a.Path == b.Path })
	}
	if !k.Once {
		k.texts, k.hung = texts, read
	}
	if same && k.gallery != nil {
		return k.gallery, nil
	}
	tree := artifact.New()
	for _, list := range read {
		for _, p := range *list {
			if _, there := tree.Get(p.Path); there {
				continue
			}
			f := artifact.File{Path: p.Path, Stage: artifact.Asset, Data: p.Data}
			if p.Data == nil {
				f.Input = p.name
			}
			if err := tree.Add(f); err != nil {
				return nil, err
			}
		}
	}
	k.gallery = tree
	return tree, nil
}
