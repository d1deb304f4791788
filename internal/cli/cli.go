// Package cli is plait at the command line: the commands, their flags, what they
// print and how they end.
//
// Results go to standard output; progress and diagnostics of a build go to
// standard error. A command ends with 0 where all is well, 1 where the course has
// errors, 2 where it was called wrongly and 3 where the machine failed.
package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"

	"github.com/alecthomas/kong"
	"golang.org/x/term"

	"plait/internal/build"
	"plait/internal/diag"
	"plait/internal/disk"
)

// The ways a command ends.
const (
	exitFine    = 0
	exitCourse  = 1 // the course has errors
	exitUse     = 2 // wrong use
	exitMachine = 3 // disk full, port taken
)

// version is what --version prints; a release sets it when it is linked.
var version = "1.0"

type commands struct {
	Start   startCommand   `cmd:"" help:"Make a new course in an empty folder, ready to be changed."`
	Check   checkCommand   `cmd:"" help:"Read the course, recompute every bowl and say what is wrong."`
	Build   buildCommand   `cmd:"" help:"Check the course and make its pages."`
	Preview previewCommand `cmd:"" help:"Show the course in a browser and follow every change."`
	Mix     mixCommand     `cmd:"" help:"Weigh one bowl here and now."`
	Draft   draftCommand   `cmd:"" help:"Make a lesson to be edited out of a film's captions."`
	Order   orderCommand   `cmd:"" help:"Say what a class has to buy: grams, packs and cost."`
	Mark    markCommand    `cmd:"" help:"Mark answer files into a register, with a report and the keys."`
	Explain explainCommand `cmd:"" help:"Say what a rule means, why, and on whose word."`

	Version kong.VersionFlag `help:"Print the version."`
}

// console is where a command reads its surroundings from and prints to.
type console struct {
	out, err io.Writer
	colour   bool // diagnostics in colour
	terminal bool // err is a terminal: show progress
}

// errCourse ends a command with exitCourse after its diagnostics were printed.
var errCourse = errors.New("the course has errors")

// useError is a wrong use that kong cannot see.
type useError struct{ error }

// Main runs the command named in the program's arguments and returns its exit
// code.
func Main() int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	onTerminal := term.IsTerminal(int(os.Stderr.Fd()))
	return run(ctx, os.Args[1:], console{
		out: os.Stdout, err: os.Stderr,
		colour:   wantsColour(os.Getenv, onTerminal),
		terminal: onTerminal && os.Getenv("CI") == "",
	})
}

// wantsColour follows NO_COLOR (any value, even without a terminal), a dumb
// terminal, and otherwise whether there is a terminal at all.
func wantsColour(env func(string) string, terminal bool) bool {
	return terminal && env("NO_COLOR") == "" && env("TERM") != "dumb"
}

const description = "plait turns a folder of lessons in colour and cut into a course: pages that work offline, " +
	"with every formula checked and recomputed.\n\nNew here? `plait start my-course`, then `plait preview --course my-course`."

func run(ctx context.Context, args []string, c console) int {
	var cmds commands
	ended := -1
	parser, err := kong.New(&cmds,
		kong.Name("plait"), kong.Description(description),
		kong.Vars{"version": "plait " + version},
		kong.Writers(c.out, c.err),
		kong.Exit(func(code int) { ended = code }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, NoExpandSubcommands: true, WrapUpperBound: 80}),
		kong.BindTo(ctx, (*context.Context)(nil)), kong.Bind(c),
	)
	if err != nil {
		fmt.Fprintln(c.err, "plait:", err)
		return exitMachine
	}
	parser.Model.HelpFlag.Help = "Show this help."
	if len(args) == 0 {
		args = []string{"--help"}
	}
	parsed, err := parser.Parse(args)
	if ended >= 0 { // --help or --version said all there is to say
		return ended
	}
	if err != nil {
		return wrongUse(c, err, parsed)
	}
	return code(c, parsed.Run())
}

func wrongUse(c console, err error, parsed *kong.Context) int {
	fmt.Fprintln(c.err, "plait:", err)
	name := "plait"
	var failed *kong.ParseError
	if errors.As(err, &failed) {
		parsed = failed.Context
	}
	if parsed != nil && parsed.Command() != "" {
		name = "plait " + parsed.Selected().Name
	}
	fmt.Fprintf(c.err, "`%s --help` says how to use it\n", name)
	return exitUse
}

// code prints an error and returns the exit code that belongs to it.
func code(c console, err error) int {
	var use useError
	switch {
	case err == nil:
		return exitFine
	case errors.Is(err, errCourse):
		return exitCourse
	case errors.As(err, &use), errors.Is(err, disk.ErrInput), errors.Is(err, disk.ErrForeign), errors.Is(err, disk.ErrSite):
		fmt.Fprintln(c.err, "plait:", err)
		return exitUse
	case errors.Is(err, build.ErrLayouts):
		fmt.Fprintln(c.err, "plait:", err)
		return exitCourse
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(c.err, "plait: stopped")
		return exitMachine
	}
	fmt.Fprintln(c.err, "plait:", err)
	return exitMachine
}

// courseFlag is the folder that most commands work on.
type courseFlag struct {
	Course string `help:"The folder of the course. If left out it is the folder you are in." default:"." type:"existingdir" placeholder:"DIR"`
}

// printDiagnostics prints findings for people.
func printDiagnostics(w io.Writer, list []diag.Diagnostic, c console) error {
	return diag.WriteText(w, list, diag.TextOptions{Colour: c.colour})
}

// counted prints a number with its noun.
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
