package head

import (
	"errors"
	"testing"

	"pgregory.net/rapid"
)

func expectPlace(t *testing.T, text string, want Place) {
	t.Helper()
	got, err := ParsePlace(text)
	if err != nil || got != want {
		t.Errorf("%q: got %+v, %v", text, got, err)
	}
	if again, err := ParsePlace(got.String()); err != nil || again != got {
		t.Errorf("%q: written as %q it reads as %+v, %v", text, got.String(), again, err)
	}
}

func TestParsePlace(t *testing.T) {
	expectPlace(t, "crown", Place{Landmark: "crown"})
	expectPlace(t, "  left   ear top ", Place{Landmark: "left ear top"})
	expectPlace(t, "40 % front hairline to nape", Place{Share: 0.4})
	expectPlace(t, "3 cm behind front hairline", Place{Landmark: "front hairline", Way: Behind, Distance: 3})
	expectPlace(t, "1.5 cm in front of crown", Place{Landmark: "crown", Way: Before, Distance: 1.5})
	expectPlace(t, "4 cm below crown", Place{Landmark: "crown", Way: Below, Distance: 4})
	expectPlace(t, "2 cm above left ear top", Place{Landmark: "left ear top", Way: Above, Distance: 2})
}

func expectReason(t *testing.T, h *Head, text string, want Reason) {
	t.Helper()
	p, err := ParsePlace(text)
	if err == nil {
		_, err = h.Find(p)
	}
	var bad *PlaceError
	if !errors.As(err, &bad) || bad.Reason != want {
		t.Errorf("%q: got %v, want %q", text, err, want)
		return
	}
	if want == UnknownLandmark && len(bad.Known) != len(h.Landmarks()) {
		t.Errorf("%q: the error does not say which landmarks there are", text)
	}
}

func TestPlaceErrors(t *testing.T) {
	h := Adult()
	for text, want := range map[string]Reason{
		"":                                Unreadable,
		"4":                               Unreadable,
		"4 cm":                            Unreadable,
		"4 inches below crown":            Unreadable,
		"-4 cm below crown":               Unreadable,
		"40 % nape to front hairline":     Unreadable,
		"4 cm beside crown":               Unreadable,
		"crwon":                           UnknownLandmark,
		"ear top":                         UnknownLandmark,
		"4 cm below chin":                 UnknownLandmark,
		"2 cm behind left ear top":        NoWay,
		"2 cm above left recession":       NoWay,
		"1 cm in front of front hairline": OffScalp,
		"1 cm below nape":                 OffScalp,
		"40 cm behind crown":              OffScalp,
		"-1 % front hairline to nape":     OffScalp,
		"101 % front hairline to nape":    OffScalp,
		"NaN % front hairline to nape":    OffScalp,
		"2 cm below left ear top":         OffScalp,
	} {
		expectReason(t, h, text, want)
	}
}

func TestFind(t *testing.T) {
	h := Adult()
	front, nape := h.HairArc()
	arc := func(text string) float64 {
		t.Helper()
		p, err := ParsePlace(text)
		if err != nil {
			t.Fatal(err)
		}
		at, err := h.Find(p)
		if err != nil {
			t.Fatal(err)
		}
		return h.Midline().ArcAt(at.P)
	}
	expectNear(t, "share", arc("40 % front hairline to nape"), front+0.4*(nape-front), 1e-9)
	expectNear(t, "behind", arc("3 cm behind front hairline"), front+3, 1e-6)
	expectNear(t, "in front of", arc("3 cm in front of crown"), arc("crown")-3, 1e-6)
	expectNear(t, "below, behind the apex", arc("4 cm below crown"), arc("crown")+4, 1e-6)
	expectNear(t, "above, behind the apex", arc("4 cm above nape"), nape-4, 1e-6)
	expectNear(t, "above, in front of the apex", arc("4 cm above front hairline"), front+4, 1e-6)
	for _, side := range []string{"left", "right"} {
		ear, _ := h.Landmark(side + " ear top")
		p, err := h.Find(Place{Landmark: side + " ear top", Way: Above, Distance: 2})
		if err != nil {
			t.Fatal(err)
		}
		expectNear(t, side+" chord", p.P.Dist(ear.P), 2, 0.02)
		if p.P.Z <= ear.P.Z {
			t.Errorf("above the %s ear leads down", side)
		}
	}
}

// Whatever an author writes, the answer is a point with hair or an error.
func TestFindProperty(t *testing.T) {
	h := Adult()
	rapid.Check(t, func(t *rapid.T) {
		p, err := ParsePlace(rapid.StringMatching(`-?[0-9]{1,2}(\.[0-9])? (cm|%) (behind|above|below|in front of)? ?(crown|nape|apex|left ear top|front hairline to nape)`).Draw(t, "text"))
		if err != nil {
			return
		}
		if at, err := h.Find(p); err == nil && Hair(h, at.U) < -1e-4 {
			t.Fatalf("%s lies on bare skin", p)
		}
	})
}
