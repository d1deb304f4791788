package page

import (
	"html/template"
	"strings"

	"plait/internal/check"
	"plait/internal/highlight"
)

const (
	rulesPage  = "rules.html"
	rulesTitle = "The rules plait holds lessons to"
)

// familyTitles word the families of rules.
var familyTitles = map[string]string{
	"care": "Cautions", "course": "The course", "cut": "Cuts", "formula": "Formulas", "head": "Head sheets", "house": "House rules", "law": "The law",
	"outcome": "Outcomes", "paper": "Papers", "question": "Questions", "range": "Ranges of shades", "recording": "The recording", "spoken": "The film and the card", "text": "Texts", "words": "The word list",
}

// exampleLanguages are the notations of the examples, as package highlight names
// them; what is told in words has none.
var exampleLanguages = map[check.Piece]string{
	check.Block: "formula", check.Header: "course", check.Prose: "lesson", check.Range: "range",
	check.Settings: "course", check.Words: "words", check.Lesson: "lesson", check.Files: "lesson", check.Question: "question", check.Paper: "paper", check.Sheet: "sheet",
}

// rules makes the page of all rules, from the texts that `plait explain` prints.
func (b *builder) rules(out []byte) ([]byte, error) {
	v := RulesView{
		Frame: b.frame(rulesPage, "standing", rulesTitle, "What plait looks for in a course, why, and on whose word."),
		Lead: "What plait looks for, why, and on whose word. Errors stop a build: arithmetic, the law, the maker’s range, the house. " +
			"Warnings and notes are common practice and can be accepted with a reason.",
		Law: "The law this course is held to: " + b.course.Limits().String() + ".",
	}
	for _, f := range check.Families() {
		g := RuleGroup{ID: "family_" + f.Name, Title: familyTitles[f.Name]}
		if g.Title == "" {
			g.Title = capital(f.Name)
		}
		for _, r := range f.Rules {
			g.Rules = append(g.Rules, RuleView{
				ID: ruleAnchor(r.ID), Name: r.ID, Severity: r.Severity.String(), Title: capital(r.Title), Why: capital(r.Why), Source: r.Source,
				Before: example(r.Of, r.Before), After: example(r.Of, r.After),
			})
		}
		v.Families = append(v.Families, g)
	}
	return b.templates.page(out, "rules", v)
}

// ruleAnchor is the place of a rule on its page: formula_drift for formula/drift.
func ruleAnchor(id string) string { return strings.ReplaceAll(id, "/", "_") }

// rulePath is where a rule stands, from a lesson's page.
func rulePath(id string) string { return "../" + rulesPage + "#" + ruleAnchor(id) }

// example colours an example of a rule.
func example(piece check.Piece, code string) template.HTML {
	out, _ := highlight.HTML(exampleLanguages[piece], code)
	return template.HTML(out)
}
