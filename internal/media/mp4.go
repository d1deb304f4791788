package media

import (
	"encoding/binary"
	"fmt"
)

// The ISO base media file format (ISO/IEC 14496-12) is a tree of boxes: a size, a
// name of four letters, and content. QuickTime films (MOV) and M4A share it.

// box is a box's content.
type box struct {
	name      string
	from, end int64
}

// isBox reports whether a name is one that such files begin with.
func isBox(name string) bool {
	switch name {
	case "ftyp", "moov", "mdat", "free", "skip", "wide", "styp":
		return true
	}
	return false
}

// boxes calls do for each box within a stretch of the file.
func (f *file) boxes(from, end int64, do func(box)) {
	for from < end && f.err == nil {
		if end-from < 8 {
			return // a few bytes of padding
		}
		head := f.bytes(from, 8)
		size, content := int64(binary.BigEndian.Uint32(head)), from+8
		switch size {
		case 0: // to the end
			size = end - from
		case 1: // the size is a long one
			size = int64(binary.BigEndian.Uint64(f.bytes(from+8, 8)))
			content += 8
		}
		if f.err == nil && (size < content-from || size > end-from) {
			f.err = fmt.Errorf("%w: a part of it is larger than the whole", ErrBroken)
		}
		if f.err != nil {
			return
		}
		do(box{string(head[4:]), content, from + size})
		from += size
	}
}

// readMP4 takes the length from the film's header, or where that is empty, as in
// films made of fragments, from the header of the fragments, from the samples that they
// list or from their index, which some programs leave wrong.
func readMP4(f *file) (Info, error) {
	var info Info
	var whole, extended [2]float64 // ticks, ticks per second
	index := map[uint32]float64{}  // seconds of each track
	var pieces fragments
	f.boxes(0, f.size, func(b box) {
		switch b.name {
		case "moov":
			f.boxes(b.from, b.end, func(b box) {
				switch b.name {
				case "mvhd":
					whole = f.movieHeader(b)
				case "trak":
					f.track(b, &info)
					pieces.clock(f, b)
				case "mvex":
					f.boxes(b.from, b.end, func(b box) {
						switch b.name {
						case "mehd":
							extended[0] = f.versioned(b, 4)
						case "trex":
							pieces.usual(f, b)
						}
					})
				}
			})
		case "sidx":
			track, seconds := f.segments(b)
			index[track] += seconds
		}
	})
	extended[1] = whole[1]
	for _, clock := range [][2]float64{whole, extended} {
		if info.Length = length(clock[0], clock[1]); info.Length > 0 {
			return info, nil
		}
	}
	f.boxes(0, f.size, func(b box) {
		if b.name == "moof" {
			pieces.add(f, b)
		}
	})
	if info.Length = length(pieces.seconds(), 1); info.Length > 0 {
		return info, nil
	}
	for _, seconds := range index {
		info.Length = max(info.Length, length(seconds, 1))
	}
	return info, nil
}

// movieHeader reads the ticks and the ticks a second of an mvhd box.
func (f *file) movieHeader(b box) [2]float64 {
	at := f.pastTimes(b)
	return [2]float64{f.versioned(b, at+4-b.from), float64(f.uint32(at))}
}

// versioned reads a number at an offset of a box that takes four bytes in version 0
// and eight in version 1.
func (f *file) versioned(b box, at int64) float64 {
	size := int64(4)
	if f.bytes(b.from, 1)[0] == 1 {
		size = 8
	}
	return f.number(b.from+at, size)
}

// number reads four or eight bytes; all ones mean that the number is not known.
func (f *file) number(at, size int64) float64 {
	n, unknown := uint64(0), ^uint64(0)
	for _, b := range f.bytes(at, size) {
		n = n<<8 | uint64(b)
	}
	if n == unknown>>(64-8*size) {
		return 0
	}
	return float64(n)
}

// track takes the size of the picture from a track's header: 16.16 numbers at the
// end of the tkhd box, zero for sound.
func (f *file) track(b box, info *Info) {
	f.boxes(b.from, b.end, func(b box) {
		if b.name != "tkhd" || b.end-b.from < 8 || info.Width > 0 {
			return
		}
		size := f.bytes(b.end-8, 8)
		info.Width, info.Height = int(binary.BigEndian.Uint16(size)), int(binary.BigEndian.Uint16(size[4:]))
	})
}

// segments adds up what a sidx box lists, in seconds, for its track. What it lists of
// other indexes counts there.
func (f *file) segments(b box) (track uint32, seconds float64) {
	track = binary.BigEndian.Uint32(f.bytes(b.from+4, 4))
	rate := float64(binary.BigEndian.Uint32(f.bytes(b.from+8, 4)))
	at := b.from + 12 + 8
	if f.bytes(b.from, 1)[0] != 0 {
		at += 8
	}
	count := int64(binary.BigEndian.Uint16(f.bytes(at+2, 2)))
	for i := range count {
		entry := f.bytes(at+4+12*i, 8)
		if entry[0]>>7 == 0 && rate > 0 {
			seconds += float64(binary.BigEndian.Uint32(entry[4:])) / rate
		}
	}
	return track, seconds
}
