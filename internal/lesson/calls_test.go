package lesson

import (
	"fmt"
	"testing"

	"plait/internal/formula"
	"plait/internal/shade"
	"plait/internal/source"
)

// expectCalls checks what a lesson with one bowl calls for.
func expectCalls(t *testing.T, kind shade.Kind, none bool, uses []source.Text, want string) {
	t.Helper()
	block := &formula.Block{Kind: source.Stated[shade.Kind]{Value: kind}, Developer: formula.Developer{None: none}}
	l := &Lesson{Uses: uses, Formulas: []*Formula{{Block: block}}}
	if got := fmt.Sprint(l.CallsFor()); got != want {
		t.Errorf("%s calls for %s, want %s", kind, got, want)
	}
}

func TestCallsFor(t *testing.T) {
	expectCalls(t, shade.Demi, false, nil, "[colour]")
	expectCalls(t, shade.Demi, true, nil, "[]")
	expectCalls(t, shade.Direct, true, nil, "[]")
	expectCalls(t, shade.Lightener, false, nil, "[colour lightener]")
	expectCalls(t, shade.Direct, true, []source.Text{{Value: "heat"}, {Value: "blades"}}, "[heat blades]")
}
