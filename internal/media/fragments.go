package media

import (
	"encoding/binary"
	"fmt"
)

// Programs that record write a film in fragments (ISO/IEC 14496-12, section 8.8), so that
// what is on the disk can be played even if they are cut off. Some never come back to
// write how long it became; then the samples of all fragments are added up.

// fragments adds up the samples of each track.
type fragments struct {
	tracks map[uint32]*fragmented
}

// fragmented is a track that is cut into fragments.
type fragmented struct {
	rate   float64 // ticks per second
	sample float64 // ticks of a sample that does not say otherwise
	end    float64 // ticks at the end of what was added up
}

// track returns what is known of a track.
func (s *fragments) track(id uint32) *fragmented {
	if s.tracks == nil {
		s.tracks = map[uint32]*fragmented{}
	}
	if s.tracks[id] == nil {
		s.tracks[id] = &fragmented{}
	}
	return s.tracks[id]
}

// clock takes the ticks per second of a trak box from its mdhd box.
func (s *fragments) clock(f *file, trak box) {
	var id uint32
	f.boxes(trak.from, trak.end, func(b box) {
		switch b.name {
		case "tkhd":
			id = f.uint32(f.pastTimes(b))
		case "mdia":
			f.boxes(b.from, b.end, func(b box) {
				if b.name == "mdhd" {
					s.track(id).rate = float64(f.uint32(f.pastTimes(b)))
				}
			})
		}
	})
}

// usual takes from a trex box how long samples of a track usually are.
func (s *fragments) usual(f *file, trex box) {
	s.track(f.uint32(trex.from + 4)).sample = float64(f.uint32(trex.from + 12))
}

// add adds the samples of a moof box.
func (s *fragments) add(f *file, moof box) {
	f.boxes(moof.from, moof.end, func(b box) {
		if b.name != "traf" {
			return
		}
		var track *fragmented
		var usual float64
		f.boxes(b.from, b.end, func(b box) {
			switch {
			case b.name == "tfhd":
				track = s.track(f.uint32(b.from + 4))
				usual = track.sample
				if at, ok := field(f.uint32(b.from), durationInHeader, b.from+8, headerFields); ok {
					usual = float64(f.uint32(at))
				}
			case track == nil: // without its header nothing can be told
			case b.name == "tfdt":
				track.end = f.versioned(b, 4)
			case b.name == "trun":
				track.end += f.run(b, usual)
			}
		})
	})
}

// seconds is where the last track ends.
func (s *fragments) seconds() float64 {
	last := 0.0
	for _, t := range s.tracks {
		if t.rate > 0 {
			last = max(last, t.end/t.rate)
		}
	}
	return last
}

// Flags of a tfhd box and of a trun box: each says that a field of so many bytes is there.
const (
	durationInHeader = 0x8
	durationInSample = 0x100
)

type flagged struct {
	flag  uint32
	bytes int64
}

var (
	headerFields = []flagged{{0x1, 8}, {0x2, 4}, {durationInHeader, 4}}
	runFields    = []flagged{{0x1, 4}, {0x4, 4}}
	sampleFields = []flagged{{durationInSample, 4}, {0x200, 4}, {0x400, 4}, {0x800, 4}}
)

// field returns where a field is whose fellows are there or not as flags say.
func field(flags, want uint32, at int64, fields []flagged) (int64, bool) {
	for _, f := range fields {
		if f.flag == want {
			return at, flags&want != 0
		}
		if flags&f.flag != 0 {
			at += f.bytes
		}
	}
	return at, false
}

// size is how many bytes the fields take that flags say are there.
func size(flags uint32, fields []flagged) int64 {
	at, _ := field(flags, 0, 0, fields)
	return at
}

// atOnce is how many samples are read at a time.
const atOnce = 1024

// run returns the ticks of all samples of a trun box.
func (f *file) run(b box, usual float64) float64 {
	flags, count := f.uint32(b.from)&0xffffff, int64(f.uint32(b.from+4))
	each := size(flags, sampleFields)
	at := b.from + 8 + size(flags, runFields)
	if count*each > b.end-at {
		f.err = fmt.Errorf("%w: a fragment lists more samples than it holds", ErrBroken)
		return 0
	}
	if flags&durationInSample == 0 {
		return float64(count) * usual
	}
	ticks := 0.0
	for count > 0 && f.err == nil {
		n := min(count, atOnce)
		list := f.bytes(at, n*each)
		for i := range n {
			ticks += float64(binary.BigEndian.Uint32(list[i*each:]))
		}
		at, count = at+n*each, count-n
	}
	return ticks
}

// uint32 reads a number of four bytes.
func (f *file) uint32(at int64) uint32 { return binary.BigEndian.Uint32(f.bytes(at, 4)) }

// pastTimes returns where a header box goes on after its two times, which take four
// bytes each in version 0 and eight in version 1.
func (f *file) pastTimes(b box) int64 {
	if f.bytes(b.from, 1)[0] == 1 {
		return b.from + 4 + 16
	}
	return b.from + 4 + 8
}
