package caption

import (
	"path"
	"strings"
)

// Language is the language that the name of a captions file tells, as gloss.en.vtt
// does, or nothing.
func Language(name string) string {
	language := strings.TrimPrefix(path.Ext(strings.TrimSuffix(name, path.Ext(name))), ".")
	if main, _, _ := strings.Cut(language, "-"); len(main) == 2 || len(main) == 3 {
		return language
	}
	return ""
}

// IsEnglish reports whether a language tag is that of English. What is not said counts
// as English.
func IsEnglish(tag string) bool {
	main, _, _ := strings.Cut(strings.ToLower(tag), "-")
	return main == "" || main == "en"
}
