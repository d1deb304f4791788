package page

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"slices"

	"plait/internal/artifact"
	"plait/internal/asset"
	"plait/internal/derive"
	"plait/internal/lesson"
	"plait/internal/mix"
	"plait/internal/parallel"
)

// share is what a lesson adds to the files that all lessons are in: what can be found of it,
// what its questions are judged by and the colours of its bowls. It is kept from build to build,
// so that an edit of one lesson does not write those of all others anew.
type share struct {
	module string // the title of its module, which stands in it
	found  datum
	asks   []asked
	tints  []asset.Tint // of its bowls
}

// asked is a question that can be asked.
type asked struct {
	question *lesson.Question
	view     *QuestionView
	judge    datum
}

// datum is a part of a script's data, as JSON.
type datum struct {
	key  string // by which data are in order; may be empty
	text []byte
	sum  [sha256.Size]byte
}

func newDatum(key string, text []byte) datum {
	sum := sha256.New()
	sum.Write(append([]byte(key), 0))
	sum.Write(text)
	return datum{key, text, [sha256.Size]byte(sum.Sum(nil))}
}

// jsonOf writes data that always can be.
func jsonOf(data any) []byte {
	text, err := json.Marshal(data)
	if err != nil {
		panic(err)
	}
	return text
}

// shareOf makes the share of a lesson.
func (b *builder) shareOf(l *lesson.Lesson) *share {
	s := &share{module: b.places[l].module.Title.Value}
	s.found = newDatum("", listed(b.foundIn(l)))
	for _, q := range b.derived.Practice(l) {
		if v := questionView(q); v != nil {
			s.asks = append(s.asks, asked{q.Question, v, newDatum(v.Card, jsonOf(v.data))})
		}
	}
	for _, f := range l.Formulas {
		for _, t := range tintsOf(b.derived.Of(f)) {
			if !slices.Contains(s.tints, t) {
				s.tints = append(s.tints, t)
			}
		}
	}
	return s
}

// tintsOf returns the shades of a bowl as swatches show them.
func tintsOf(f *derive.Formula) []asset.Tint {
	var list []asset.Tint
	for _, p := range f.Bowl.Parts {
		if p.Role == mix.ColourRole && f.Range != nil {
			list = append(list, tint(p.Shade, f.RangeOf(p.Shade)))
		}
	}
	return list
}

// listed returns entries as the members of a list, without its brackets.
func listed(entries []found) []byte {
	memory := lent.Get().(*[]byte)
	defer lent.Put(memory)
	text := (*memory)[:0]
	for i, e := range entries {
		if i > 0 {
			text = append(text, ',')
		}
		text = appendJSONTexts(text, e[:])
	}
	*memory = text
	return bytes.Clone(text) // it is kept as long as the course
}

// takeShares takes the shares of all lessons, those that are known from the build before.
func (b *builder) takeShares() {
	lessons := b.course.Lessons
	b.shares = make([]*share, len(lessons))
	var todo []int
	for i, l := range lessons {
		if b.shares[i] = b.memory.share(b.derived, l, b.places[l].module.Title.Value); b.shares[i] == nil {
			todo = append(todo, i)
		}
	}
	parallel.All(b.workers, len(todo), func(i int) {
		b.shares[todo[i]] = b.shareOf(lessons[todo[i]])
	})
	b.memory.keepShares(b.derived, lessons, b.shares)
}

// script is a script that begins with a call of its data. It is named by the sums of its
// pieces, and made when it is asked for.
func script(name string, code []byte, call, open string, data []*datum, end string) artifact.File {
	sums := make([][sha256.Size]byte, 0, 2+len(data))
	sums = append(sums, sha256.Sum256(code), sha256.Sum256([]byte(call+open+end)))
	for _, p := range data {
		sums = append(sums, p.sum)
	}
	return artifact.File{
		Path: asset.NameOf(name, sums...), Stage: artifact.Asset,
		Make: func(to []byte) ([]byte, error) {
			to = append(append(to, code...), call+"("+open...)
			return append(appendData(to, data), end+");\n"...), nil
		},
	}
}

// appendData appends pieces of data as the members of a list or an object.
func appendData(to []byte, data []*datum) []byte {
	size := 0
	for _, p := range data {
		size += len(p.key) + len(p.text) + len(`"":,`)
	}
	to = slices.Grow(to, size)
	for i, p := range data {
		if i > 0 {
			to = append(to, ',')
		}
		if p.key != "" {
			to = append(appendJSONText(to, p.key), ':')
		}
		to = append(to, p.text...)
	}
	return to
}

// findIndex is the script of the find page with its index.
func (b *builder) findIndex(code []byte) artifact.File {
	data := make([]*datum, 0, len(b.shares)+1)
	for _, s := range b.shares {
		data = append(data, &s.found)
	}
	if rest := b.foundBeside(); len(rest) > 0 {
		d := newDatum("", listed(rest))
		data = append(data, &d)
	}
	return script("find.js", code, "plaitFind.start", "[", data, "]")
}

// judging is what all questions are judged by, in the order of the lessons.
func (b *builder) judging() []*datum {
	list := make([]*datum, 0, len(b.shares))
	for _, s := range b.shares {
		for i := range s.asks {
			list = append(list, &s.asks[i].judge)
		}
	}
	return list
}

// questionScript is the script that works the cards of questions, with what it judges by.
// A lesson calls it in once it is shown, so that reading it waits for nothing.
func (b *builder) questionScript(code []byte) artifact.File {
	return script("questions.js", code, "plaitQuestions.start", "{", b.judging(), "}")
}
