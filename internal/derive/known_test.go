package derive

import (
	"reflect"
	"testing"
)

// sheetsOf derives a lesson with a head sheet.
func sheetsOf(t *testing.T, text string) *Derived {
	t.Helper()
	d, _, _ := withSheet(t, "", "![Where](plan.head.yaml)\n", text)
	return d
}

// What a process leaves of a head sheet is what the next would work out.
func TestKnownSheets(t *testing.T) {
	t.Cleanup(func() { LoadSheets(nil) })
	const text = "sections:\n  - {part: horseshoe, gives: [top, rest]}\n  - {part: centre, of: top}\n"
	list, fresh := sheetsOf(t, text).KnownSheets()
	if len(list) != 1 || !fresh || list[0].Text != text || len(list[0].Sections) != 3 {
		t.Fatalf("%d sheets, fresh %v: %+v", len(list), fresh, list)
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
