package derive

import (
	"bytes"
	"encoding/gob"
	"encoding/json"
	"reflect"
	"testing"
)

// sheetsOf derives a lesson with a head sheet.
func sheetsOf(t *testing.T, text string) *Derived {
	t.Helper()
	d, _, _ := withSheet(t, "", "![Where](plan.head.yaml)\n", text)
	return d
}

// exported is all that others see of values, each figure exact.
func exported(t *testing.T, of any) string {
	t.Helper()
	text, err := json.Marshal(of)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// What a process leaves of a head sheet is what the next would work out.
func TestKnownSheets(t *testing.T) {
	t.Cleanup(func() { LoadSheets(nil) })
	const text = "sections:\n  - {part: horseshoe, gives: [top, rest]}\n  - {part: centre, of: top}\n"
	list, fresh := sheetsOf(t, text).KnownSheets()
	if len(list) != 1 || !fresh || list[0].Text != text || len(list[0].Sections) != 3 {
		t.Fatalf("%d sheets, fresh %v: %+v", len(list), fresh, list)
	}
	// It is written and read on the way.
	var written bytes.Buffer
	var taken []KnownSheet
	if err := gob.NewEncoder(&written).Encode(list); err != nil {
		t.Fatal(err)
	}
	if err := gob.NewDecoder(&written).Decode(&taken); err != nil {
		t.Fatal(err)
	}
	if got, want := exported(t, taken), exported(t, list); got != want {
		t.Errorf("what was written is\n%s\nwant\n%s", got, want)
	}
	LoadSheets(list)
	f, ok := recalled(text)
	if want := list[0].facts(); !ok || !reflect.DeepEqual(f, want) {
		t.Errorf("recalled %+v, want %+v", f, want)
	}
	if _, fresh := sheetsOf(t, text).KnownSheets(); fresh {
		t.Error("what was loaded is new")
	}
	if _, ok := recalled(text + "\n"); ok {
		t.Error("another text is known")
	}
	if list, _ := sheetsOf(t, "sections:\n  - {part: nowhere}\n").KnownSheets(); len(list) > 0 {
		t.Error("a sheet with a fault is known")
	}
}
