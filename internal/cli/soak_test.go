package cli

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

// How much the soak puts on one preview.
const (
	soakPages   = 200 // open pages, each with its stream of events
	soakSlow    = 24  // readers that hardly read
	soakSaves   = 40  // saves of a lesson in a round
	soakSecret  = "the till holds 40 pounds"
	soakPicture = 8 << 20 // bytes: more than the buffers of a connection hold
)

// soakSize says how long the soak goes on and how many files a checkout has.
// PLAIT_SOAK=10m makes it a long one.
func soakSize(t *testing.T) (long time.Duration, files int) {
	asked := os.Getenv("PLAIT_SOAK")
	if asked == "" {
		return 2 * time.Second, 500
	}
	long, err := time.ParseDuration(asked)
	if err != nil {
		t.Fatal(err)
	}
	return long, 5000
}

// TestPreviewSoak lets a preview be used hard for a while: checkouts of thousands of
// files, editors with their swap files, folders that go and come back, many open
// pages, readers that hardly read, and strangers that try to get at other files or to
// ask from other sites. It goes on answering, follows the last change on every page,
// gives away nothing, and holds no more at the end than at the beginning.
func TestPreviewSoak(t *testing.T) {
	p := startPreview(t, map[string]string{
		"../secret.txt":                 soakSecret,
		"lessons/01-first-bowl/big.png": strings.Repeat("x", soakPicture),
	}, "--port", "0")
	p.replace(lessonFile, "## ", "![A large drawing](big.png)\n\n## ")
	p.expect(lessonPage, "A large drawing")
	picture := soakPictureOf(p)
	long, files := soakSize(t)
	soakRound(p, 0, files, picture) // what is made once, such as the list of files, is made now
	begin := soakMeasure(p)

	ctx, stop := context.WithCancel(t.Context())
	var clients sync.WaitGroup
	pages := make([]atomic.Int64, soakPages)
	for i := range pages {
		clients.Go(func() { soakStream(ctx, p, &pages[i]) })
	}
	for i := range soakSlow {
		clients.Go(func() { soakSlowly(ctx, p, picture, i) })
	}
	rounds := 0
	for end := time.Now().Add(long); rounds == 0 || time.Now().Before(end); {
		rounds++
		soakRound(p, rounds, files, picture)
		if rounds%20 == 1 {
			t.Logf("round %d: %s", rounds, soakMeasure(p))
		}
	}
	told := make([]int64, soakPages)
	for i := range pages {
		told[i] = pages[i].Load()
	}
	p.replace(lessonFile, "title: ", "title: At last, ")
	p.wait("news on all open pages", func() bool {
		for i := range pages {
			if pages[i].Load() == told[i] {
				return false
			}
		}
		return true
	})
	stop()
	clients.Wait()

	var after soakHeld
	p.wait("what the readers held", func() bool {
		after = soakMeasure(p)
		return after.goroutines <= begin.goroutines+4 && after.handles <= begin.handles+4
	})
	t.Logf("%d rounds; begin: %s; end: %s", rounds, begin, after)
	if after.heap > begin.heap+64<<20 {
		t.Errorf("the memory grew: begin %s; end %s", begin, after)
	}
}

// soakHeld is what the program holds.
type soakHeld struct {
	heap                uint64 // bytes that are in use
	goroutines, handles int
}

func (h soakHeld) String() string {
	return fmt.Sprintf("%.1f MB, %d goroutines, %d handles", float64(h.heap)/1e6, h.goroutines, h.handles)
}

func soakMeasure(p *previewed) soakHeld {
	p.t.Helper()
	http.DefaultClient.CloseIdleConnections()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	open, _ := os.ReadDir("/proc/self/fd") // none on other systems
	return soakHeld{m.HeapAlloc, runtime.NumGoroutine(), len(open)}
}

// soakRound changes the course in all ways, then saves once more and waits for the page.
func soakRound(p *previewed, round, files int, picture string) {
	p.t.Helper()
	soakCheckout(p, round, files)
	soakEditor(p)
	soakMoves(p)
	soakStrangers(p)
	soakLink(p, picture)
	if err := os.RemoveAll(filepath.Join(p.dir, "checkout")); err != nil {
		p.t.Fatal(err)
	}
	title := fmt.Sprintf("title: Round %d.", round)
	p.write(lessonFile, soakTitle.ReplaceAllString(p.read(lessonFile), title))
	p.expect(lessonPage, fmt.Sprintf("Round %d.", round))
}

var soakTitle = regexp.MustCompile(`(?m)^title: .*$`)

func (p *previewed) read(name string) string {
	p.t.Helper()
	data, err := os.ReadFile(filepath.Join(p.dir, filepath.FromSlash(name)))
	if err != nil {
		p.t.Fatal(err)
	}
	return string(data)
}

// soakCheckout writes many files in fifty folders, as a version store does.
func soakCheckout(p *previewed, round, files int) {
	for i := range files {
		p.write(fmt.Sprintf("checkout/%02d/%d.md", i%50, i), fmt.Sprintf("state %d of %d", round, i))
	}
}

// soakEditor saves the lesson as editors do: with a swap file and a backup, by renaming
// a new file over it, and by cutting it short before it is written.
func soakEditor(p *previewed) {
	dir := filepath.Dir(filepath.Join(p.dir, lessonFile))
	text := p.read(lessonFile)
	for i := range soakSaves {
		p.write(lessonFile+".swp", "swap")
		p.write(filepath.ToSlash(filepath.Dir(lessonFile))+"/4913", "")
		p.write(lessonFile+"~", text)
		switch i % 3 {
		case 0:
			p.write(lessonFile, strings.Replace(text, "title:", "titel:", 1))
		case 1:
			p.write(lessonFile+".new", text+fmt.Sprintf("\nSave %d.\n", i))
			_ = os.Rename(filepath.Join(p.dir, lessonFile+".new"), filepath.Join(p.dir, lessonFile))
		case 2:
			p.write(lessonFile, "")
			p.write(lessonFile, text)
		}
		_ = os.Remove(filepath.Join(dir, "4913"))
		_ = os.Remove(filepath.Join(p.dir, lessonFile+".swp"))
	}
	_ = os.Remove(filepath.Join(p.dir, lessonFile+"~"))
	p.write(lessonFile, text)
}

// soakMoves takes folders away and puts them back.
func soakMoves(p *previewed) {
	for _, name := range []string{"lessons/01-first-bowl", "lessons", "content/ranges", "content"} {
		from, away := filepath.Join(p.dir, name), filepath.Join(p.dir, "away")
		if err := os.Rename(from, away); err != nil {
			p.t.Fatal(err)
		}
		time.Sleep(15 * time.Millisecond) // long enough for a build without it
		if err := os.Rename(away, from); err != nil {
			p.t.Fatal(err)
		}
	}
}

// soakStrangers asks for files beside the site and from other sites.
func soakStrangers(p *previewed) {
	p.t.Helper()
	host := strings.TrimSuffix(strings.TrimPrefix(p.address, "http://"), "/")
	for _, target := range []string{
		"/../secret.txt", "/../../secret.txt", "/lessons/../../secret.txt", "/%2e%2e/secret.txt", "/%252e%252e/secret.txt", "/%252e%252e%252fsecret.txt",
		"/..%2fsecret.txt", `/..\secret.txt`, "/..%5csecret.txt", "/..%255csecret.txt", "/....//secret.txt", "//../secret.txt", "/./../secret.txt",
		"/..;/secret.txt", "/%c0%ae%c0%ae/secret.txt", "/secret.txt%00.html", "/-/../../secret.txt", "/media/%2e%2e/%2e%2e/secret.txt",
		"/content/course.yaml", "/lessons/01-first-bowl/lesson.md", "/.git/config", p.dir + "/content/course.yaml", "http://127.0.0.1/../secret.txt",
	} {
		soakRefused(p, target, "Host: "+host)
	}
	soakRefused(p, "/", "Host: course.example")
	soakRefused(p, "/", "Host: 127.0.0.1.course.example")
	soakRefused(p, "/", "Host: "+host+"\r\nOrigin: https://course.example")
	soakRefused(p, "/", "Host: "+host+"\r\nOrigin: null")
	soakRefused(p, "/-/events", "Host: "+host+"\r\nOrigin: http://course.example")
	soakRefused(p, "/", "Host: "+host+"\r\nSec-Fetch-Site: cross-site\r\nSec-Fetch-Mode: no-cors")
}

// soakRefused sends one request as it stands, and wants any answer but a file.
func soakRefused(p *previewed, target, headers string) {
	p.t.Helper()
	conn, err := net.Dial("tcp", strings.TrimSuffix(strings.TrimPrefix(p.address, "http://"), "/"))
	if err != nil {
		p.t.Fatal(err)
	}
	defer conn.Close()
	_ = conn.SetDeadline(time.Now().Add(20 * time.Second))
	fmt.Fprintf(conn, "GET %s HTTP/1.1\r\n%s\r\nConnection: close\r\n\r\n", target, headers)
	answer, err := io.ReadAll(conn)
	if err != nil || !regexp.MustCompile(`^HTTP/1\.1 (4\d\d|503) `).Match(answer) || strings.Contains(string(answer), soakSecret) {
		p.t.Errorf("GET %q with %q: %v, %.200q", target, headers, err, answer)
	}
}

func soakPictureOf(p *previewed) string {
	p.t.Helper()
	_, body := p.get(lessonPage)
	found := regexp.MustCompile(`<img src="\.\./([^"]*big[^"]*\.png)"`).FindStringSubmatch(body)
	if found == nil {
		p.t.Fatalf("no picture in\n%s", body)
	}
	return found[1]
}

// soakLink puts a link that leads out of the course in the place of a picture that is
// shown.
func soakLink(p *previewed, picture string) {
	p.t.Helper()
	file, kept := filepath.Join(p.dir, "lessons", "01-first-bowl", "big.png"), filepath.Join(p.dir, "big.kept")
	if err := os.Rename(file, kept); err != nil {
		p.t.Fatal(err)
	}
	if err := os.Symlink(filepath.Join("..", "..", "..", "secret.txt"), file); err != nil {
		p.t.Skip(err)
	}
	for range 3 {
		if code, body := p.get(picture); code == http.StatusOK && strings.Contains(body, soakSecret) {
			p.t.Error("a link leads a reader out of the course")
		}
	}
	if err := os.Rename(kept, file); err != nil {
		p.t.Fatal(err)
	}
}

// soakStream is an open page: it counts the news it is told, and connects again when
// its stream ends.
func soakStream(ctx context.Context, p *previewed, news *atomic.Int64) {
	for ctx.Err() == nil {
		r, err := http.NewRequestWithContext(ctx, http.MethodGet, p.address+"-/events?page=/"+lessonPage, nil)
		if err != nil {
			p.t.Error(err)
			return
		}
		answer, err := http.DefaultClient.Do(r)
		if err != nil {
			continue
		}
		for lines := bufio.NewScanner(answer.Body); lines.Scan(); {
			if strings.HasPrefix(lines.Text(), "data: ") {
				news.Add(1)
			}
		}
		answer.Body.Close()
	}
}

// soakSlowly is a reader that keeps the preview waiting, each third in its own way:
// with a request that never ends, a picture that is read byte by byte, or a stream
// that is not read at all.
func soakSlowly(ctx context.Context, p *previewed, picture string, i int) {
	host := strings.TrimSuffix(strings.TrimPrefix(p.address, "http://"), "/")
	for ctx.Err() == nil {
		conn, err := net.Dial("tcp", host)
		if err != nil {
			continue
		}
		hangUp := context.AfterFunc(ctx, func() { conn.Close() })
		target := []string{"", picture, "-/events"}[i%3]
		fmt.Fprintf(conn, "GET /%s HTTP/1.1\r\nHost: %s\r\n", target, host)
		if target != "" {
			fmt.Fprint(conn, "\r\n")
		}
		one := make([]byte, 1)
		for err == nil && ctx.Err() == nil {
			time.Sleep(50 * time.Millisecond)
			if target != "-/events" {
				_, err = conn.Read(one)
			}
		}
		hangUp()
		conn.Close()
	}
}
