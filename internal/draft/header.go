package draft

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"plait/internal/exact"
	"plait/internal/heard"
	"plait/internal/measure"
)

// writeHeader writes the header of the lesson.
func (d *drafter) writeHeader(w *strings.Builder) {
	w.WriteString("---\n")
	w.WriteString("# A draft. Each value has the time and the words it came from; a question mark is for you to answer.\n")
	name, note := d.lessonTitle()
	fmt.Fprintf(w, "title: %s   # %s\n", yamlText(name), note)
	w.WriteString("summary: ?   # one sentence that makes somebody open it\n")
	if len(d.hair) > 0 {
		w.WriteString("hair:\n")
		for _, l := range d.hair {
			fmt.Fprintf(w, "  %s   # %s\n", l.value, l.note)
		}
	}
	w.WriteString("recording:\n")
	if d.Film != "" {
		fmt.Fprintf(w, "  film: %s\n", yamlText(d.Film))
	}
	if d.Link != "" {
		fmt.Fprintf(w, "  link: %s\n", yamlText(d.Link))
	}
	fmt.Fprintf(w, "  captions: %s\n", yamlText(d.Captions))
	if d.Length > 0 {
		fmt.Fprintf(w, "  length: %q\n", measure.Clock(d.Length))
	}
	if uses := d.uses(); len(uses) > 0 {
		w.WriteString("uses:\n")
		for _, l := range uses {
			fmt.Fprintf(w, "  - %s   # %s\n", l.value, l.note)
		}
	}
	if kit := d.kit(); len(kit) > 0 {
		w.WriteString("kit:\n")
		for _, l := range kit {
			fmt.Fprintf(w, "  - %s   # %s\n", l.value, l.note)
		}
	}
	w.WriteString("ready: no\n---\n\n")
}

// yamlText writes a text as a value of YAML that is read back as it is.
func yamlText(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"`
}

// lessonTitle returns what the speaker says is done today, else the name of the
// file.
func (d *drafter) lessonTitle() (title, note string) {
	for i, s := range d.sentences {
		if i == 12 {
			break
		}
		words := strings.Fields(s.text)
		for j, w := range words {
			if plainWord(w) != "today" || j+2 >= len(words) {
				continue
			}
			if t := strings.Join(trimmed(behindToday(words[j+1:])), " "); len(strings.Fields(t)) > 1 {
				return capital(t), quoted(s.at, s.text)
			}
		}
	}
	name := strings.ReplaceAll(d.Name, "-", " ")
	if name == "" {
		name = "draft"
	}
	return capital(name), "from the name of " + path.Base(d.Captions)
}

// behindToday leaves out what only leads to the subject: "is", "we're going to".
func behindToday(words []string) []string {
	for len(words) > 1 && slices.Contains([]string{
		"is", "a", "an", "we", "were", "we're", "i", "im", "it", "are", "going", "to", "gonna", "will", "ill", "well",
	}, plainWord(words[0])) {
		words = words[1:]
	}
	return words
}

// Words that say in what state hair is.
var states = map[string]string{
	"natural": "natural", "virgin": "natural", "untouched": "natural",
	"lightened": "lightened", "lifted": "lightened", "highlighted": "lightened", "highlight": "lightened", "highlights": "lightened", "bleached": "lightened", "foiled": "lightened",
	"tinted": "coloured", "coloured": "coloured", "colored": "coloured",
}

// aims stand in a sentence about what is wanted and not what is there.
var aims = []string{"want", "wants", "aiming", "aim", "target", "like to be", "would like", "goal", "shed like", "hed like"}

// aimed reports whether a level is one that is wanted.
func (d *drafter) aimed(f heard.Fact) bool {
	before, _, _ := strings.Cut(d.around(f.Cue, f.Said), plain(f.Said))
	return slices.ContainsFunc(aims, func(a string) bool { return strings.Contains(before, a) })
}

// readHair finds the hair of the model in what is said of levels before the first
// bowl is mixed.
func (d *drafter) readHair() {
	first := len(d.Cues)
	for _, f := range d.facts {
		if f.Kind == heard.Shade {
			first = f.Cue
			break
		}
	}
	zones := map[string]bool{}
	for i, f := range d.facts {
		if f.Withdrawn || f.Cue >= first {
			continue
		}
		switch f.Kind {
		case heard.White:
			if !zones["white"] {
				zones["white"] = true
				d.hair = append(d.hair, line{"white: " + f.Number.Mul(exact.Int(100)).Decimal(0) + " %", from(f)})
				d.placed[i] = true
			}
		case heard.Level:
			d.placed[i] = d.zone(i, f, zones)
		}
	}
}

// zone adds the hair of one zone of the head, if its level is of one.
func (d *drafter) zone(i int, f heard.Fact, zones map[string]bool) bool {
	text := d.around(f.Cue, f.Said)
	if text == "" || d.aimed(f) {
		return false
	}
	before, behind, _ := strings.Cut(text, plain(f.Said))
	state := stateIn(before, behind)
	place := d.placeBefore(i, f, text)
	if state == "" || place == "" || zones[place] {
		return false
	}
	zones[place] = true
	d.hair = append(d.hair, line{fmt.Sprintf("%s: %s %s", place, f.Number, state), from(f)})
	return true
}

// stateIn returns the state of hair named last before a level, else first behind it.
func stateIn(before, behind string) string {
	words := strings.Fields(before)
	for i := len(words) - 1; i >= 0; i-- {
		if s := states[words[i]]; s != "" {
			return s
		}
	}
	for _, w := range strings.Fields(behind) {
		if s := states[w]; s != "" {
			return s
		}
	}
	return ""
}

// placeBefore returns the place of the head that a level was said of: the last one
// named in the sentence.
func (d *drafter) placeBefore(i int, f heard.Fact, text string) string {
	for j := i - 1; j >= 0; j-- {
		p := d.facts[j]
		if p.Kind == heard.Section && f.Cue-p.Cue <= 2 && strings.Contains(text, plain(p.Said)) {
			return p.Place
		}
	}
	if strings.Contains(text, "natural") || strings.Contains(text, "base") {
		return "roots" // what is natural has grown there
	}
	return ""
}

// uses returns what brings cautions with it.
func (d *drafter) uses() []line {
	var out []line
	if len(d.bowls) > 0 {
		out = append(out, line{"colour", "a bowl is mixed"})
	}
	for _, b := range d.bowls {
		if b.powder {
			out = append(out, line{"lightener", all(b.colour)})
			break
		}
	}
	if s, ok := d.firstWith(edges...); ok && (d.cutting() || d.sentencesWith(edges) > 1) { // one alone may be a figure of speech
		out = append(out, line{"blades", quoted(s.at, s.text)})
	}
	if s, ok := d.firstWith("dryer", "hairdryer", "blow", "hood", "iron", "heat", "tongs", "diffuser"); ok {
		out = append(out, line{"heat", quoted(s.at, s.text)})
	}
	return out
}

// edges are tools that cut.
var edges = strings.Fields("scissors shears blades razor clippers trimmers")

// sentencesWith counts the sentences in which one of some words falls.
func (d *drafter) sentencesWith(words []string) int {
	n := 0
	for _, s := range d.sentences {
		if slices.ContainsFunc(strings.Fields(plain(s.text)), func(w string) bool { return slices.Contains(words, w) }) {
			n++
		}
	}
	return n
}

// firstWith returns the first sentence with one of some words in it that is neither
// denied nor supposed.
func (d *drafter) firstWith(words ...string) (sentence, bool) {
	for _, s := range d.sentences {
		text := strings.Fields(plain(s.text))
		for i, w := range text {
			if slices.Contains(words, w) && !doubtful(text[:i]) {
				return s, true
			}
		}
	}
	return sentence{}, false
}

// doubtful reports whether the words before another deny or suppose it.
func doubtful(words []string) bool {
	return slices.ContainsFunc(words, func(w string) bool {
		return slices.Contains([]string{"no", "not", "never", "dont", "if", "would", "without"}, w)
	})
}

// tools are the words for things laid out beforehand, longer ones first, with what
// the kit calls them.
var tools = []struct{ said, name string }{
	{"tint brush", "tint brush"}, {"flat brush", "flat brush"}, {"round brush", "round brush"}, {"brush", "brush"},
	{"tail comb", "tail comb"}, {"wide tooth comb", "wide comb"}, {"wide comb", "wide comb"}, {"comb", "comb"},
	{"clips", "clips"}, {"foils", "foils"}, {"foil", "foils"}, {"gloves", "gloves"}, {"scale", "scale"}, {"scales", "scale"},
	{"timer", "timer"}, {"spray bottle", "spray bottle"}, {"thinning shears", "thinning shears"}, {"shears", "shears"},
	{"scissors", "scissors"}, {"dryer", "dryer"}, {"mirror", "mirror"}, {"towel", "towel"}, {"swatch", "swatches"},
	{"swatches", "swatches"}, {"bowl", "bowl"}, {"barrier cream", "barrier cream"}, {"cotton wool", "cotton wool"},
}

// kit returns the things that are used, in the order they are named.
func (d *drafter) kit() []line {
	type found struct {
		at int
		line
	}
	var list []found
	seen := map[string]bool{}
	for _, tool := range tools {
		for i, s := range d.sentences {
			text := " " + plain(s.text) + " "
			at := strings.Index(text, " "+tool.said+" ")
			if at < 0 || doubtful(strings.Fields(text[:at])) || seen[tool.name] || partOf(seen, tool.name) {
				continue
			}
			seen[tool.name] = true
			list = append(list, found{i, line{tool.name, quoted(s.at, s.text)}})
			break
		}
	}
	slices.SortStableFunc(list, func(a, b found) int { return a.at - b.at })
	out := make([]line, len(list))
	for i, f := range list {
		out[i] = f.line
	}
	return out
}

// partOf reports whether a tool is one that a longer name has said already: a brush
// beside a flat brush.
func partOf(seen map[string]bool, name string) bool {
	for other := range seen {
		if strings.HasSuffix(other, " "+name) {
			return true
		}
	}
	return false
}
