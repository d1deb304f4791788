package lesson

import (
	"errors"
	"io/fs"
	"net/url"
	"path"
	"slices"
	"strings"
	"time"

	"plait/internal/caption"
	"plait/internal/diag"
	"plait/internal/measure"
	"plait/internal/media"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

func readRecording(node *yamlpos.Node, r *yamlpos.Reader) Recording {
	var rec Recording
	f := r.Fields(node, "`recording`", "film", "captions", "link", "length")
	rec.Film, _ = f.Text("film")
	rec.Captions, _ = f.Text("captions")
	if t, ok := f.Text("link"); ok {
		rec.Link = readLink(t, r)
	}
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

// readLink keeps an address that a browser can open safely.
func readLink(t source.Text, r *yamlpos.Reader) source.Text {
	if u, err := url.Parse(t.Value); err == nil && u.Scheme == "https" && u.Host != "" && u.User == nil {
		return t
	}
	r.Report(diag.Errorf("recording/link", t.Span, "%q is no address of a film", t.Value).
		WithHelp("write the whole address, beginning with https://"))
	return source.Text{}
}

// filmTypes are the endings of files that can be a recording.
var filmTypes = []string{".webm", ".mp4", ".m4v", ".mov", ".mkv", ".m4a", ".mp3", ".wav"}

// readFilm reads the headers of the film that the lesson's header names.
func (l *Lesson) readFilm(fsys fs.FS, r *yamlpos.Reader) {
	named := l.Recording.Film
	if named.Value == "" {
		return
	}
	name, fault := l.recorded(fsys, named, filmTypes)
	if fault != nil {
		r.Report(*fault)
		return
	}
	info, err := filmInfo(fsys, name)
	switch {
	case errors.Is(err, media.ErrNoLength):
		if !l.Recording.Length.Set() {
			r.Report(diag.Notef("recording/film", named.Span, "%q does not say how long it runs", named.Value).
				WithHelp("write it beside the film, as in length: \"3:51\", so that the times of the steps can be checked"))
		}
	case err != nil:
		r.Report(diag.Errorf("recording/film", named.Span, "cannot read %q: %v", named.Value, Reason(err)).
			WithHelp("give a film that plays elsewhere, saved as MP4 or WebM"))
		return
	}
	l.Film = &Film{Path: name, Info: info}
}

func filmInfo(fsys fs.FS, name string) (media.Info, error) {
	f, err := fsys.Open(name)
	if err != nil {
		return media.Info{}, err
	}
	defer f.Close()
	return media.Read(f)
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
