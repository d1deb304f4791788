package check

// twoBowls is a lesson whose second bowl starts as said, for the examples of rules
// about a service.
func twoBowls(header, start string) string {
	return "---\ntitle: A grown-out root\nsummary: Two zones, two bowls, one rinse.\n" + header + "---\n\n## Paint the roots\n\n" +
		"```formula root\nkind: demi\ncolour: 20 g 6N\ndeveloper: 6 vol\nratio: 1:2\n" +
		"start: 0 min\napply: 18 min\ntime: 20 min from last section\n```\n\n## Bring in the lengths\n\n" +
		"```formula refresh\nkind: demi\ncolour: 30 g 6N\ndeveloper: 6 vol\nratio: 1:2\n" +
		"start: " + start + "\napply: 6 min\ntime: 10 min from last section\n```\n"
}

// wholeHead is a lesson with one bowl of a size, for the examples of rules about a
// head.
func wholeHead(hair, amount string) string {
	return "---\ntitle: A first colour\nsummary: One bowl for the whole head.\nhair: " + hair + "\n---\n\n## Mix the bowl\n\n" +
		"```formula cover\non: [whole head]\nkind: permanent\ncolour: 6N\ndeveloper: 20 vol\nratio: 1:1.5\namount: " + amount + "\n```\n"
}

// bySection is a lesson with one bowl that goes on section by section, for the examples
// of rules about that.
func bySection(apply string) string {
	return "---\ntitle: A first colour\nsummary: One bowl for the whole head.\n---\n\n## Paint it\n\n" +
		"```formula cover\nkind: permanent\ncolour: 40 g 6N\ndeveloper: 20 vol\nratio: 1:1.5\n" +
		"apply: " + apply + "\ntime: 30 min from last section\n```\n"
}
