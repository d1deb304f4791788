package heard

import (
	"strings"
	"testing"
	"time"

	"plait/internal/caption"
	"plait/internal/exact"
	"plait/internal/shade"
	"plait/internal/source"
)

var (
	letters = &shade.Range{
		Name: "Letters", Darkest: 1, Lightest: 10, Shades: []string{"6N", "6G", "8N", "8V", "10V", "CL"},
		Grammar: shade.Grammar{Clear: []string{"CL"}, Tones: []string{"N", "G", "V"}},
		Tones:   map[string]shade.Tone{"N": {Name: "natural"}, "G": {Name: "gold"}, "V": {Name: "violet"}},
	}
	digits = &shade.Range{
		Name: "Digits", Darkest: 1, Lightest: 10, Shades: []string{"7.0", "7.1", "6.03"},
		Grammar: shade.Grammar{Style: shade.Digits, Separators: []string{".", "/"}},
		Tones:   map[string]shade.Tone{"0": {Name: "natural"}, "1": {Name: "ash"}, "3": {Name: "gold"}},
	}
	both = []*shade.Range{letters, digits}
)

// opening makes of what follows talk about colouring hair, and names the level scale.
const opening = "Hair, scalp, developer, level."

// cuesOf returns cues with the given texts, five seconds each, as a captions file
// holds them.
func cuesOf(texts ...string) []caption.Cue {
	var b strings.Builder
	b.WriteString("WEBVTT\n\n")
	for i, text := range texts {
		from := time.Duration(i) * 5 * time.Second
		b.WriteString(stamp(from) + " --> " + stamp(from+5*time.Second) + "\n" + text + "\n\n")
	}
	track, _ := caption.Read(source.NewFile("talk.vtt", []byte(b.String())))
	return track.Cues
}

func stamp(d time.Duration) string {
	return time.Time{}.Add(d).Format("15:04:05.000")
}

// expectFacts reads a text in cues parted by strokes, and checks what is heard: kind
// and value of each fact, those taken back in brackets.
func expectFacts(t *testing.T, text string, want ...string) {
	t.Helper()
	var got []string
	for _, f := range Read(cuesOf(append([]string{opening}, strings.Split(text, " | ")...)...), both) {
		fact := f.Kind.String() + " " + f.Value()
		if f.Withdrawn {
			fact = "(" + fact + ")"
		}
		got = append(got, fact)
	}
	if strings.Join(got, ", ") != strings.Join(want, ", ") {
		t.Errorf("%q\n got %s\nwant %s", text, strings.Join(got, ", "), strings.Join(want, ", "))
	}
}

func TestShades(t *testing.T) {
	expectFacts(t, "I take the 6N and the 8v.", "shade 6N", "shade 8V")
	expectFacts(t, "I take six N and 10 V.", "shade 6N", "shade 10V")
	expectFacts(t, "I take seven point one, and seven stroke nought, and 6.03.", "shade 7.1", "shade 7.0", "shade 6.03")
	expectFacts(t, "twelve of the seven oh and five grams of six oh three", "weight 12 g of 7.0", "shade 7.0", "weight 5 g of 6.03", "shade 6.03")
	expectFacts(t, "I take 6Z, 11N, 6/9 and 7.5.")
	expectFacts(t, "two parts six n and one part eight v", "parts 2 of 6N", "shade 6N", "parts 1 of 8V", "shade 8V")
	expectFacts(t, "six a day, eight in all")
}

// A slip is taken back in so many words, minutes later.
func TestRecants(t *testing.T) {
	expectFacts(t, "thirty volume goes in. | Did I say thirty volume before? I meant twenty. Twenty volume.", "(strength 30 vol)", "strength 20 vol")
	expectFacts(t, "one part 8V | i said eight v it's six N my bad", "(parts 1 of 8V)", "(shade 8V)", "shade 6N")
	expectFacts(t, "twenty grams of 6G. | Did I say twenty grams of the gold? I meant fifteen.", "(weight 20 g of 6G)", "shade 6G", "weight 15 g of 6G")
	expectFacts(t, "six percent developer. Did I say six percent? I did.", "strength 6 %")
	expectFacts(t, "20 grams of 6G. | I said twenty grams of the second one, and that was wrong.", "(weight 20 g of 6G)", "shade 6G")
	expectFacts(t, "four percent developer | i said four percent and its wrong", "(strength 4 %)")
	expectFacts(t, "one to one and a half on that | ive told you wrong | that bowl i said one and a half its one to two", "(ratio 1:1.5)", "ratio 1:2")
	expectFacts(t, "twenty volume. I said no blonde, sorry.", "strength 20 vol")
	expectFacts(t, "they get twenty minutes | you know what i told you twenty on those and thats wrong | its ten minutes", "(time 20 min)", "time 10 min")
	expectFacts(t, "25 grams of 6G. | I told y'all twenty-five grams, didn't I? It's twenty. Twenty grams of 6G.", "(weight 25 g of 6G)", "shade 6G", "weight 20 g of 6G", "shade 6G")
	expectFacts(t, "The developer is the four per cent. | I told you the four per cent. It isn't.", "(strength 4 %)")
	expectFacts(t, "The sides need twelve minutes. | It was not twelve minutes, it was eighteen.", "section sides", "(time 12 min)", "time 18 min")
	expectFacts(t, "You dry to seventy percent dry. I told you seventy, that is not enough, make it ninety.", "(dry 70 %)", "dry 90 %")
	expectFacts(t, "3 volume developer. The three I gave you was nonsense.", "(strength 3 vol)")
	expectFacts(t, "weigh 20 grams of 6G no hold on scratch the 20 grams", "(weight 20 g of 6G)", "shade 6G")
	expectFacts(t, "It takes four minutes. | The guide is four centimetres. Did I say four? I meant five.", "time 4 min")
	expectFacts(t, "The lengths get twenty minutes. They need ten minutes. I said twenty minutes, I had it wrong. It is fifteen minutes.", "section lengths", "(time 20 min)", "time 10 min", "time 15 min")
}

func TestShadesWithoutARange(t *testing.T) {
	facts := Read(cuesOf(opening, "I take 6N and 30g of 8rv, on the 3rd, at 7.1"), nil)
	if len(facts) != 2 || facts[0].Code != "6N" || facts[1].Kind != Weight {
		t.Errorf("got %+v", facts)
	}
}

func TestParts(t *testing.T) {
	expectFacts(t, "two parts of 8N and one part 8V", "parts 2 of 8N", "shade 8N", "parts 1 of 8V", "shade 8V")
	expectFacts(t, "half a dozen parts; two-and-a-half parts of the 6N", "parts 2.5 of 6N", "shade 6N")
	expectFacts(t, "6N and 6G, two parts of the natural to one part of the gold", "shade 6N", "shade 6G", "parts 2 of 6N", "parts 1 of 6G")
	expectFacts(t, "6N and 8V, three parts to one part", "shade 6N", "shade 8V", "parts 3 of 6N", "parts 1 of 8V")
	expectFacts(t, "6N with 8V, half and half", "shade 6N", "shade 8V", "parts 1 of 6N", "parts 1 of 8V")
	expectFacts(t, "equal parts of 6N and 8V", "parts 1 of 6N", "parts 1 of 8V", "shade 6N", "shade 8V")
	expectFacts(t, "6N and 8V, in equal halves. Twenty grams of the one and ten of the other.", "shade 6N", "shade 8V", "parts 1 of 6N", "parts 1 of 8V", "weight 20 g of 6N", "weight 10 g of 8V")
	expectFacts(t, "equal parts of skill and luck")
	expectFacts(t, "nought parts, two of these")
	expectFacts(t, "half 6N half 8V", "parts 1 of 6N", "parts 1 of 8V", "shade 6N", "shade 8V")
	expectFacts(t, "It is 6N and 6G. Three parts to one.", "shade 6N", "shade 6G", "parts 3 of 6N", "parts 1 of 6G")
}

func TestWeights(t *testing.T) {
	expectFacts(t, "thirty grams of 6N, 30g of 8V and 12.5 gr CL", "weight 30 g of 6N", "shade 6N", "weight 30 g of 8V", "shade 8V", "weight 12.5 g of CL", "shade CL")
	expectFacts(t, "a hundred and twenty grams of developer", "weight 120 g of developer")
	expectFacts(t, "sixty-seven and a half grammes of peroxide", "weight 67.5 g of developer")
	expectFacts(t, "60 g of the 20 vol", "weight 60 g of developer", "strength 20 vol")
	expectFacts(t, "6 vol, and sixty grams of that", "strength 6 vol", "weight 60 g of developer")
	expectFacts(t, "six N and eight V, fifteen grams each", "shade 6N", "shade 8V", "weight 15 g of 6N", "weight 15 g of 8V")
	expectFacts(t, "bond cream, five grams. Then 3 g of bond cream.", "weight 5 g of bond cream", "weight 3 g of bond cream")
	expectFacts(t, "half a tube of 6N and a tube of 8V", "weight 0.5 tube of 6N", "shade 6N", "weight 1 tube of 8V", "shade 8V")
	expectFacts(t, "eighty of cream and eighty of peroxide", "weight 80 g of colour", "weight 80 g of developer")
	expectFacts(t, "30 grams of 6N and then fifteen of 8V", "weight 30 g of 6N", "shade 6N", "weight 15 g of 8V", "shade 8V")
	expectFacts(t, "sixty grams of developer in the first bowl and 90 in the second", "weight 60 g of developer", "weight 90 g of developer")
	expectFacts(t, "Eight grams of 6N and sixteen of the 4 per cent.", "weight 8 g of 6N", "shade 6N", "weight 16 g of developer", "strength 4 %")
	expectFacts(t, "two ounces of colour, a tube of toothpaste, one of each")
	expectFacts(t, "And 7.1, only two grams.", "shade 7.1", "weight 2 g of 7.1")
	expectFacts(t, "We mix one to two, so that's a hundred grams. We mix one to two, so that's ninety grams in total.", "ratio 1:2", "weight 100 g of developer", "ratio 1:2", "weight 90 g")
	expectFacts(t, "so this is the powder and i go fifty grams", "weight 50 g of lightener")
	expectFacts(t, "Sixty grams of developer for the root and eighty grams in the toner.", "weight 60 g of developer", "section roots", "weight 80 g of developer")
	expectFacts(t, "Ten grams of 6N. Make that twenty grams.", "(weight 10 g of 6N)", "shade 6N", "weight 20 g of 6N")
	expectFacts(t, "and some c l ten grams of that", "shade CL", "weight 10 g of CL")
}

func TestRatios(t *testing.T) {
	expectFacts(t, "mixed one to one and a half", "ratio 1:1.5")
	expectFacts(t, "It is 1:2. Or 1:1½?", "ratio 1:2")
	expectFacts(t, "mix it two to three with that", "ratio 1:1.5")
	expectFacts(t, "one part powder, two parts developer", "ratio 1:2")
	expectFacts(t, "one part of colour to one and a half parts of peroxide", "ratio 1:1.5")
	expectFacts(t, "one to two fingers, from one to two, two to one, ten to two, at 11:10, five to ten, one to ten")
	expectFacts(t, "Equal parts of cream and developer. Twice as much developer.", "ratio 1:1", "ratio 1:2")
	expectFacts(t, "Two parts developer to one part colour.", "ratio 1:2")
}

func TestStrengths(t *testing.T) {
	expectFacts(t, "ten volume, 20 vol", "strength 10 vol", "strength 20 vol")
	expectFacts(t, "the developer is 1.9 percent, that is one point nine percent", "strength 1.9 %", "strength 1.9 %")
	expectFacts(t, "the developer, well, ninety percent of people say 400 vol")
	expectFacts(t, "The peroxide is six percent, white hair being stubborn.", "strength 6 %")
}

func TestTimes(t *testing.T) {
	expectFacts(t, "thirty-five minutes, then 5-10 min, then 20 to 30 minutes", "time 35 min", "time 5-10 min", "time 20-30 min")
	expectFacts(t, "up to forty-five minutes; no longer than 50 minutes", "time up to 45 min", "time up to 50 min")
	expectFacts(t, "leave it half an hour, or an hour and a half", "time 30 min")
	expectFacts(t, "five minutes, ten at the very most", "time 5 min", "time up to 10 min")
	expectFacts(t, "thirty minutes, up to thirty-five, and I go for thirty-two because of the white", "time 30 min", "time up to 35 min", "time 32 min")
	expectFacts(t, "for a minute", "time 1 min")
	expectFacts(t, "every five minutes, after ten minutes, in two minutes, five minutes ago, ten minutes later")
	expectFacts(t, "The temples get fifteen minutes, the sides get ten, and the crown gets five.", "section temples", "time 15 min", "section sides", "time 10 min", "section crown", "time 5 min")
	expectFacts(t, "the roots get thirty five minutes the full deal the lengths about 25 thats plenty", "section roots", "time 35 min", "section lengths", "time 25 min")
	expectFacts(t, "900 minutes, 99999999999 minutes, 0 minutes")
	expectFacts(t, "It stays on for a quarter of an hour, and the roots for three quarters of an hour.", "time 15 min", "section roots", "time 45 min")
	expectFacts(t, "Book an hour. It takes an hour and a half. It takes an hour and ten for longer hair.", "time 60 min", "time 90 min", "time 70 min")
	expectFacts(t, "I leave it an hour and thirty minutes on the lengths. Give it an hour.", "time 90 min", "section lengths", "time 60 min")
	expectFacts(t, "Ten more minutes, twenty-odd minutes, a good five minutes.", "time 10 min", "time 20 min", "time 5 min")
	expectFacts(t, "It is having its last ten minutes. I came in the last ten minutes.", "time 10 min")
	expectFacts(t, "Leave it on for thirty-five. Give it another ten. Give it two goes. It processes for forty.", "time 35 min", "time 10 min", "time 40 min")
}

// expectTime reads one time and checks what it was said of.
func expectTime(t *testing.T, text string, clock Clock, touch, ended bool) {
	t.Helper()
	for _, f := range Read(cuesOf(opening, text), both) {
		if f.Kind == Time && (f.Clock != clock || f.Touch != touch || f.Ended != ended) {
			t.Errorf("%q: clock %d, from the first touch %v, from the last section %v", text, f.Clock, f.Touch, f.Ended)
		}
	}
}

func TestClocks(t *testing.T) {
	expectTime(t, "Forty minutes from the last section, not from the first touch.", Stays, false, true)
	expectTime(t, "Up to forty minutes from the first touch.", Stays, true, false)
	expectTime(t, "Thirty-five minutes once it is all on.", Stays, false, true)
	expectTime(t, "When the last section is covered, start the clock: 15 minutes.", Stays, false, true)
	expectTime(t, "It takes me twenty minutes to put on.", Applies, false, false)
	expectTime(t, "I leave it twenty minutes.", Stays, false, false)
}

func TestLevels(t *testing.T) {
	expectFacts(t, "a level six, level 10, a level of eight", "level 6", "level 10", "level 8")
	expectFacts(t, "She is a natural five and we lifted to an eight.", "level 5", "level 8")
	expectFacts(t, "They are at level eight, and I mean an orange eight; the ends, they're a nine, and she'd like to be a six all over.", "level 8", "level 8", "section ends", "level 9", "level 6")
	expectFacts(t, "The ends are a nine. Through the mid-lengths it's more of a seven.", "section ends", "level 9", "section mid-lengths", "level 7")
	expectFacts(t, "She wants a soft, beachy nine on the ends. I go one deeper, a five.", "level 9", "section ends", "level 5")
	expectFacts(t, "We finish at a six through the root and a seven everywhere else.", "level 6", "section roots", "level 7")
	expectFacts(t, "That is pale yellow, call that a nine. It is a very pale one.", "level 9")
	expectFacts(t, "level six inches down, level 3 student, level 14, two levels, a four of clubs, it looks like a seven.")
	expectFacts(t, "Level seven and a half, maybe seven and a half.")
	expectFacts(t, "a level nine on the ends and like an eight through the middle", "level 9", "section ends", "level 8")
}

func TestSharesOfHair(t *testing.T) {
	expectFacts(t, "eighty percent dry, half dry, 100% dry", "dry 80 %", "dry 50 %", "dry 100 %")
	expectFacts(t, "thirty percent white; 25% grey; a quarter of it is gray", "white 30 %", "white 25 %", "white 25 %")
	expectFacts(t, "I lift it up here with the comb and look, about twenty per cent white. The sides, fifty per cent, and in the temples, eighty.", "white 20 %", "section sides", "white 50 %", "section temples", "white 80 %")
	expectFacts(t, "A quarter has gone white, the temples are three quarters white.", "white 25 %", "section temples", "white 75 %")
	expectFacts(t, "My father went white at thirty, all of it, a hundred per cent.")
	expectFacts(t, "thirty percent of people, 400 percent dry")
	expectFacts(t, "Dry it to about eighty percent.", "dry 80 %")
	expectFacts(t, "All of it, and I went through it twice from the front to the back, her grey's forty percent at most.", "white 40 %")
}

func TestSections(t *testing.T) {
	expectFacts(t, "from the root to the ends, mid-lengths, the nape, bangs", "section roots", "section ends", "section mid-lengths", "section nape", "section fringe")
	expectFacts(t, "over the ear, the top section, the occipital bone, the sides", "section ears", "section top", "section occipital bone", "section sides")
	expectFacts(t, "Keep it off of the ears. I leave out the temples. The fringe I'm leaving out. The root shadow.")
	expectFacts(t, "I clip the crown up out of my way, nothing at the hairline, I keep off the hair at the temples, some brightness round the face.")
	expectFacts(t, "Sides. Round the face I weave finer. Let the top fall.", "section sides", "section face", "section top")
	expectFacts(t, "Pieces round the face, partings no bigger just on the regrowth.", "section face", "section regrowth")
	expectFacts(t, "stay off the roots, from ear to ear, the top of the head, on both sides, it ends, face it, a fringe")
	expectFacts(t, "The crown's in between. And the parting, because she sees it first.", "section crown", "section parting")
	expectFacts(t, "The nape. I leave it for thirty.", "section nape", "time 30 min")
	expectFacts(t, "up to the occipital", "section occipital bone")
	expectFacts(t, "I leave the lengths for twenty minutes. I leave the ends for now. I leave the temples completely out. Anyone can cut a crown short.", "section lengths", "time 20 min")
}

// What is denied, supposed, asked or told of others is no fact.
func TestDoubt(t *testing.T) {
	expectFacts(t, "Never forty volume. Not twenty volume, ten volume.", "strength 10 vol")
	expectFacts(t, "If she were white I would take twenty volume. She is not. So ten volume.", "strength 10 vol")
	expectFacts(t, "My colleague leaves it fifty minutes. I had a client who got 40 vol.")
	expectFacts(t, "I would say it is a level six, and she would like a level eight.", "level 6", "level 8")
	expectFacts(t, "My daughter, she'd put ten volume in there. I had a lady, she sat for fifty minutes.")
	expectFacts(t, "I would allow 15 minutes, and then it sits for twenty minutes.", "time 15 min", "time 20 min")
	expectFacts(t, "The thirteen volume, which, if you read the label, says four percent.", "strength 13 vol", "strength 4 %")
	expectFacts(t, "Could it be thirty minutes? It is twenty minutes.", "time 20 min")
	expectFacts(t, "if you have white hair you go twenty volume | and you leave it ten minutes longer okay so this | one here is what everybody wants to see and its ten volume", "strength 10 vol")
	expectFacts(t, "dont be scared its only twenty volume", "strength 20 vol")
	expectFacts(t, "Last time it was ten volume. Thirty volume instead of forty volume.", "strength 30 vol")
	expectFacts(t, "if you're writing it down that's two parts 6N", "parts 2 of 6N", "shade 6N")
	expectFacts(t, "there is no line and the ends are a clean level nine", "section ends", "level 9")
	expectFacts(t, "She is, what would you say, about eighty percent white.", "white 80 %")
	expectFacts(t, "I did think about 8V, but I take 8N. People write to me saying, mine is always one to two.", "shade 8N")
	expectFacts(t, "so now we go over to the basin and i test the water on my wrist and then i tip her back and the cape goes over the chair and we rinse it cool no shampoo this time conditioner on for three minutes", "time 3 min")
	expectFacts(t, "like a rooster, no offense, and her hairline grows down", "section hairline")
}

func TestWithdraw(t *testing.T) {
	expectFacts(t, "one part 6N … did I say one part 6N? I meant two parts 6N", "(parts 1 of 6N)", "shade 6N", "parts 2 of 6N", "shade 6N")
	expectFacts(t, "It is one to one. No, sorry, one to two.", "(ratio 1:1)", "ratio 1:2")
	expectFacts(t, "Twenty volume. Scratch that. Ten volume.", "(strength 20 vol)", "strength 10 vol")
	expectFacts(t, "twenty grams of 6N wait let me look thirty grams of 6N", "(weight 20 g of 6N)", "shade 6N", "weight 30 g of 6N", "shade 6N")
	expectFacts(t, "About two minutes. No shampoo. Then a conditioner, three minutes.", "time 2 min", "time 3 min")
	expectFacts(t, "Twenty minutes, sorry about the noise, and 20 minutes it is.", "time 20 min", "time 20 min")
	expectFacts(t, "Thirty volume, no, twenty.", "(strength 30 vol)", "strength 20 vol")
	expectFacts(t, "forty minutes sorry thirty and then we rinse", "(time 40 min)", "time 30 min")
	expectFacts(t, "thirty volume um you know what no scratch that shes got box dye on there so lets do twenty and whisk", "(strength 30 vol)", "strength 20 vol")
	expectFacts(t, "Thirty volume, no, the thirty minutes, twenty.", "strength 30 vol", "time 30 min")
	expectFacts(t, "Twenty grams of 6N. No, that is right, and six heads are waiting.", "weight 20 g of 6N", "shade 6N")
	expectFacts(t, "At the root I see a natural six, I mean it is clean, and the ends are a nine.", "section roots", "level 6", "section ends", "level 9")
	expectFacts(t, "Twenty volume here. And then we wait, and it is six volume there.", "strength 20 vol", "strength 6 vol")
	expectFacts(t, "Two parts of 6N, no, sorry, two parts of 6G.", "(parts 2 of 6N)", "(shade 6N)", "parts 2 of 6G", "shade 6G")
	expectFacts(t, "I start at the temple, no, sorry, I start at the nape.", "(section temples)", "section nape")
	expectFacts(t, "just five minutes what am i saying two minutes", "(time 5 min)", "time 2 min")
	expectFacts(t, "So that is mixed one to one, no it's not, listen to me, it's one to two.", "(ratio 1:1)", "ratio 1:2")
}

// A fact may begin in one cue and end in the next, and stands in both.
func TestPlaces(t *testing.T) {
	cues := cuesOf(opening, "Leave it thirty-", "five <i>minutes</i> &amp; rinse")
	facts := Read(cues, both)
	if len(facts) != 1 {
		t.Fatalf("got %+v", facts)
	}
	f := facts[0]
	if f.Cue != 1 || f.At != 5*time.Second || f.Said != "thirty- five minutes" || f.Value() != "35 min" {
		t.Errorf("got %+v", f)
	}
	if start := f.Span.Start(); start.Line != 7 || start.Column != 10 || !strings.HasSuffix(f.Span.Text(), "&amp; rinse") {
		t.Errorf("it stands at %v: %q", start, f.Span.Text())
	}
}

// Talk about other things has no facts, however much it sounds like a bowl.
func TestOtherTalk(t *testing.T) {
	for _, text := range []string{
		"One part cement to three parts sand, 1:3, level six, eighty percent dry, thirty minutes.",
		"The roots of the wool, thirty percent white; thirty grams of developer, in lengths, level 7.",
		"Thirty grams of yeast at the crown of the loaf, the ends folded in.",
		"",
	} {
		if facts := Read(cuesOf(text), both); len(facts) > 0 {
			t.Errorf("%q: %+v", text, facts)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add(opening + " two parts of 8N\nand one part 8V, 1:2, 20 vol (6 %), 30–45 min up to")
	f.Add(opening + " one and a half point nought hundred and half a tube of each")
	f.Add("\xbd 0000000000000000000000 0") // a number that goes on in the next cue
	f.Add(opening + " it is a very warm")  // nothing follows
	f.Add("hair scalp 1/2 ½ -- … 7.1.1 9999999999999999999 to 1:1:1 percent dry level of a")
	f.Fuzz(func(t *testing.T, text string) {
		cues := cuesOf(text, text)
		for _, ranges := range [][]*shade.Range{nil, both} {
			for _, fact := range Read(cues, ranges) {
				if fact.Value() == "" || fact.Said == "" || fact.Cue >= len(cues) || !fact.Span.Valid() {
					t.Fatalf("%+v", fact)
				}
			}
		}
	})
}

func BenchmarkRead(b *testing.B) {
	var texts []string
	for range 600 { // an hour of captions
		texts = append(texts, "and then I take thirty grams of 8N and lay it on the nape, thin slices")
	}
	cues := cuesOf(texts...)
	b.ReportAllocs()
	for b.Loop() {
		Read(cues, both)
	}
}

// What could be done, and what hair only looks like, is not done.
func TestCutsThatAreNone(t *testing.T) {
	expectCuts(t, "You can go up to 135 degrees, but I am staying at ninety degrees.", CutFact{Kind: Elevation, Number: exact.Int(90)})
	expectCuts(t, "It hangs like a triangle.")
}

// expectCuts reads a sentence and checks what is heard of a cut.
func expectCuts(t *testing.T, text string, want ...CutFact) {
	t.Helper()
	facts := Cuts(cuesOf(opening, text))
	if len(facts) != len(want) {
		t.Fatalf("%q: got %+v", text, facts)
	}
	for i, f := range facts {
		w := want[i]
		if f.Kind != w.Kind || f.Parting != w.Parting || !f.Number.Equal(w.Number) || f.Floor != w.Floor || f.Cue != 1 {
			t.Errorf("%q: got %+v, want %+v", text, f, w)
		}
	}
}

func TestCuts(t *testing.T) {
	expectCuts(t, "I part the hair down the middle, then from ear to ear.", CutFact{Kind: Parting, Parting: "centre"}, CutFact{Kind: Parting, Parting: "ear to ear"})
	expectCuts(t, "Two parts of it, in the middle of the day.")
	expectCuts(t, "No elevation, and then forty-five degrees.", CutFact{Kind: Elevation}, CutFact{Kind: Elevation, Number: exact.Int(45)})
	expectCuts(t, "Ninety degrees from the floor.", CutFact{Kind: Elevation, Number: exact.Int(90), Floor: true})
	expectCuts(t, "Ninety degrees from the head, not from the floor. Two hundred degrees.", CutFact{Kind: Elevation, Number: exact.Int(90)})
	expectCuts(t, "Not forty-five degrees.")
	expectCuts(t, "The shortest layer is 4 inches, and I take two centimetres off.",
		CutFact{Kind: Length, Number: exact.Of(1016, 100)}, CutFact{Kind: Measure, Number: exact.Int(2)})
	expectCuts(t, "Leave an inch. I take half an inch off, and sections a quarter of an inch deep.",
		CutFact{Kind: Length, Number: exact.Of(254, 100)}, CutFact{Kind: Measure, Number: exact.Of(127, 100)}, CutFact{Kind: Measure, Number: exact.Of(635, 1000)})
	expectCuts(t, "The shortest length is half a centimetre, the longest an inch and a half, the guide one and a half inches.",
		CutFact{Kind: Length, Number: exact.Half}, CutFact{Kind: Length, Number: exact.Of(381, 100)}, CutFact{Kind: Length, Number: exact.Of(381, 100)})
	expectCuts(t, "A bit of length, a quarter of the head, half of it, an hour and a half.")
	expectCuts(t, "Leaving seven centimetres. Did I say seven? I mean eight.", CutFact{Kind: Length, Number: exact.Int(8)})
	expectCuts(t, "The guide does not move. A traveling guide then.", CutFact{Kind: Fixed}, CutFact{Kind: Travels})
	if facts := Cuts(cuesOf("The shelf is ninety degrees to the wall, 4 inches long.")); facts != nil {
		t.Errorf("of a shelf we heard %+v", facts)
	}
}

// Captions that an editor has been through write fractions and commas as print does.
func TestPrintedNumbers(t *testing.T) {
	expectFacts(t, "Weigh 67,5 grams of developer and mix at 1:1½.", "weight 67.5 g of developer", "ratio 1:1.5")
}
