package caption

import (
	"cmp"
	"slices"
	"strings"
	"time"
	"unicode"
)

// Clean returns the cues as a reader should see them: in order of time, without
// empty ones, their texts without blank lines, and without the repeats of rolling
// captions, in which each cue shows the line before once more. Cues that end before
// they begin are left out; they were reported. The list is shared, with Cues where
// those are clean, and not to be changed.
func (t *Track) Clean() []Cue { return t.clean }

func clean(all []Cue) []Cue {
	cues := make([]Cue, 0, len(all))
	for _, c := range all {
		if c.tidy(); c.Text != "" && c.Until > c.From {
			cues = append(cues, c)
		}
	}
	slices.SortStableFunc(cues, func(a, b Cue) int { return cmp.Compare(a.From, b.From) })
	if rolls(cues) {
		cues = unroll(cues)
	}
	if slices.EqualFunc(cues, all, Cue.same) {
		return all
	}
	return cues
}

// same reports whether two cues are the same in everything.
func (c Cue) same(o Cue) bool {
	return c.ID == o.ID && c.From == o.From && c.Until == o.Until && c.Text == o.Text && c.Voice == o.Voice &&
		slices.Equal(c.Turns, o.Turns) && c.Span == o.Span && c.Body == o.Body
}

// tidy trims the lines of the text and drops empty ones, and with it turns of
// speakers who say nothing. The identifier goes too: it means nothing to a reader,
// and in the files of others it need not be unique.
func (c *Cue) tidy() {
	text, turns := c.Text, append([]Turn{{At: 0, Voice: c.Voice}}, c.Turns...)
	c.ID, c.Text, c.Voice, c.Turns = "", "", "", nil
	said := 0 // how far the text has been taken over
	for i, t := range turns {
		end := len(text)
		if i+1 < len(turns) {
			end = turns[i+1].At
		}
		part := text[t.At:end]
		words := linesOf(part)
		if words == "" {
			continue
		}
		start := t.At + len(part) - len(strings.TrimLeftFunc(part, unicode.IsSpace))
		if c.Text != "" {
			c.Text += gap(text[said:start])
		}
		c.speak(len(c.Text), t.Voice)
		c.Text += words
		said = t.At + len(strings.TrimRightFunc(part, unicode.IsSpace))
	}
}

// gap is what stays of the blanks between two speakers.
func gap(blanks string) string {
	switch {
	case strings.Contains(blanks, "\n"):
		return "\n"
	case blanks != "":
		return " "
	}
	return ""
}

// joinGap is the longest pause between a cue of rolling captions and the one that
// repeats it. Common practice, no source: such files leave none at all.
const joinGap = 500 * time.Millisecond

// lookBack is how many of its last lines a rolling cue can repeat.
const lookBack = 4

// rolls reports whether the cues roll: half of those that follow another repeat
// it. A sentence that is said twice does not make captions roll.
func rolls(cues []Cue) bool {
	repeats := 0
	for i := 1; i < len(cues); i++ {
		if _, ok := repeated(cues[i-1], cues[i]); ok {
			repeats++
		}
	}
	return len(cues) > 2 && 2*repeats >= len(cues)-1
}

// repeated returns how many bytes at the start of a cue's text repeat the last
// lines of the cue before it.
func repeated(before, c Cue) (int, bool) {
	if c.From > before.Until+joinGap {
		return 0, false
	}
	lines := before.Lines()
	for start := max(0, len(lines)-lookBack); start < len(lines); start++ {
		tail := strings.Join(lines[start:], "\n")
		if rest, ok := strings.CutPrefix(c.Text, tail); ok && (rest == "" || rest[0] == '\n' || rest[0] == ' ') {
			return len(c.Text) - len(rest), true
		}
	}
	return 0, false
}

// unroll keeps of each cue what the one before did not show yet. A cue that shows
// nothing new lengthens the last one that did.
func unroll(cues []Cue) []Cue {
	var out []Cue
	for i, c := range cues {
		if i == 0 {
			out = append(out, c)
			continue
		}
		n, _ := repeated(cues[i-1], c)
		c.cut(n)
		if c.Text != "" {
			out = append(out, c)
		} else if last := &out[len(out)-1]; last.Until < c.Until {
			last.Until = c.Until
		}
	}
	for i := 1; i < len(out); i++ {
		if previous := &out[i-1]; previous.Until > out[i].From && out[i].From > previous.From {
			previous.Until = out[i].From
		}
	}
	return out
}

// cut takes the first n bytes and the blanks behind them off the text.
func (c *Cue) cut(n int) {
	rest := strings.TrimLeft(c.Text[n:], " \n")
	n = len(c.Text) - len(rest)
	var turns []Turn
	for _, t := range c.Turns {
		if t.At <= n {
			c.Voice = t.Voice
			continue
		}
		turns = append(turns, Turn{At: t.At - n, Voice: t.Voice})
	}
	c.Text, c.Turns = rest, turns
}
