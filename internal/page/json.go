package page

import (
	"encoding/json"
	"reflect"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"
)

// jsonField is a field of a structure as JSON names it.
type jsonField struct {
	index     []int
	key       string // `"name": `
	omitEmpty bool
}

// jsonFields are the fields by type, worked out once.
var jsonFields sync.Map

func jsonFieldsOf(t reflect.Type) []jsonField {
	if known, ok := jsonFields.Load(t); ok {
		return known.([]jsonField)
	}
	var fields []jsonField
	for _, f := range reflect.VisibleFields(t) {
		if f.Anonymous {
			continue
		}
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		fields = append(fields, jsonField{f.Index, strconv.Quote(name) + ": ", options == "omitempty"})
	}
	jsonFields.Store(t, fields)
	return fields
}

// appendJSON appends what [json.MarshalIndent] makes of a value, indented by one space a
// level. It knows the kinds that the data of a course is made of, and structures whose
// fields all have names for JSON: the library writes everything twice, to indent it.
func appendJSON(out []byte, v reflect.Value, level int) []byte {
	line := func(level int) {
		out = append(out, '\n')
		for range level {
			out = append(out, ' ')
		}
	}
	switch v.Kind() {
	case reflect.String:
		return appendJSONText(out, v.String())
	case reflect.Int, reflect.Int64:
		return strconv.AppendInt(out, v.Int(), 10)
	case reflect.Pointer:
		return appendJSON(out, v.Elem(), level)
	case reflect.Slice:
		if v.IsNil() {
			return append(out, "null"...)
		}
		out = append(out, '[')
		for i := range v.Len() {
			if i > 0 {
				out = append(out, ',')
			}
			line(level + 1)
			out = appendJSON(out, v.Index(i), level+1)
		}
		if v.Len() > 0 {
			line(level)
		}
		return append(out, ']')
	case reflect.Struct:
		out = append(out, '{')
		empty := true
		for _, f := range jsonFieldsOf(v.Type()) {
			field := v.Field(f.index[0])
			for _, i := range f.index[1:] { // of an embedded structure
				field = field.Field(i)
			}
			if f.omitEmpty && (field.IsZero() || field.Kind() == reflect.Slice && field.Len() == 0) {
				continue
			}
			if !empty {
				out = append(out, ',')
			}
			empty = false
			line(level + 1)
			out = append(out, f.key...)
			out = appendJSON(out, field, level+1)
		}
		if !empty {
			line(level)
		}
		return append(out, '}')
	}
	panic("page: the data of a course holds a " + v.Kind().String())
}

// escapedInJSON tells the bytes that the library may write otherwise.
var escapedInJSON = func() (table [256]bool) {
	for c := range table {
		table[c] = c < ' ' || c == '"' || c == '\\' || c == '<' || c == '>' || c == '&' || c == 0x7f
	}
	return table
}()

// appendJSONText appends a text. One with a character that JSON, or JSON within HTML, writes
// otherwise is left to the library.
func appendJSONText(out []byte, s string) []byte {
	var all byte
	for i := range len(s) {
		if escapedInJSON[s[i]] {
			return appendJSONByLibrary(out, s)
		}
		all |= s[i]
	}
	if all >= utf8.RuneSelf && (!utf8.ValidString(s) || strings.Contains(s, "\u2028") || strings.Contains(s, "\u2029")) {
		return appendJSONByLibrary(out, s)
	}
	out = append(out, '"')
	out = append(out, s...)
	return append(out, '"')
}

// appendJSONTexts appends a list of texts on one line.
func appendJSONTexts(out []byte, list []string) []byte {
	out = append(out, '[')
	for i, s := range list {
		if i > 0 {
			out = append(out, ',')
		}
		out = appendJSONText(out, s)
	}
	return append(out, ']')
}

func appendJSONByLibrary(out []byte, s string) []byte {
	text, err := json.Marshal(s)
	if err != nil {
		panic(err) // a text always encodes
	}
	return append(out, text...)
}
