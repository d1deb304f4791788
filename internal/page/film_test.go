package page

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/tools/txtar"

	"plait/internal/artifact"
)

// recorded is a course of one lesson with a hosted film.
const recorded = `-- content/course.yaml --
title: Films
language: en-GB
address: https://school.example/films
modules: [{name: films, title: Films, lessons: [gloss]}]
-- lessons/01-gloss/lesson.md --
---
title: A gloss
summary: One bowl & a film.
recording: {link: "https://films.example/gloss.webm", captions: a.en.vtt, length: "1:00"}
---

## 0:05 Look

Look.

## 0:12-0:30 Mix *slowly*

Mix.

## 0:31 Wait

## 0:38 Rinse

Rinse.
-- lessons/01-gloss/a.en.vtt --
WEBVTT

00:13.000 --> 00:16.000
<v Ann>1 < 2
parts of 8N
`

// film is a WebM file of 60 seconds without anything to see.
const filmBytes = "\x1a\x45\xdf\xa3\x80\x18\x53\x80\x67\x90\x15\x49\xa9\x66\x8b\x44\x89\x88\x40\xed\x4c\x00\x00\x00\x00\x00"

// renderRecorded renders the course with some text in place of another.
func renderRecorded(t *testing.T, replace ...string) *artifact.Tree {
	t.Helper()
	files := fstest.MapFS{"lessons/01-gloss/gloss.webm": {Data: []byte(filmBytes)}}
	for _, f := range txtar.Parse([]byte(strings.NewReplacer(replace...).Replace(recorded))).Files {
		files[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	c, d := readCourse(t, files)
	tree, err := Render(c, d, Options{Theme: theme(t), Files: files})
	if err != nil {
		t.Fatal(err)
	}
	return tree
}

func expectFile(t *testing.T, tree *artifact.Tree, name, want string) {
	t.Helper()
	f, ok := tree.Get(name)
	if !ok {
		t.Errorf("there is no %s", name)
	}
	if got := string(f.Data); got != want {
		t.Errorf("%s: got\n%s\nwant\n%s", name, got, want)
	}
}

func expectIn(t *testing.T, tree *artifact.Tree, name string, words ...string) {
	t.Helper()
	f, _ := tree.Get(name)
	for _, w := range words {
		if !strings.Contains(string(f.Data), w) {
			t.Errorf("%s lacks %s", name, w)
		}
	}
}

func TestRecordingTexts(t *testing.T) {
	tree := renderRecorded(t)
	expectFile(t, tree, "lessons/gloss.chapters.vtt", "WEBVTT\n"+
		"\nlook\n00:00:05.000 --> 00:00:12.000\nLook\n"+
		"\nmix-slowly\n00:00:12.000 --> 00:00:30.000\nMix slowly\n"+
		"\nwait\n00:00:31.000 --> 00:00:38.000\nWait\n"+
		"\nrinse\n00:00:38.000 --> 00:01:00.000\nRinse\n")
	expectFile(t, tree, "lessons/gloss.captions.vtt", "WEBVTT\n\n00:00:13.000 --> 00:00:16.000\n<v Ann>1 &lt; 2\nparts of 8N\n")
	expectFile(t, tree, "lessons/gloss.description.txt",
		"A gloss\n\nOne bowl & a film.\n\n0:00 Look\n0:12 Mix slowly\n0:31 Wait\n\nhttps://school.example/films/lessons/gloss.html\n")
}

// The first chapter of a description stands at 0:00 whenever the first step begins.
func TestDescriptionBeginsAtTheBeginning(t *testing.T) {
	tree := renderRecorded(t, "## 0:05 Look", "## 0:11 Look", "## 0:12-0:30 Mix", "## 0:22-0:30 Mix", "address: https://school.example/films\n", "")
	expectFile(t, tree, "lessons/gloss.description.txt",
		"A gloss\n\nOne bowl & a film.\n\n0:00 A gloss\n0:11 Look\n0:22 Mix slowly\n0:38 Rinse\n")
}

func TestHostedFilmPage(t *testing.T) {
	tree := renderRecorded(t)
	expectIn(t, tree, "lessons/gloss.html",
		"media-src data: https://films.example; connect-src &#39;none&#39;",
		`<meta name="referrer" content="no-referrer">`,
		`<template id="film_player">`,
		`<a class="when" href="https://films.example/gloss.webm#t=12" data-at="12" data-until="30"><time datetime="PT12S">0:12–0:30</time></a>`,
		`srclang="en" src="data:text/vtt;base64,V0VCVlRU`,
		`<rect x="12" width="18" height="1" `)
}

func TestFilmInTheCourse(t *testing.T) {
	tree := renderRecorded(t, `link: "https://films.example/gloss.webm"`, "film: gloss.webm")
	const at = "assets/gloss-"
	var film artifact.File
	for _, f := range tree.Files() {
		if strings.HasPrefix(f.Path, at) {
			film = f
		}
	}
	if film.Input != "lessons/01-gloss/gloss.webm" || film.Data != nil {
		t.Fatalf("the film is %+v", film)
	}
	expectIn(t, tree, "lessons/gloss.html", `src="../`+film.Path+`"`, "media-src &#39;self&#39; data:; connect-src")
	page, _ := tree.Get("lessons/gloss.html")
	for _, never := range []string{"no-referrer", "film_player", `class="ask"`} {
		if strings.Contains(string(page.Data), never) {
			t.Errorf("the page has %s", never)
		}
	}
}

// Structured data says where the film is and where each step begins in it.
func TestFilmData(t *testing.T) {
	page, _ := renderRecorded(t).Get("lessons/gloss.html")
	found := regexp.MustCompile(`(?s)<script type="application/ld\+json">(.*?)</script>`).FindSubmatch(page.Data)
	if found == nil {
		t.Fatal("the page has none")
	}
	var o filmObject
	if err := json.Unmarshal(found[1], &o); err != nil {
		t.Fatal(err)
	}
	if o.Type != "VideoObject" || o.Duration != "PT60S" || o.Content != "https://films.example/gloss.webm" || len(o.Parts) != 4 {
		t.Fatalf("got %+v", o)
	}
	want := clipObject{Type: "Clip", Name: "Mix slowly", Start: 12, End: 30, URL: "https://school.example/films/lessons/gloss.html?t=12#mix-slowly"}
	if o.Parts[1] != want {
		t.Errorf("got %+v, want %+v", o.Parts[1], want)
	}
}
