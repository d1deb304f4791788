package disk

import (
	"bufio"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
	"time"
)

var kills = flag.Int("kills", 30, "how often TestKilledAtAnyMoment kills a build")

const killPages = 120

// TestMain lets the test program itself be the build that is killed.
func TestMain(m *testing.M) {
	if home := os.Getenv("PLAIT_DISK_WRITE_FOREVER"); home != "" {
		writeForever(home)
	}
	os.Exit(m.Run())
}

// writeForever writes one generation after the other and says on its output that
// it has begun.
func writeForever(home string) {
	generation, _ := strconv.Atoi(os.Getenv("PLAIT_DISK_GENERATION"))
	var t testing.T // site reports only what cannot happen
	for ; ; generation++ {
		tree := site(&t, generation, killPages)
		fmt.Println("writing")
		if _, err := Write(tree, course(generation), filepath.Join(home, "public"), Options{Course: home}); err != nil {
			fmt.Println(err)
			os.Exit(1)
		}
	}
}

// A build that is killed at any moment leaves whole files and links that lead
// somewhere, and the next build, which may be killed as well, carries on.
func TestKilledAtAnyMoment(t *testing.T) {
	home, public := newCourse(t)
	random := rand.New(rand.NewPCG(1, 2))
	generation, within := 0, 0
	for range *kills {
		generation += 1 + random.IntN(5)
		kill(t, home, generation, time.Duration(random.IntN(40_000))*time.Microsecond)
		if _, err := os.Stat(filepath.Join(public, scratchFolder)); err == nil {
			within++
		}
		expectSound(t, public)
		if t.Failed() {
			return
		}
	}
	t.Logf("%d of %d kills fell into the writing of files", within, *kills)
	if within < *kills/10 {
		t.Errorf("only %d of %d kills fell into the writing of files", within, *kills)
	}
	generation++
	if _, err := Write(site(t, generation, killPages), course(generation), public, Options{Course: home}); err != nil {
		t.Fatal(err)
	}
	expectExactly(t, public, site(t, generation, killPages), course(generation))
}

// kill starts a build in a process of its own and kills it after the delay.
func kill(t *testing.T, home string, generation int, after time.Duration) {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), "PLAIT_DISK_WRITE_FOREVER="+home, "PLAIT_DISK_GENERATION="+strconv.Itoa(generation))
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	said := bufio.NewScanner(out)
	said.Scan()
	time.Sleep(after)
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	for {
		if said.Text() != "writing" {
			t.Fatalf("the build failed by itself: %s", said.Text())
		}
		if !said.Scan() {
			break
		}
	}
	_ = cmd.Wait()
}
