package asset

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"plait/internal/lot"
	"plait/layouts"
)

// drawn is a draw of lots and what it gives.
type drawn struct {
	Words []string `json:"words"`
	N     int      `json:"n"`
	Of    int      `json:"of"`
	Draw  []int    `json:"draw"`
	Next  int      `json:"next"` // what the same lots give below 1000 afterwards
}

// hashed is a text and its SHA-256.
type hashed struct {
	Text string `json:"text"`
	Sum  string `json:"sum"`
}

// paperVectors lets the program draw and hash.
func paperVectors() (draws []drawn, sums []hashed) {
	for _, learner := range []string{"", "Ada Thorn", "Jörg Ωmega-Ruiz", "李 明", "😀"} {
		for _, size := range [][2]int{{0, 0}, {1, 1}, {1, 9}, {7, 7}, {12, 40}, {40, 40}, {3, 1000}} {
			d := drawn{Words: []string{"first-colours", learner, "class 7"}, N: size[0], Of: size[1]}
			lots := lot.New(lot.Seed(d.Words...))
			d.Draw, d.Next = lots.Draw(d.N, d.Of), lots.Below(1000)
			draws = append(draws, d)
		}
	}
	// Lengths round the edges of a block of 64 bytes, and text of more than one byte a
	// character.
	for n := range 130 {
		text := strings.Repeat("a", n)
		if n%3 == 0 {
			text = strings.Repeat("é", n)
		}
		sum := sha256.Sum256([]byte(text))
		sums = append(sums, hashed{text, hex.EncodeToString(sum[:])})
	}
	return draws, sums
}

const paperScript = `
import { lots, seed } from "./lot.js";
import { sha256 } from "./sha256.js";

export const run = (draws, texts) => ({
  draws: draws.map((d) => {
    const l = lots(seed(...d.words));
    return { ...d, draw: l.draw(d.n, d.of), next: l.below(1000) };
  }),
  sums: texts.map((t) => ({ text: t.text, sum: sha256(t.text) })),
});
`

// paperRun is a script whose last value is what the page's script makes of the vectors.
func paperRun(t *testing.T) []byte {
	t.Helper()
	own := fstest.MapFS{"scripts/vectors.js": {Data: []byte(paperScript)}}
	script, err := Script(Overlay(own, layouts.FS), nil, "scripts/vectors.js", "paper")
	if err != nil {
		t.Fatal(err)
	}
	draws, sums := paperVectors()
	for i := range draws {
		draws[i].Draw, draws[i].Next = nil, 0
	}
	for i := range sums {
		sums[i].Sum = ""
	}
	return fmt.Appendf(script, "\nJSON.stringify(paper.run(%s, %s))\n", marshal(t, draws), marshal(t, sums))
}

func marshal(t *testing.T, v any) []byte {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func expectSamePaper(t *testing.T, value []byte) {
	t.Helper()
	var got struct {
		Draws []drawn
		Sums  []hashed
	}
	if err := json.Unmarshal(value, &got); err != nil {
		t.Fatalf("%v in %s", err, value)
	}
	draws, sums := paperVectors()
	if len(got.Draws) != len(draws) || len(got.Sums) != len(sums) {
		t.Fatalf("%d draws and %d sums of %d and %d", len(got.Draws), len(got.Sums), len(draws), len(sums))
	}
	for i, want := range draws {
		if !reflect.DeepEqual(got.Draws[i], want) {
			t.Errorf("the page draws %+v, the program %+v", got.Draws[i], want)
		}
	}
	for i, want := range sums {
		if got.Sums[i] != want {
			t.Errorf("the page hashes %+v, the program %+v", got.Sums[i], want)
		}
	}
}

// The page of a paper draws and hashes as the program does.
func TestScriptDrawsAlike(t *testing.T) { expectSamePaper(t, inNode(t, paperRun(t))) }

func TestBrowserDrawsAlike(t *testing.T) { expectSamePaper(t, inBrowser(t, paperRun(t))) }
