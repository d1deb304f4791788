package shade

import (
	"testing"

	"plait/internal/exact"
)

// Entry 9a of Annex III gives toluene-2,5-diamine as 2.0 % of the base or 3.6 % of the
// sulphate. The two agree by their molar masses, 122.17 and 220.24 g/mol.
func TestLegalLimitOfBaseAndSalt(t *testing.T) {
	base, ok := LegalLimit("toluene-2,5-diamine")
	salt, known := LegalLimit("Toluene-2,5-diamine sulphate")
	if !ok || !known {
		t.Fatal("a limit is not known")
	}
	want := base.Mul(exact.Of(22024, 12217)).Round(exact.Of(1, 1000))
	if !salt.Equal(want) {
		t.Errorf("%s of the base and %s of the sulphate, want %s", base, salt, want)
	}
	if _, ok := LegalLimit("water"); ok {
		t.Error("there is a limit for water")
	}
}
