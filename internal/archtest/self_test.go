package archtest

import (
	"go/parser"
	"go/token"
	"testing"
)

// The checks of this package are only worth something when they can fail, so
// their judgements are tried on samples.

func TestReachesMachine(t *testing.T) {
	for importPath, want := range map[string]bool{
		"os":            true,
		"os/exec":       true,
		"net":           true,
		"net/http":      true,
		"io/ioutil":     true,
		"path/filepath": true,
		"net/url":       false,
		"io/fs":         false,
		"path":          false,
		"time":          false,
		"osmosis":       false,
	} {
		if got := reachesMachine(importPath); got != want {
			t.Errorf("reachesMachine(%q) = %v, want %v", importPath, got, want)
		}
	}
}

func TestClockReads(t *testing.T) {
	for _, c := range []struct {
		name string
		code string
		want int
	}{
		{"reads", `package p; import "time"; var start = time.Now()`, 1},
		{"waits", `package p; import "time"; func f() { time.Sleep(1); <-time.After(1) }`, 2},
		{"passes the function on", `package p; import "time"; var now = time.Now`, 1},
		{"under another name", `package p; import clock "time"; var start = clock.Now()`, 1},
		{"durations only", `package p; import "time"; const limit = 3 * time.Minute`, 0},
		{"another Now", `package p; import "plait/time/zone"; var a = zone.Now()`, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			fset := token.NewFileSet()
			tree, err := parser.ParseFile(fset, "sample.go", c.code, parser.ParseComments)
			if err != nil {
				t.Fatal(err)
			}
			if got := clockReads(goFile{name: "sample.go", fset: fset, tree: tree}); len(got) != c.want {
				t.Errorf("clockReads found %v, want %d places", got, c.want)
			}
		})
	}
}

func TestDocumented(t *testing.T) {
	for code, want := range map[string]bool{
		"// Package p holds one idea.\npackage p":    true,
		"// Command p does one thing.\npackage main": true,
		"// This is p.\npackage p":                   false,
		"package p":                                  false,
		"package main":                               false,
	} {
		fset := token.NewFileSet()
		tree, err := parser.ParseFile(fset, "sample.go", code, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		pkg := &goPackage{files: []goFile{{name: "sample.go", fset: fset, tree: tree}}}
		if got := documented(pkg); got != want {
			t.Errorf("documented(%q) = %v, want %v", code, got, want)
		}
	}
}

func TestBareProducts(t *testing.T) {
	for code, want := range map[string]int{
		"var a = x * y":                         1,
		"var a = x*y + z":                       1,
		"var a = (x * y) * z":                   2,
		"func f() { x *= y }":                   1,
		"var a = f(x * y)":                      1,
		"var a = float64(x*y) + z":              0,
		"var a = float64(x*(y*z))":              0,
		"var a = x * y / z":                     0,
		"const a = 2 * 3":                       0,
		"const a = 1 - 2*b":                     0,
		"var a = float64(x + y*z)":              1,
		"func f() { a := int(2*n) + 1; _ = a }": 0,
		"func f(p *int) { a := *p; b(a) }":      0,
	} {
		fset := token.NewFileSet()
		tree, err := parser.ParseFile(fset, "sample.go", "package p; "+code, 0)
		if err != nil {
			t.Fatal(err)
		}
		if got := bareProducts(goFile{name: "sample.go", fset: fset, tree: tree}); len(got) != want {
			t.Errorf("%s: found %v, want %d places", code, got, want)
		}
	}
}
