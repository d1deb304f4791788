package law

import (
	"testing"

	"plait/internal/exact"
)

func expectOf(t *testing.T, code, want string) {
	t.Helper()
	l, ok := Of(code)
	if !ok {
		l.Code = "none"
	}
	if l.Code != want {
		t.Errorf("the law of %q is %q, want %q", code, l.Code, want)
	}
}

// The members of the Union and of the European Economic Area are thirty; with the Union
// as a whole and the United Kingdom there are 32 codes.
func TestOf(t *testing.T) {
	expectOf(t, "GB", "GB")
	expectOf(t, "UK", "GB")
	expectOf(t, "gb", "GB")
	expectOf(t, "EU", "EU")
	expectOf(t, "DE", "DE")
	expectOf(t, "EL", "GR")
	expectOf(t, "US", "none")
	expectOf(t, "", "none")
	if n := len(Codes()); n != 32 {
		t.Errorf("%d codes, want 32", n)
	}
	for _, code := range Codes() {
		expectOf(t, code, code)
		if l, _ := Of(code); l.Place == "" || l.Act == "" || l.State == "" {
			t.Errorf("%s has no place, text or age of the text", code)
		}
	}
}

// Regulation (EC) No 1223/2009, Annex III, entries 4, 8, 8a, 9, 9a, 12(a) and 22; the
// United Kingdom kept the same annex.
func TestLimits(t *testing.T) {
	gb, _ := Of("GB")
	fr, _ := Of("FR")
	for _, l := range []Law{gb, fr, Strictest()} {
		for substance, want := range map[string]string{
			"ammonia": "6", "N-substituted p-phenylenediamines": "3", "p-phenylenediamine": "2", "methylphenylenediamines": "5",
			"toluene-2,5-diamine": "2", "Toluene-2,5-diamine sulphate": "3.6", "resorcinol": "1.25",
		} {
			limit, ok := l.Limit(substance)
			if got := limit.Share.Mul(exact.Int(100)).Decimal(2); !ok || got != want || limit.Entry == "" {
				t.Errorf("%s: %s in %s is %s %% (%s), want %s", l.Act, substance, l.Code, got, limit.Entry, want)
			}
		}
		if l.Peroxide.String() != "12 %" || l.Peroxide.VolumesString() != "40 vol" {
			t.Errorf("%s stops peroxide at %s", l.Act, l.Peroxide)
		}
		if _, ok := l.Limit("water"); ok {
			t.Error("there is a limit for water")
		}
	}
}

// Entry 9a gives toluene-2,5-diamine as 2.0 % of the base or 3.6 % of the sulphate. The
// two agree by their molar masses, 122.17 and 220.24 g/mol.
func TestLimitOfBaseAndSalt(t *testing.T) {
	base, _ := Strictest().Limit("toluene-2,5-diamine")
	salt, _ := Strictest().Limit("toluene-2,5-diamine sulphate")
	if want := base.Share.Mul(exact.Of(22024, 12217)).Round(exact.Of(1, 1000)); !salt.Share.Equal(want) {
		t.Errorf("%s of the base and %s of the sulphate, want %s", base.Share, salt.Share, want)
	}
}
