package check

var courseClass = Rule{
	ID:     "course/class",
	Title:  "a class has heads and a share of waste",
	Why:    "What has to be bought follows from them. A share without its sign could mean a tenth or ten times as much.",
	Source: "arithmetic",
	Of:     Settings,
	Before: "class: {heads: 12, waste: 10}",
	After:  "class: {heads: 12, waste: 10 %}",
	Since:  "1.0",
}
