package check

import "plait/internal/diag"

var housePass = Rule{
	ID:       "house/pass",
	Title:    "no paper passes with less than the house wants",
	Why:      "The stricter of the paper's pass mark and the house's holds. A paper that says less tells its learners something that is not so.",
	Source:   "the house rules of the course",
	Severity: diag.Warning,
	Of:       Paper,
	Before:   "pass: 50 %",
	After:    "pass: 70 %",
	Since:    "1.0",
	Course: func(p *Pass) {
		for _, paper := range p.Course.Papers {
			if paper.Pass.Set() && paper.Pass.Value.Less(p.Course.House.Pass.Value) {
				p.Reportf(paper.Pass.Span, "write the same, or more", "the paper passes with %s, and the house wants %s, which holds",
					paper.Pass.Span.Text(), p.Course.House.Pass.Span.Text())
			}
		}
	},
}
