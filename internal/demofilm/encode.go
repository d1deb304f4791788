package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// ahead is two pictures of the film.
const ahead = 200 * time.Millisecond

// film joins pictures and voices. Every shot becomes a voice with silence behind it,
// as long as the shot, so that sound and picture cannot drift apart. Pictures change a
// little ahead of their time, so that a film that is stopped at the beginning of a
// step shows the step.
func film(shots []shot, scratch, out string) error {
	var pictures, voices strings.Builder
	for i, s := range shots {
		length := (s.until - s.from).Seconds()
		padded := filepath.Join(scratch, fmt.Sprintf("voice-%02d.wav", i))
		if err := command("ffmpeg", "-loglevel", "error", "-i", s.voice, "-af", "apad", "-t", fmt.Sprint(length), "-ar", "24000", padded); err != nil {
			return err
		}
		if i == 0 {
			length -= ahead.Seconds()
		}
		fmt.Fprintf(&pictures, "file shot-%02d.png\nduration %g\n", i, length)
		fmt.Fprintf(&voices, "file voice-%02d.wav\n", i)
	}
	// The last picture is named once more, or its duration would not count.
	fmt.Fprintf(&pictures, "file shot-%02d.png\n", len(shots)-1)
	for name, text := range map[string]string{"pictures.txt": pictures.String(), "voices.txt": voices.String()} {
		if err := os.WriteFile(filepath.Join(scratch, name), []byte(text), 0o666); err != nil {
			return err
		}
	}
	end := shots[len(shots)-1].until
	return command("ffmpeg", "-loglevel", "error", "-y",
		"-f", "concat", "-i", filepath.Join(scratch, "pictures.txt"),
		"-f", "concat", "-i", filepath.Join(scratch, "voices.txt"),
		"-r", "10", "-pix_fmt", "yuv420p",
		"-c:v", "libvpx-vp9", "-crf", "30", "-b:v", "0", "-g", "20", "-row-mt", "1",
		"-c:a", "libopus", "-b:a", "32k", "-ac", "1",
		"-fflags", "+bitexact", "-flags:v", "+bitexact", "-flags:a", "+bitexact", "-map_metadata", "-1",
		"-t", fmt.Sprint(end.Round(time.Millisecond).Seconds()), out)
}
