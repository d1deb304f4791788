package report

import (
	"fmt"
	"strings"

	"plait/internal/paper"
)

type keyPage struct {
	frame
	Paper    string
	Pass     string
	Asked    int
	Sections []keySection
	Must     []string
}

type keySection struct {
	Lesson    string
	Questions []keyQuestion
}

type keyQuestion struct {
	Number  int
	Outcome string
	Because string
	Ways    []keyWay
}

type keyWay struct {
	Code, Ask string
	Answer    []string
}

// Key returns the printed key to a paper: every question in every way it can be asked,
// by the numbers that stand on printed papers. It never belongs to the site.
func Key(in Input, p *paper.Paper) ([]byte, error) {
	v := keyPage{Paper: p.Title.Value, Asked: p.Asked, Pass: fmt.Sprintf("%d of %d right pass", p.Needed(p.Asked), p.Asked)}
	for _, t := range p.Must {
		v.Must = append(v.Must, outcomeText(in.Course, t.Value))
	}
	for i, q := range p.Questions {
		if i == 0 || q.Lesson != p.Questions[i-1].Lesson {
			v.Sections = append(v.Sections, keySection{Lesson: q.Lesson.Title.Value})
		}
		outcome, _ := q.Lesson.Outcome(q.Tests.Value)
		k := keyQuestion{Number: i + 1, Outcome: outcome.Text.Value, Because: q.Because.Value}
		for j, f := range q.Figures {
			k.Ways = append(k.Ways, keyWay{Code: paper.Code(i, j), Ask: f.Ask, Answer: q.Key(j)})
		}
		last := &v.Sections[len(v.Sections)-1]
		last.Questions = append(last.Questions, k)
	}
	f, err := newFrame(in, "Key: "+p.Title.Value)
	if err != nil {
		return nil, err
	}
	v.frame = f
	return render(in.Layouts, "key", v)
}

// KeyFile is the name of the key to a paper.
func KeyFile(p *paper.Paper) string { return "key-" + strings.ToLower(p.Name) + ".html" }
