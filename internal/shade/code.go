package shade

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Code is a shade code taken apart: 6RV is level 6 with the tones R and V, 6.34
// level 6 with the tones 3 and 4.
type Code struct {
	Text  string
	Level Level // 0 for a clear, a powder or a mixer
	Tones []string
	Range string // the range that it was found in; "" where none was asked
}

// IsClear reports whether the code has neither level nor tone: it thins a colour, or
// is a powder lightener.
// A mixer has no level either, but it has a tone.
func (c Code) IsClear() bool { return c.Level == 0 && len(c.Tones) == 0 }

// Same reports whether two codes are one shade, however they are written: 6/3 and
// 6.3. Two clears are the same where their codes are.
func (c Code) Same(o Code) bool {
	if c.IsClear() || o.IsClear() {
		return c.Text == o.Text
	}
	return c.Level == o.Level && slices.Equal(c.Tones, o.Tones)
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
	Powder     []string // codes of powder lighteners, which carry neither either
	Tones      []string // for Letters: the tone letters, so that RV is not R+V where RV is one tone
}

// Parse takes a code apart. It checks the writing only, not whether the shade
// exists.
func (g Grammar) Parse(text string) (Code, error) {
	if g.plain(text) {
		return Code{Text: text}, nil
	}
	digits := leadingDigits(text)
	level, err := parseLevel(digits)
	if err != nil {
		return Code{}, fmt.Errorf("%q is not a shade code of this range: %w", text, err)
	}
	code := Code{Text: text, Level: level}
	tones := text[len(digits):]
	if g.Style == Digits {
		code.Tones, err = g.digitTones(text, tones)
	} else {
		code.Tones, err = g.letterTones(text, tones)
	}
	if err != nil {
		return Code{}, err
	}
	return code, nil
}

// plain reports whether a code is listed as one without level and tone.
func (g Grammar) plain(text string) bool {
	return slices.Contains(g.Clear, text) || slices.Contains(g.Powder, text)
}

// leadingDigits returns the digits a text begins with.
func leadingDigits(text string) string {
	i := 0
	for i < len(text) && text[i] >= '0' && text[i] <= '9' {
		i++
	}
	return text[:i]
}

// parseLevel reads the number in front of a code. A level has one or two digits;
// 0 alone is a mixer's, so 06 is a slip and not the level 6.
func parseLevel(digits string) (Level, error) {
	switch {
	case digits == "":
		return 0, errors.New("it begins with no level")
	case len(digits) > 2:
		return 0, fmt.Errorf("no level is as high as %s", digits)
	case len(digits) == 2 && digits[0] == '0':
		return 0, fmt.Errorf("the level is written %c, not %s", digits[1], digits)
	}
	level, err := strconv.Atoi(digits)
	return Level(level), err
}

// digitTones reads ".34" as 3 and 4. A doubled digit stays two tones, a leading
// zero stays the tone 0; what they mean is the range's to say.
func (g Grammar) digitTones(text, rest string) ([]string, error) {
	if rest == "" {
		return nil, nil
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
	if strings.HasPrefix(rest, ",") && len(g.Separators) > 0 {
		return nil, fmt.Errorf("shade %q has a comma, which is a decimal sign in some countries; write %s", text, strings.Replace(text, ",", g.Separators[0], 1))
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
	level, err := parseLevel(leadingDigits(text))
	if err != nil {
		level = 0
	}
	return Code{Text: text, Level: level}
}
