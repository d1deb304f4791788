package asset

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"plait/internal/answer"
	"plait/internal/exact"
	"plait/layouts"
)

// judged is one answer and how the program judges it: right, wrong or unread.
type judged struct {
	Key struct {
		Unit  answer.Unit `json:"unit"`
		Value string      `json:"value"`
		Near  string      `json:"near"`
	} `json:"key"`
	Text string `json:"text"`
	Want string `json:"want"`
}

// answersToJudge spells truths and their neighbours outside the tolerance in every
// accepted way, and adds texts that nobody can read.
func answersToJudge() []judged {
	var out []judged
	add := func(u answer.Unit, value, near exact.Number, texts ...string) {
		for _, text := range texts {
			j := judged{Text: text, Want: "unread"}
			j.Key.Unit, j.Key.Value, j.Key.Near = u, value.String(), near.String()
			key := answer.Key{Unit: u, Value: answer.Value{Number: value}, Near: near}
			if right, err := key.Accepts(text); err == nil {
				j.Want = map[bool]string{true: "right", false: "wrong"}[right]
			}
			out = append(out, j)
		}
	}
	of := exact.Of
	for _, n := range []exact.Number{of(135, 2), of(70, 3), of(6, 5), exact.Int(104), of(1, 10), exact.Int(999_999_999)} {
		for _, off := range []exact.Number{exact.Zero, of(1, 10), of(11, 100), of(-11, 100), of(1, 1000)} {
			text := n.Add(off).Decimal(3)
			add(answer.Gram, n, of(1, 10), text, text+" g", text+"g", text+" Grams", "= "+text, n.Add(off).String(), text+" kg", text+" %", text+"\u00a0g", "−"+text)
		}
	}
	add(answer.Gram, of(135, 2), of(1, 10), "67,5", "67 1/2 g", "67½", "135/2", "135 / 2 g", "0.0675 kg", "67.5.1", "1,000.5", "67.5 g g", "", " ", "g", "1/0", "67 1/0", "0x43", "6 7.5", "67.5 gr", "67.5 constructor", "Ｋ", "67.5000001")
	add(answer.Ratio, of(3, 2), of(1, 200), "1:1.5", "1 : 1,5", "1 to 1.5", "2:3", "1:1½", "1 TO 1 1/2", "1:1.504", "1:1.506", "1.5:1", "0:3", "1:", "1-1.5", "1:2")
	add(answer.Moment, exact.Int(652), exact.Zero, "10:52", "10.52", "10h52", "10:52 am", "10:52 PM", "22:52", "10:53", "24:00", "1052", "10:5", "12:52am", "0:52")
	add(answer.Percent, of(6, 5), of(1, 20), "1.2 %", "1.2%", "1,2 per cent", "1.25", "1.2501", "1.2 vol", "1.2 percent")
	add(answer.Level, exact.Int(6), exact.Zero, "6", "level 6", "Level 6", "6 levels", "level 7", "six")
	add(answer.Hour, exact.Int(48), exact.Zero, "48", "48 h", "2880 min", "48 hours", "47:60")
	add(answer.Time, exact.Int(35), exact.Zero, "35 min", "35 minutes", "7/12 h", "1/2 hour")
	add(answer.Centimetre, of(21, 10), of(1, 10), "2.1 cm", "21 mm", "2 1/5", "2.21")
	add(answer.Area, of(205, 2), of(1, 20), "102.5 cm²", "102.5 cm2", "102.5 sq cm", "102.5 cm^2")
	add(answer.Degree, exact.Int(45), exact.Zero, "45°", "45 degrees", "45 deg", "45")
	add(answer.Pack, exact.Int(6), exact.Zero, "6", "6 tubes", "6 packs", "7 bottles")
	add(answer.Centimetre, of(-1, 2), exact.Zero, "-½", "-1/2", "−0.5 cm", "- 1/2", "½")
	add(answer.Volume, exact.Int(20), of(1, 10), "20 vol", "20 volumes", "20.1", "20.2 vol.")
	// Weights and ratios by lot, with the true answer and its neighbours on both sides of the
	// tolerance; the lots are fixed, so both sides judge the same.
	dice := rand.New(rand.NewPCG(67, 5))
	for range 150 {
		n, near := of(1+dice.Int64N(9999), 1+dice.Int64N(40)), of(1+dice.Int64N(20), 100)
		hair := of(1, 1000)
		for _, v := range []exact.Number{n, n.Add(near), n.Sub(near), n.Add(near).Add(hair), n.Sub(near).Sub(hair)} {
			s, comma := v.String(), strings.Replace(v.Decimal(3), ".", ",", 1)
			add(answer.Gram, n, near, s, s+" g", s+" grams", comma, comma+"g")
			add(answer.Ratio, n, near, "1:"+s, "1 : "+comma, "1 to "+s, "2:"+v.Mul(exact.Int(2)).String(), s+":1")
		}
	}
	return out
}

// judgeAll runs the page's own script over the answers and tells which it judges
// otherwise.
const judgeAll = `;(() => {
	const cases = %s
	const told = r => r === null ? "unread" : r ? "right" : "wrong"
	return JSON.stringify(cases.map(c => [c, told(plaitAnswer.accepts(c.key, c.text))]).filter(([c, got]) => got !== c.want)
		.map(([c, got]) => c.key.unit + " " + c.key.value + ": " + JSON.stringify(c.text) + " is " + got + ", want " + c.want))
})()`

func answersScript(t *testing.T) []byte {
	t.Helper()
	script, err := Script(layouts.FS, nil, "scripts/answer.js", "plaitAnswer")
	if err != nil {
		t.Fatal(err)
	}
	cases, err := json.Marshal(answersToJudge())
	if err != nil {
		t.Fatal(err)
	}
	return append(script, fmt.Sprintf(judgeAll, cases)...)
}

func expectAlike(t *testing.T, result []byte) {
	t.Helper()
	var differ []string
	if err := json.Unmarshal(result, &differ); err != nil {
		t.Fatalf("%v: %.200s", err, result)
	}
	for _, d := range differ {
		t.Error(d)
	}
}

// The script of the pages judges an answer as the program does.
func TestScriptJudgesAlike(t *testing.T) {
	cases, err := json.Marshal(answersToJudge())
	if err != nil {
		t.Fatal(err)
	}
	expectAlike(t, []byte(moduleInNode(t, "scripts/answer.js", "plaitAnswer", fmt.Sprintf(judgeAll, cases))))
}

// So does a browser.
func TestBrowserJudgesAlike(t *testing.T) { expectAlike(t, inBrowser(t, answersScript(t))) }
