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
		ID: "recording/film", Title: "a film says how long it runs",
		Why: "Steps are held against the length of the film, which plait reads from its file. A file that is damaged will not play " +
			"everywhere; one that was cut off while recording may not know its own length, which can then be written in the header.",
		Of:     InWords,
		Before: "film: gloss.webm, where gloss.webm is a file of another kind or half a file",
		After:  "film: gloss.webm, a film that plays from beginning to end",
		Since:  "1.0",
	},
	{
		ID: "recording/link", Title: "a link to a film is a whole address",
		Why:    "The page offers it to the reader and, when the reader agrees, loads the film from there: over an encrypted line, so that nobody can put another film in its place.",
		Of:     Header,
		Before: "recording: {link: films.example/gloss.mp4}",
		After:  "recording: {link: \"https://films.example/gloss.mp4\", length: \"3:51\"}",
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
