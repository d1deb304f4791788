package check

import "plait/internal/diag"

// readingRecording lists what is found while captions and films are read.
var readingRecording = []Rule{
	{
		ID: "recording/captions", Title: "captions can be read, all of them",
		Why: "A browser drops a caption for the smallest fault in its time and says nothing; who cannot hear the film then misses a sentence. " +
			"plait reads what can be read and says which captions a browser would not show.",
		Source:   "W3C WebVTT 1, sections 4 and 6",
		Severity: diag.Error,
		Of:       Files,
		Before:   "-- content/course.yaml --\ntitle: First colours\nlanguage: en-GB\nmodules: [{name: colour, title: Colour, lessons: [gloss]}]\n-- lessons/01-gloss/lesson.md --\n---\ntitle: A gloss\nsummary: One bowl.\nrecording: {captions: gloss.en.vtt}\n---\n\n## Mix\n-- lessons/01-gloss/gloss.en.vtt --\nWEBVTT\n\n00:00:42,000 --> 00:00:44,500\nTwo parts of 8N.\n",
		After:    "-- content/course.yaml --\ntitle: First colours\nlanguage: en-GB\nmodules: [{name: colour, title: Colour, lessons: [gloss]}]\n-- lessons/01-gloss/lesson.md --\n---\ntitle: A gloss\nsummary: One bowl.\nrecording: {captions: gloss.en.vtt}\n---\n\n## Mix\n-- lessons/01-gloss/gloss.en.vtt --\nWEBVTT\n\n00:00:42.000 --> 00:00:44.500\nTwo parts of 8N.\n",
		Since:    "1.0",
	},
	{
		ID: "recording/file", Title: "film and captions lie in the lesson's folder",
		Why:    "A site that works without a network carries its films along; one that is hosted elsewhere is named with link.",
		Of:     Files,
		Before: "-- content/course.yaml --\ntitle: First colours\nlanguage: en-GB\nmodules: [{name: colour, title: Colour, lessons: [gloss]}]\n-- lessons/01-gloss/lesson.md --\n---\ntitle: A gloss\nsummary: One bowl.\nrecording: {captions: gloss.vtt}\n---\n\n## Mix\n-- lessons/01-gloss/gloss.en.vtt --\nWEBVTT\n\n00:00:42.000 --> 00:00:44.500\nTwo parts of 8N.\n",
		After:  "-- content/course.yaml --\ntitle: First colours\nlanguage: en-GB\nmodules: [{name: colour, title: Colour, lessons: [gloss]}]\n-- lessons/01-gloss/lesson.md --\n---\ntitle: A gloss\nsummary: One bowl.\nrecording: {captions: gloss.en.vtt}\n---\n\n## Mix\n-- lessons/01-gloss/gloss.en.vtt --\nWEBVTT\n\n00:00:42.000 --> 00:00:44.500\nTwo parts of 8N.\n",
		Since:  "1.0",
	},
	{
		ID: "recording/time", Title: "times in the recording can be read",
		Why:    "A step's time ties it to the film: minutes and seconds, with the start before the end.",
		Of:     Prose,
		Before: "## 0:75 Mix the gloss",
		After:  "## 1:15 Mix the gloss",
		Since:  "1.0",
	},
}
