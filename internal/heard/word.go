package heard

import (
	"regexp"
	"slices"
	"strings"
	"time"
	"unicode"

	"plait/internal/caption"
	"plait/internal/exact"
	"plait/internal/shade"
	"plait/internal/source"
)

// talk is what was said as a row of words, and the facts found in it so far.
type talk struct {
	cues   []caption.Cue
	ranges []*shade.Range
	words  []word
	facts  []Fact
	where  []int // the word each fact begins at

	settled   [][2]int // words that took a slip back by its name
	kindSlips []kindSlip

	punctuated bool // it is written with full stops
	colour     bool // it is about colouring hair
}

// word is one word of the talk, or a number of several words. In text it is in small
// letters and without apostrophes, so that "don't" and a machine's "dont" are one.
type word struct {
	text      string
	cue, from int // the cue in which it begins and the byte of the cue's text
	end, to   int // the cue in which it ends and the byte behind it

	number bool
	value  exact.Number
	digits string // a number as it would be typed: "7.0" is not "7"

	code string // the shade this word alone is the code of

	comma bool // a comma or a colon behind it
	ends  bool // a sentence ends behind it, or a pause does
	asked bool // that sentence is a question
}

// pause is how long nobody speaks between two sentences rather than inside one.
const pause = 1500 * time.Millisecond

// bytesPerWord is what a word of talk takes with the blank behind it, at the least as a
// rule: room for the words is taken once.
const bytesPerWord = 5

// listen takes the cues apart.
func listen(cues []caption.Cue, ranges []*shade.Range) *talk {
	t := &talk{cues: cues, ranges: ranges}
	size := 0
	for _, c := range cues {
		size += len(c.Text)
	}
	t.words = make([]word, 0, size/bytesPerWord)
	for i, c := range cues {
		t.split(i, c.Text)
		if n := len(t.words); n > 0 && i+1 < len(cues) && cues[i+1].From-c.Until >= pause {
			t.words[n-1].ends = true
		}
	}
	t.words = join(joinPerCent(t.words))
	t.joinCodes()
	stops := 0
	for _, w := range t.words {
		if w.ends {
			stops++
		}
	}
	t.punctuated = stops*30 > len(t.words)
	return t
}

// joinPerCent makes one word of "per cent", as it is written in British use. It works in
// place, as join and joinCodes do: words only become fewer.
func joinPerCent(words []word) []word {
	out := words[:0]
	for _, w := range words {
		n := len(out) - 1
		if w.text != "cent" || n < 0 || out[n].text != "per" {
			out = append(out, w)
			continue
		}
		w.text, w.cue, w.from = "percent", out[n].cue, out[n].from
		out[n] = w
	}
	return out
}

// split takes the words of a cue's text.
func (t *talk) split(cue int, text string) {
	for at := 0; at < len(text); {
		if isSpace(text[at]) {
			at++
			continue
		}
		end := at
		for end < len(text) && !isSpace(text[end]) {
			end++
		}
		t.piece(cue, text, at, end)
		at = end
	}
}

func isSpace(c byte) bool { return c == ' ' || c == '\n' || c == '\t' || c == '\r' }

// piece adds what stands between two spaces: a word, or several where a hyphen, a
// colon or a unit without a space holds them together.
func (t *talk) piece(cue int, text string, from, to int) {
	body := text[from:to]
	core := strings.TrimFunc(body, func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '%' && r != '½' && r != '¼' && r != '¾'
	})
	if core == "" {
		if n := len(t.words); n > 0 {
			t.words[n-1].comma = t.words[n-1].comma || strings.ContainsAny(body, "-–—")
			t.words[n-1].ends = t.words[n-1].ends || strings.ContainsAny(body, ".!?…")
		}
		return
	}
	start := from + strings.Index(body, core)
	first := len(t.words)
	if w := (word{cue: cue, from: start, end: cue, to: start + len(core)}); t.isCode(core, &w) {
		t.words = append(t.words, w)
	} else {
		t.parts(cue, core, start)
	}
	if len(t.words) == first {
		return
	}
	last := &t.words[len(t.words)-1]
	behind := text[start+len(core) : to]
	last.comma = strings.ContainsAny(behind, ",:;–—")
	last.ends = strings.ContainsAny(behind, ".!?…")
	last.asked = strings.Contains(behind, "?")
}

// Forms of what stands between two spaces. All begin with a figure, as few words do.
var (
	ratioForm   = regexp.MustCompile(`^(\d{1,2}(?:[.,]\d+)?[½¼¾]?):(\d(?:[.,]\d+)?[½¼¾]?)$`)
	spanForm    = regexp.MustCompile(`^(\d+)[-–](\d+)(\D*)$`)
	measureForm = regexp.MustCompile(`^(\d+(?:\.\d+|,\d{1,2})?[½¼¾]?)([A-Za-z%]+)$`)
	numberForm  = regexp.MustCompile(`^\d+(?:\.\d+|,\d{1,2})?[½¼¾]?$`)
)

// parts adds the words of a piece.
func (t *talk) parts(cue int, core string, start int) {
	add := func(s string, offset int) {
		w := word{text: plain(s), cue: cue, from: start + offset, end: cue, to: start + offset + len(s)}
		if figured(s) && numberForm.MatchString(s) {
			w.setNumber(s)
		} else if n, ok := glyphs[s]; ok {
			w.number, w.value, w.digits = true, n, n.String()
		}
		t.words = append(t.words, w)
	}
	figure := figured(core)
	switch {
	case figure && ratioForm.MatchString(core):
		m := ratioForm.FindStringSubmatchIndex(core)
		add(core[m[2]:m[3]], m[2])
		t.words = append(t.words, word{text: "to", cue: cue, from: start + m[3], end: cue, to: start + m[4]})
		add(core[m[4]:m[5]], m[4])
	case figure && spanForm.MatchString(core):
		m := spanForm.FindStringSubmatchIndex(core)
		add(core[m[2]:m[3]], m[2])
		t.words = append(t.words, word{text: "to", cue: cue, from: start + m[3], end: cue, to: start + m[4]})
		add(core[m[4]:m[5]], m[4])
		if m[6] < m[7] {
			add(core[m[6]:m[7]], m[6])
		}
	case figure && measureForm.MatchString(core):
		m := measureForm.FindStringSubmatchIndex(core)
		add(core[m[2]:m[3]], m[2])
		add(core[m[4]:m[5]], m[4])
	case strings.Contains(core, "-"):
		offset := 0
		for s := range strings.SplitSeq(core, "-") {
			if s != "" {
				add(s, offset)
			}
			offset += len(s) + 1
		}
	default:
		add(core, 0)
	}
}

// figured reports whether a text begins with a figure.
func figured(s string) bool { return s != "" && s[0] >= '0' && s[0] <= '9' }

// setNumber makes a number of figures, with a point or a comma and a fraction behind them.
func (w *word) setNumber(s string) {
	figures := strings.TrimRight(s, "½¼¾")
	n, err := exact.Parse(strings.Replace(figures, ",", ".", 1))
	if err != nil {
		return
	}
	if part, ok := glyphs[s[len(figures):]]; ok {
		n = n.Add(part)
		s = "" // "7½" is no code
	}
	w.number, w.value, w.digits = true, n, s
}

// plain writes a word as it is compared: small letters, no apostrophe, one word for
// what has several spellings.
func plain(s string) string {
	if strings.Contains(s, "'") || strings.Contains(s, "’") {
		s = apostrophes.Replace(s)
	}
	s = strings.ToLower(s)
	if same, ok := spellings[s]; ok {
		return same
	}
	return s
}

var apostrophes = strings.NewReplacer("'", "", "’", "")

var spellings = map[string]string{
	"%": "percent", "g": "grams", "gr": "grams", "gram": "grams", "gramme": "grams", "grammes": "grams",
	"min": "minutes", "mins": "minutes", "minute": "minutes", "vol": "volume", "vols": "volume", "volumes": "volume",
	"color": "colour", "gray": "grey", "part": "parts", "tube": "tubes", "hour": "hours",
	"midlengths": "mid-lengths", "midlength": "mid-lengths",
}

// said returns the words from up to to as they stand in the captions.
func (t *talk) said(from, to int) string {
	first, last := t.words[from], t.words[to-1]
	var parts []string
	for cue := first.cue; cue <= last.end; cue++ {
		text := t.cues[cue].Text
		if cue == last.end {
			text = text[:last.to]
		}
		if cue == first.cue {
			text = text[first.from:]
		}
		parts = append(parts, strings.Fields(text)...)
	}
	return strings.Join(parts, " ")
}

// place returns where the words from up to to stand in the captions file.
func (t *talk) place(from, to int) source.Span {
	first, last := t.words[from], t.words[to-1]
	return t.stretch(first.cue, first.from, first.to).To(t.stretch(last.end, 0, last.to))
}

// stretch returns a part of a cue: the cue's lines as a whole where tags or
// references keep its text from being what stands there letter for letter.
func (t *talk) stretch(cue, from, to int) source.Span {
	body := t.cues[cue].Body
	if i := strings.Index(body.Text(), t.cues[cue].Text); i >= 0 {
		return body.Sub(i+from, i+to)
	}
	return body
}

// text returns the word at a place, "" outside the talk.
func (t *talk) text(at int) string {
	if at < 0 || at >= len(t.words) {
		return ""
	}
	return t.words[at].text
}

// code returns the code of the shade at a place, "" for none.
func (t *talk) code(at int) string {
	if at < 0 || at >= len(t.words) {
		return ""
	}
	return t.words[at].code
}

// numberAt returns the number at a place.
func (t *talk) numberAt(at int) (exact.Number, bool) {
	if at < 0 || at >= len(t.words) {
		return exact.Zero, false
	}
	return t.words[at].value, t.words[at].number
}

// closes reports whether a clause ends behind a word.
func (t *talk) closes(at int) bool {
	return at < 0 || at >= len(t.words)-1 || t.words[at].ends || t.words[at].comma
}

// isCode makes a word of text that is the code of a shade.
func (t *talk) isCode(text string, w *word) bool {
	code, ok := t.findCode(text)
	if !ok {
		return false
	}
	w.code, w.text = code, code
	if numberForm.MatchString(text) { // 7.1 can be a number all the same
		w.text = text
		w.setNumber(text)
	}
	return true
}

var (
	lettersForm = regexp.MustCompile(`^\d{1,2}[A-Z]{1,2}$`)
	units       = map[string]bool{"grams": true, "minutes": true, "volume": true, "percent": true}
)

// findCode returns the code under which a range lists what was said.
func (t *talk) findCode(text string) (string, bool) {
	switch {
	case len(t.ranges) == 0 && lettersForm.MatchString(text):
		return text, true
	case len(t.ranges) == 0, !t.mayBeCode(text):
		return "", false
	}
	if m := measureForm.FindStringSubmatch(text); m != nil && units[plain(m[2])] && m[2] != strings.ToUpper(m[2]) {
		return "", false
	}
	if numberForm.MatchString(text) && !strings.Contains(text, ".") {
		return "", false
	}
	for _, r := range t.ranges {
		for _, form := range []string{text, strings.ToUpper(text)} {
			if c, err := r.Find(form); err == nil {
				return c.Text, true
			}
		}
	}
	return "", false
}

// mayBeCode tells most words apart from codes at no cost: a code begins with its
// level, or is listed as one without.
func (t *talk) mayBeCode(text string) bool {
	if figured(text) {
		return true
	}
	if !strings.ContainsAny(text, vowels) {
		text = strings.ToUpper(text) // machines write "cl", which is no word
	}
	return slices.ContainsFunc(t.ranges, func(r *shade.Range) bool {
		return slices.Contains(r.Grammar.Clear, text) || slices.Contains(r.Grammar.Powder, text)
	})
}

const vowels = "aeiouy"

// joinCodes makes one word of a code said as a number and a letter ("eight N") or as
// numbers with a point or a stroke between them ("seven point one").
func (t *talk) joinCodes() {
	out := t.words[:0]
	for i := 0; i < len(t.words); i++ {
		w := t.words[i]
		if code := t.lettered(i); code != "" {
			w.code, w.text = code, code
			w.end, w.to = t.words[i+1].end, t.words[i+1].to
			w.comma, w.ends, w.asked = t.words[i+1].comma, t.words[i+1].ends, t.words[i+1].asked
			i++
		}
		if w.number && w.code == "" {
			if strings.Contains(w.digits, ".") {
				w.code, _ = t.findCode(w.digits)
			} else if code, n := t.spelled(i); n > 0 {
				last := t.words[i+n-1]
				w.code, w.number, w.text = code, false, code
				w.comma, w.ends, w.asked = last.comma, last.ends, last.asked
				w.end, w.to = last.end, last.to
				i += n - 1
			}
		}
		out = append(out, w)
	}
	t.words = out
}

// lettered reads a code of two letters that were written one by one: "some c l".
func (t *talk) lettered(at int) string {
	if at+1 >= len(t.words) || len(t.text(at)) != 1 || len(t.text(at+1)) != 1 || t.closes(at) {
		return ""
	}
	code, _ := t.findCode(strings.ToUpper(t.text(at) + t.text(at+1)))
	return code
}

// shortWords are words that no machine means as the letters of a code.
var shortWords = set("a i g in on of at to is it or so we he be my me no up us as by do go if an")

// typed returns a word as it stands in its cue, "" for one that goes on in the next.
func (t *talk) typed(w word) string {
	if w.end != w.cue {
		return ""
	}
	return t.cues[w.cue].Text[w.from:w.to]
}

// nought reads a code with its point left out: "five oh", "six oh three".
func (t *talk) nought(at int) (code string, words int) {
	w := t.words[at]
	switch t.text(at + 1) {
	case "oh", "o", "nought", "zero":
	default:
		return "", 0
	}
	if at+2 < len(t.words) && t.words[at+2].number && !t.words[at+1].ends {
		if code, ok := t.findCode(w.digits + ".0" + t.words[at+2].digits); ok {
			return code, 3
		}
	}
	if code, ok := t.findCode(w.digits + ".0"); ok {
		return code, 2
	}
	return "", 0
}

// spelled reads a code said as several words and returns how many.
func (t *talk) spelled(at int) (code string, words int) {
	w := t.words[at]
	if w.ends || w.comma || w.digits == "" || at+1 >= len(t.words) || len(t.ranges) == 0 {
		return "", 0
	}
	next := t.words[at+1]
	raw := t.typed(next)
	if letters := strings.ToUpper(raw); raw != "" && len(raw) <= 2 && !next.number && (raw == letters || !shortWords[raw]) {
		if code, ok := t.findCode(w.digits + letters); ok {
			return code, 2
		}
	}
	if code, n := t.nought(at); n > 0 {
		return code, n
	}
	if (next.text == "stroke" || next.text == "slash") && at+2 < len(t.words) && t.words[at+2].number {
		if code, ok := t.findCode(w.digits + "/" + t.words[at+2].digits); ok {
			return code, 3
		}
	}
	return "", 0
}
