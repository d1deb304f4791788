package cli

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"plait/internal/build"
	"plait/internal/caption"
	"plait/internal/diag"
	"plait/internal/draft"
	"plait/internal/media"
	"plait/internal/shade"
	"plait/internal/source"
)

type draftCommand struct {
	courseFlag
	File string `arg:"" help:"The captions: WebVTT (.vtt), SubRip (.srt) or a transcript with times (.txt)." placeholder:"FILE"`
	Film string `help:"The film or sound they belong to: a file, which is copied, or the address where it is hosted." placeholder:"FILM"`
	Into string `help:"The folder to make for the lesson. If left out it is the next one in the course's lessons, named after the captions." type:"path" placeholder:"DIR"`
}

// Help is what --help says beside the flags.
func (draftCommand) Help() string {
	return `Makes a folder with a lesson to be edited: steps with their times, the bowls that were
spoken of, the hair, the kit, cautions. Each value has the words it came from behind it. What
was not said is a question mark, and what has no place yet stands at the end. Nothing that is
there is written over. The lesson says "ready: no": it is checked and not published.`
}

// Run drafts a lesson from captions.
func (cmd draftCommand) Run(ctx context.Context, c console) error {
	cues, err := cmd.read(c)
	if err != nil {
		return err
	}
	course, err := readCourse(ctx, cmd.Course, build.Options{Facts: true})
	if err != nil {
		return err
	}
	defer course.close()
	name := lessonName(cmd.File, course.Result)
	language := cmp.Or(caption.Language(filepath.Base(cmd.File)), course.Course.Language.Value)
	foreign := !caption.IsEnglish(language)
	if foreign {
		if _, err := fmt.Fprintf(c.err, "The captions are in %q. Only English talk is understood, so the draft has steps and no values.\n", language); err != nil {
			return err
		}
	}
	talk := draft.Talk{Foreign: foreign, Name: name, Cues: cues, Captions: filepath.Base(cmd.File), Ranges: rangesOf(course.Result), Range: usualRange(course.Result)}
	for _, t := range course.Course.House.Tests {
		talk.Tests = append(talk.Tests, t.Value)
	}
	if err := cmd.film(&talk); err != nil {
		return err
	}
	dir := cmd.Into
	if dir == "" {
		dir = filepath.Join(cmd.Course, "lessons", nextNumber(course.Result)+"-"+name)
	}
	made := draft.Make(talk)
	if err := cmd.write(dir, made); err != nil {
		return err
	}
	if filepath.Dir(dir) == filepath.Join(cmd.Course, "lessons") { // else the course does not read it
		if err := settleDraft(ctx, cmd.Course, dir); err != nil {
			return err
		}
	}
	if err := report(c, dir); err != nil || len(made.Unlisted) == 0 {
		return err
	}
	_, err = fmt.Fprintf(c.out, "No range of this course lists %s. Copy the maker's card into content/ranges, delete the draft and draft it again.\n", strings.Join(made.Unlisted, ", "))
	return err
}

// read reads the captions and prints what is wrong with them.
func (cmd draftCommand) read(c console) ([]caption.Cue, error) {
	if !slices.Contains([]string{".vtt", ".srt", ".txt"}, strings.ToLower(filepath.Ext(cmd.File))) {
		return nil, useError{fmt.Errorf("%s is no captions file; its name ends in .vtt, .srt or .txt", cmd.File)}
	}
	file, err := source.Read(os.DirFS(filepath.Dir(cmd.File)), filepath.Base(cmd.File), caption.MaxBytes)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, useError{fmt.Errorf("there is no file %s", cmd.File)}
	case err != nil:
		return nil, useError{err}
	}
	track, found := caption.Read(file)
	if err := printDiagnostics(c.err, found, c); err != nil {
		return nil, err
	}
	cues := track.Clean()
	if len(cues) == 0 {
		return nil, useError{fmt.Errorf("nothing is said in %s", cmd.File)}
	}
	return cues, nil
}

// film says where the film of a talk is and how long it runs.
func (cmd draftCommand) film(t *draft.Talk) error {
	switch {
	case cmd.Film == "":
		return nil
	case strings.Contains(cmd.Film, "://"):
		t.Link = cmd.Film
		return nil
	}
	f, err := os.Open(cmd.Film)
	if errors.Is(err, fs.ErrNotExist) {
		return useError{fmt.Errorf("there is no film %s", cmd.Film)}
	}
	if err != nil {
		return err
	}
	defer f.Close()
	info, err := media.Read(f)
	if err != nil && !errors.Is(err, media.ErrNoLength) {
		return useError{fmt.Errorf("%s: %w", cmd.Film, err)}
	}
	t.Film, t.Length = filepath.Base(cmd.Film), info.Length.Truncate(time.Second)
	return nil
}

// write makes the folder of the lesson, whole or not at all.
func (cmd draftCommand) write(dir string, lesson draft.Lesson) error {
	if _, err := os.Lstat(dir); !errors.Is(err, fs.ErrNotExist) {
		return useError{fmt.Errorf("%s is there already; nothing is written over, so name a new folder with --into", shortPath(dir))}
	}
	if err := os.MkdirAll(filepath.Dir(dir), 0o777); err != nil {
		return err
	}
	scratch, err := os.MkdirTemp(filepath.Dir(dir), ".draft-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(scratch) // it is gone where all went well
	if err := os.Chmod(scratch, 0o755); err != nil {
		return err
	}
	files := []string{cmd.File}
	if cmd.Film != "" && !strings.Contains(cmd.Film, "://") {
		files = append(files, cmd.Film)
	}
	for _, name := range files {
		if err := copyFile(filepath.Join(scratch, filepath.Base(name)), name); err != nil {
			return err
		}
	}
	texts := map[string]string{"lesson.md": lesson.Text}
	if lesson.Sheet != "" {
		texts[draft.SheetFile] = lesson.Sheet
	}
	for name, text := range texts {
		if err := os.WriteFile(filepath.Join(scratch, name), []byte(text), 0o644); err != nil {
			return err
		}
	}
	return os.Rename(scratch, dir)
}

func copyFile(to, from string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	if _, err := io.Copy(out, in); err != nil {
		_ = out.Close()
		return err
	}
	return out.Close()
}

// settleRounds bounds how often a draft is checked anew.
const settleRounds = 40

// settleDraft makes open questions of what the checks of the course refuse in a draft.
func settleDraft(ctx context.Context, course, dir string) error {
	for range settleRounds {
		changed, err := settleOnce(ctx, course, dir)
		if err != nil || !changed {
			return err
		}
	}
	return nil
}

func settleOnce(ctx context.Context, course, dir string) (changed bool, err error) {
	result, err := readCourse(ctx, course, build.Options{Facts: true})
	if err != nil {
		return false, err
	}
	defer result.close()
	name := "lessons/" + filepath.Base(dir) + "/lesson.md"
	var own []diag.Diagnostic
	for _, d := range result.Diagnostics {
		if f := d.Span.File(); f != nil && f.Name() == name {
			own = append(own, d)
		}
	}
	if len(own) == 0 {
		return false, nil
	}
	text := own[0].Span.File().Text()
	settled, changed := draft.Settle(text, own)
	if !changed {
		return false, nil
	}
	return true, result.folder.Replace(name, []byte(text), []byte(settled))
}

// report says what stands where.
func report(c console, dir string) error {
	data, err := os.ReadFile(filepath.Join(dir, "lesson.md"))
	if err != nil {
		return err
	}
	text := string(data)
	sheet, err := os.ReadFile(filepath.Join(dir, draft.SheetFile))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	_, left, _ := strings.Cut(text, "```open "+draft.Left)
	_, err = fmt.Fprintf(c.out, "A draft stands in %s: %s, %s, %s, %s heard and not placed.\n", shortPath(dir),
		counted(strings.Count(text, "\n## "), "step"), counted(strings.Count(text, "```formula "), "bowl"),
		counted(len(openQuestion.FindAllString(text+"\n"+string(sheet), -1)), "open question"), counted(strings.Count(left, "\n- "), "thing"))
	return err
}

// openQuestion is a question mark in a draft that waits for the author.
var openQuestion = regexp.MustCompile(`(?m)(?:: |- )\?(?:   #|$)|"\? |\+ \? `)

// lessonName names a lesson after its captions, gloss.en.vtt is gloss, and unlike any
// that the course has.
func lessonName(file string, r *build.Result) string {
	name, _, _ := strings.Cut(filepath.Base(file), ".")
	name = strings.Trim(notInNames.ReplaceAllString(strings.ToLower(name), "-"), "-")
	if name == "" {
		name = "draft"
	}
	free := name
	for n := 2; taken(free, r); n++ {
		free = name + "-" + strconv.Itoa(n)
	}
	return free
}

var notInNames = regexp.MustCompile(`[^a-z0-9]+`)

func taken(name string, r *build.Result) bool {
	for _, l := range r.Course.Lessons {
		if l.Name == name {
			return true
		}
	}
	for _, l := range r.Course.Drafts {
		if l.Name == name {
			return true
		}
	}
	return false
}

// nextNumber returns the number behind the highest of the course's lessons, with as
// many digits as they have.
func nextNumber(r *build.Result) string {
	highest := 0
	for _, l := range slices.Concat(r.Course.Lessons, r.Course.Drafts) {
		digits, _, _ := strings.Cut(filepath.Base(l.Folder), "-")
		if n, err := strconv.Atoi(digits); err == nil {
			highest = max(highest, n)
		}
	}
	return fmt.Sprintf("%02d", highest+1)
}

func rangesOf(r *build.Result) []*shade.Range {
	out := make([]*shade.Range, len(r.Course.Ranges))
	for i, rng := range r.Course.Ranges {
		out[i] = rng.Range
	}
	return out
}

// usualRange returns the range of formulas that name none.
func usualRange(r *build.Result) string {
	if id := r.Course.Settings.Range.Value; id != "" || len(r.Course.Ranges) == 0 {
		return id
	}
	if len(r.Course.Ranges) == 1 {
		return r.Course.Ranges[0].ID
	}
	return ""
}
