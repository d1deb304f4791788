// Package browsertest looks at the built demo course the way a reader and a
// checker do: it opens the pages from a folder in Chromium, runs the HTML and
// accessibility checkers on them, follows the links and prints them.
//
// It has no code to import. The tests need Chromium, the checkers of
// package.json (npm ci --ignore-scripts in this folder), Java and poppler's
// tools. A test whose tool is missing is skipped and says which. The
// environment steers the rest:
//
//	PLAIT_BROWSER=required  a missing tool is a failure, not a skip
//	PLAIT_SITE=DIR          look at the site in DIR instead of building the demo
//	PLAIT_SHOTS=DIR         write pictures of some pages to DIR
package browsertest
