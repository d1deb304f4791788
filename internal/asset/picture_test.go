package asset

import (
	"bytes"
	"image"
	"image/png"
	"testing"
	"testing/fstest"
)

func TestReadPicture(t *testing.T) {
	var picture bytes.Buffer
	if err := png.Encode(&picture, image.NewGray(image.Rect(0, 0, 30, 20))); err != nil {
		t.Fatal(err)
	}
	expectSize(t, "a.png", picture.String(), 30, 20)
	expectSize(t, "a.png", "no picture", 0, 0)
	expectSize(t, "a.svg", `<?xml version="1.0"?><!-- x --><svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 640 360">`, 640, 360)
	expectSize(t, "a.svg", `<svg width="64px" height="32.4" viewBox="0 0 10 10"/>`, 64, 32)
	expectSize(t, "a.svg", `<svg width="100%" height="100%" viewBox="0,0,10,20"/>`, 10, 20)
	expectSize(t, "a.svg", `<svg width="-5" height="1e99" viewBox="0 0 x"/>`, 0, 0)
	expectSize(t, "a.svg", `<svg`, 0, 0)
}

func expectSize(t *testing.T, name, data string, width, height int) {
	t.Helper()
	p, err := ReadPicture(fstest.MapFS{name: {Data: []byte(data)}}, name)
	if err != nil {
		t.Fatal(err)
	}
	if p.Width != width || p.Height != height {
		t.Errorf("%.40q is %d × %d, want %d × %d", data, p.Width, p.Height, width, height)
	}
	if want := Name(name, []byte(data)); p.Path != want {
		t.Errorf("path %q, want %q", p.Path, want)
	}
	if string(p.Data) != data {
		t.Errorf("%.40q is kept as %.40q", data, p.Data)
	}
}

func TestLargePictureIsHashedWhole(t *testing.T) {
	a, b := bytes.Repeat([]byte("a"), 3*headBytes), bytes.Repeat([]byte("a"), 3*headBytes)
	b[len(b)-1] = 'b'
	files := fstest.MapFS{"a.jpg": {Data: a}, "b/a.jpg": {Data: b}}
	x, err := ReadPicture(files, "a.jpg")
	if err != nil {
		t.Fatal(err)
	}
	y, err := ReadPicture(files, "b/a.jpg")
	if err != nil {
		t.Fatal(err)
	}
	if x.Path != Name("a.jpg", a) || x.Path == y.Path {
		t.Errorf("paths %s and %s", x.Path, y.Path)
	}
	if x.Data != nil {
		t.Error("a large picture is kept")
	}
}
