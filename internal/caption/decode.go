package caption

import (
	"encoding/binary"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"

	"plait/internal/diag"
	"plait/internal/source"
)

// decode returns the file as UTF-8. Lines and columns are those of the author's
// editor whatever the encoding; byte offsets count in the decoded text.
func (r *reader) decode(file *source.File) *source.File {
	raw := file.Text()
	if order := utf16Order(raw); order != nil {
		return source.NewFile(file.Name(), []byte(decodeUTF16(raw, order)))
	}
	if utf8.ValidString(raw) {
		return file
	}
	at, _ := file.Invalid()
	before := utf8.RuneCountInString(raw[:offset(at)])
	// Windows-1252 is what files called Latin-1 hold in practice, and what browsers
	// read them as (WHATWG Encoding, the label "latin1"); it never fails.
	text, _ := charmap.Windows1252.NewDecoder().String(raw)
	decoded := source.NewFile(file.Name(), []byte(text))
	first := decoded.Span(runeOffset(text, before), runeOffset(text, before+1))
	r.reportf(diag.Note, first, "the file is not UTF-8; it was read as Latin-1, in which this letter is %q", first.Text()).
		help("save it as UTF-8 if letters with accents look wrong")
	return decoded
}

func offset(s source.Span) int {
	from, _ := s.Offsets()
	return from
}

// runeOffset returns the byte offset of the n-th character.
func runeOffset(s string, n int) int {
	for i := range s {
		if n == 0 {
			return i
		}
		n--
	}
	return len(s)
}

// utf16Order returns the byte order of UTF-16 text, nil for any other: told by its
// byte order mark, or by the zero byte beside a first letter from ASCII.
func utf16Order(s string) binary.ByteOrder {
	if len(s) < 2 || len(s)%2 != 0 {
		return nil
	}
	switch {
	case s[:2] == "\xff\xfe", s[0] != 0 && s[1] == 0:
		return binary.LittleEndian
	case s[:2] == "\xfe\xff", s[0] == 0 && s[1] != 0:
		return binary.BigEndian
	}
	return nil
}

func decodeUTF16(s string, order binary.ByteOrder) string {
	data := []byte(s)
	units := make([]uint16, len(data)/2)
	for i := range units {
		units[i] = order.Uint16(data[2*i:])
	}
	return strings.TrimPrefix(string(utf16.Decode(units)), "\ufeff")
}
