package check

// sheetCourse is a course with a lesson of a head sheet in front, back and nape, for
// the examples of rules about what goes where.
func sheetCourse(text string) string {
	return "-- content/course.yaml --\ntitle: First colours\nlanguage: en-GB\n" +
		"modules: [{name: colour, title: Colour, lessons: [gloss]}]\n" +
		"-- lessons/01-gloss/plan.head.yaml --\nsections:\n  - part: ear to ear\n" +
		"  - {part: level, at: occipital bone, to: ear back, of: back, gives: [back, nape]}\n" +
		"-- lessons/01-gloss/lesson.md --\n---\ntitle: A gloss\nsummary: One head, three sections.\n---\n\n## Work\n\n" + text
}

// sheetShown is the line that shows the sheet of sheetCourse.
const sheetShown = "![Where it goes](plan.head.yaml \"left, back\")\n\n"

// goesOn is a bowl that goes somewhere.
func goesOn(name, on string) string {
	return "```formula " + name + "\non: " + on + "\nkind: demi\ncolour: 20 g 6N\ndeveloper: 6 vol\nratio: 1:2\n```\n\n"
}
