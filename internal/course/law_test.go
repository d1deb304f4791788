package course

import (
	"strings"
	"testing"
	"testing/fstest"
)

// expectLaw reads settings with a law and expects the place whose law holds, or the
// message and the way out.
func expectLaw(t *testing.T, line, want string) {
	t.Helper()
	s, found := ReadSettings(fstest.MapFS{SettingsFile: {Data: []byte("title: A\nlanguage: en-GB\n" + line + "modules: []\n")}})
	got := s.Limits().Place
	for _, d := range found {
		got = d.Message + "; " + d.Help
	}
	if got != want && !(strings.HasSuffix(want, "…") && strings.HasPrefix(got, strings.TrimSuffix(want, "…"))) {
		t.Errorf("%q: got %q, want %q", line, got, want)
	}
}

func TestLaw(t *testing.T) {
	expectLaw(t, "law: GB\n", "the United Kingdom")
	expectLaw(t, "law: uk\n", "the United Kingdom")
	expectLaw(t, "law: DE\n", "Germany")
	expectLaw(t, "law: EU\n", "the European Union")
	expectLaw(t, "", "") // the strictest reading
	expectLaw(t, "law: US\n", `plait knows no limits of the law in "US"; known are: EU, AT, BE, BG, CY,…`)
}
