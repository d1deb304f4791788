package disk

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"plait/internal/artifact"
)

const benchFiles = 1000

// pages makes a site of 1,000 pages of 15 KB, the size of a lesson without its
// media. The site of another mark has other bytes in each page.
func pages(b *testing.B, mark string) *artifact.Tree {
	b.Helper()
	tree := artifact.New()
	body := strings.Repeat("<p>"+mark+" Two parts of 8N hold the level.</p>\n", 15<<10/len("<p>A Two parts of 8N hold the level.</p>\n"))
	for i := range benchFiles {
		f := artifact.File{Path: fmt.Sprintf("lessons/%d.html", i), Stage: artifact.Page, Data: []byte(body)}
		if err := tree.Add(f); err != nil {
			b.Fatal(err)
		}
	}
	return tree
}

func write(b *testing.B, tree *artifact.Tree, home, public string) {
	b.Helper()
	if _, err := Write(tree, nil, public, Options{Course: home}); err != nil {
		b.Fatal(err)
	}
}

func perFile(b *testing.B) {
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/benchFiles, "µs/file")
}

func BenchmarkWriteUnchanged(b *testing.B) {
	home, public := newCourse(b)
	tree := pages(b, "A")
	write(b, tree, home, public)
	for b.Loop() {
		write(b, tree, home, public)
	}
	perFile(b)
}

func BenchmarkWriteChanged(b *testing.B) {
	home, public := newCourse(b)
	trees := []*artifact.Tree{pages(b, "A"), pages(b, "B")}
	i := 0
	for b.Loop() {
		write(b, trees[i%2], home, public)
		i++
	}
	perFile(b)
}

func BenchmarkWriteNew(b *testing.B) {
	home, public := newCourse(b)
	tree := pages(b, "A")
	for b.Loop() {
		write(b, tree, home, public)
		b.StopTimer()
		if err := os.RemoveAll(public); err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
	}
	perFile(b)
}

// BenchmarkPlainFiles writes the same bytes with nothing but the system's calls,
// for comparison.
func BenchmarkPlainFiles(b *testing.B) {
	_, public := newCourse(b)
	files := pages(b, "A").Files()
	for b.Loop() {
		if err := os.MkdirAll(filepath.Join(public, "lessons"), 0o777); err != nil {
			b.Fatal(err)
		}
		for _, f := range files {
			if err := os.WriteFile(filepath.Join(public, f.Path), f.Data, 0o666); err != nil {
				b.Fatal(err)
			}
		}
		b.StopTimer()
		if err := os.RemoveAll(public); err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
	}
	perFile(b)
}
