package asset

import (
	"bytes"
	"crypto/sha256"
	"encoding/xml"
	"image"
	_ "image/gif"  // sizes of pictures
	_ "image/jpeg" // sizes of pictures
	_ "image/png"  // sizes of pictures
	"io"
	"io/fs"
	"math"
	"path"
	"strconv"
	"strings"
)

// Picture is a picture of the course as pages show it.
type Picture struct {
	Path          string // from the root of the site
	Width, Height int    // in pixels; 0 where the file does not tell
	Data          []byte // all bytes of a small one, so that it need not be read again; else nil
}

// headBytes is how much of a picture is looked at for its size.
const headBytes = 64 << 10

// smallBytes is how many bytes a small picture has at most. To open it once more takes
// longer than to read it.
const smallBytes = 8 << 10

// ReadPicture names a picture by its content and finds its size, so that a page
// keeps room for it while it loads.
func ReadPicture(files fs.FS, name string) (Picture, error) {
	f, err := files.Open(name)
	if err != nil {
		return Picture{}, err
	}
	defer f.Close()
	hash := sha256.New()
	head, err := io.ReadAll(io.LimitReader(io.TeeReader(f, hash), headBytes))
	if err != nil {
		return Picture{}, err
	}
	if len(head) == headBytes { // else it was read whole, and copying nothing takes memory
		if _, err := io.Copy(hash, f); err != nil {
			return Picture{}, err
		}
	}
	p := Picture{Path: fingerprint(name, [sha256.Size]byte(hash.Sum(nil)))}
	if len(head) <= smallBytes {
		p.Data = bytes.Clone(head)
	}
	p.Width, p.Height = sizeOf(name, head)
	return p, nil
}

// NewPicture is [ReadPicture] for a small picture that has been read.
func NewPicture(name string, data []byte) Picture {
	p := Picture{Path: fingerprint(name, sha256.Sum256(data)), Data: data}
	p.Width, p.Height = sizeOf(name, data)
	return p
}

// ReadName names a film or another large file by its content.
func ReadName(files fs.FS, name string) (string, error) {
	f, err := files.Open(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	hash := sha256.New()
	if _, err := io.Copy(hash, f); err != nil {
		return "", err
	}
	return fingerprint(name, [sha256.Size]byte(hash.Sum(nil))), nil
}

// sizeOf returns the size of a picture that begins with head; 0 for both where either is not told:
// half a size would leave no room at all.
func sizeOf(name string, head []byte) (width, height int) {
	if strings.EqualFold(path.Ext(name), ".svg") {
		width, height = drawingSize(head)
	} else if config, _, err := image.DecodeConfig(bytes.NewReader(head)); err == nil {
		width, height = config.Width, config.Height
	}
	if width <= 0 || height <= 0 {
		return 0, 0
	}
	return width, height
}

// drawingSize reads the size of an SVG drawing off its root element: width and
// height where both are plain numbers or pixels, else the size of the viewBox.
func drawingSize(head []byte) (width, height int) {
	decoder := xml.NewDecoder(bytes.NewReader(head))
	for {
		token, err := decoder.RawToken() // the root is the first element, whatever its name space
		if err != nil {
			return 0, 0
		}
		root, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		attribute := func(name string) (value string) {
			for _, a := range root.Attr {
				if a.Name.Local == name {
					value = a.Value
				}
			}
			return value
		}
		if width, height = pixels(attribute("width")), pixels(attribute("height")); width > 0 && height > 0 {
			return width, height
		}
		box := strings.FieldsFunc(attribute("viewBox"), func(r rune) bool { return r == ' ' || r == ',' })
		if len(box) != 4 {
			return 0, 0
		}
		return pixels(box[2]), pixels(box[3])
	}
}

// pixels reads a length in CSS pixels, 0 for any other.
func pixels(s string) int {
	n, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSpace(s), "px"), 64)
	if err != nil || n < 1 || n > math.MaxInt16 {
		return 0
	}
	return int(math.Round(n))
}
