package register

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// New returns an empty register of a course.
func New(course string) *Register { return &Register{Version: version, Course: course} }

const version = 1

// Parse reads a register. It refuses what it would lose when it writes it again: a
// register of another version, of another course, or with members it does not know.
func Parse(data []byte, course string) (*Register, error) {
	var head struct{ Version int }
	if err := json.Unmarshal(data, &head); err != nil {
		return nil, fmt.Errorf("it is not a register: %w", err)
	}
	if head.Version != version {
		return nil, fmt.Errorf("it is of version %d, and this plait writes version %d", head.Version, version)
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	r := &Register{}
	if err := d.Decode(r); err != nil {
		return nil, fmt.Errorf("it is not a register: %w", err)
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return nil, errors.New("something stands behind its end")
	}
	if r.Course != course {
		return nil, fmt.Errorf("it is the register of the course %q, not of %q", r.Course, course)
	}
	r.sort()
	return r, nil
}

// JSON returns the register as a file, one sitting a line, so that two registers can be
// held against each other. The same register gives the same bytes.
func (r *Register) JSON() ([]byte, error) {
	var out bytes.Buffer
	course, err := json.Marshal(r.Course)
	if err != nil {
		return nil, fmt.Errorf("register: %w", err)
	}
	fmt.Fprintf(&out, "{\"version\": %d, \"course\": %s, \"sittings\": [", r.Version, course)
	lines := json.NewEncoder(&out) // ends each with a new line
	for i, s := range r.Sittings {
		out.WriteString(separator(i))
		if err := lines.Encode(s); err != nil {
			return nil, fmt.Errorf("register: %w", err)
		}
	}
	out.WriteString("]}\n")
	return out.Bytes(), nil
}

// separator stands before the i-th of several values, counted from 0.
func separator(i int) string {
	if i == 0 {
		return "\n"
	}
	return ","
}
