package check

import (
	"fmt"
	"strings"

	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/source"
)

var outcomeUnknown = Rule{
	ID:     "outcome/unknown",
	Title:  "what a question or a practical tests is an outcome of its lesson",
	Why:    "Marks are told by outcome: a question that tests something nobody set out to teach counts for nothing.",
	Source: "broken reference",
	Of:     Question,
	Before: "find: developer\ntests: weigh-bowl",
	After:  "find: developer\ntests: weighs-bowl",
	Since:  "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		for _, q := range l.Questions {
			judgeTests(p, l, q.Tests)
		}
		for _, practical := range l.Practicals {
			judgeTests(p, l, practical.Tests)
		}
	},
}

func judgeTests(p *Pass, l *lesson.Lesson, tests source.Text) {
	if _, ok := l.Outcome(tests.Value); ok || tests.Value == "" {
		return
	}
	names := make([]string, len(l.Outcomes))
	for i, o := range l.Outcomes {
		names[i] = o.Name.Value
	}
	help := "name it in the header: outcomes: {" + tests.Value + ": what the learner can do then}"
	if near := diag.DidYouMean(tests.Value, names); near != "" {
		help = fmt.Sprintf("did you mean %q?", near)
	} else if len(names) > 0 {
		help = "the outcomes of this lesson are: " + strings.Join(names, ", ")
	}
	p.Reportf(tests.Span, help, "this lesson has no outcome %q", tests.Value)
}

// untested is a lesson with an outcome, up to its first step.
const untested = "---\ntitle: A gloss\nsummary: One bowl.\noutcomes: {weighs-bowl: Weigh a bowl}\n---\n\n## Mix\n\n"

var outcomeUntested = Rule{
	ID:    "outcome/untested",
	Title: "every outcome is tested by a question or a practical",
	Why: "An outcome that nothing tests is a hope. Ask about what can be known, and have an assessor watch what can only be " +
		"shown.",
	Source:   "common practice, no source",
	Severity: diag.Warning,
	Of:       Lesson,
	Before:   untested + "Weigh it.\n",
	After:    untested + "```practical weighing\ntests: weighs-bowl\nshow: [zeroed the scale before each shade]\n```\n",
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		tested := map[string]bool{}
		for _, q := range l.Questions {
			tested[q.Tests.Value] = true
		}
		for _, practical := range l.Practicals {
			tested[practical.Tests.Value] = true
		}
		for _, o := range l.Outcomes {
			if !tested[o.Name.Value] {
				p.Reportf(o.Name.Span, "ask a question or set a practical with tests: "+o.Name.Value, "nothing tests %q", o.Name.Value)
			}
		}
	},
}
