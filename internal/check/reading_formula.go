package check

// readingFormula lists what is found while formulas are read.
var readingFormula = []Rule{
	{
		ID: "formula/amount", Title: "a bowl has a size, and says what of",
		Why: "The same number of grams is twice the work or half of it, as it means the colour or the whole bowl. Say which: " +
			"30 g colour, or 90 g mixed.",
		Before: "colour: 1 part 6N\namount: 45 g",
		After:  "colour: 1 part 6N\namount: 45 g colour",
		Since:  "1.0",
	},
	{
		ID: "formula/blend", Title: "a blended strength lies between its two developers",
		Why:    "Two developers poured together are never stronger than the stronger, nor weaker than the weaker.",
		Source: "mass balance (alligation), as in pharmacy handbooks",
		Before: "kind: permanent\ndeveloper: 30 vol from 10 vol and 20 vol",
		After:  "kind: permanent\ndeveloper: 20 vol from 30 vol and 10 vol",
		Since:  "1.0",
	},
	{
		ID: "formula/developer", Title: "a developer has a strength in volumes or per cent",
		Why:    "20 % is more than three times as strong as 20 vol, and a bare 20 may be read as either.",
		Before: "developer: 20",
		After:  "developer: 20 vol",
		Since:  "1.0",
	},
	{
		ID: "formula/hair", Title: "hair is a level, a state and a share of white",
		Why:    "What a colour does depends on whether the hair is natural, coloured or lightened, so the card has to say it.",
		Before: "hair: 8 bleached",
		After:  "hair: 8 lightened",
		Since:  "1.0",
	},
	{
		ID: "formula/impossible", Title: "a bowl can be weighed",
		Why:    "Some formulas read well and cannot be mixed, such as additives heavier than the whole bowl.",
		Before: "colour: 1 part 6N\nadd: 60 g bond cream\namount: 50 g mixed",
		After:  "colour: 1 part 6N\nadd: 5 g bond cream\namount: 50 g mixed",
		Since:  "1.0",
	},
	{
		ID: "formula/kind", Title: "the kind of colour is one of the known words",
		Why:    "Ratio, time, strengths and cautions hang on it.",
		Before: "kind: semi-demi",
		After:  "kind: demi\ndeveloper: 6 vol",
		Since:  "1.0",
	},
	{
		ID: "formula/level", Title: "levels run from 1 to 10",
		Why:    "Level 1 is black, level 10 the lightest blonde. Numbers beyond belong to a few makers' high-lift shades and are no targets.",
		Before: "target: 11",
		After:  "target: 10",
		Since:  "1.0",
	},
	{
		ID: "formula/name", Title: "a formula has a name of its own",
		Why:    "The text, the questions and the printed card speak of a bowl by its name.",
		Of:     Prose,
		Before: "```formula\nkind: permanent\ncolour: 30 g 6N\ndeveloper: 20 vol\n```",
		After:  "```formula roots\nkind: permanent\ncolour: 30 g 6N\ndeveloper: 20 vol\n```",
		Since:  "1.0",
	},
	{
		ID: "formula/no-shade", Title: "a formula has a shade",
		Why:    "A bowl without colour in it is not a formula.",
		Before: "colour: \"\"",
		After:  "colour: 30 g 8N",
		Since:  "1.0",
	},
	{
		ID: "formula/parts", Title: "parts are more than nothing, and all of one kind",
		Why:    "Parts beside grams leave open how much a part is; a part of nothing is a slip of the hand.",
		Before: "colour: 2 parts 8N + 10 g 8V\namount: 30 g colour",
		After:  "colour: 2 parts 8N + 1 part 8V\namount: 30 g colour",
		Since:  "1.0",
	},
	{
		ID: "formula/percent", Title: "shares of the colour make a whole",
		Why:    "Shares in per cent that do not come to 100 leave part of the bowl unsaid.",
		Before: "colour: 60 % 7N + 30 % 7G\namount: 30 g colour",
		After:  "colour: 60 % 7N + 40 % 7G\namount: 30 g colour",
		Since:  "1.0",
	},
	{
		ID: "formula/ratio", Title: "a ratio is colour to developer, the smaller number first",
		Why: "Books print the same demi ratio as 1:2 and as 2:1. Read the wrong way round it doubles the dye and halves the " +
			"developer, so plait takes one order only.",
		Before: "ratio: 2:1",
		After:  "ratio: 1:1.5",
		Since:  "1.0",
	},
	{
		ID: "formula/sections", Title: "an application covers the places that the bowl goes on",
		Why: "Where the time of each section is given, the timeline and the clock on the page follow from it. A section that on does not " +
			"name, or one that is left out, would leave it open which hair has the colour and since when.",
		Before: "on: [nape, crown]\napply: {nape: 3 min, front: 4 min}",
		After:  "on: [nape, crown]\napply: {nape: 3 min, crown: 4 min}",
		Since:  "1.0",
	},
	{
		ID: "formula/shade-twice", Title: "a shade stands in a bowl once",
		Why:    "Two doses of one shade are usually a slip; if both are meant, add them up.",
		Before: "colour: 20 g 8N + 10 g 8N",
		After:  "colour: 30 g 8N",
		Since:  "1.0",
	},
	{
		ID: "formula/syntax", Title: "a formula can be read",
		Why:    "The forms are few: 2 parts 8N + 1 part 8V, 20 g 8N + 10 g 8V, a claim in brackets behind a shade.",
		Before: "colour: 2 parts 8N (20 g\namount: 20 g colour",
		After:  "colour: 2 parts 8N (20 g)\namount: 20 g colour",
		Since:  "1.0",
	},
	{
		ID: "formula/time", Title: "a time has a unit and counts from a named moment",
		Why: "From the end of application or from the first touch: the two differ by the whole time of application, which on " +
			"lightener is the difference that burns.",
		Before: "time: 35",
		After:  "time: 35 min from last section",
		Since:  "1.0",
	},
	{
		ID: "formula/unit", Title: "weights are in grams",
		Why: "An ounce may be 28.35 g of mass, 29.57 mL in the United States or 28.41 mL in the United Kingdom. Bowls are weighed, " +
			"so plait takes grams.",
		Source: "US gallon of 231 cubic inches and UK gallon of 4.54609 L; one ounce is 28.349523125 g",
		Before: "colour: 1 part 6N\namount: 2 oz colour",
		After:  "colour: 1 part 6N\namount: 57 g colour",
		Since:  "1.0",
	},
}
