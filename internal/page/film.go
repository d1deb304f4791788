package page

import (
	"cmp"
	"encoding/base64"
	"fmt"
	"html/template"
	"io/fs"
	"net/url"
	"path"
	"slices"
	"strconv"
	"strings"
	"time"

	"plait/internal/asset"
	"plait/internal/caption"
	"plait/internal/lesson"
)

// player is the script and the style sheet of a film's controls. A lesson with a
// recording calls them in once it is shown, so that reading it waits for nothing.
type player struct{ script, style asset.File }

func newPlayer(layouts fs.FS, kept *asset.Bundles) (p player, err error) {
	for name, to := range map[string]*asset.File{"scripts/film.js": &p.script, "styles/film.css": &p.style} {
		data, err := asset.Script(layouts, kept, name, "")
		if err != nil {
			return p, err
		}
		*to = asset.File{Path: asset.Name(name, data), Data: data}
	}
	return p, nil
}

// playerFiles are the files that lessons with a recording call in; none where the
// course has no recording.
func (b *builder) playerFiles() []asset.File {
	recorded := func(l *lesson.Lesson) bool { return l.Recording.Set() }
	if !slices.ContainsFunc(b.course.Lessons, recorded) {
		return nil
	}
	return []asset.File{b.player.script, b.player.style}
}

// film makes the player of a lesson's recording with all that goes with it; nil for
// a lesson without one.
func (b *builder) film(l *lesson.Lesson) *FilmView {
	if !l.Recording.Set() {
		return nil
	}
	length, _, _ := l.RecordingLength()
	v := &FilmView{
		Address: b.filmAddress(l), Data: b.filmData(l), Files: recordingFiles(l),
		Script: "../" + b.player.script.Path, Style: "../" + b.player.style.Path,
	}
	if length > 0 {
		v.Length, v.Seconds = clock(length), seconds(length)
	}
	if l.Film != nil {
		v.Width, v.Height = l.Film.Width, l.Film.Height
	} else {
		v.Host = hostOf(l.Recording.Link.Value)
		v.OpenOnly = !isMedia(l.Recording.Link.Value)
	}
	for _, c := range l.Chapters() {
		v.Marks = append(v.Marks, MarkView{From: seconds(c.From), Length: seconds(c.Until - c.From)})
	}
	b.addCaptions(v, l)
	return v
}

// addCaptions adds what is said: as captions inside the page, because a page opened
// from a folder may not read a file of captions, and as lines to read.
func (b *builder) addCaptions(v *FilmView, l *lesson.Lesson) {
	if l.Captions == nil {
		return
	}
	cues := l.Captions.Clean()
	if hasCaptions(l) {
		v.Captions = template.URL("data:text/vtt;base64," + base64.StdEncoding.EncodeToString(caption.WebVTT(cues)))
		v.Language = cmp.Or(caption.Language(l.Recording.Captions.Value), b.site.Language)
	}
	for _, c := range cues {
		v.Lines = append(v.Lines, LineView{
			At: seconds(c.From), Time: clock(c.From), Path: at(v.Address, c.From), Voice: c.Voice, Text: strings.Join(c.Lines(), " "),
		})
	}
}

// hasCaptions reports whether there is something to show over the picture. A timed
// transcript has no ends and is text beside the film.
func hasCaptions(l *lesson.Lesson) bool {
	return l.Captions != nil && l.Captions.Format != caption.FormatTranscript
}

// filmAddress is where a lesson's recording is, from the page of the lesson.
func (b *builder) filmAddress(l *lesson.Lesson) string {
	if l.Film != nil {
		return "../" + b.films[l.Film.Path]
	}
	return l.Recording.Link.Value
}

// at is the address of a moment of a film: a media fragment in plain seconds, which
// all browsers read (W3C Media Fragments URI 1.0). A fragment that the address has
// already gives way.
func at(film string, t time.Duration) string {
	film, _, _ = strings.Cut(film, "#")
	return film + "#t=" + seconds(t)
}

// seconds prints a time in plain seconds, to the millisecond.
func seconds(t time.Duration) string {
	return strconv.FormatFloat(t.Round(time.Millisecond).Seconds(), 'f', -1, 64)
}

// mediaTypes are the endings of addresses that a page can play itself.
var mediaTypes = []string{".webm", ".mp4", ".m4v", ".mov", ".m4a", ".mp3", ".wav"}

// isMedia reports whether an address is that of a film and not of a page with one.
func isMedia(address string) bool {
	u, err := url.Parse(address)
	return err == nil && slices.Contains(mediaTypes, strings.ToLower(path.Ext(u.Path)))
}

func hostOf(address string) string {
	u, err := url.Parse(address)
	if err != nil {
		return ""
	}
	return u.Host
}

// filmSources are where the page of a lesson may take its film from: the site for one of
// the course, the page for its captions, and the one place where the film is hosted.
func filmSources(l *lesson.Lesson) []string {
	var sources []string
	if l.Film != nil {
		sources = append(sources, "'self'")
	}
	if hasCaptions(l) {
		sources = append(sources, "data:")
	}
	if l.Film == nil && isMedia(l.Recording.Link.Value) {
		sources = append(sources, "https://"+hostOf(l.Recording.Link.Value))
	}
	return sources
}

// stepTime is the time of a step with the way to it in the recording.
func (b *builder) stepTime(l *lesson.Lesson, s *lesson.Step) *TimeView {
	v := timeView(s.Time)
	if !l.Recording.Set() {
		return v
	}
	v.Path, v.At = at(b.filmAddress(l), s.Time.From), seconds(s.Time.From)
	for _, c := range l.Chapters() {
		if c.Step == s {
			v.Until = seconds(c.Until)
		}
	}
	return v
}

// filmObject describes a recording for machines (schema.org VideoObject), with a
// clip for each step.
type filmObject struct {
	Context     string       `json:"@context"`
	Type        string       `json:"@type"`
	Name        string       `json:"name"`
	Description string       `json:"description"`
	Language    string       `json:"inLanguage"`
	Duration    string       `json:"duration,omitempty"`
	URL         string       `json:"url,omitempty"`
	Content     string       `json:"contentUrl,omitempty"`
	Parts       []clipObject `json:"hasPart,omitempty"`
}

type clipObject struct {
	Type  string  `json:"@type"`
	Name  string  `json:"name"`
	Start float64 `json:"startOffset"`
	End   float64 `json:"endOffset"`
	URL   string  `json:"url,omitempty"`
}

// filmData makes the description. What needs an address of the course is left out
// where it has none.
func (b *builder) filmData(l *lesson.Lesson) filmObject {
	o := filmObject{
		Context: "https://schema.org", Type: "VideoObject",
		Name: l.Title.Value, Description: l.Summary.Value, Language: b.site.Language, URL: b.absolute(lessonPath(l)),
	}
	if length, _, ok := l.RecordingLength(); ok {
		o.Duration = "PT" + seconds(length) + "S"
	}
	switch {
	case l.Film == nil:
		if isMedia(l.Recording.Link.Value) {
			o.Content = l.Recording.Link.Value
		}
	default:
		o.Content = b.absolute(b.films[l.Film.Path])
	}
	for _, c := range l.Chapters() {
		if c.Until > c.From {
			o.Parts = append(o.Parts, clipObject{
				Type: "Clip", Name: c.Title.Value, Start: c.From.Seconds(), End: c.Until.Seconds(), URL: b.moment(l, c),
			})
		}
	}
	return o
}

// moment is the public address of a step with its time in the film: the page seeks
// by the query and the browser finds the step by the fragment. Empty where the
// course has no address.
func (b *builder) moment(l *lesson.Lesson, c lesson.Chapter) string {
	page := b.absolute(lessonPath(l))
	if page == "" {
		return ""
	}
	return page + "?t=" + seconds(c.From) + "#" + c.ID
}

// absolute is the public address of a file of the site, empty where the course has
// no address.
func (b *builder) absolute(file string) string {
	address := strings.TrimSuffix(b.course.Address.Value, "/")
	if address == "" {
		return ""
	}
	return address + "/" + file
}

// Files about a recording, beside the page of its lesson.
func chaptersPath(l *lesson.Lesson) string    { return "lessons/" + l.Name + ".chapters.vtt" }
func captionsPath(l *lesson.Lesson) string    { return "lessons/" + l.Name + ".captions.vtt" }
func descriptionPath(l *lesson.Lesson) string { return "lessons/" + l.Name + ".description.txt" }

// recordingFiles are the files about a recording as its page links to them.
func recordingFiles(l *lesson.Lesson) []Link {
	var links []Link
	if len(l.Chapters()) > 0 {
		links = append(links, Link{Text: "Chapters", Path: path.Base(chaptersPath(l))},
			Link{Text: "Text for the film’s description", Path: path.Base(descriptionPath(l))})
	}
	if hasCaptions(l) {
		links = append(links, Link{Text: "Captions", Path: path.Base(captionsPath(l))})
	}
	return links
}

// recordingText makes the files that [recordingFiles] links to.
func (b *builder) recordingText(l *lesson.Lesson) map[string][]byte {
	files := map[string][]byte{}
	if !l.Recording.Set() {
		return files
	}
	if len(l.Chapters()) > 0 {
		files[chaptersPath(l)] = chapters(l)
		files[descriptionPath(l)] = []byte(b.description(l))
	}
	if hasCaptions(l) {
		files[captionsPath(l)] = caption.WebVTT(l.Captions.Clean())
	}
	return files
}

// chapters writes the steps as chapters (W3C WebVTT 1, section 4.3).
func chapters(l *lesson.Lesson) []byte {
	var cues []caption.Cue
	for _, c := range l.Chapters() {
		if c.Until > c.From {
			cues = append(cues, caption.Cue{ID: c.ID, From: c.From, Until: c.Until, Text: c.Title.Value})
		}
	}
	return caption.WebVTT(cues)
}

// description is a text to put under the film where it is hosted: what the lesson
// is about, then a line for each chapter. Places that read such lines want the
// first at 0:00, the times going up, and each chapter to take ten seconds.
func (b *builder) description(l *lesson.Lesson) string {
	var out strings.Builder
	fmt.Fprintf(&out, "%s\n\n%s\n\n", l.Title.Value, l.Summary.Value)
	for i, c := range l.Chapters() {
		switch {
		case !c.Listed:
			continue
		case i == 0 && c.From < lesson.ShortestChapter:
			c.From = 0
		case i == 0:
			fmt.Fprintf(&out, "0:00 %s\n", l.Title.Value)
		}
		fmt.Fprintf(&out, "%s %s\n", clock(c.From), c.Title.Value)
	}
	if page := b.absolute(lessonPath(l)); page != "" {
		fmt.Fprintf(&out, "\n%s\n", page)
	}
	return out.String()
}
