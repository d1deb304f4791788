package answerfile

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"plait/internal/source"
)

// Read reads the answer file of a name. The error is a *[Fault]; a file whose digest is
// not that of its content is read all the same and says so.
func Read(name string, data []byte) (*File, error) {
	if len(data) > MaxBytes {
		return nil, &Fault{File: name, What: fmt.Sprintf("the file has more than the %d bytes an answer file may have", MaxBytes), Help: handedIn}
	}
	text := source.NewFile(name, data)
	fault := func(at source.Span, what, help string) *Fault {
		return &Fault{File: name, Line: at.Start().Line, Column: at.Start().Column, What: what, Help: help}
	}
	if at, bad := text.Invalid(); bad {
		return nil, fault(at, "the file is not UTF-8 text", handedIn)
	}
	file, err := decode([]byte(text.Text()))
	var m *misfit
	if errors.As(err, &m) {
		return nil, fault(text.Span(int(m.at)-1, int(m.at)), m.what, m.help)
	}
	file.Name = name
	return file, nil
}

func decode(data []byte) (*File, error) {
	root, err := parse(data)
	if err != nil {
		return nil, err
	}
	o := object{value: root}
	o.only("answers", "course", "digest", "edition", "learner", "paper", "practicals", "saved", "seed", "started", "text", "version")
	if v := o.number("version"); o.fault == nil && v != 1 {
		return nil, &misfit{root.at, fmt.Sprintf("this is version %d of answer files, and this program reads version 1", v), "mark it with the plait that built its paper"}
	}
	f := &File{
		Course: o.text("course"), Edition: o.text("edition"), Paper: o.text("paper"),
		Seed: o.text("seed"), Text: o.text("text"),
		Started: o.time("started"), Saved: o.time("saved"),
	}
	learner := o.object("learner")
	learner.only("class", "name")
	f.Learner = Learner{Name: learner.text("name"), Class: learner.text("class")}
	if learner.fault == nil && f.Learner.Name == "" {
		learner.fail(learner.at, "the learner has no name", "ask whose it is")
	}
	o.take(learner.fault)
	o.each("answers", func(item *object) { f.Answers = append(f.Answers, item.answer()) })
	o.each("practicals", func(item *object) { f.SignOff = append(f.SignOff, item.signOff()) })
	o.twice(f.Answers)
	said := o.text("digest")
	if o.fault != nil {
		return nil, o.fault
	}
	f.Digest = digest(root)
	f.Damaged = said != f.Digest
	return f, nil
}

// digest is the SHA-256 of a file without its own digest.
func digest(root value) string {
	root.members = slices.DeleteFunc(slices.Clone(root.members), func(m member) bool { return m.key == "digest" })
	sum := sha256.Sum256(canonical(nil, root))
	return hex.EncodeToString(sum[:])
}

// object reads the members of a map and keeps the first fault.
type object struct {
	value
	fault error
}

func (o *object) fail(at int64, what, help string) {
	if o.fault == nil {
		o.fault = &misfit{at, what, help}
	}
}

// take keeps the fault of a part.
func (o *object) take(fault error) {
	if o.fault == nil {
		o.fault = fault
	}
}

// only reports a value that is no map, and members it may not have.
func (o *object) only(keys ...string) {
	if o.kind != objectKind {
		o.fail(o.at, fmt.Sprintf("%v stands where a map belongs", o.kind), handedIn)
	}
	for _, m := range o.members {
		if !slices.Contains(keys, m.key) {
			o.fail(m.value.at, fmt.Sprintf("%q is not part of an answer file", short(m.key)), handedIn)
		}
	}
}

func (o *object) need(key string, k kind) value {
	v, ok := o.member(key)
	switch {
	case !ok:
		o.fail(o.at, fmt.Sprintf("%q is missing", key), handedIn)
	case v.kind != k:
		o.fail(v.at, fmt.Sprintf("%q is %v, want %v", key, v.kind, k), handedIn)
	default:
		return v
	}
	return value{kind: k}
}

func (o *object) text(key string) string {
	v := o.need(key, stringKind)
	if len(v.text) > maxText {
		o.fail(v.at, fmt.Sprintf("%q has more than %d bytes", key, maxText), handedIn)
	}
	if strings.ContainsFunc(v.text, hidden) {
		o.fail(v.at, fmt.Sprintf("%q has characters that cannot be seen", key), handedIn)
	}
	return v.text
}

// hidden reports a character that could make one name or answer look like another:
// control characters, and those that turn the direction of writing.
func hidden(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) || r == unicode.ReplacementChar
}

func (o *object) number(key string) int {
	v := o.need(key, numberKind)
	return o.whole(key, v)
}

// whole reads a small whole number as RFC 8785 writes it.
func (o *object) whole(key string, v value) int {
	n, err := strconv.Atoi(cmp.Or(v.text, "0"))
	if err != nil || n < 0 || n > 9999 || v.text != "" && strconv.Itoa(n) != v.text {
		o.fail(v.at, fmt.Sprintf("%q is %s, want a whole number", key, short(v.text)), handedIn)
		return 0
	}
	return n
}

func (o *object) time(key string) time.Time {
	v := o.need(key, stringKind)
	if v.text == "" {
		return time.Time{}
	}
	t, err := time.Parse(time.RFC3339, v.text)
	if err != nil {
		o.fail(v.at, fmt.Sprintf("%q is %q, want a time such as 2026-05-12T10:31:07Z", key, short(v.text)), handedIn)
	}
	return t.UTC()
}

func (o *object) object(key string) object { return object{value: o.need(key, objectKind)} }

// each reads the items of a list of maps.
func (o *object) each(key string, read func(*object)) {
	list := o.need(key, listKind)
	if len(list.items) > maxAnswers {
		o.fail(list.at, fmt.Sprintf("%q has more than %d items", key, maxAnswers), handedIn)
		return
	}
	for _, v := range list.items {
		item := object{value: v}
		read(&item)
		o.take(item.fault)
	}
}

func (o *object) answer() Answer {
	o.only("figures", "given", "question")
	return Answer{Question: o.text("question"), Figures: o.number("figures"), Given: o.text("given")}
}

func (o *object) signOff() SignOff {
	o.only("assessor", "date", "outcome", "practical", "shown")
	s := SignOff{Practical: o.text("practical"), Assessor: o.text("assessor"), Date: o.text("date"), Outcome: Outcome(o.text("outcome"))}
	for _, v := range o.need("shown", listKind).items {
		if v.kind != numberKind {
			o.fail(v.at, fmt.Sprintf("\"shown\" has %v in it, want numbers", v.kind), handedIn)
			continue
		}
		s.Shown = append(s.Shown, o.whole("shown", v))
	}
	if _, err := time.Parse(time.DateOnly, s.Date); err != nil {
		o.fail(o.at, fmt.Sprintf("the date %q is no date", short(s.Date)), "dates are of the form 2026-05-12")
	}
	if s.Outcome != Shown && s.Outcome != NotShown {
		o.fail(o.at, fmt.Sprintf("the outcome %q is not known", short(string(s.Outcome))), `a practical is "shown" or "not yet"`)
	}
	if s.Assessor == "" {
		o.fail(o.at, "a practical was signed off by nobody", "ask who the assessor was")
	}
	return s
}

// twice reports a question that is answered twice.
func (o *object) twice(answers []Answer) {
	seen := map[string]bool{}
	for _, a := range answers {
		if seen[a.Question] {
			o.fail(o.at, fmt.Sprintf("the question %q is answered twice", short(a.Question)), handedIn)
		}
		seen[a.Question] = true
	}
}

// Key is what tells one learner from another: name and class without regard to case,
// spaces and the ways to write one letter.
func (l Learner) Key() Learner {
	return Learner{Name: plain(l.Name), Class: plain(l.Class)}
}

func plain(s string) string {
	return strings.ToLower(strings.Join(strings.Fields(norm.NFKC.String(s)), " "))
}
