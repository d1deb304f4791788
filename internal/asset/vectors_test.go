package asset

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"os/exec"
	"reflect"
	"testing"
	"testing/fstest"

	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/layouts"
)

var update = flag.Bool("update", false, "write testdata/weighing.json anew")

const vectorFile = "testdata/weighing.json"

// vector is one bowl and what becomes of it when it is weighed again. Weights are
// exact, in grams.
type vector struct {
	Step    string   `json:"step"`
	Kinds   []string `json:"kinds"`
	Weights []string `json:"weights"`
	Weighed []string `json:"weighed"` // the bowl itself, on the scale
	Cases   []again  `json:"cases"`
}

// again is a weight that was asked for. Way is colour, left (of a part) or over
// (poured of a part).
type again struct {
	Way     string   `json:"way"`
	Part    int      `json:"part"`
	Weight  string   `json:"weight"`
	Weights []string `json:"weights"` // of the new bowl, exact
	Weighed []string `json:"weighed"`
	Add     []string `json:"add,omitempty"`
}

// The bowls of the vectors: parts, a ratio, an additive, developers.
func vectorBowls(t *testing.T) []mix.Bowl {
	n, of := exact.Int, exact.Of
	formulas := []struct {
		step      exact.Number
		parts     []int64
		additive  exact.Number
		developer exact.Number // per colour
		two       bool         // two developers, 3 to 1
		colour    exact.Number
	}{
		{step: of(1, 10), parts: []int64{2, 1}, developer: n(2), colour: n(30)},
		{step: of(1, 10), parts: []int64{1}, developer: n(2), colour: of(70, 3)}, // 70 g at 1:2
		{step: n(1), parts: []int64{1}, developer: of(3, 2), colour: of(74, 5)},  // 37 g at 1:1.5
		{step: n(1), parts: []int64{1, 1, 1}, colour: n(100)},
		{step: of(1, 10), parts: []int64{3, 2, 1, 1}, additive: of(5, 100), developer: of(3, 2), colour: n(45)},
		{step: of(1, 2), parts: []int64{5, 3, 7}, developer: of(5, 4), two: true, colour: of(333, 10)},
		{step: n(1), parts: []int64{1}, developer: n(2), colour: of(70, 3)}, // 47 g is just right although 46.67 were meant
		{step: of(1, 100), parts: []int64{1, 6}, additive: of(1, 30), developer: of(12, 5), colour: of(1, 3)},
	}
	var bowls []mix.Bowl
	for _, f := range formulas {
		formula := mix.Formula{Size: measure.Grams(f.colour)}
		for _, p := range f.parts {
			formula.Shades = append(formula.Shades, mix.Shade{Code: shade.Code{Text: "7N", Level: 7}, Share: n(p)})
		}
		if !f.additive.IsZero() {
			formula.Additives = []mix.Additive{{Name: "bond cream", PerColour: f.additive}}
		}
		if !f.developer.IsZero() {
			formula.Ratio = measure.Ratio{Colour: exact.One, Developer: f.developer}
			formula.Developers = []mix.Developer{{Strength: peroxide.Volumes(n(20)), Share: n(3)}}
		}
		if f.two {
			formula.Developers = append(formula.Developers, mix.Developer{Strength: peroxide.Volumes(n(10)), Share: n(1)})
		}
		bowl, err := mix.Compute(formula, measure.Grams(f.step))
		if err != nil {
			t.Fatal(err)
		}
		bowls = append(bowls, bowl)
	}
	return bowls
}

// vectors lets the program weigh every bowl again in every way.
func vectors(t *testing.T) []vector {
	amounts := []exact.Number{exact.Int(14), exact.Int(47), exact.Int(52), exact.Of(225, 10), exact.Of(1, 10), exact.Of(999, 100)}
	kinds := map[mix.Role]string{mix.ColourRole: "colour", mix.AdditiveRole: "extra", mix.DeveloperRole: "developer"}
	var out []vector
	for _, bowl := range vectorBowls(t) {
		v := vector{Step: bowl.Step.Grams().String()}
		for _, p := range bowl.Parts {
			v.Kinds = append(v.Kinds, kinds[p.Role])
		}
		v.Weights, v.Weighed = weightsOf(bowl)
		for _, amount := range amounts {
			mass := measure.Grams(amount)
			v.Cases = append(v.Cases, caseOf("colour", 0, amount, bowl.ToColour(mass), nil))
			for i := range bowl.Parts {
				poured := make([]measure.Mass, len(bowl.Parts))
				poured[i] = mass
				rescue := bowl.Rescue(poured)
				v.Cases = append(v.Cases,
					caseOf("left", i, amount, bowl.ToPart(i, mass), nil),
					caseOf("over", i, amount, rescue.Bowl, rescue.Add))
			}
		}
		out = append(out, v)
	}
	return out
}

func caseOf(way string, part int, amount exact.Number, bowl mix.Bowl, add []measure.Mass) again {
	c := again{Way: way, Part: part, Weight: amount.String()}
	c.Weights, c.Weighed = weightsOf(bowl)
	for _, m := range add {
		c.Add = append(c.Add, m.Grams().String())
	}
	return c
}

func weightsOf(b mix.Bowl) (weights, weighed []string) {
	for _, p := range b.Parts {
		weights = append(weights, p.Exact.Grams().String())
		weighed = append(weighed, p.Weighed.Grams().String())
	}
	return weights, weighed
}

func readVectors(t *testing.T) (data []byte, list []vector) {
	t.Helper()
	data, err := os.ReadFile(vectorFile)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &list); err != nil {
		t.Fatal(err)
	}
	return data, list
}

// The vectors are what the program computes. With -update they are written anew.
func TestVectorsAreWhatWeCompute(t *testing.T) {
	want := vectors(t)
	if *update {
		data, err := json.MarshalIndent(want, "", " ")
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(vectorFile, append(data, '\n'), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if _, got := readVectors(t); !reflect.DeepEqual(got, want) {
		t.Errorf("%s is not what the program computes; look at the difference, then go test -update", vectorFile)
	}
}

// vectorScript computes the vectors with the script of the page and returns what
// differs. It is what the browser runs, wrapped by the same bundler.
const vectorScript = `
import { cmp, parse } from "./exact.js";
import { rescue, split, toColour, toPart } from "./mix.js";

const numbers = (list) => list.map(parse);
const same = (a, b) => a.length === b.length && a.every((x, i) => cmp(x, parse(b[i])) === 0);

export function differences(vectors) {
  const out = [];
  let cases = 0;
  vectors.forEach((v, n) => {
    const bowl = { kinds: v.kinds, step: parse(v.step), weights: numbers(v.weights) };
    bowl.weighed = split(bowl.weights, bowl.step);
    if (!same(bowl.weighed, v.weighed)) out.push("bowl " + n);
    for (const c of v.cases) {
      cases++;
      const weight = parse(c.weight);
      const poured = bowl.weights.map((w, i) => (i === c.part ? weight : parse("0")));
      const found = { colour: () => ({ bowl: toColour(bowl, weight) }), left: () => ({ bowl: toPart(bowl, c.part, weight) }), over: () => rescue(bowl, poured) }[c.way]();
      if (!same(found.bowl.weights, c.weights) || !same(found.bowl.weighed, c.weighed) || (c.add && !same(found.add, c.add)))
        out.push("bowl " + n + " " + JSON.stringify(c));
    }
  });
  return { cases, out };
}
`

// vectorRun is the script with the vectors as one classic script whose last value
// is the report as JSON.
func vectorRun(t *testing.T) []byte {
	t.Helper()
	own := fstest.MapFS{"scripts/vectors.js": {Data: []byte(vectorScript)}}
	script, err := Script(Overlay(own, layouts.FS), nil, "scripts/vectors.js", "weighing")
	if err != nil {
		t.Fatal(err)
	}
	data, _ := readVectors(t)
	script = append(script, "\nJSON.stringify(weighing.differences("...)
	script = append(script, bytes.TrimSpace(data)...)
	return append(script, "))\n"...)
}

func expectNoDifference(t *testing.T, report []byte) {
	t.Helper()
	var got struct {
		Cases int
		Out   []string
	}
	if err := json.Unmarshal(report, &got); err != nil {
		t.Fatalf("%v in %s", err, report)
	}
	_, list := readVectors(t)
	want := 0
	for _, v := range list {
		want += len(v.Cases)
	}
	if got.Cases != want {
		t.Errorf("the script ran %d cases of %d", got.Cases, want)
	}
	for _, d := range got.Out {
		t.Errorf("the script weighs otherwise: %s", d)
	}
}

// The script of the page weighs as the program does. The browser tests run the
// same vectors in a page.
func TestScriptWeighsAlike(t *testing.T) {
	expectNoDifference(t, inNode(t, vectorRun(t)))
}

// inNode returns the last value of a script.
func inNode(t *testing.T, script []byte) []byte {
	t.Helper()
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("no node")
	}
	run := exec.Command(node, "-p", "-")
	run.Stdin = bytes.NewReader(script)
	value, err := run.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, value)
	}
	return value
}
