package check

var formulaHead = Rule{
	ID:    "formula/head",
	Title: "length and density of hair are known words",
	Why: "How much a head usually takes is reckoned from its length and density, so plait must know the words: regrowth, " +
		"short, chin, shoulder, below shoulder, mid-back; fine, medium, dense.",
	Source: "common practice, no source",
	Of:     Header,
	Before: "hair: {roots: 7 natural, length: sholder, density: thick}",
	After:  "hair: {roots: 7 natural, length: shoulder, density: dense}",
	Since:  "1.0",
}
