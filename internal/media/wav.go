package media

import "encoding/binary"

// readWAV reads a RIFF file of sound: chunks of a name, a size and content, of
// which "fmt " says how many bytes a second takes and "data" is the sound. A size
// that was never filled in means the rest of the file.
func readWAV(f *file) (Info, error) {
	perSecond := 0.0
	for at := int64(12); at+8 <= f.size && f.err == nil; {
		head := f.bytes(at, 8)
		size := int64(binary.LittleEndian.Uint32(head[4:]))
		rest := f.size - at - 8
		switch string(head[:4]) {
		case "fmt ":
			perSecond = float64(binary.LittleEndian.Uint32(f.bytes(at+8+8, 4)))
		case "data":
			if size == 0 || size > rest {
				size = rest
			}
			return Info{Length: length(float64(size), perSecond)}, nil
		}
		at += 8 + size + size%2
	}
	return Info{}, nil
}
