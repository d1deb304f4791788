package media

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io/fs"
	"math"
	"strings"
	"testing"
	"testing/fstest"
	"time"
)

// The files of these tests are built here, byte by byte, from the standards that
// the readers name.

func readBytes(data string) (Info, error) {
	return read(&file{r: strings.NewReader(data), size: int64(len(data))})
}

// expectLength reads a file that says how long it runs.
func expectLength(t *testing.T, what, data string, want Info) {
	t.Helper()
	got, err := readBytes(data)
	if err != nil || got != want {
		t.Errorf("%s: got %v %dx%d, %v; want %v %dx%d", what, got.Length, got.Width, got.Height, err, want.Length, want.Width, want.Height)
	}
}

// expectError reads a file that does not.
func expectError(t *testing.T, what, data string, want error) {
	t.Helper()
	if got, err := readBytes(data); !errors.Is(err, want) {
		t.Errorf("%s: got %v, %v; want %v", what, got.Length, err, want)
	}
}

func be16(n int) string { return string(binary.BigEndian.AppendUint16(nil, uint16(n))) }
func be32(n int) string { return string(binary.BigEndian.AppendUint32(nil, uint32(n))) }
func be64(n int) string { return string(binary.BigEndian.AppendUint64(nil, uint64(n))) }
func le32(n int) string { return string(binary.LittleEndian.AppendUint32(nil, uint32(n))) }

// b is a box of ISO/IEC 14496-12.
func b(name string, content ...string) string {
	all := strings.Join(content, "")
	return be32(8+len(all)) + name + all
}

var zeros = strings.Repeat("\x00", 80)

func TestMP4(t *testing.T) {
	ftyp := b("ftyp", "isom", be32(0))
	short := b("mvhd", be32(0), be32(0), be32(0), be32(600), be32(600*61+300), zeros)
	long := b("mvhd", be32(1<<24), be64(0), be64(0), be32(90000), be64(90000*4000), zeros)
	empty := b("mvhd", be32(0), be32(0), be32(0), be32(1000), be32(0), zeros)
	unknown := b("mvhd", be32(0), be32(0), be32(0), be32(1000), be32(-1), zeros)
	picture := b("trak", b("tkhd", be32(0), zeros[:76], be32(640<<16), be32(360<<16)))
	sound := b("trak", b("tkhd", be32(0), zeros))
	mdat := b("mdat", zeros)
	film := Info{61500 * time.Millisecond, 640, 360}

	expectLength(t, "header first", ftyp+b("moov", short, sound, picture)+mdat, film)
	expectLength(t, "header last", ftyp+mdat+b("free")+b("moov", picture, short), film)
	expectLength(t, "a long size", ftyp+be32(1)+"mdat"+be64(16+80)+zeros+b("moov", short), Info{Length: film.Length})
	expectLength(t, "a size to the end", ftyp+b("moov", long, picture)+be32(0)+"mdat"+zeros, Info{4000 * time.Second, 640, 360})
	expectLength(t, "fragments", ftyp+b("moov", empty, b("mvex", b("mehd", be32(0), be32(2500)))), Info{Length: 2500 * time.Millisecond})
	expectLength(t, "long fragments", ftyp+b("moov", unknown, b("mvex", b("mehd", be32(1<<24), be64(2500)))), Info{Length: 2500 * time.Millisecond})
	sidx := func(version, track, rate int, times string) string {
		return b("sidx", be32(version<<24), be32(track), be32(rate), times, be16(0), be16(3),
			be32(9), be32(1500), be32(0), be32(9), be32(2000), be32(0), be32(1<<31|9), be32(3500), be32(0))
	}
	expectLength(t, "an index", ftyp+b("moov", empty)+sidx(0, 1, 1000, be32(0)+be32(0)), Info{Length: 3500 * time.Millisecond})
	expectLength(t, "an index for each track", ftyp+b("moov", empty)+sidx(0, 1, 1000, be32(0)+be32(0))+sidx(0, 2, 2000, be32(0)+be32(0)), Info{Length: 3500 * time.Millisecond})
	expectLength(t, "an index in pieces", ftyp+b("moov", empty)+sidx(0, 1, 1000, be32(0)+be32(0))+sidx(0, 1, 1000, be32(0)+be32(0)), Info{Length: 7 * time.Second})
	expectLength(t, "a wide index", ftyp+b("moov", empty)+sidx(1, 1, 1000, be64(0)+be64(0)), Info{Length: 3500 * time.Millisecond})

	expectFragments(t, ftyp, empty)

	expectError(t, "no length", ftyp+b("moov", empty)+mdat, ErrNoLength)
	expectError(t, "no clock", ftyp+b("moov", b("mvhd", zeros, zeros)), ErrNoLength)
	expectError(t, "cut off", (ftyp + b("moov", short))[:60], ErrBroken)
	expectError(t, "too small a part", ftyp+be32(4)+"moov", ErrBroken)
	expectError(t, "years", ftyp+b("moov", b("mvhd", be32(0), be32(0), be32(0), be32(1), be32(1<<30), zeros)), ErrNoLength)
}

// expectFragments checks films in fragments that nothing says the length of but their
// samples (ISO/IEC 14496-12, sections 8.8.7, 8.8.8 and 8.8.12).
func expectFragments(t *testing.T, ftyp, empty string) {
	t.Helper()
	track := func(id, rate int) string {
		return b("trak", b("tkhd", be32(0), zeros[:8], be32(id), zeros[:60]), b("mdia", b("mdhd", be32(0), zeros[:8], be32(rate), be32(0))))
	}
	wide := b("trak", b("tkhd", be32(1<<24), zeros[:16], be32(1), zeros[:60]), b("mdia", b("mdhd", be32(1<<24), zeros[:16], be32(1000), be64(0))))
	trex := func(id, usual int) string { return b("trex", be32(0), be32(id), be32(1), be32(usual), zeros[:8]) }
	head := ftyp + b("moov", empty, track(1, 1000), track(2, 48000), b("mvex", trex(1, 40), trex(2, 1024)))
	moof := func(parts ...string) string { return b("moof", b("mfhd", zeros[:8]), b("traf", parts...)) }
	// Each sample of these says its length and its size.
	timed := b("trun", be32(0x301), be32(3), be32(0), be32(40), be32(9), be32(50), be32(9), be32(60), be32(9))
	plain := func(n int) string { return b("trun", be32(0x5), be32(n), be32(0), be32(0)) }

	for what, of := range map[string]struct {
		file string
		want time.Duration
	}{
		"usual samples":           {head + moof(b("tfhd", be32(0), be32(1)), plain(25)) + moof(b("tfhd", be32(0), be32(1)), plain(10)), 1400 * time.Millisecond},
		"samples with lengths":    {head + moof(b("tfhd", be32(0), be32(1)), timed, timed), 300 * time.Millisecond},
		"samples of the fragment": {head + moof(b("tfhd", be32(0xb), be32(1), be64(0), be32(1), be32(20)), plain(50)), time.Second},
		"a beginning":             {head + moof(b("tfhd", be32(0), be32(1)), b("tfdt", be32(0), be32(5000)), plain(25)), 6 * time.Second},
		"a wide beginning":        {ftyp + b("moov", empty, wide) + moof(b("tfhd", be32(0), be32(1)), b("tfdt", be32(1<<24), be64(7000)), timed), 7150 * time.Millisecond},
		"the longest track":       {head + moof(b("tfhd", be32(0), be32(1)), plain(25)) + moof(b("tfhd", be32(0), be32(2)), plain(94)), 2005 * time.Millisecond},
	} {
		expectLength(t, what, of.file, Info{Length: of.want})
	}
	expectError(t, "more samples than there are", head+moof(b("tfhd", be32(0), be32(1)), b("trun", be32(0x100), be32(1<<30), be32(40))), ErrBroken)
	expectError(t, "a fragment of no track", head+moof(plain(25)), ErrNoLength)
}

// el is an element of RFC 8794 with a size of eight bytes.
func el(id int, content ...string) string {
	all := strings.Join(content, "")
	return elementID(id) + string(byte(1)) + be64(len(all))[1:] + all
}

// open is an element of unknown size.
func open(id int, content ...string) string {
	return elementID(id) + "\xff" + strings.Join(content, "")
}

func elementID(id int) string { return strings.TrimLeft(be32(id), "\x00") }

func TestMatroska(t *testing.T) {
	head := el(idEBML, el(0x4282, "webm"))
	video := el(idTracks, el(idTrackEntry, el(0x83, "\x02")), el(idTrackEntry, el(idVideo, el(idPixelWidth, be16(640)), el(idPixelHeight, be16(360)))))
	duration := el(idDuration, be64(int(math.Float64bits(61500))))
	block := func(ticks int) string { return el(idSimpleBlock, "\x81", be16(ticks), "\x80data") }
	clusters := func(element func(int, ...string) string) string {
		return element(idCluster, el(idTimestamp, be16(0)), block(0), block(40)) +
			element(idCluster, el(idTimestamp, be16(2000)), el(idBlockGroup, el(idBlock, "\x40\x01", be16(500), "\x00data")), block(-20))
	}
	film := Info{61500 * time.Millisecond, 640, 360}

	expectLength(t, "whole", head+el(idSegment, el(idInfo, el(idTimestampScale, be32(1e6)), duration), video, clusters(el)), film)
	expectLength(t, "the usual clock", head+el(idSegment, el(idInfo, duration), video), film)
	expectLength(t, "a short number", head+el(idSegment, el(idInfo, el(idDuration, be32(int(math.Float32bits(250)))))), Info{Length: 250 * time.Millisecond})
	expectLength(t, "a fine clock", head+el(idSegment, el(idInfo, el(idTimestampScale, be32(1000)), duration)), Info{Length: 62 * time.Millisecond})
	expectLength(t, "sound while recording", head+open(idSegment, el(idInfo), clusters(open)), Info{Length: 2500 * time.Millisecond})
	expectLength(t, "film while recording", head+open(idSegment, el(idInfo), video, clusters(el)), Info{2500 * time.Millisecond, 640, 360})

	expectError(t, "no length", head+el(idSegment, el(idInfo)), ErrNoLength)
	expectError(t, "no clock", head+el(idSegment, el(idInfo, el(idTimestampScale, be32(0)), duration)), ErrNoLength)
	expectError(t, "no number", head+el(idSegment, el(idInfo, el(idDuration, be64(int(math.Float64bits(math.NaN())))))), ErrNoLength)
	expectError(t, "cut off", (head + el(idSegment, el(idInfo, duration)))[:40], ErrBroken)
	expectError(t, "no element", head+"\x00\x00\x00\x00\x00", ErrBroken)
}

// frames are frames of MPEG 1 layer III at 128 kbit/s and 44 100 samples a second,
// which take 417 bytes, or 418 with padding, and 1152 samples.
func frames(n int, mark string) string {
	one := "\xff\xfb\x90\x00" + strings.Repeat("\x00", 413)
	if mark == "" {
		return strings.Repeat(one, n)
	}
	return one[:36] + mark + one[36+len(mark):] + strings.Repeat(one, n)
}

func TestMP3(t *testing.T) {
	want := Info{Length: 2612 * time.Millisecond} // 100 × 1152 / 44100 s
	expectLength(t, "frames", frames(100, ""), want)
	expectLength(t, "an index", frames(100, "Xing"), want)
	expectLength(t, "another index", frames(100, "VBRI"), want)
	expectLength(t, "tags", "ID3\x04\x00\x00\x00\x00\x01\x02"+strings.Repeat("x", 130)+frames(100, "Info")+"TAG"+strings.Repeat(" ", 125), want)
	// MPEG 2, mono, 32 kbit/s, 22 050 samples a second: 104 bytes, 576 samples.
	expectLength(t, "half the rate", strings.Repeat("\xff\xf3\x40\xc0"+strings.Repeat("\x00", 100), 50), Info{Length: 1306 * time.Millisecond})
	// MPEG 2.5, stereo, 8 kbit/s, 8000 samples a second: 72 bytes.
	expectLength(t, "a quarter", strings.Repeat("\xff\xe3\x18\x00"+strings.Repeat("\x00", 68), 50), Info{Length: 3600 * time.Millisecond})
	expectError(t, "a tag alone", "ID3\x04\x00\x00\x00\x00\x00\x08"+strings.Repeat("x", 8), ErrNoLength)
	expectError(t, "no bit rate", strings.Repeat("\xff\xfb\x00\x00", 9), ErrFormat)
}

func TestWAV(t *testing.T) {
	head := "RIFF" + le32(0) + "WAVE"
	format := "fmt " + le32(16) + "\x01\x00\x01\x00" + le32(8000) + le32(16000) + "\x02\x00\x10\x00"
	data := strings.Repeat("\x00", 24000)
	want := Info{Length: 1500 * time.Millisecond}
	expectLength(t, "plain", head+format+"data"+le32(len(data))+data, want)
	expectLength(t, "an odd chunk", head+"LIST"+le32(3)+"abc\x00"+format+"data"+le32(len(data))+data+"LIST"+le32(4)+"abcd", want)
	expectLength(t, "while recording", head+format+"data"+le32(0)+data, want)
	expectLength(t, "never closed", head+format+"data"+le32(-1)+data, want)
	expectError(t, "no format", head+"data"+le32(len(data))+data, ErrNoLength)
	expectError(t, "no sound", head+format, ErrNoLength)
}

func TestOthers(t *testing.T) {
	expectError(t, "nothing", "", ErrFormat)
	expectError(t, "text", "WEBVTT\n\n00:01.000 --> 00:02.000\n", ErrFormat)
	expectError(t, "a picture", "\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", ErrFormat)
}

func TestReadFile(t *testing.T) {
	film := b("ftyp", "isom", be32(0)) + b("moov", b("mvhd", be32(0), be32(0), be32(0), be32(1), be32(5), zeros))
	f, err := fstest.MapFS{"a.mp4": {Data: []byte(film)}}.Open("a.mp4")
	if err != nil {
		t.Fatal(err)
	}
	if info, err := Read(f); err != nil || info.Length != 5*time.Second || !info.Sound() {
		t.Errorf("got %v, %v", info, err)
	}
	if _, err := Read(stream{f}); err == nil {
		t.Error("a file without places was read")
	}
}

// stream is a file that can only be read on.
type stream struct{ fs.File }

// FuzzRead reads any bytes as a recording, in bounded time.
func FuzzRead(f *testing.F) {
	f.Add([]byte(b("ftyp", "isom", be32(0)) + b("moov", b("trak", b("tkhd", zeros), b("mdia", b("mdhd", zeros)))) + b("moof", b("traf", b("tfhd", zeros), b("trun", zeros)))))
	f.Add([]byte(b("ftyp", "isom", be32(0)) + b("moov", b("mvhd", zeros), b("trak", b("tkhd", zeros))) + b("sidx", zeros)))
	f.Add([]byte(el(idEBML) + open(idSegment, el(idInfo, el(idDuration, be64(7))), open(idCluster, el(idTimestamp, be16(1)), el(idSimpleBlock, "\x81\x00\x01")))))
	f.Add([]byte("ID3\x04\x00\x00\x00\x00\x00\x00" + frames(2, "Xing")))
	f.Add([]byte("RIFF\x00\x00\x00\x00WAVEfmt \x10\x00\x00\x00" + zeros[:16] + "data"))
	f.Fuzz(func(t *testing.T, data []byte) {
		info, err := read(&file{r: bytes.NewReader(data), size: int64(len(data))})
		if err == nil && (info.Length <= 0 || info.Length > longest || info.Width < 0 || info.Height < 0) {
			t.Fatalf("got %+v", info)
		}
	})
}
