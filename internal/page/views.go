package page

import "html/template"

// The views are what templates see: text already worded, numbers already
// formatted, and HTML only where a field says so. They know nothing of courses,
// so a template can be read and replaced without knowing the program.
//
// A path in a view is relative to the page that shows it, unless it says
// otherwise.

// Site is what all pages of a course share.
type Site struct {
	Title    string
	ID       string // prefix of what the reader's device stores for this course
	Language string // BCP 47
	Edition  string
	Law      string // country whose rules the course states, "" for none
	Menu     []Link // from the root of the site
	Icon     string // from the root of the site
	Live     string // script of the live preview, "" for a built site
}

// Frame is what every page has around its main part.
type Frame struct {
	Site        *Site
	Chrome      *Chrome
	Root        string // way to the root of the site: "" or "../"
	Style       string // from the root of the site, as the next
	Script      string
	Policy      string // content security policy
	Private     bool   // no other place is told which page sent the reader
	Kind        string // ends the class of the page's body
	Title       string // in the window's title
	Heading     string // in the page
	Description string
}

// Chrome is the part of pages that is the same for all pages of one folder.
type Chrome struct {
	Head, Top, Foot template.HTML
}

// Link is a place to go.
type Link struct {
	Text   string
	Path   string
	Before string // small words before the text: "Next lesson"
}

// Fact is a short statement with its figure first: 4 steps.
type Fact struct {
	Value string
	Text  string
}

// HomeView is the first page.
type HomeView struct {
	Frame
	Lead    string
	Facts   []Fact
	First   *Link // the lesson to begin with
	Plait   template.HTML
	Modules []ModuleRow
	Pages   []Link // standing pages
}

// ModuleRow is a module on the home page.
type ModuleRow struct {
	ID      string
	Number  int
	Title   string
	Summary string
	Path    string
	Lessons []LessonRow
}

// LessonRow is a lesson in a list of lessons.
type LessonRow struct {
	Title   string
	Summary string
	Path    string
	Facts   []string
	Stripe  template.HTML // a bowl of the lesson in proportion
}

// ModuleView is the page of a module.
type ModuleView struct {
	Frame
	Number, Of     int
	Lead           string
	Facts          []Fact
	Lessons        []LessonRow
	Previous, Next *Link
}

// LessonView is the page of a lesson.
type LessonView struct {
	Frame
	Module         Link   // its Path is from the root of the site
	Place          string // Lesson 2 of 3
	Lead           string
	Facts          []Fact
	Ladder         *LadderView
	Clock          *ClockView
	Care           *CareView
	Film           *FilmView
	Outcomes       []string
	Hair           []Term
	Kit            []string
	Opening        Prose // text before the first step
	Steps          []StepView
	Notes          Prose  // footnotes
	Patterns       bool   // the page shows bowls
	Asking         string // script of questions, "" where the lesson asks none
	Work           string // script of bowls and head sheets
	Sheet          string // path of the page of its head sheets; "" for none
	Previous, Next *Link
	Within         template.HTML // links to the lessons of the module
}

// FilmView is the recording of a lesson. Times are in plain seconds.
type FilmView struct {
	Script, Style   string // of the controls, called in once the page is shown
	Address         string // the file, or where it is hosted
	Host            string // the place to ask for before anything is loaded from it; "" for a file of the course
	OpenOnly        bool   // it is hosted on a page that only a browser can show
	Width, Height   int    // 0 where it is not known or there is no picture
	Length, Seconds string // for people, and in seconds; "" where it is not known
	Captions        template.URL
	Language        string // of the captions, BCP 47
	Marks           []MarkView
	Lines           []LineView
	Files           []Link
	Data            any // structured data
}

// Speeds are how fast a film can be played, 1 as it was made.
func (*FilmView) Speeds() []string { return []string{"0.5", "0.75", "1", "1.25", "1.5", "2"} }

// MarkView is a chapter on the rail of the player.
type MarkView struct {
	From, Length string
}

// LineView is a line of what is said.
type LineView struct {
	At, Time, Path, Voice, Text string
}

// ClockView lays the service of a lesson out in time.
type ClockView struct {
	Chair   string        // how long the client sits
	Drawing template.HTML // the same as the rows
	Rows    []ClockRow
	LeftOut []string // bowls that have a time and do not say when they go on
}

// ClockRow is one bowl of a service, in minutes from its start: when it goes on and
// comes off, and how long it is on the hair, from the shortest, on the hair covered
// last, to the longest, on the hair covered first.
type ClockRow struct {
	Title, On, Rinse, Stays string
	Sections                []ClockSection // in the order of work; none where the bowl goes on in one go
	Even                    string         // when every section has the maker's time by itself
}

// ClockSection is a section of a bowl: when it is covered, and how long the bowl is on
// it, from the shortest to the longest.
type ClockSection struct {
	Name, On, Stays string
}

// Term is a name with what is said of it.
type Term struct {
	Term, Value string
}

// LadderView places the hair of a lesson on the ladder of levels.
type LadderView struct {
	Rungs []Rung
	Marks []Mark
}

// Rung is one level of the ladder.
type Rung struct {
	Level  int
	Swatch string
	Marked bool
}

// Mark says what stands at a level: roots, lengths, the target.
type Mark struct {
	Chip  template.HTML
	Level string
	Text  string
}

// CareView is what to do and know before work begins.
type CareView struct {
	Title string
	Items []CareItem
	More  *Link // a page that says more
}

// CareItem is one caution, with the words to catch the eye first.
type CareItem struct {
	Lead string
	Text string
}

// StepView is one step of a lesson.
type StepView struct {
	ID     string
	Number int
	Title  template.HTML
	Time   *TimeView // nil where the step names no time
	Body   Prose
}

// Prose appends the HTML of a text. A template shows it with {{.Body.HTML}}: it is written
// where it stands in the page, and never held beside it.
type Prose func(out []byte) []byte

// HTML returns the text for a template that is run by the library, nothing of no text.
func (p Prose) HTML() template.HTML { return template.HTML(p.AppendHTML(nil)) }

// AppendHTML appends the text, nothing of no text.
func (p Prose) AppendHTML(out []byte) []byte {
	if p == nil {
		return out
	}
	return p(out)
}

// TimeView is a time in the recording.
type TimeView struct {
	Text     string // 1:02:03
	Duration string // ISO 8601, PT1H2M3S

	// Where the recording can be watched from here, and the stretch in plain seconds;
	// all empty where there is no recording.
	Path, At, Until string
}

// HeadsView is a head sheet as a figure.
type HeadsView struct {
	ID, Sheet string // of the figure; the sheet's name
	Title     string
	Drawings  []HeadDrawing
	Legend    *LegendView // nil where it stands elsewhere on the page
	Print     string      // path of the page to print; "" for none
}

// HeadDrawing is one view of a head.
type HeadDrawing struct {
	Picture template.HTML
	Caption string
}

// LegendView is the table of a head sheet.
type LegendView struct {
	Rows     []LegendRow // in the order of work
	Whole    string      // area of the scalp, with unit
	Assume   string      // which head it is
	Cut      bool        // there are lengths after a cut
	Coloured bool        // there are bowls to name
	Products bool        // there is product to weigh by the sheet's own figures
	Formulas bool        // bowls are said, not only named
}

// LegendRow is one section of a head. ExactArea is the area in cm² for scripts.
type LegendRow struct {
	Swatch                               template.HTML
	Number, Name, Area, Share, ExactArea string
	Lengths                              string // shortest to longest after the cut, with unit; "" for none
	Product                              string // weight with unit, "" for none
	Bowls                                []BowlLink
}

// BowlLink leads to a bowl. Said is its formula in short, Weight what a section takes of
// it where the amount is shared out by areas.
type BowlLink struct {
	ID, Text, Path, Said, Weight string
}

// SheetView is the page of a lesson's head sheets, to be printed.
type SheetView struct {
	Frame
	Lesson Link
	Work   string // script of head sheets
	Sheets []template.HTML
	Codes  []CodeView
}

// CodeView is a step of a film as a code for a telephone.
type CodeView struct {
	Drawing           template.HTML
	Time, Title, Path string
}

// BowlView is the card of one formula.
type BowlView struct {
	ID       string
	Title    string
	On       string // kind, range and sections in words
	Said     string // the formula as it is said: 2 parts 8N + 1 part 8V, 6 vol at 1:2
	Parts    []PartView
	Bar      template.HTML // the parts in proportion
	Marks    template.HTML // running totals under the bar
	Split    string        // what the total is made of
	Mixed    string        // weight of all, with unit
	Reads    []ReadView
	Verdicts []VerdictView
	Working  []string
	Timers   []TimerView
	Advice   string      // what to know of the timers
	Data     template.JS // [BowlData] as JSON
}

// PartView is one thing to weigh, in the order of pouring.
type PartView struct {
	Chip   template.HTML // its swatch
	Code   string
	Name   string
	Weight string // with unit
	Total  string // running total, with unit
}

// ReadView is one figure of a bowl with what it means.
type ReadView struct {
	Term, Value, Note string
}

// VerdictView is a judgement on a bowl. Kind is fine, note or warning.
type VerdictView struct {
	Kind string
	Lead string
	Text string
	Rule string // path of the rule it comes from; "" for none
}

// TimerView is a timer that a bowl offers. Zero says when it starts to count.
type TimerView struct {
	Seconds int
	Text    string // 15 min
	Zero    string
}

// BowlData is what the script needs to weigh a bowl again: the resolution of the
// scale, and of each part what it is (colour, developer or extra) and its exact
// weight, "20" or "20/3". All in grams.
type BowlData struct {
	Colour  string   `json:"colour"` // what to call what is mixed with the developer
	Step    string   `json:"step"`
	Kinds   []string `json:"kinds"`
	Weights []string `json:"weights"`
}

// WordsView is the word list.
type WordsView struct {
	Frame
	Lead    string
	Letters []LetterView
}

// LetterView holds the words with one first letter.
type LetterView struct {
	ID     string
	Letter string
	Words  []WordView
}

// WordView is one word of the trade.
type WordView struct {
	ID      string
	Term    string
	Meaning string
	See     []Link
}

// StandingView is a page of prose: about, safety, the handbook.
type StandingView struct {
	Frame
	Lead     string
	Body     template.HTML
	Contents []Link
}

// FindView is the page that finds things. Without scripts it lists them all.
type FindView struct {
	Frame
	Index  string // script with the index
	Groups []LinkGroup
}

// LinkGroup is a titled list of links.
type LinkGroup struct {
	Title string
	Links []Link
}

// RulesView is the page of the rules.
type RulesView struct {
	Frame
	Lead     string
	Law      string // what the course is held to
	Families []RuleGroup
}

// RuleGroup holds the rules of one family.
type RuleGroup struct {
	ID    string
	Title string
	Rules []RuleView
}

// RuleView is one rule. Severity is error, warning or note.
type RuleView struct {
	ID, Name, Severity string
	Title, Why, Source string
	Before, After      template.HTML // examples, coloured
}

// OrderView is the page of what a class has to buy.
type OrderView struct {
	Frame
	Lead     string
	Groups   []OrderGroup
	Totals   []string
	Unpriced []string
}

// OrderGroup is what to buy of one range.
type OrderGroup struct {
	Title string
	Lines []OrderRow
}

// OrderRow is one thing to buy, its weights with units.
type OrderRow struct {
	Name, Needed, Spare, Stock, Buy, Packs, Cost string
}

// MissingView is shown where a page does not exist.
type MissingView struct {
	Frame
}
