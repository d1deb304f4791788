package media

import (
	"encoding/binary"
	"fmt"
	"math"
	"math/bits"
)

// Matroska (RFC 9559), of which WebM is a part, is a tree of EBML elements (RFC
// 8794): an id, a size, and content. A size may be unknown while recording.
const (
	idEBML           = 0x1A45DFA3
	idSegment        = 0x18538067
	idInfo           = 0x1549A966
	idTimestampScale = 0x2AD7B1
	idDuration       = 0x4489
	idTracks         = 0x1654AE6B
	idTrackEntry     = 0xAE
	idVideo          = 0xE0
	idPixelWidth     = 0xB0
	idPixelHeight    = 0xBA
	idCluster        = 0x1F43B675
	idTimestamp      = 0xE7
	idBlockGroup     = 0xA0
	idBlock          = 0xA1
	idSimpleBlock    = 0xA3
)

// element is an element's content. End is the end of what holds it where its own
// size is unknown.
type element struct {
	id        uint32
	from, end int64
	unknown   bool
}

// matroska gathers what is found in a file.
type matroska struct {
	*file
	info     Info
	scale    float64 // nanoseconds of a tick
	duration float64 // in ticks; 0 where it is not said
	cluster  float64 // when the cluster at hand begins, in ticks
	last     float64 // the last block that was seen, in ticks
}

// readMatroska takes the length from the segment's header, or where that has none,
// from the last block.
func readMatroska(f *file) (Info, error) {
	m := &matroska{file: f, scale: 1e6}
	m.walk(0, f.size)
	ticks := m.duration
	if ticks == 0 {
		ticks = m.last
	}
	m.info.Length = length(ticks, 1e9/m.scale)
	return m.info, nil
}

// walk goes through the elements of a stretch. Elements of unknown size are not
// left again: what follows them is read as if it stood beside them, which comes to
// the same, for the ids of each depth differ.
func (m *matroska) walk(from, end int64) {
	for from < end && m.err == nil {
		e := m.element(from, end)
		if m.err != nil {
			return
		}
		from = e.end
		switch e.id {
		case idSegment, idInfo, idTracks, idTrackEntry, idVideo, idBlockGroup:
			from = e.from // its children are next
		case idCluster:
			if m.duration > 0 {
				return // all that counts has been read
			}
			from = e.from
		case idTimestampScale:
			m.scale = m.unsigned(e)
		case idDuration:
			m.duration = m.float(e)
		case idPixelWidth:
			m.info.Width = m.pixels(e)
		case idPixelHeight:
			m.info.Height = m.pixels(e)
		case idTimestamp:
			m.cluster = m.unsigned(e)
			m.last = max(m.last, m.cluster)
		case idBlock, idSimpleBlock:
			m.block(e)
		default:
			if e.unknown {
				from = e.from
			}
		}
	}
}

// element reads the head of an element.
func (m *matroska) element(at, end int64) element {
	id, n, _ := m.vint(at, end, 4, true)
	size, k, unknown := m.vint(at+n, end, 8, false)
	from := at + n + k
	e := element{id: uint32(id), from: from, end: end, unknown: unknown}
	if !unknown && m.err == nil {
		if size > uint64(end-from) {
			m.err = fmt.Errorf("%w: a part of it is larger than the whole", ErrBroken)
			return e
		}
		e.end = from + int64(size)
	}
	return e
}

// vint reads a number whose first byte says by its leading zeros how long it is.
// With its marker bit it is an id; without, and all ones, a size that is unknown.
func (m *matroska) vint(at, end int64, limit int64, marker bool) (value uint64, n int64, unknown bool) {
	first := m.bytes(at, 1)[0]
	n = int64(bits.LeadingZeros8(first)) + 1
	if m.err == nil && (n > limit || at+n > end) {
		m.err = fmt.Errorf("%w: it holds what is no element", ErrBroken)
	}
	if m.err != nil {
		return 0, 1, false
	}
	for _, b := range m.bytes(at, n) {
		value = value<<8 | uint64(b)
	}
	ones := uint64(1)<<(7*n) - 1
	if !marker {
		value &= ones
	}
	return value, n, value == ones
}

// unsigned reads an element's number of at most eight bytes.
func (m *matroska) unsigned(e element) float64 {
	var n uint64
	for _, b := range m.bytes(e.from, min(e.end-e.from, 8)) {
		n = n<<8 | uint64(b)
	}
	return float64(n)
}

// pixels reads a size of the picture; nothing larger than a film can be is believed.
func (m *matroska) pixels(e element) int { return int(min(m.unsigned(e), math.MaxUint16)) }

// float reads an element's floating number of four or eight bytes.
func (m *matroska) float(e element) float64 {
	switch b := m.bytes(e.from, min(e.end-e.from, 8)); len(b) {
	case 4:
		return float64(math.Float32frombits(binary.BigEndian.Uint32(b)))
	case 8:
		return math.Float64frombits(binary.BigEndian.Uint64(b))
	}
	return 0
}

// block notes when a block of sound or picture begins: a signed number of ticks
// from its cluster, behind the number of its track.
func (m *matroska) block(e element) {
	_, n, _ := m.vint(e.from, e.end, 8, false)
	ticks := int16(binary.BigEndian.Uint16(m.bytes(e.from+n, 2)))
	m.last = max(m.last, m.cluster+float64(ticks))
}
