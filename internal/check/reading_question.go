package check

// readingQuestion lists what is found while questions and practicals are read and
// worked out.
var readingQuestion = []Rule{
	{
		ID: "question/answer", Title: "a typed answer can be judged",
		Why:    "A learner's answer is held against it, so it is a number with its unit, a ratio, a time of day or a level.",
		Of:     Question,
		Before: "answer: about two days",
		After:  "answer: 48 h",
		Since:  "1.0",
	},
	{
		ID: "question/find", Title: "what a question seeks can be worked out from what it gives",
		Why: "The answer comes out of the same reckoning as the bowl on the card. What is sought has to be a thing plait reckons, " +
			"and everything it takes has to be given.",
		Of:     Question,
		Before: "find: devloper",
		After:  "find: developer",
		Since:  "1.0",
	},
	{
		ID: "question/given", Title: "what is given can be read",
		Why:    "Weights are in grams, strengths in volumes or per cent, ratios with the colour first, as on a card.",
		Of:     Question,
		Before: "given: {formula: glos}\nfind: developer",
		After:  "given: {formula: gloss}\nfind: developer",
		Since:  "1.0",
	},
	{
		ID: "question/kind", Title: "a question is answered in one way",
		Why:    "One of find, answer, choose, order, pairs, level and place says what is right. Two of them are two questions.",
		Of:     Question,
		Before: "level: 8\nplace: nape",
		After:  "level: 8",
		Since:  "1.0",
	},
	{
		ID: "question/list", Title: "a list has enough in it, not too much, and nothing twice",
		Why:    "One option is no choice, and two that are worded alike cannot both be judged.",
		Of:     Question,
		Before: "choose: {right: violet, wrong: [violet, green]}",
		After:  "choose: {right: violet, wrong: [blue, green]}",
		Since:  "1.0",
	},
	{
		ID: "question/name", Title: "a question or a practical has a name of its own",
		Why:    "Marks and progress are kept under the name.",
		Of:     Prose,
		Before: "```practical\ntests: weighs-bowl\nshow: [zeroed the scale]\n```",
		After:  "```care\n- Zero the scale.\n```",
		Since:  "1.0",
	},
	{
		ID: "question/near", Title: "a tolerance is in the unit of the answer",
		Why:    "How far off is still right only means something in the unit that is asked for.",
		Of:     Question,
		Before: "find: developer\nnear: 5 %",
		After:  "find: developer\nnear: 0.5 g",
		Since:  "1.0",
	},
	{
		ID: "question/place", Title: "a place is a section of a head sheet of the lesson",
		Why:    "The learner finds it on the sheet, so it has to be one of its sections.",
		Of:     Question,
		Before: "place: nape",
		After:  "level: 8",
		Since:  "1.0",
	},
	{
		ID: "question/slip", Title: "a slip is a wrong answer that somebody can give, and what to say about it",
		Why:    "A learner who falls for it is told what went wrong, which needs a wrong answer and words.",
		Of:     Question,
		Before: "find: developer\nslips: [ratio forgoten]",
		After:  "find: developer\nslips: [ratio forgotten]",
		Since:  "1.0",
	},
	{
		ID: "question/vary", Title: "variants ask something else",
		Why: "A variant takes another value for something that is given, and the question has to say that value, else all variants " +
			"read alike.",
		Of:     Question,
		Before: "given: {formula: gloss, colour: 40 g}\nfind: developer\nvary: {colour: 30 g to 60 g by 10 g}",
		After:  "ask: You mix 40 g of colour. How much developer?\ngiven: {formula: gloss, colour: 40 g}\nfind: developer\nvary: {colour: 30 g to 60 g by 10 g}",
		Since:  "1.0",
	},
}
