package media

import "encoding/binary"

// MPEG audio layer III (ISO/IEC 11172-3 and 13818-3) is a row of frames that each
// say how long they are; what else a file may hold stands before or behind them.

// mp3Rates are the samples a second of MPEG 1; MPEG 2 has half of them and MPEG 2.5
// a quarter ([mp3Halves]).
var mp3Rates = [3]int{44100, 48000, 32000}

// mp3Bits are the thousands of bits a second of layer III in MPEG 1, then in MPEG 2
// and 2.5, by the number in the frame's head. Numbers 0 and 15 name no rate.
var mp3Bits = [2][16]int{
	{0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320, 0},
	{0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160, 0},
}

// mp3Halves is how many times the samples of a second are halved, by the number of
// the version: 0 is MPEG 2.5, 2 is MPEG 2 and 3 is MPEG 1.
var mp3Halves = [4]int{2, 0, 1, 0}

// mp3Frame is what the head of a frame says.
type mp3Frame struct {
	size    int64 // bytes
	samples int
	rate    int   // samples a second
	side    int64 // bytes between the head and where an index may stand
}

// parseMP3 reads the four bytes of a frame's head.
func parseMP3(b []byte) (mp3Frame, bool) {
	version, layer := b[1]>>3&3, b[1]>>1&3
	number, rate := b[2]>>4, b[2]>>2&3
	if b[0] != 0xff || b[1]>>5 != 7 || version == 1 || layer != 1 || rate == 3 {
		return mp3Frame{}, false
	}
	f := mp3Frame{samples: 1152, rate: mp3Rates[rate]}
	table, mono := 0, b[3]>>6 == 3
	switch {
	case version == 3 && mono:
		f.side = 17
	case version == 3:
		f.side = 32
	case mono:
		f.side = 9
	default:
		f.side = 17
	}
	if version != 3 {
		f.samples, table = 576, 1
		f.rate >>= mp3Halves[version]
	}
	kilobits := mp3Bits[table][number]
	f.size = int64(f.samples/8*1000*kilobits/f.rate) + int64(b[2]>>1&1)
	return f, kilobits > 0
}

func isMP3Frame(head []byte) bool {
	_, ok := parseMP3(head)
	return ok
}

// readMP3 counts the frames, which is exact whether or not their sizes differ.
func readMP3(f *file) (Info, error) {
	at := int64(0)
	if head := f.bytes(0, 10); string(head[:3]) == "ID3" {
		size := int64(head[6])<<21 | int64(head[7])<<14 | int64(head[8])<<7 | int64(head[9])
		at = 10 + size
	}
	seconds, first := 0.0, true
	for at+4 <= f.size && f.err == nil {
		frame, ok := parseMP3(f.bytes(at, 4))
		if !ok {
			break
		}
		if !first || !f.isIndex(at, frame) {
			seconds += float64(frame.samples) / float64(frame.rate)
		}
		at, first = at+frame.size, false
	}
	return Info{Length: length(seconds, 1)}, nil
}

// isIndex reports whether a frame holds, in place of sound, what some encoders say
// of the file.
func (f *file) isIndex(at int64, frame mp3Frame) bool {
	if frame.size < 40 || at+40 > f.size {
		return false
	}
	b := f.bytes(at, 40)
	switch string(b[4+frame.side:][:4]) {
	case "Xing", "Info":
		return true
	}
	return binary.BigEndian.Uint32(b[36:]) == 0x56425249 // VBRI
}
