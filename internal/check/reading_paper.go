package check

// readingPaper lists what is found while papers are read and linked.
var readingPaper = []Rule{
	{
		ID: "paper/draw", Title: "a draw narrows its choice by kinds and difficulties that there are",
		Why:    "A kind is how a question is answered: find, answer, choose, order, pairs, level. A difficulty is easy, middle or hard.",
		Of:     Paper,
		Before: "draw: [{questions: 1, kinds: [sums]}]",
		After:  "draw: [{questions: 1, kinds: [find]}]",
		Since:  "1.0",
	},
	{
		ID: "paper/pass", Title: "a pass mark is a share of the questions",
		Why:    "There is no pass mark that holds everywhere, so each paper states its own; how many have to be right is rounded up.",
		Of:     Paper,
		Before: "pass: 14",
		After:  "pass: 70 %",
		Since:  "1.0",
	},
	{
		ID: "paper/time", Title: "a time limit is one time",
		Why:    "Everybody gets the same, and the page counts it down.",
		Of:     Paper,
		Before: "time: 30-40 min",
		After:  "time: 40 min",
		Since:  "1.0",
	},
	{
		ID: "paper/unknown", Title: "a paper names modules, lessons, outcomes and practicals that there are",
		Why:    "Outcomes and practicals stand with their lesson before them, as in gloss/weighs-bowl.",
		Of:     Paper,
		Before: "draw: [{questions: 1, lesson: glos}]",
		After:  "draw: [{questions: 1, lesson: gloss}]",
		Since:  "1.0",
	},
}
