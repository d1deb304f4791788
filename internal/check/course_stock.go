package check

var courseStock = Rule{
	ID:    "course/stock",
	Title: "what is in the house is a shade or a developer of its range, with a weight",
	Why: "An order takes off what is on the shelf. Something that no order knows would be bought again, and a weight in " +
		"the wrong unit would leave the class short.",
	Source: "the range file of the course",
	Of:     Settings,
	Before: "stock: {meadow: {8Z: 45 g}}",
	After:  "stock: {meadow: {8N: 45 g}}",
	Since:  "1.0",
}
