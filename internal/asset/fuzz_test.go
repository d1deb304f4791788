package asset

import "testing"

// A picture's head is read without a panic whatever is in it, and gives a size that a page
// can keep room for or none.
func FuzzSizeOf(f *testing.F) {
	f.Add("a.svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="40px" height="30" viewBox="0 0 4 4"/>`))
	f.Add("a.svg", []byte(`<svg viewBox="0 0 40 none"/>`)) // half a size
	f.Add("a.SVG", []byte(`<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY a "b">]><svg viewBox="0,0,1e9 &a;"/>`))
	f.Add("a.png", []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x7f\xff\xff\xff\x7f\xff\xff\xff\x08\x06\x00\x00\x00\x00\x00\x00\x00"))
	f.Add("a.gif", []byte("GIF89a\xff\xff\xff\xff\x80\x00\x00\x00\x00\x00\xff\xff\xff"))
	f.Add("a.jpg", []byte("\xff\xd8\xff\xc0\x00\x11\x08\xff\xff\xff\xff\x03\x01\x22\x00\x02\x11\x01\x03\x11\x01"))
	f.Fuzz(func(t *testing.T, name string, head []byte) {
		width, height := sizeOf(name, head)
		if width < 0 || height < 0 || (width == 0) != (height == 0) {
			t.Errorf("%q is %d by %d", name, width, height)
		}
	})
}
