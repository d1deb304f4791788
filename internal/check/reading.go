package check

// reading lists the rules that are reported while files are read, before anything
// is computed. All of them are errors: what cannot be read cannot be checked.
var reading = []Rule{
	{
		ID: "care/uses", Title: "what a lesson uses is one of the known words",
		Why: "colour, lightener, heat and blades each bring the cautions that belong to them. A word that brings none would " +
			"leave the page without its cautions, and nobody would notice.",
		Before: "uses: [color]", After: "uses: [colour]",
	},
	{
		ID: "course/address", Title: "the address is a whole address",
		Why:    "Links for sharing, QR codes and the feed are built on the address, so it has to say where the site lies.",
		Before: "address: harbour-row", After: "address: https://example.org/harbour-row/",
	},
	{
		ID: "course/empty", Title: "a course has lessons",
		Why:    "Without a lesson there is nothing to build.",
		Before: "an empty folder lessons", After: "lessons/01-first-bowl/lesson.md",
	},
	{
		ID: "course/language", Title: "the language is a language tag",
		Why:    "Browsers and screen readers choose voice and hyphenation by it (BCP 47).",
		Before: "language: British English", After: "language: en-GB",
	},
	{
		ID: "course/lesson", Title: "a module names lessons that exist",
		Why:    "A lesson's name is its folder's without the number in front, so folders can be put in order without touching modules.",
		Before: "lessons: [brassy-glos]", After: "lessons: [brassy-gloss]",
	},
	{
		ID: "course/lesson-placed-twice", Title: "a lesson stands in one module",
		Why:    "A lesson has one page and one place in the order; other modules can link to it.",
		Before: "lessons: [strengths, strengths]", After: "lessons: [strengths]",
	},
	{
		ID: "course/lesson-twice", Title: "no two lessons have one name",
		Why:    "The numbers of folders only order them. Two lessons that differ by number alone would want the same page.",
		Before: "lessons/01-gloss and lessons/04-gloss", After: "lessons/01-gloss and lessons/04-gloss-again",
	},
	{
		ID: "course/module-twice", Title: "no two modules have one name",
		Why:    "A module's name is the name of its page.",
		Before: "name: colour, twice", After: "name: colour and name: cutting",
	},
	{
		ID: "course/name", Title: "names can stand in an address",
		Why:    "Names of modules and lesson folders become file names, which have to work on every disk and in every browser.",
		Before: "name: On the head", After: "name: on-the-head",
	},
	{
		ID: "course/scale", Title: "the scale's step is a weight that scales show",
		Why:    "Every weight on the pages is rounded to what the scale can show, with parts that still add up.",
		Before: "scale: 0 g", After: "scale: 0.1 g",
	},
	{
		ID: "course/stray", Title: "every lesson is taught by a module",
		Why:    "A lesson that no module names would be forgotten. One that is not finished says so: ready: no.",
		Before: "a folder lessons/09-new that no module names", After: "ready: no",
	},
	{
		ID: "formula/amount", Title: "a bowl has a size, and says what of",
		Why: "The same number of grams is twice the work or half of it, as it means the colour or the whole bowl. Say which: " +
			"30 g colour, or 90 g mixed.",
		Before: "amount: 45 g", After: "amount: 45 g colour",
	},
	{
		ID: "formula/blend", Title: "a blended strength lies between its two developers",
		Why:    "Two developers poured together are never stronger than the stronger, nor weaker than the weaker.",
		Source: "mass balance (alligation), as in pharmacy handbooks",
		Before: "developer: 30 vol from 10 vol and 20 vol", After: "developer: 13 vol from 30 vol and 10 vol",
	},
	{
		ID: "formula/developer", Title: "a developer has a strength in volumes or per cent",
		Why:    "A number without its unit is three times too strong or too weak.",
		Before: "developer: 20", After: "developer: 20 vol",
	},
	{
		ID: "formula/hair", Title: "hair is a level, a state and a share of white",
		Why:    "What a colour does depends on whether the hair is natural, coloured or lightened, so the card has to say it.",
		Before: "hair: 8 bleached", After: "hair: 8 lightened",
	},
	{
		ID: "formula/impossible", Title: "a bowl can be weighed",
		Why:    "Some formulas read well and cannot be mixed, such as additives heavier than the whole bowl.",
		Before: "add: 60 g bond cream, with amount: 50 g mixed", After: "add: 5 g bond cream",
	},
	{
		ID: "formula/kind", Title: "the kind of colour is one of the known words",
		Why:    "Ratio, time, strengths and cautions hang on it.",
		Before: "kind: semi-demi", After: "kind: demi",
	},
	{
		ID: "formula/level", Title: "levels run from 1 to 10",
		Why:    "Level 1 is black, level 10 the lightest blonde. Numbers beyond belong to a few makers' high-lift shades and are no targets.",
		Before: "target: 11", After: "target: 10",
	},
	{
		ID: "formula/name", Title: "a formula has a name of its own",
		Why:    "The text, the questions and the printed card speak of a bowl by its name.",
		Before: "two blocks ```formula gloss in one lesson", After: "```formula gloss and ```formula roots",
	},
	{
		ID: "formula/no-shade", Title: "a formula has a shade",
		Why:    "A bowl without colour in it is not a formula.",
		Before: "colour: \"\"", After: "colour: 30 g 8N",
	},
	{
		ID: "formula/parts", Title: "parts are more than nothing, and all of one kind",
		Why:    "Parts beside grams leave open how much a part is; a part of nothing is a slip of the hand.",
		Before: "colour: 2 parts 8N + 10 g 8V", After: "colour: 2 parts 8N + 1 part 8V",
	},
	{
		ID: "formula/percent", Title: "shares of the colour make a whole",
		Why:    "Shares in per cent that do not come to 100 leave part of the bowl unsaid.",
		Before: "colour: 60 % 7N + 30 % 7G", After: "colour: 60 % 7N + 40 % 7G",
	},
	{
		ID: "formula/ratio", Title: "a ratio is colour to developer, the smaller number first",
		Why: "Books print the same demi ratio as 1:2 and as 2:1. Read the wrong way round it doubles the dye and halves the " +
			"developer, so plait takes one order only.",
		Before: "ratio: 2:1", After: "ratio: 1:2",
	},
	{
		ID: "formula/shade-twice", Title: "a shade stands in a bowl once",
		Why:    "Two doses of one shade are usually a slip; if both are meant, add them up.",
		Before: "colour: 20 g 8N + 10 g 8N", After: "colour: 30 g 8N",
	},
	{
		ID: "formula/syntax", Title: "a formula can be read",
		Why:    "The forms are few: 2 parts 8N + 1 part 8V, 20 g 8N + 10 g 8V, a claim in brackets behind a shade.",
		Before: "colour: 2 parts 8N (20 g", After: "colour: 2 parts 8N (20 g)",
	},
	{
		ID: "formula/time", Title: "a time has a unit and counts from a named moment",
		Why: "From the end of application or from the first touch: the two differ by the whole time of application, which on " +
			"lightener is the difference that burns.",
		Before: "time: 35", After: "time: 35 min from last section",
	},
	{
		ID: "formula/unit", Title: "weights are in grams",
		Why: "An ounce may be 28.35 g of mass, 29.57 mL in the United States or 28.41 mL in the United Kingdom. Bowls are weighed, " +
			"so plait takes grams.",
		Source: "US gallon of 231 cubic inches and UK gallon of 4.54609 L; one ounce is 28.349523125 g",
		Before: "amount: 2 oz colour", After: "amount: 57 g colour",
	},
	{
		ID: "house/rules", Title: "house rules can be read",
		Why:    "A house rule that cannot be read would silently protect nobody.",
		Before: "house: {strongest: 9}", After: "house: {strongest: 9 %}",
	},
	{
		ID: "range/checked", Title: "a range says when its rules were last read from the maker",
		Why:    "Makers change directions. A date lets everybody see how old the rules are.",
		Before: "checked: last spring", After: "checked: 2026-03-01",
	},
	{
		ID: "range/code", Title: "codes can be read by the range's own grammar",
		Why:    "Which letter or digit is which tone differs from maker to maker, so every code is taken apart by its own range.",
		Before: "shades: [8X] without a tone X", After: "shades: [8V]",
	},
	{
		ID: "range/currency", Title: "prices of a range are in one currency",
		Why:    "Costs are added up.",
		Before: "prices: {colour: 7.90 GBP, developer: 9.50 EUR}", After: "prices: {colour: 7.90 GBP, developer: 9.50 GBP}",
	},
	{
		ID: "range/hue", Title: "a base is a hue of the colour wheel",
		Why:    "What a base cancels is the hue across the wheel, so it has to be one of the twelve.",
		Before: "V: {name: violet, base: purple}", After: "V: {name: violet, base: violet}",
	},
	{
		ID: "range/kind", Title: "directions are given for known kinds of colour",
		Why:    "The kinds are permanent, demi, toner, high-lift, lightener, filler and direct.",
		Before: "kinds: {demi-permanent: …}", After: "kinds: {demi: …}",
	},
	{
		ID: "range/level", Title: "shades lie on the range's own scale of levels",
		Why:    "Scales end at 10, 11, 12 or 13, as the maker says.",
		Before: "shades: [13N] on a range from 1 to 10", After: "shades: [10N]",
	},
	{
		ID: "range/pack", Title: "a pack holds something",
		Why:    "Orders are rounded up to whole packs.",
		Before: "packs: {colour: 0 g}", After: "packs: {colour: 60 g}",
	},
	{
		ID: "range/price", Title: "a price is an amount and a currency",
		Why:    "Costs are reckoned to the penny.",
		Before: "prices: {colour: 7.9}", After: "prices: {colour: 7.90 GBP}",
	},
	{
		ID: "range/shade", Title: "shades are in the range",
		Why:    "A code the maker does not sell cannot be weighed. plait never guesses what it might have meant.",
		Source: "the range file of the course",
		Before: "colour: 30 g 6Z", After: "colour: 30 g 6N",
	},
	{
		ID: "range/shade-twice", Title: "a range lists a shade once",
		Why:    "A code listed twice is usually another one mistyped.",
		Before: "shades: [8N, 8N]", After: "shades: [8N, 8V]",
	},
	{
		ID: "range/undertone", Title: "warmth goes from red to yellow as hair gets lighter",
		Why:    "Sources differ by two levels on where a stage begins, but never on the order.",
		Source: "dermatology review of hair bleaches: black, brown, red, orange, yellow, pale yellow",
		Before: "undertone: {7: yellow, 8: orange}", After: "undertone: {7: orange, 8: yellow}",
	},
	{
		ID: "range/unknown", Title: "a formula has a range, and it exists",
		Why:    "Shades, ratio, time and strengths are held against a maker's range. A course with several says which.",
		Before: "range: medow", After: "range: meadow",
	},
	{
		ID: "recording/time", Title: "times in the recording can be read",
		Why:    "A step's time ties it to the film: minutes and seconds, with the start before the end.",
		Before: "## 0:75 Mix the gloss", After: "## 1:15 Mix the gloss",
	},
	{
		ID: "text/accept", Title: "an accepted finding exists and has a reason",
		Why: "A lesson can let a warning stand and say why. An acceptance that matches nothing hides the next real finding, so it is " +
			"reported itself.",
		Before: "accept: [{rule: formula/target-levle, because: strand test done}]",
		After:  "accept: [{rule: formula/target-level, because: strand test done}]",
	},
	{
		ID: "text/alt", Title: "a picture says in words what it shows",
		Why:    "For a reader who cannot see it, for a page without it, and for paper.",
		Source: "WCAG 2.2, success criterion 1.1.1",
		Before: "![](plan.svg)", After: "![The gloss goes on the lengths, below the parietal ridge](plan.svg)",
	},
	{
		ID: "text/duplicate-key", Title: "a key stands once",
		Why:    "Of two values one would silently win.",
		Before: "ratio: 1:1\nratio: 1:2", After: "ratio: 1:2",
	},
	{
		ID: "text/header", Title: "a text begins with a header between two lines of hyphens",
		Why:    "The header carries the title and all that is not prose.",
		Before: "---\ntitle: A gloss\n\n## Mix", After: "---\ntitle: A gloss\nsummary: One bowl.\n---\n\n## Mix",
	},
	{
		ID: "text/link", Title: "links lead somewhere",
		Why:    "A link to a file of the course becomes a link to its page, so it has to name one. Pages load nothing from elsewhere.",
		Before: "[safety](saftey.md)", After: "[safety](../../content/safety.md)",
	},
	{
		ID: "text/missing", Title: "files of the course are there",
		Why:    "A folder under lessons is a lesson, and a lesson is a file lesson.md.",
		Before: "lessons/05-new without lesson.md", After: "lessons/05-new/lesson.md",
	},
	{
		ID: "text/missing-key", Title: "what is needed is there",
		Why:    "Some keys cannot be left out.",
		Before: "a lesson without title:", After: "title: A gloss over brassy lengths",
	},
	{
		ID: "text/picture", Title: "pictures lie in the course",
		Why:    "A site that works without a network carries its pictures along.",
		Before: "![The plan](../../../plan.svg)", After: "![The plan](plan.svg)",
	},
	{
		ID: "text/size", Title: "a text is no larger than 256 KiB",
		Why:    "No lesson comes near it, and larger Markdown can take minutes to read.",
		Before: "a lesson.md of 200 MB", After: "several lessons",
	},
	{
		ID: "text/steps", Title: "a lesson has steps",
		Why:    "A step is a heading of the second level, with its time in the recording if there is one.",
		Before: "prose without a heading", After: "## 0:42 Mix the gloss",
	},
	{
		ID: "text/unknown-key", Title: "keys are known",
		Why:    "A mistyped key would silently do nothing.",
		Before: "color: 30 g 8N", After: "colour: 30 g 8N",
	},
	{
		ID: "text/unreadable", Title: "files can be read",
		Why:    "A file has to lie inside the course; links that lead out of it are not followed.",
		Before: "lesson.md linked to a file elsewhere", After: "lesson.md in the folder itself",
	},
	{
		ID: "text/utf-8", Title: "texts are UTF-8",
		Why:    "Any other encoding would show the wrong letters.",
		Before: "caf\\xe9", After: "café",
	},
	{
		ID: "text/value", Title: "a value in braces names something computed",
		Why:    "{developer of gloss} is replaced by what plait works out, so that the prose cannot go stale.",
		Before: "Pour `{developer of glos}`", After: "Pour `{developer of gloss}`",
	},
	{
		ID: "text/wrong-kind", Title: "a value has the form its key wants",
		Why:    "A list where one value is wanted, or the other way round.",
		Before: "title: [a, b]", After: "title: a and b",
	},
	{
		ID: "text/yaml", Title: "headers and blocks are plain YAML",
		Why:    "Keys with values, lists, quotes and comments. Anchors, aliases and tags are left out, so that no text grows when read.",
		Before: "colour: \"30 g 8N", After: "colour: 30 g 8N",
	},
	{
		ID: "words/see", Title: "references in the word list exist",
		Why:    "A word that sends the reader on has to send them somewhere.",
		Before: "see: [bas]", After: "see: [base]",
	},
	{
		ID: "words/twice", Title: "a word is explained once",
		Why:    "Two explanations of one word are one too many.",
		Before: "term: level, twice", After: "term: level",
	},
}
