package shade

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// The first number of a code is its level nearly everywhere, and the separators
// . / - mean the same (web guides to the international colour chart); the rest is
// common practice, no source. The two grammars are those of invented ranges.
var (
	digits  = Grammar{Style: Digits, Separators: []string{".", "/", "-"}}
	letters = Grammar{Style: Letters, Tones: []string{"N", "R", "V", "RB"}, Clear: []string{"CL"}, Powder: []string{"PW"}}
)

func expectCode(t *testing.T, g Grammar, text string, level Level, tones ...string) {
	t.Helper()
	code, err := g.Parse(text)
	if err != nil {
		t.Errorf("%q: %v", text, err)
		return
	}
	if code.Level != level || !slices.Equal(code.Tones, tones) || code.Text != text {
		t.Errorf("%q reads level %d, tones %q; want level %d, tones %q", text, code.Level, code.Tones, level, tones)
	}
}

func expectNoCode(t *testing.T, g Grammar, text string, words ...string) {
	t.Helper()
	code, err := g.Parse(text)
	if err == nil {
		t.Errorf("%q reads level %d, tones %q; want an error", text, code.Level, code.Tones)
		return
	}
	for _, w := range words {
		if !strings.Contains(err.Error(), w) {
			t.Errorf("%q: error %q does not say %q", text, err, w)
		}
	}
}

func TestParseDigits(t *testing.T) {
	expectCode(t, digits, "6.34", 6, "3", "4")
	expectCode(t, digits, "6.3", 6, "3")
	expectCode(t, digits, "6/3", 6, "3")
	expectCode(t, digits, "6-3", 6, "3")
	expectCode(t, digits, "10.1", 10, "1")
	expectCode(t, digits, "6.03", 6, "0", "3") // a leading zero softens the tone
	expectCode(t, digits, "6.33", 6, "3", "3") // a doubled digit strengthens it
	expectCode(t, digits, "6", 6)
	expectCode(t, digits, "0.11", 0, "1", "1") // a mixer
	expectCode(t, digits, "13.1", 13, "1")     // well written; whether it exists is the range's to say

	expectNoCode(t, digits, "6,3", "decimal sign", "write 6.3")
	expectNoCode(t, digits, "6.", "after the level comes . or / or - and the tone digits")
	expectNoCode(t, digits, "6:3", "after the level comes")
	expectNoCode(t, digits, "6.3N", `has 'N' where this range has tone digits`)
	expectNoCode(t, digits, "6RV", "after the level comes")
	expectNoCode(t, digits, "06.3", "the level is written 6, not 06")
	expectNoCode(t, digits, "00.1", "the level is written 0, not 00")
	expectNoCode(t, digits, "634", "no level is as high as 634")
	expectNoCode(t, digits, "", "begins with no level")
	expectNoCode(t, digits, ".3", "begins with no level")
	expectNoCode(t, digits, "٦.3", "begins with no level")
	expectNoCode(t, Grammar{Style: Digits, Separators: []string{"/"}}, "6,3", "write 6/3")
	expectNoCode(t, Grammar{Style: Digits, Separators: []string{"/"}}, "6.3", "after the level comes /")
	expectCode(t, Grammar{Style: Digits, Separators: []string{","}}, "6,3", 6, "3")
}

func TestParseLetters(t *testing.T) {
	expectCode(t, letters, "6N", 6, "N")
	expectCode(t, letters, "6RV", 6, "R", "V")
	expectCode(t, letters, "6RB", 6, "RB") // one tone of two letters goes before its parts
	expectCode(t, letters, "10V", 10, "V")
	expectCode(t, letters, "6", 6)
	expectCode(t, letters, "0V", 0, "V") // a mixer
	expectCode(t, letters, "CL", 0)

	expectNoCode(t, letters, "6Z", `no tone "Z"`)
	expectNoCode(t, letters, "6n", `no tone "n"`)
	expectNoCode(t, letters, "6NZ", `no tone "Z"`)
	expectNoCode(t, letters, "6 N", `no tone " N"`)
	expectNoCode(t, letters, "N6", "begins with no level")
	expectNoCode(t, letters, "06N", "the level is written 6")
	expectNoCode(t, letters, "CLEAR", "begins with no level")
}

func TestBare(t *testing.T) {
	for text, want := range map[string]Level{
		"6N": 6, "10V": 10, "6.34": 6, "6/3": 6, "0.11": 0, "CL": 0, "": 0, "123": 0, "06N": 0,
	} {
		if code := Bare(text); code.Level != want || code.Text != text || code.Tones != nil {
			t.Errorf("Bare(%q) = %+v, want level %d", text, code, want)
		}
	}
}

func TestIsClear(t *testing.T) {
	for text, want := range map[string]bool{"CL": true, "PW": true, "6N": false, "6": false, "0V": false} {
		code, err := letters.Parse(text)
		if err != nil || code.IsClear() != want {
			t.Errorf("%q is clear: %v, %v; want %v", text, code.IsClear(), err, want)
		}
	}
}

func TestLooksLikeCode(t *testing.T) {
	for word, want := range map[string]bool{"6N": true, "6.34": true, "0.11": true, "CL": false, "": false, "6 N": false, "shade": false} {
		if LooksLikeCode(word) != want {
			t.Errorf("LooksLikeCode(%q): want %v", word, want)
		}
	}
}

// A code that reads prints back from its parts; one that does not read gives
// nothing.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"6.34", "6/3", "6-3", "10.1", "0.11", "6,3", "6", "6RV", "CL", "06N"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, g := range []Grammar{digits, letters} {
			code, err := g.Parse(text)
			if err != nil {
				if code.Text != "" || code.Level != 0 || code.Tones != nil {
					t.Fatalf("Parse(%q) gave %+v beside %v", text, code, err)
				}
				continue
			}
			if back := g.print(code); !slices.Contains(back, text) {
				t.Fatalf("Parse(%q) = %+v, which is written %q", text, code, back)
			}
		}
	})
}

// print returns all ways to write a code.
func (g Grammar) print(c Code) []string {
	if slices.Contains(g.Clear, c.Text) {
		return g.Clear
	}
	level, tones := fmt.Sprint(int(c.Level)), strings.Join(c.Tones, "")
	if g.Style == Letters || len(c.Tones) == 0 {
		return []string{level + tones}
	}
	var all []string
	for _, sep := range g.Separators {
		all = append(all, level+sep+tones)
	}
	return all
}

func ExampleGrammar_Parse() {
	numeric := Grammar{Style: Digits, Separators: []string{".", "/"}}
	code, _ := numeric.Parse("6.34")
	fmt.Println("level", code.Level, "tones", code.Tones)

	_, err := numeric.Parse("6,3")
	fmt.Println(err)
	// Output:
	// level 6 tones [3 4]
	// shade "6,3" has a comma, which is a decimal sign in some countries; write 6.3
}
