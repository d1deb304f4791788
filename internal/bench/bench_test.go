package bench

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"plait/internal/cli"
)

// plait runs a command in this process as its main does.
func plait(b *testing.B, args ...string) {
	b.Helper()
	null, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0)
	if err != nil {
		b.Fatal(err)
	}
	defer null.Close()
	defer func(args []string, out, err *os.File) { os.Args, os.Stdout, os.Stderr = args, out, err }(os.Args, os.Stdout, os.Stderr)
	os.Args, os.Stdout, os.Stderr = append([]string{"plait"}, args...), null, null
	if code := cli.Main(); code != 0 {
		b.Errorf("plait %v ends with %d", args, code)
	}
}

// took measures a call.
func took(do func()) time.Duration {
	began := time.Now()
	do()
	return time.Since(began)
}

// worked returns the time that this process has had of all processors.
func worked() time.Duration {
	var usage syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &usage); err != nil {
		return 0
	}
	return time.Duration(usage.Utime.Nano() + usage.Stime.Nano())
}

// inTurn measures something against the bare Markdown library, one after the other.
// Before each time prepare is called, which does not count. A machine that has other
// work stretches what runs long by more than what runs short; the work done, in time of
// all processors, hardly changes.
func inTurn(b *testing.B, p *place, what, must string, prepare, do func()) {
	var times, bare, work, bareWork []time.Duration
	measure := func(do func(), times, work *[]time.Duration) {
		runtime.GC()
		before := worked()
		*times = append(*times, took(do))
		*work = append(*work, worked()-before)
	}
	for range max(b.N, leastRounds) {
		measure(func() { p.bare(b) }, &bare, &bareWork)
		prepare()
		measure(do, &times, &work)
	}
	show(b, row{what, len(p.texts), ratios(times, bare), "x-bare", must})
	show(b, row{what, len(p.texts), ratios(work, bareWork), "x-bare-work", ""})
	show(b, row{what, len(p.texts), milliseconds(times), "ms", ""})
	b.ReportMetric(quantile(milliseconds(bare), 0.5), "bare-ms")
}

func nothing() {}

// BenchmarkBuild measures the commands check and build in this process.
func BenchmarkBuild(b *testing.B) {
	for _, n := range lessons(b) {
		b.Run(fmt.Sprint("lessons=", n), func(b *testing.B) {
			p := newPlace(b, n)
			build := func() { plait(b, "build", "--course", p.dir, "--out", p.out) }
			run := func(name, must string, prepare, do func()) {
				b.Run(name, func(b *testing.B) { inTurn(b, p, name, must, prepare, do) })
			}
			build() // draws the head sheets, which a cold build then need not
			run("cold", "5.8", func() { p.forget(b) }, build)
			site := p.site(b)
			copied := p.out + "-copy"
			run("write", "", func() { os.RemoveAll(copied) }, func() { p.write(b, site, copied) })
			os.RemoveAll(copied)
			run("check", "3", nothing, func() { plait(b, "check", "--course", p.dir) })
			build()
			run("same", "0.10", nothing, build)
			run("lesson", "", func() { p.edit(b, p.lesson, "summary: ", "summary: Edited %d times.") }, build)
			run("range", "1.5", func() { p.edit(b, "content/ranges/meadow.yaml", "  N: {name:", "  N: {name: natural %d}") }, build)
			run("course", "1.5", func() { p.edit(b, "content/course.yaml", "title: ", "title: A synthetic course %d") }, build)
			b.Run("layout", func(b *testing.B) {
				p.ownLayout(b)
				inTurn(b, p, "layout", "1.5", func() { p.edit(b, "own/templates/foot.html", "<footer", "<footer data-edit=\"%d\">") }, build)
			})
		})
	}
}

// program builds plait as it is shipped.
func program(b *testing.B) string {
	b.Helper()
	path := filepath.Join(scratch(b), "plait")
	make := exec.Command("go", "build", "-trimpath", "-o", path, "plait/cmd/plait")
	make.Env = append(os.Environ(), "CGO_ENABLED=0")
	if out, err := make.CombinedOutput(); err != nil {
		b.Fatalf("%v: %s", err, out)
	}
	return path
}

// peak runs a command and returns the most memory that it had, in megabytes. The system's own
// account of a child that has ended begins with that of its parent, so the child is looked at
// while it runs.
func peak(b *testing.B, name string, args ...string) float64 {
	b.Helper()
	cmd := exec.Command(name, args...)
	if err := cmd.Start(); err != nil {
		b.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- cmd.Wait() }()
	most := 0.0
	for {
		select {
		case err := <-ended:
			if err != nil {
				b.Fatalf("%s %v: %v", name, args, err)
			}
			return most
		case <-time.After(time.Millisecond):
			most = max(most, highWater(cmd.Process.Pid))
		}
	}
}

// highWater returns the most memory that a process has had so far, in megabytes; 0 where the
// system does not tell.
func highWater(pid int) float64 {
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		return 0
	}
	_, rest, _ := strings.Cut(string(status), "VmHWM:")
	var kilobytes float64
	if _, err := fmt.Sscan(rest, &kilobytes); err != nil {
		return 0
	}
	return kilobytes / 1000
}

// BenchmarkProgram measures the program as it is started: how soon it says its version,
// a build with nothing changed, and the memory that a cold build takes.
func BenchmarkProgram(b *testing.B) {
	plait := program(b)
	series := func(b *testing.B, what string, lessons int, must string, args ...string) {
		var times []time.Duration
		for range max(b.N, leastRounds) {
			cmd := exec.Command(plait, args...)
			times = append(times, took(func() {
				if out, err := cmd.CombinedOutput(); err != nil {
					b.Fatalf("%v: %s", err, out)
				}
			}))
		}
		show(b, row{what, lessons, milliseconds(times), "ms", must})
	}
	b.Run("version", func(b *testing.B) { series(b, "start-up", 0, "20", "--version") })
	for _, n := range lessons(b) {
		b.Run(fmt.Sprint("lessons=", n), func(b *testing.B) {
			p := newPlace(b, n)
			args := []string{"build", "--course", p.dir, "--out", p.out}
			b.Run("memory", func(b *testing.B) {
				var sizes []float64
				for range 3 {
					os.RemoveAll(p.out)
					os.RemoveAll(os.Getenv("XDG_CACHE_HOME"))
					sizes = append(sizes, peak(b, plait, args...))
				}
				show(b, row{"memory", n, sizes, "MB", map[bool]string{true: "200", false: "900"}[n <= 1000]})
			})
			b.Run("same", func(b *testing.B) {
				series(b, "same, process", n, map[bool]string{true: "25", false: "90"}[n <= 1000], args...)
			})
		})
	}
}
