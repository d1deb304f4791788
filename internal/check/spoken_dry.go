package check

import (
	"regexp"
	"slices"
	"strings"
	"sync"

	"plait/internal/diag"
	"plait/internal/heard"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/source"
)

var spokenDry = Rule{
	ID:       "spoken/dry",
	Title:    "the film and the text dry the hair equally far",
	Why:      "How dry hair is decides how it falls, and how far a colour is thinned by the water in it.",
	Source:   spokenSource,
	Severity: diag.Warning,
	Of:       Files,
	Before:   spokenExample("colour: 30 g 8N\ndeveloper: 6 vol", "I rough-dry it to fifty percent dry."),
	After:    spokenExample("colour: 30 g 8N\ndeveloper: 6 vol", "I rough-dry it to eighty percent dry."),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		facts := p.saidOf(l, heard.Dry)
		for i, s := range l.Steps {
			said := slices.DeleteFunc(slices.Clone(facts), func(f heard.Fact) bool { return stepOf(l, f) != s })
			if len(said) == 0 {
				continue
			}
			text := stretchOf(l, i)
			for _, m := range shareDry().FindAllStringSubmatchIndex(text.Text(), -1) {
				at := text.Sub(m[0], m[1])
				share, err := measure.ParsePercent(text.Text()[m[2]:m[3]] + " %")
				agrees := func(f heard.Fact) bool { return f.Number.Equal(share) }
				quoted := strings.HasSuffix(text.Text()[:m[0]], "“") // the film's own words, as a draft lists them
				if err == nil && !quoted && !slices.ContainsFunc(said, agrees) {
					p.contradict(said[0], at, "the text has %s", at.Text())
				}
			}
		}
	},
}

// shareDry is how a text says how dry hair is.
var shareDry = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(\d{1,3}) ?(?:%|per cent) dry`) })

// stretchOf returns the text of a step, from its heading to the next.
func stretchOf(l *lesson.Lesson, i int) source.Span {
	whole := l.File.Whole()
	from, _ := l.Steps[i].Span.Offsets()
	_, to := whole.Offsets()
	if i+1 < len(l.Steps) {
		to, _ = l.Steps[i+1].Span.Offsets()
	}
	return whole.Sub(from, to)
}
