// Package starter holds the small course that a new course folder begins with:
// one module, one lesson, one range, a word list and two standing pages.
package starter

import (
	"embed"
	"io/fs"
)

// top is the folder of this package that holds the course.
const top = "course"

//go:embed course
var embedded embed.FS

// Files returns the starter course as it is to lie in a new folder: its names
// are relative to the top of the course, such as content/course.yaml.
func Files() fs.FS {
	files, err := fs.Sub(embedded, top)
	if err != nil {
		// fs.Sub refuses only names that are not valid paths, and top is a constant.
		panic(err)
	}
	return files
}
