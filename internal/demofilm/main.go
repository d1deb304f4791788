// Command demofilm makes the film of the demo's gloss lesson and its captions:
//
//	go run ./internal/demofilm lessons/04-brassy-gloss
//
// The pictures are plait's own drawings, the voice is that of a speech program. It
// asks three programs that Debian has: espeak-ng to speak, rsvg-convert (package
// librsvg2-bin) for the pictures and ffmpeg for the film. It writes gloss.webm and
// gloss.en.vtt and prints when the steps begin, which the headings of the lesson
// say as well. The film in the tree was made by it; builds and tests do not run it.
package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"plait/internal/caption"
	"plait/internal/measure"
	"plait/internal/media"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: demofilm FOLDER")
		os.Exit(2)
	}
	if err := run(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(folder string) error {
	scratch, err := os.MkdirTemp("", "demofilm")
	if err != nil {
		return err
	}
	defer os.RemoveAll(scratch)
	scenes, err := story(folder)
	if err != nil {
		return err
	}
	if err := speak(scenes, scratch); err != nil {
		return err
	}
	shots, err := layOut(scenes, scratch)
	if err != nil {
		return err
	}
	for i, s := range shots {
		if err := s.draw(scratch, i); err != nil {
			return err
		}
	}
	if err := film(shots, scratch, filepath.Join(folder, "gloss.webm")); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(folder, "gloss.en.vtt"), caption.WebVTT(captions(shots)), 0o666)
}

// shot is one picture with what is said over it.
type shot struct {
	line
	from, until time.Duration
	voice       string // file
}

// The pace of the film: pause is how long a picture stands after its words, and least how
// long a step takes: ten seconds make a chapter.
const (
	pause = 700 * time.Millisecond
	least = 10500 * time.Millisecond
)

// layOut gives each line the time its words take.
func layOut(scenes []scene, scratch string) ([]shot, error) {
	var shots []shot
	at := time.Duration(0)
	for n, s := range scenes {
		begun := at
		fmt.Printf("%s %s\n", measure.Clock(at), s.title)
		for i, l := range s.lines {
			voice := spoken(scratch, n, i)
			length, err := lengthOf(voice)
			if err != nil {
				return nil, err
			}
			until := at + length + pause
			if i == len(s.lines)-1 {
				// Steps begin at whole seconds, as headings say them.
				until = max(until, begun+least).Truncate(time.Second) + time.Second
			}
			l.picture = frame(s.title, l.picture)
			shots = append(shots, shot{line: l, from: at, until: until, voice: voice})
			at = until
		}
	}
	return shots, nil
}

func lengthOf(name string) (time.Duration, error) {
	f, err := os.Open(name)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	info, err := media.Read(f)
	return info.Length, err
}

// captions are what is said, each until the next begins.
func captions(shots []shot) []caption.Cue {
	var cues []caption.Cue
	for _, s := range shots {
		cues = append(cues, caption.Cue{From: s.from, Until: min(s.until, s.from+7*time.Second), Text: s.text})
	}
	return cues
}

// spoken is the file of a line's voice.
func spoken(scratch string, scene, line int) string {
	return filepath.Join(scratch, fmt.Sprintf("said-%d-%d.wav", scene, line))
}

// speak lets every line be spoken.
func speak(scenes []scene, scratch string) error {
	for n, s := range scenes {
		for i, l := range s.lines {
			words := strings.NewReplacer("\n", " ", "8N", "8 N", "8V", "8 V", " g ", " grams ", "vol", "volume").Replace(l.text)
			if err := command("espeak-ng", "-v", "en-gb", "-s", "138", "-p", "42", "-w", spoken(scratch, n, i), words); err != nil {
				return err
			}
		}
	}
	return nil
}

// draw writes the picture of a shot.
func (s shot) draw(scratch string, i int) error {
	svg := filepath.Join(scratch, fmt.Sprintf("shot-%02d.svg", i))
	if err := os.WriteFile(svg, []byte(s.picture), 0o666); err != nil {
		return err
	}
	return command("rsvg-convert", "-o", filepath.Join(scratch, fmt.Sprintf("shot-%02d.png", i)), svg)
}

func command(name string, args ...string) error {
	if said, err := exec.Command(name, args...).CombinedOutput(); err != nil {
		return fmt.Errorf("%s: %w\n%s", name, err, said)
	}
	return nil
}
