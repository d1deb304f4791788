package check

var formulaStart = Rule{
	ID:    "formula/start",
	Title: "a bowl starts at a time, or counts from another bowl of the lesson",
	Why: "Where bowls overlap, each start hangs on the one before. A bowl that counts from none, or two that wait for each " +
		"other, cannot be laid out, and nobody would know when to pick up the second brush.",
	Source: "arithmetic",
	Of:     Lesson,
	Before: twoBowls("", "22 min after rot"),
	After:  twoBowls("", "22 min after root"),
	Since:  "1.0",
}
