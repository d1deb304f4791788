package asset

import (
	"bytes"
	"testing"
	"testing/fstest"
)

// A bundle is used again as long as all that it was made of holds the same, and no longer.
func TestBundlesAreKept(t *testing.T) {
	layouts := fstest.MapFS{
		"scripts/a.js": {Data: []byte(`import {b} from "./b.js"; console.log(b)`)},
		"scripts/b.js": {Data: []byte(`export const b = "one"`)},
	}
	kept := &Bundles{}
	expect := func(when string, kept *Bundles, want string) {
		t.Helper()
		got, err := Script(layouts, kept, "scripts/a.js", "")
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Contains(got, []byte(want)) {
			t.Errorf("%s the script is %s", when, got)
		}
	}
	expect("at first", kept, "one")
	list, fresh := kept.List()
	if len(list) != 1 || len(list[0].From) != 2 || !fresh {
		t.Fatalf("kept %+v, fresh %v", list, fresh)
	}
	list[0].Data = []byte("kept") // to tell it from one that is made
	another := &Bundles{}
	another.Load(list)
	expect("loaded", another, "kept")
	if _, err := Script(layouts, another, "scripts/b.js", "other"); err != nil {
		t.Fatal(err)
	}
	expect("beside another", another, "kept")
	layouts["scripts/b.js"] = &fstest.MapFile{Data: []byte(`export const b = "two"`)}
	expect("after a change of what it imports", another, "two")
	layouts["scripts/a.js"] = &fstest.MapFile{Data: []byte(`import {b} from "./c.js"; console.log(b)`)}
	layouts["scripts/c.js"] = &fstest.MapFile{Data: []byte(`export const b = "three"`)}
	expect("with another import", another, "three")
	delete(layouts, "scripts/c.js")
	if _, err := Script(layouts, another, "scripts/a.js", ""); err == nil {
		t.Error("a script is made of a file that is gone")
	}
	expectFresh(t, another, true)
	another = &Bundles{}
	another.Load(list)
	expectFresh(t, another, false)
}

func expectFresh(t *testing.T, b *Bundles, want bool) {
	t.Helper()
	if _, fresh := b.List(); fresh != want {
		t.Errorf("fresh is %v, want %v", fresh, want)
	}
}
