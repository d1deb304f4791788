package lesson

import (
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"

	"plait/internal/caption"
	"plait/internal/diag"
	"plait/internal/measure"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

func readRecording(node *yamlpos.Node, r *yamlpos.Reader) Recording {
	var rec Recording
	f := r.Fields(node, "`recording`", "film", "captions", "link", "length")
	rec.Film, _ = f.Text("film")
	rec.Captions, _ = f.Text("captions")
	rec.Link, _ = f.Text("link")
	if t, ok := f.Text("length"); ok {
		d, err := measure.ParseClock(t.Value)
		if err != nil {
			r.Report(diag.FromError("recording/time", t.Span, err))
		} else {
			rec.Length = source.Stated[time.Duration]{Value: d, Span: t.Span}
		}
	}
	return rec
}

// captionTypes are the endings of files that can stand as captions.
var captionTypes = []string{".vtt", ".srt", ".txt"}

// readCaptions reads the captions that the header names.
func (l *Lesson) readCaptions(fsys fs.FS, r *yamlpos.Reader) {
	named := l.Recording.Captions
	if named.Value == "" {
		return
	}
	name, fault := l.recorded(fsys, named, captionTypes)
	if fault != nil {
		r.Report(*fault)
		return
	}
	file, err := source.Read(fsys, name, caption.MaxBytes)
	if err != nil {
		r.Report(diag.Errorf("recording/file", named.Span, "cannot read %q: %v", named.Value, Reason(err)).
			WithHelp("captions lie in the lesson's folder and take at most %d MiB", caption.MaxBytes>>20))
		return
	}
	track, faults := caption.Read(file)
	r.Report(faults...)
	l.Captions = track
}

// recorded returns the path in the course of a file of the recording.
func (l *Lesson) recorded(fsys fs.FS, named source.Text, types []string) (string, *diag.Diagnostic) {
	name := path.Join(l.Folder, named.Value)
	fail := func(help, format string, args ...any) (string, *diag.Diagnostic) {
		d := diag.Errorf("recording/file", named.Span, format, args...).WithHelp("%s", help)
		return "", &d
	}
	switch {
	case strings.Contains(named.Value, "://"):
		return fail("write link: for a film that is hosted elsewhere, and save captions into the lesson's folder",
			"%q lies on another site", named.Value)
	case path.IsAbs(named.Value) || !fs.ValidPath(name):
		return fail("copy it into the lesson's folder", "%q lies outside the course", named.Value)
	case !slices.Contains(types, strings.ToLower(path.Ext(name))):
		return fail("use one of "+strings.Join(types, " "), "%q is not of a kind that can be read", named.Value)
	}
	info, err := fs.Stat(fsys, name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fail("add the file, or mend its name", "there is no file %q", named.Value)
	case err != nil:
		return fail("copy it into the lesson's folder; a link that leads out of the course is not followed",
			"cannot read %q: %v", named.Value, Reason(err))
	case !info.Mode().IsRegular():
		return fail("name a file", "%q is a folder", named.Value)
	}
	return name, nil
}
