package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"plait/internal/answerfile"
	"plait/internal/course"
	"plait/internal/disk"
	"plait/internal/paper"
	"plait/internal/parallel"
	"plait/internal/register"
	classreport "plait/internal/report"
	"plait/layouts"
)

type markCommand struct {
	courseFlag
	Files []string `arg:"" optional:"" help:"Answer files, or folders of them. Without any, only the keys are written anew." placeholder:"FILE"`
	Out   string   `help:"Where the register, the report and the keys go: a folder of their own, never the site." required:"" placeholder:"DIR"`
	As    string   `help:"text for people, json for programs, csv for a spreadsheet." enum:"text,json,csv" default:"text" placeholder:"text|json|csv"`
}

// Help is what `plait mark --help` says beneath its first line.
func (markCommand) Help() string {
	return "Files are added to the register that is in the folder; nothing in it is lost, and a file that is there already counts once. " +
		"Of several sittings of one paper by one learner the last counts. What cannot be marked is said, everything else is, and the command ends with 1."
}

const (
	registerFile  = "register.json"
	registerLimit = 1 << 30
)

// Run marks answer files into a register.
func (cmd markCommand) Run(ctx context.Context, c console) error {
	defer keepWithin(roomToMark)()
	result, err := readSound(ctx, cmd.Course, c)
	if err != nil {
		return err
	}
	defer result.close()
	papers := paper.All(result.Course, result.Derived)
	if len(papers) == 0 {
		return useError{fmt.Errorf("this course has no paper: write one, such as %s/first-colours.yaml", course.PapersFolder)}
	}
	names, err := answerFiles(cmd.Files)
	if err != nil {
		return err
	}
	shelf, err := disk.OpenShelf(cmd.Out, cmd.Course, course.SiteFolder)
	if err != nil {
		return err
	}
	defer shelf.Close()
	reg, err := openRegister(shelf, result.Course.ID())
	if err != nil {
		return err
	}
	sittings, refused, err := markAll(ctx, paper.NewBook(result.Course, papers), names)
	if err != nil {
		return err
	}
	added := reg.Add(sittings)
	in := classreport.Input{Course: result.Course, Papers: papers, Register: reg, Refused: refused, Layouts: layouts.FS}
	if err := shelve(shelf, in); err != nil {
		return err
	}
	if err := cmd.print(c.out, reg, added, refused); err != nil {
		return err
	}
	for _, line := range refused {
		fmt.Fprintln(c.err, "plait:", line)
	}
	if len(refused) > 0 {
		return errCourse
	}
	return nil
}

// answerFiles lists the files to mark: those that were named, and those of named folders
// whose names end in .json, in order.
func answerFiles(named []string) ([]string, error) {
	var names []string
	for _, name := range named {
		info, err := os.Stat(name)
		if err != nil {
			return nil, useError{fmt.Errorf("cannot read %s: %w", name, reason(err))}
		}
		if !info.IsDir() {
			names = append(names, name)
			continue
		}
		err = filepath.WalkDir(name, func(file string, d fs.DirEntry, err error) error {
			if err == nil && d.Type().IsRegular() && strings.HasSuffix(file, ".json") && d.Name() != registerFile {
				names = append(names, file)
			}
			return err
		})
		if err != nil {
			return nil, err
		}
	}
	slices.Sort(names)
	return slices.Compact(names), nil
}

func reason(err error) error {
	var inner *fs.PathError
	if errors.As(err, &inner) {
		return inner.Err
	}
	return err
}

// openRegister reads the register of a folder, or begins one. One that cannot be read is
// left as it is, and nothing is written over it.
func openRegister(shelf *disk.Shelf, id string) (*register.Register, error) {
	data, err := shelf.Read(registerFile, registerLimit)
	if err != nil || data == nil {
		return register.New(id), err
	}
	reg, err := register.Parse(data, id)
	if err != nil {
		return nil, useError{fmt.Errorf("%s cannot be added to: %w; choose another folder with --out, or move it away", registerFile, err)}
	}
	return reg, nil
}

// markAll marks files side by side, each into its own slot. Of a file no more is kept
// than its marks.
func markAll(ctx context.Context, book *paper.Book, names []string) (sittings []register.Sitting, refused []string, err error) {
	marked := make([]register.Sitting, len(names))
	faults := make([]error, len(names))
	err = parallel.Each(0, len(names), func(_, i int) error {
		marked[i], faults[i] = markOne(book, names[i])
		return ctx.Err()
	})
	if err != nil {
		return nil, nil, err
	}
	for i, fault := range faults {
		if fault != nil {
			refused = append(refused, fault.Error())
			continue
		}
		sittings = append(sittings, marked[i])
	}
	return sittings, refused, nil
}

func markOne(book *paper.Book, name string) (register.Sitting, error) {
	data, err := readLimited(name)
	if err != nil {
		return register.Sitting{}, fmt.Errorf("%s: %w", name, reason(err))
	}
	file, err := answerfile.Read(filepath.Base(name), data)
	if err != nil {
		return register.Sitting{}, err
	}
	return book.Mark(file)
}

// readLimited reads a file, and of one that is too large only enough to tell.
func readLimited(name string) ([]byte, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, disk.ErrNotRegular
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, answerfile.MaxBytes+1))
}

// shelve writes everything that follows from a register. The register itself comes
// first: all else can be made again.
func shelve(shelf *disk.Shelf, in classreport.Input) error {
	files := []struct {
		name string
		make func() ([]byte, error)
	}{
		{registerFile, in.Register.JSON},
		{"register.csv", in.Register.CSV},
		{"answers.csv", in.Register.AnswersCSV},
		{"practicals.csv", in.Register.PracticalsCSV},
		{"report.html", func() ([]byte, error) { return classreport.Page(in) }},
	}
	for _, p := range in.Papers {
		files = append(files, struct {
			name string
			make func() ([]byte, error)
		}{classreport.KeyFile(p), func() ([]byte, error) { return classreport.Key(in, p) }})
	}
	for _, f := range files {
		data, err := f.make()
		if err != nil {
			return err
		}
		if err := shelf.Put(f.name, data); err != nil {
			return err
		}
	}
	return nil
}

func (cmd markCommand) print(w io.Writer, reg *register.Register, added register.Added, refused []string) error {
	var data []byte
	var err error
	switch cmd.As {
	case "json":
		data, err = reg.JSON()
	case "csv":
		data, err = reg.CSV()
	default:
		data = []byte(markText(reg, added, len(refused)) + "Written to " + filepath.Join(cmd.Out, "report.html") + "\n")
	}
	if err == nil {
		_, err = w.Write(data)
	}
	return err
}

// markText says what was marked, and where each paper stands.
func markText(reg *register.Register, added register.Added, refused int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s marked", counted(added.New, "new file"))
	for _, part := range []struct {
		n    int
		text string
	}{{added.Again, "in the register already"}, {added.Remarked, "marked otherwise than before"}, {refused, "not marked"}} {
		if part.n > 0 {
			fmt.Fprintf(&b, ", %d %s", part.n, part.text)
		}
	}
	b.WriteString("\n")
	rows := [][]string{}
	for _, name := range reg.Papers() {
		sittings := reg.Counting(name)
		passed, doubted := 0, 0
		for _, s := range sittings {
			if s.Passed {
				passed++
			}
			if len(s.Doubts) > 0 {
				doubted++
			}
		}
		rows = append(rows, []string{name, counted(len(sittings), "learner"), fmt.Sprintf("%d passed", passed), fmt.Sprintf("%d to look at", doubted)})
	}
	writeTable(&b, rows)
	return b.String()
}
