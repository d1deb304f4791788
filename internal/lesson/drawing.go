package lesson

import (
	"bufio"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

// maxDrawing is how large an SVG drawing may be, in bytes. A drawing for a lesson has a
// thousandth of it; what is larger is a photograph in disguise.
const maxDrawing = 4 << 20

// active are elements of a drawing that run something or hold a page of their own.
var active = []string{"script", "foreignobject", "iframe", "object", "embed", "handler", "listener"}

// smallDrawing is how many bytes a drawing has at most that is kept as it was read.
const smallDrawing = 8 << 10

// readDrawing reads an SVG drawing and returns its bytes where it is small. The error says what
// in it does not belong in a picture. A page shows a drawing as a picture, in which no browser
// runs a script; but the file lies beside the pages, and opened by itself it is a page and may
// do what they may.
//
// Source: SVG 2, W3C, sections 2.2.2 (secure animated mode, of pictures) and 15
// (scripting); that a style sheet language can write scripts: XSLT, W3C.
func readDrawing(f io.Reader) (small []byte, err error) {
	head, err := io.ReadAll(io.LimitReader(f, smallDrawing+1))
	if err != nil {
		return nil, fmt.Errorf("cannot be read: %w", Reason(err))
	}
	if len(head) <= smallDrawing {
		return head, checkDrawing(bytes.NewReader(head))
	}
	rest := &io.LimitedReader{R: f, N: maxDrawing + 1 - int64(len(head))}
	if err := checkDrawing(bufio.NewReader(io.MultiReader(bytes.NewReader(head), rest))); err != nil && rest.N > 0 {
		return nil, err
	}
	if rest.N == 0 {
		return nil, fmt.Errorf("is larger than %d MB", maxDrawing>>20)
	}
	return nil, nil
}

// checkDrawing goes through a drawing up to its end or to what does not belong in it.
func checkDrawing(r io.Reader) error {
	decoder := xml.NewDecoder(r)
	for {
		token, err := decoder.Token()
		switch {
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
