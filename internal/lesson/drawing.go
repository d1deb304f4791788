package lesson

import (
	"bufio"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strings"
	"sync"
)

// maxDrawing is how large an SVG drawing may be, in bytes. A drawing for a lesson has a
// thousandth of it; what is larger is a photograph in disguise.
const maxDrawing = 4 << 20

// active are elements of a drawing that run something or hold a page of their own.
var active = []string{"script", "foreignobject", "iframe", "object", "embed", "handler", "listener"}

// checkDrawing says what in an SVG drawing does not belong in a picture, nil where there
// is nothing. A page shows a drawing as a picture, in which no browser runs a script;
// but the file lies beside the pages, and opened by itself it is a page and may do what
// they may.
//
// Source: SVG 2, W3C, sections 2.2.2 (secure animated mode, of pictures) and 15
// (scripting); that a style sheet language can write scripts: XSLT, W3C.
func checkDrawing(fsys fs.FS, name string) error {
	f, err := fsys.Open(name)
	if err != nil {
		return fmt.Errorf("cannot be read: %w", Reason(err))
	}
	defer f.Close()
	limited := &io.LimitedReader{R: f, N: maxDrawing + 1}
	buffer := lent.Get().(*bufio.Reader)
	defer lent.Put(buffer)
	buffer.Reset(limited)
	decoder := xml.NewDecoder(buffer)
	for {
		token, err := decoder.Token()
		switch {
		case limited.N == 0:
			return fmt.Errorf("is larger than %d MB", maxDrawing>>20)
		case errors.Is(err, io.EOF):
			return nil
		case err != nil:
			return fmt.Errorf("cannot be read: %w", Reason(err))
		}
		if err := checkToken(token); err != nil {
			return err
		}
	}
}

// lent are buffers for drawings, which are smaller than a buffer for the most part.
var lent = sync.Pool{New: func() any { return bufio.NewReader(nil) }}

func checkToken(token xml.Token) error {
	switch token := token.(type) {
	case xml.ProcInst:
		if token.Target != "xml" {
			return fmt.Errorf("calls for <?%.40s?>", token.Target)
		}
	case xml.Directive:
		if strings.ContainsRune(string(token), '[') {
			return errors.New("defines entities")
		}
	case xml.StartElement:
		if slices.Contains(active, strings.ToLower(token.Name.Local)) {
			return fmt.Errorf("holds <%s>", token.Name.Local)
		}
		for _, a := range token.Attr {
			if err := checkAttribute(a); err != nil {
				return err
			}
		}
	}
	return nil
}

func checkAttribute(a xml.Attr) error {
	if name := strings.ToLower(a.Name.Local); strings.HasPrefix(name, "on") {
		return fmt.Errorf("has the script %.40s", a.Name.Local)
	}
	// Browsers pass over white space and control characters in an address.
	address := strings.ToLower(strings.Map(func(r rune) rune {
		if r <= ' ' {
			return -1
		}
		return r
	}, a.Value))
	if strings.Contains(address, "javascript:") || strings.Contains(address, "data:text/") {
		return fmt.Errorf("has a script in %.40s", a.Name.Local)
	}
	return nil
}
