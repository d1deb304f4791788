// Package layouts holds what a reader sees of a course: page templates, style
// sheets and scripts. It only embeds them; package page renders the templates
// and package asset bundles the rest. A course that names a layouts folder of
// its own replaces any of these files by one of the same path.
package layouts

import "embed"

// FS holds templates/*.html, styles/*.css and scripts/*.js.
//
//go:embed templates styles scripts
var FS embed.FS
