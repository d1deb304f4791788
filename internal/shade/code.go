package shade

import (
	"fmt"
	"slices"
	"strings"
)

// Code is a shade code taken apart: 6RV is level 6 with the tones R and V, 6.34
// level 6 with the tones 3 and 4.
type Code struct {
	Text  string
	Level Level // 0 for a clear or a mixer
	Tones []string
}

// Style says how a maker writes codes.
type Style uint8

// The two ways of writing a code.
const (
	Letters Style = iota // a number, then letters: 6RV
	Digits               // a number, a separator, then digits: 6.34
)

// Grammar is how one maker writes codes.
type Grammar struct {
	Style      Style
	Separators []string // for Digits: what may stand between level and tones
	Clear      []string // codes that carry no level and no tone
	Tones      []string // for Letters: the tone letters, so that RV is not R+V where RV is one tone
}

// Parse takes a code apart. It checks the writing only, not whether the shade
// exists.
func (g Grammar) Parse(text string) (Code, error) {
	if slices.Contains(g.Clear, text) {
		return Code{Text: text}, nil
	}
	i := strings.IndexFunc(text, func(r rune) bool { return r < '0' || r > '9' })
	if i < 0 {
		i = len(text)
	}
	if i == 0 || i > 2 {
		return Code{}, fmt.Errorf("%q is not a shade code of this range: it begins with no level", text)
	}
	level := 0
	for _, d := range text[:i] {
		level = level*10 + int(d-'0')
	}
	code := Code{Text: text, Level: Level(level)}
	var err error
	if g.Style == Digits {
		code.Tones, err = g.digitTones(text, text[i:])
	} else {
		code.Tones, err = g.letterTones(text, text[i:])
	}
	return code, err
}

// digitTones reads ".34" as 3 and 4. A doubled digit stays two tones, a leading
// zero stays the tone 0; what they mean is the range's to say.
func (g Grammar) digitTones(text, rest string) ([]string, error) {
	if rest == "" {
		return nil, nil
	}
	if strings.HasPrefix(rest, ",") {
		return nil, fmt.Errorf("shade %q has a comma, which is a decimal sign in some countries; write %s", text, strings.Replace(text, ",", ".", 1))
	}
	for _, sep := range g.Separators {
		digits, ok := strings.CutPrefix(rest, sep)
		if !ok || digits == "" {
			continue
		}
		var tones []string
		for _, d := range digits {
			if d < '0' || d > '9' {
				return nil, fmt.Errorf("shade %q has %q where this range has tone digits", text, d)
			}
			tones = append(tones, string(d))
		}
		return tones, nil
	}
	return nil, fmt.Errorf("%q is not a shade code of this range: after the level comes %s and the tone digits", text, strings.Join(g.Separators, " or "))
}

// letterTones reads "RV" as the range's tones, longest first.
func (g Grammar) letterTones(text, rest string) ([]string, error) {
	var tones []string
	for rest != "" {
		tone := ""
		for _, t := range g.Tones {
			if strings.HasPrefix(rest, t) && len(t) > len(tone) {
				tone = t
			}
		}
		if tone == "" {
			return nil, fmt.Errorf("shade %q has no tone %q in this range", text, rest)
		}
		tones = append(tones, tone)
		rest = rest[len(tone):]
	}
	return tones, nil
}

// LooksLikeCode reports whether a word could be a shade code of some range: it
// begins with a digit and holds no space.
func LooksLikeCode(word string) bool {
	return word != "" && word[0] >= '0' && word[0] <= '9' && !strings.ContainsAny(word, " \t")
}

// Bare takes a code apart where no range is at hand: only the level is known, from
// the number in front, which nearly all makers write first. The rest has no
// meaning.
func Bare(text string) Code {
	level := 0
	for i := 0; i < len(text) && i < 2 && text[i] >= '0' && text[i] <= '9'; i++ {
		level = level*10 + int(text[i]-'0')
	}
	return Code{Text: text, Level: Level(level)}
}
