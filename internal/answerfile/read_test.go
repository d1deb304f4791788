package answerfile

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"reflect"
	"strings"
	"testing"
	"time"
	"unicode/utf8"
)

// whole is an answer file in the order of RFC 8785 and without its digest, so that the
// SHA-256 of these very bytes is the digest.
const whole = `{"answers":[{"figures":0,"given":"104 g","question":"brassy-gloss/weigh"},{"figures":2,"given":"1 0 2","question":"weighing/order"}],` +
	`"course":"harbour-row","edition":"2026 spring","learner":{"class":"Tuesday","name":"Ada Thorn"},"paper":"first-colours",` +
	`"practicals":[{"assessor":"M. Bell","date":"2026-05-12","outcome":"shown","practical":"brassy-gloss/weighing","shown":[0,1]}],` +
	`"saved":"2026-05-12T10:31:07Z","seed":"00c0ffee00c0ffee","started":"","text":"1c9e","version":1}`

// sealed puts the digest of a file's content into it.
func sealed(content string) string {
	sum := sha256.Sum256([]byte(content))
	return strings.Replace(content, `"edition"`, `"digest":"`+hex.EncodeToString(sum[:])+`","edition"`, 1)
}

// expectFault expects a fault at the last character of a text that stands in the file;
// no text for the file as a whole.
func expectFault(t *testing.T, data, at, what string) {
	t.Helper()
	line, column := 0, 0
	if i := strings.Index(data, at); at != "" && i < 0 {
		t.Fatalf("%q does not stand in %q", at, data)
	} else if at != "" {
		before := data[:i+len(at)]
		line = strings.Count(before, "\n") + 1
		column = utf8.RuneCountInString(before[strings.LastIndex(before, "\n")+1:])
	}
	file, err := Read("a.json", []byte(data))
	var fault *Fault
	if !errors.As(err, &fault) || file != nil {
		t.Errorf("%.80q: got %v, %v", data, file, err)
		return
	}
	if fault.Line != line || fault.Column != column || !strings.Contains(fault.What, what) || fault.Help == "" {
		t.Errorf("got %v, want %d:%d %s", fault, line, column, what)
	}
}

func TestRead(t *testing.T) {
	got, err := Read("ada.json", []byte(sealed(whole)))
	if err != nil {
		t.Fatal(err)
	}
	want := &File{
		Name: "ada.json", Learner: Learner{Name: "Ada Thorn", Class: "Tuesday"},
		Course: "harbour-row", Edition: "2026 spring", Paper: "first-colours", Seed: "00c0ffee00c0ffee", Text: "1c9e",
		Saved: time.Date(2026, 5, 12, 10, 31, 7, 0, time.UTC),
		Answers: []Answer{
			{Question: "brassy-gloss/weigh", Given: "104 g"},
			{Question: "weighing/order", Figures: 2, Given: "1 0 2"},
		},
		SignOff: []SignOff{{Practical: "brassy-gloss/weighing", Assessor: "M. Bell", Date: "2026-05-12", Outcome: Shown, Shown: []int{0, 1}}},
		Digest:  got.Digest,
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
}

// However a file is laid out, its digest is that of its content.
func TestDigestIsOfTheContent(t *testing.T) {
	loose := "\xef\xbb\xbf" + strings.NewReplacer(`,"`, ",\r\n  \"", `":`, `" : `, "Ada", `\u0041da`).Replace(sealed(whole))
	got, err := Read("a.json", []byte(loose))
	if err != nil || got.Damaged {
		t.Fatalf("%+v, %v", got, err)
	}
	for _, change := range [][2]string{{"104 g", "104"}, {"Ada", "ada"}, {"[0,1]", "[1,0]"}, {`"figures":0`, `"figures":1`}} {
		got, err := Read("a.json", []byte(strings.Replace(sealed(whole), change[0], change[1], 1)))
		if err != nil || !got.Damaged {
			t.Errorf("%s for %s goes unnoticed: %v", change[1], change[0], err)
		}
	}
}

// The strings of RFC 8785, section 3.2.2.2: the shortest escapes and nothing else escaped.
func TestCanonicalStrings(t *testing.T) {
	v, err := parse([]byte(`"\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/\u2028<\u007f"`))
	if err != nil {
		t.Fatal(err)
	}
	want := `"€$\u000f\nA'B\"\\\\\"/` + "\u2028<\u007f" + `"`
	if got := string(canonical(nil, v)); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestFaults(t *testing.T) {
	change := func(from, to string) string { return sealed(strings.Replace(whole, from, to, 1)) }
	expectFault(t, " ", " ", "not whole JSON")
	expectFault(t, "[]", "[", "a list stands where a map belongs")
	expectFault(t, "{\n\"answers\":[}", ":[", "not whole JSON")
	expectFault(t, sealed(whole)+"x", sealed(whole), "behind the end")
	expectFault(t, `{"a":[[[[[[[`, `{"a":[[[[[[`, "too deep")
	expectFault(t, "{\"é\":\"\xff\"}", "é\":\"\xff", "UTF-8")
	expectFault(t, `{"paper":"a","paper":"b"}`, `,"paper"`, "stands there twice")
	expectFault(t, `{"Paper":"a"}`, `"a"`, "not part of an answer file")
	expectFault(t, change(`"version":1`, `"version":2`), "{", "version 2")
	expectFault(t, change(`"version":1`, `"version":1.0`), "1.0", "whole number")
	expectFault(t, change(`"name":"Ada Thorn"`, `"name":""`), `"learner":{`, "no name")
	expectFault(t, change(`Ada`, `A\u202eda`), `Thorn"`, "cannot be seen")
	expectFault(t, change(`"2026-05-12"`, `"2026-02-30"`), `"practicals":[{`, "no date")
	expectFault(t, change(`"outcome":"shown"`, `"outcome":"yes"`), `"practicals":[{`, "not known")
	expectFault(t, change(`"M. Bell"`, `""`), `"practicals":[{`, "by nobody")
	expectFault(t, change(`weighing/order`, `brassy-gloss/weigh`), "{", "answered twice")
	expectFault(t, change(`"given":"104 g"`, `"given":104`), "104", "want a text")
	expectFault(t, change(`T10:31:07Z`, ` ten`), `12 ten"`, "want a time")
}

func TestBounds(t *testing.T) {
	long := strings.Repeat("x", maxText)
	if _, err := Read("a.json", []byte(strings.Replace(whole, `"edition"`, `"digest":"","edition"`, 1))); err != nil {
		t.Error(err)
	}
	if _, err := Read("a.json", []byte(sealed(strings.Replace(whole, "104 g", long, 1)))); err != nil {
		t.Error(err)
	}
	expectFault(t, sealed(strings.Replace(whole, "104 g", long+"x", 1)), `xx"`, "more than 500 bytes")
	if _, err := Read("a.json", append([]byte(sealed(whole)), strings.Repeat(" ", MaxBytes-len(sealed(whole)))...)); err != nil {
		t.Error(err)
	}
	expectFault(t, sealed(whole)+strings.Repeat(" ", MaxBytes), "", "more than")
}

func TestLearnersOfOneName(t *testing.T) {
	ada := Learner{Name: "Ada Thörn", Class: "Tuesday"}
	if ada.Key() != (Learner{Name: "  ada  tho\u0308rn ", Class: "TUESDAY"}).Key() {
		t.Error("one learner counts as two")
	}
	if ada.Key() == (Learner{Name: "Ada Thörn", Class: "Monday"}).Key() {
		t.Error("two classes count as one")
	}
}

// Whatever the bytes, the reader answers: with a file whose right digest makes it whole,
// or with a fault that stands in the file.
func FuzzRead(f *testing.F) {
	f.Add([]byte(sealed(whole)))
	f.Add([]byte(whole))
	f.Add([]byte(`{"answers":[],"learner":{"name":"é`))
	f.Fuzz(func(t *testing.T, data []byte) {
		file, err := Read("x.json", data)
		if err != nil {
			var fault *Fault
			if !errors.As(err, &fault) || fault.Line > strings.Count(string(data), "\n")+1 {
				t.Fatalf("fault %v", err)
			}
			return
		}
		if len(file.Answers) > maxAnswers || len(file.Digest) != sha256.Size*2 {
			t.Fatalf("%+v", file)
		}
		if !file.Damaged && !strings.Contains(string(data), file.Digest[:8]) && !strings.Contains(string(data), `\`) {
			t.Fatal("a digest that is not in the file holds")
		}
	})
}

func BenchmarkRead(b *testing.B) {
	answers := strings.Repeat(`{"figures":0,"given":"104 g","question":"brassy-gloss/Q"},`, 38)
	for i := range 38 {
		answers = strings.Replace(answers, "Q", "q"+string(rune('a'+i%26))+string(rune('a'+i/26)), 1)
	}
	data := []byte(sealed(strings.Replace(whole, `{"figures":0`, answers+`{"figures":0`, 1)))
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if file, err := Read("a.json", data); err != nil || file.Damaged {
			b.Fatal(err)
		}
	}
}
