package page

import (
	"strings"

	"plait/internal/check"
)

const rulesPage = "rules.html"

// familyTitles word the families of rules.
var familyTitles = map[string]string{
	"care": "Cautions", "course": "The course", "formula": "Formulas", "house": "House rules", "law": "The law",
	"range": "Ranges of shades", "recording": "The recording", "text": "Texts", "words": "The word list",
}

// rules makes the page of all rules, from the texts that `plait explain` prints.
func (b *builder) rules() ([]byte, error) {
	v := RulesView{
		Frame: b.frame(rulesPage, "standing", "The rules lessons are held to", "What plait looks for in a course, why, and on whose word."),
		Lead: "What plait looks for, why, and on whose word. Errors stop a build: arithmetic, the law, the maker’s range, the house. " +
			"Warnings and notes are common practice and can be accepted with a reason.",
	}
	for _, f := range check.Families() {
		g := RuleGroup{ID: "family_" + f.Name, Title: familyTitles[f.Name]}
		if g.Title == "" {
			g.Title = capital(f.Name)
		}
		for _, r := range f.Rules {
			g.Rules = append(g.Rules, RuleView{
				ID: "rule_" + strings.ReplaceAll(r.ID, "/", "_"), Name: r.ID, Severity: r.Severity.String(),
				Title: capital(r.Title), Why: r.Why, Source: r.Source, Before: r.Before, After: r.After,
			})
		}
		v.Families = append(v.Families, g)
	}
	return b.templates.page("rules", v)
}
