package page

import (
	"fmt"
	"html/template"
	"slices"

	"plait/internal/lesson"
	"plait/internal/shade"
)

const (
	revisePage  = "revise.html"
	reviseTitle = "Revise"
)

// bytesPerCard is about how much of the page a card takes.
const bytesPerCard = 800

// ReviseView is the page of cards to revise with. Without a script all of them can be
// read.
type ReviseView struct {
	Frame
	Lead  string
	Decks []Deck
	Data  template.JS // what questions are judged by, as JSON
}

// Deck is the cards of one kind.
type Deck struct {
	Kind, Title string
	Cards       []CardView
}

// CardView is one card: a question, or a front and a back to be turned.
type CardView struct {
	Card             string // under which progress is kept
	Question         *QuestionView
	Tag, Front, Back string
	From             *Link
}

// revise makes the revise page.
func (b *builder) revise(out []byte) ([]byte, error) {
	v := ReviseView{
		Frame: b.frame(revisePage, "revise", reviseTitle, "Cards from the whole course that come back when they are nearly forgotten."),
		Lead:  "Cards from the whole course. Those you know come back later and later, those you do not come back tomorrow.",
	}
	for _, d := range []Deck{
		{Kind: "questions", Title: "Questions", Cards: b.questionCards()},
		{Kind: "words", Title: "Words", Cards: b.wordCards()},
		{Kind: "formulas", Title: "Formulas", Cards: b.formulaCards()},
		{Kind: "levels", Title: "Levels", Cards: levelCards()},
	} {
		if len(d.Cards) > 0 {
			v.Decks = append(v.Decks, d)
		}
	}
	v.Data = template.JS(append(appendData([]byte{'{'}, b.judging()), '}'))
	cards := 0
	for _, d := range v.Decks {
		cards += len(d.Cards)
	}
	out = slices.Grow(out, bytesPerCard*cards+len(v.Data))
	return b.templates.page(out, "revise", v)
}

func (b *builder) questionCards() []CardView {
	var cards []CardView
	for i, l := range b.course.Lessons {
		for _, a := range b.shares[i].asks {
			v := b.withHeads(a.view, "question_"+l.Name+"_"+a.question.Name.Value)
			cards = append(cards, CardView{Card: v.Card, Question: v, From: lessonLink(l, a.question.Step)})
		}
	}
	return cards
}

// lessonLink leads from the root of the site to a step of a lesson.
func lessonLink(l *lesson.Lesson, step *lesson.Step) *Link {
	link := &Link{Text: l.Title.Value, Path: lessonPath(l)}
	if step != nil {
		link.Path += "#" + step.ID
	}
	return link
}

func (b *builder) wordCards() []CardView {
	var cards []CardView
	for _, w := range b.course.Words {
		term := w.Term.Value
		cards = append(cards, CardView{
			Card: "word:" + term, Tag: "Word", Front: "What is meant by: " + term + "?", Back: w.Meaning.Value,
			From: &Link{Text: "Word list", Path: "words.html#" + wordID(term)},
		})
	}
	return cards
}

func (b *builder) formulaCards() []CardView {
	cards := make([]CardView, 0, b.bowls())
	for _, l := range b.course.Lessons {
		for _, f := range l.Formulas {
			d, ok := b.computed(f)
			if !ok {
				continue
			}
			title := bowlTitle(f.Name.Value)
			cards = append(cards, CardView{
				Card: "bowl:" + l.Name + "/" + f.Name.Value, Tag: "Formula",
				Front: fmt.Sprintf("%s, in “%s”: what goes into the bowl, and at which ratio?", title, l.Title.Value),
				Back:  bowlSaid(d),
				From:  lessonLink(l, f.Step),
			})
		}
	}
	return cards
}

// levelCards ask for the warmth of every level and the base that cancels it, by the usual
// table: a maker's own stands in its lessons.
func levelCards() []CardView {
	var cards []CardView
	for level := shade.Darkest; level <= shade.Lightest; level++ {
		warmth := shade.Undertone(level)
		cards = append(cards, CardView{
			Card: fmt.Sprintf("level:%d", level), Tag: "Level",
			Front: fmt.Sprintf("Natural hair is lifted to level %d. Which warmth shows, and which base cancels it?", level),
			Back:  fmt.Sprintf("%s; %s", capital(warmth.String()), warmth.Opposite()),
		})
	}
	return cards
}
