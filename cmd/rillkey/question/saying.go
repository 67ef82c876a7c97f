package question

import (
	"fmt"
	"slices"
	"strings"

	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/units"
	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// What strikes a person is said before the first question, and at any question: by the
// number of a mark, or in words, which are then shown as they were understood.

const (
	// say turns to what strikes the person.
	say = "w"
	// mostMarks are offered at once: more would be drawn too small.
	mostMarks = 6
	// openInRow is after how many questions in a row that nobody could tell marks are
	// listed to be ticked.
	openInRow = 2
	// mostTyped is how many bytes can be typed: some sentences more than an account of an
	// animal has.
	mostTyped = 1000
	// typedShown is how many of the last lines of it are shown.
	typedShown = 3
)

// numbers are what marks are chosen by, so that letters are left for words.
const numbers = "123456789"

// heard is something that was said, as it was understood.
type heard struct {
	taxa.Seen
	saying int  // of one saying, one meaning for each trait is taken at most
	asked  bool // it was not plain that it was meant
	taken  bool
}

// strike turns to the marks, and to words that are typed.
func (s *sitting) strike() { s.strikeBy(s.q.Striking(mostMarks)) }

// strikeBy does so with marks that were chosen before.
func (s *sitting) strikeBy(marks []key.TraitState) {
	s.marks, s.sizing, s.stage = marks, false, striking
}

// size turns to the length, which parts more of what is left than another question, or
// is looked at again.
func (s *sitting) size() {
	s.q.LeaveLength()
	s.marks, s.sizing, s.stage = nil, true, striking
}

// takesBack reports whether back takes back the last answer from here: where the length is
// asked for in the place of a question.
func takesBack(s *sitting) bool { return s.stage == striking && s.sizing && s.q.Length() == 0 }

// passes reports whether a letter was chosen of the question behind that for the
// length, and turns to what is behind it. A digit begins a length.
func (s *sitting) passes(letter string) bool {
	if !s.sizing || len(letter) != 1 || !strings.Contains(letters, letter) || onlyNumber().MatchString(letter) {
		return false
	}
	s.settle()
	return true
}

// onlyNumber is a length without its unit.
var onlyNumber = pattern.New(`^\s*\d+(?:[.,]\d+)?\s*$`)

// offers are the marks, when it is time to turn to them unasked, before the first
// question; else none.
func (s *sitting) offers() []key.TraitState {
	if s.walks || s.stage != asking || s.now.supposed != nil || s.offered || len(s.q.Given()) > 0 {
		return nil
	}
	s.offered = true
	marks := s.q.Striking(mostMarks)
	if len(marks) < 2 {
		return nil
	}
	return marks
}

// markChoices are the marks by number.
func markChoices(s *sitting) []choice {
	var out []choice
	for i, m := range s.marks {
		out = append(out, choice{letter: numbers[i : i+1], text: plain.OneLine(markWords(m))})
	}
	return out
}

// markWords are a mark's words by themselves, without its question; so few that they may
// not tell of what have the part before them: "Legs: more than ten".
func markWords(m key.TraitState) string {
	const few = 3
	label := strings.TrimPrefix(m.Trait.States[m.Trait.State(m.State)].Label, "yes, ")
	if len(strings.Fields(label)) <= few {
		label = show.TraitStates(m.Trait, []string{m.State})
	}
	return plain.Capital(label)
}

// pickMark notes a mark that the animal shows.
func (s *sitting) pickMark(i int) {
	m := s.marks[i]
	s.observe(taxa.Seen{Trait: m.Trait, States: []string{m.State}}, s.q.Observe)
	s.settle()
}

func (s *sitting) observe(seen taxa.Seen, note func(trait string, states ...string) error) {
	if err := note(seen.Trait.ID, seen.States...); err != nil {
		s.said = plain.OneLine(err.Error()) + "."
		return
	}
	s.said = notedAs(s, plain.OneLine(show.TraitStates(seen.Trait, seen.States)))
}

// notedAs says what is noted and, where no button stands beside it, how it is taken back.
func notedAs(s *sitting, words string) string {
	if s.buttons {
		return wording.Sprintf("Noted: %s.", words)
	}
	return wording.Sprintf("Noted: %s. < takes it back.", words)
}

// hear reads words that were typed and reports whether they were understood; then
// they wait to be confirmed. If not, what was said tells what is nearest.
func (s *sitting) hear(text string) bool {
	if s.sizing && strings.TrimSpace(text) == key.Unsure {
		s.settle()
		return true
	}
	text, measured, ok := s.measured(text)
	if !ok || measured != "" && text == "" {
		return ok
	}
	seen, unclear, err := s.now.catalog.Vocabulary().Understand(text)
	if err != nil {
		s.said = strings.TrimSpace(measured + " " + plain.Capital(plain.OneLine(err.Error())) + ".")
		return onlyMeasured(s, measured != "")
	}
	s.said = strings.TrimSpace(measured + " " + unknownWords(s, unclear))
	now := heardOf(seen, unclear)
	if len(now) == 0 {
		if s.said == "" {
			s.said = wording.Text("There are no words in that. Say what you see, such as \"ten legs, pincers\".")
		}
		return onlyMeasured(s, measured != "")
	}
	if s.ticking {
		noteTicked(s)
	}
	s.heard, s.later = heardFirst(appendHeard(slices.Concat(s.heard, s.later), now))
	s.stage = hearing
	return true
}

// onlyMeasured reports whether a length was noted of words that were not understood
// otherwise, and turns to what comes after it unless more is to be said.
func onlyMeasured(s *sitting, noted bool) bool {
	if noted && (s.stage == asking || s.stage == striking && len(s.marks) == 0) {
		said := s.said
		s.settle()
		s.said = said
	}
	return noted
}

// appendHeard is what waits to be confirmed, and what was said after it.
func appendHeard(waits, now []heard) []heard {
	sayings := 0
	for _, h := range waits {
		sayings = max(sayings, h.saying+1)
	}
	for _, h := range now {
		if !slices.ContainsFunc(waits, func(w heard) bool { return w.Trait == h.Trait && slices.Equal(w.States, h.States) }) {
			h.saying += sayings
			waits = append(waits, h)
		}
	}
	return waits
}

// heardOf are the findings in what was said: what is taken for what was meant, and
// what may be meant.
func heardOf(seen []taxa.Seen, unclear []taxa.Unclear) []heard {
	var out []heard
	for i, one := range seen {
		out = append(out, heard{one, i, false, true})
		out = append(out, eachOf(one, i)...)
	}
	for i, u := range unclear {
		for _, c := range u.Choice {
			c.Words = u.Words
			out = append(out, heard{c, len(seen) + i, true, false})
		}
		if len(u.Choice) == 1 {
			out = append(out, eachOf(out[len(out)-1].Seen, len(seen)+i)...)
		}
	}
	return out
}

// mostEach are offered one by one at most.
const mostEach = 3

// eachOf are states that were taken for one another, one by one, for who sees which it is: "sucker"
// may be one at each end. Of such as nobody overlooks only, lest the list grow long.
func eachOf(seen taxa.Seen, saying int) (out []heard) {
	if len(seen.States) < 2 || len(seen.States) > mostEach {
		return nil
	}
	for _, id := range seen.States {
		if !seen.Trait.States[seen.Trait.State(id)].Striking {
			return nil
		}
		out = append(out, heard{taxa.Seen{Words: seen.Words, Trait: seen.Trait, States: []string{id}}, saying, false, false})
	}
	return out
}

// mostHeard is how much of what was understood is shown at once.
const mostHeard = 20

// heardFirst is what is shown first of what was understood, and what comes when that is noted.
func heardFirst(all []heard) (first, later []heard) {
	n := min(len(all), mostHeard)
	return slices.Clone(all[:n]), slices.Clone(all[n:])
}

// mostUnknown are quoted at most of words that are not known.
const mostUnknown = 5

// unknownWords says which words are not known here, or name animals.
func unknownWords(s *sitting, unclear []taxa.Unclear) string {
	var unknown, names []string
	for _, u := range unclear {
		switch quoted := "\"" + plain.OneLine(u.Words) + "\""; {
		case len(u.Choice) > 0:
		case s.now.catalog.Find(u.Words).Exact:
			names = append(names, quoted)
		case !slices.Contains(unknown, quoted):
			unknown = append(unknown, quoted)
		}
	}
	said := ""
	if n := len(unknown) - mostUnknown; n > 1 {
		said = wording.Sprintf("Not known here: %s and %d more. Say it in other words, or leave it.",
			strings.Join(unknown[:mostUnknown], ", "), n)
	} else if len(unknown) > 0 {
		said = wording.Sprintf("Not known here: %s. Say it in other words, or leave it.", strings.Join(unknown, ", "))
	}
	if len(names) > 0 {
		said = strings.TrimSpace(said + " " + wording.Sprintf("%s is the name of an animal; say what you see of it.", plain.And(names)))
	}
	return said
}

// measured notes a length said among other words, gives the words left and what there is
// to say of the length; false where it cannot be.
func (s *sitting) measured(text string) (rest, told string, ok bool) {
	read := HowLong
	if s.sizing {
		read = howLongIsIt
	}
	said, err := read(s.now.catalog.Vocabulary(), text)
	if err == nil && said.MM > 0 {
		err = s.q.ObserveLength(said.MM)
	}
	switch {
	case err != nil:
		s.said = plain.Capital(plain.OneLine(err.Error())) + "."
		return text, "", false
	case said.MM > 0:
		s.sizing = false
		if said.Rest == "" && s.stage != hearing { // else the words beside it, or before it, come first
			s.heard, s.later = nil, nil
			s.settle()
		}
		s.said = notedAs(s, said.Words())
	case said.Part != "" || said.Wide:
		s.said = NotItsLength(said.SaidLength)
	default:
		return text, "", true
	}
	return said.Rest, s.said, true
}

// HeardLength is a length that was said, as a number or beside a thing that is as long.
type HeardLength struct {
	units.SaidLength
	yardstick taxa.Yardstick
}

// HowLong finds a length among what was said: a number of units, else a thing that the
// animal is said to be as big as.
func HowLong(v *taxa.Vocabulary, text string) (HeardLength, error) {
	said, err := units.LengthSaid(text)
	if err != nil || said.MM > 0 || said.Part != "" || said.Wide {
		return HeardLength{SaidLength: said}, err
	}
	size := v.SizeSaid(text)
	switch {
	case size.Wide:
		said.Wide, said.Rest = true, size.Rest
	case size.Shelter != "":
		said.Part, said.Rest = size.Shelter, size.Rest
	case size.Thing != "":
		said.MM, said.Rest = size.MM(), size.Rest
	}
	return HeardLength{said, size}, nil
}

// howLongIsIt is [HowLong] of the answer to that question: a number without a unit is of
// mm, and a thing by itself is as long as the animal.
func howLongIsIt(v *taxa.Vocabulary, text string) (HeardLength, error) {
	if onlyNumber().MatchString(text) {
		text += " mm"
	}
	said, err := HowLong(v, text)
	if err != nil || said.MM > 0 || said.Part != "" || said.Wide {
		return said, err
	}
	if thing := v.SizeSaid("as long as " + text); thing.Thing != "" && thing.Shelter == "" && thing.Rest == "" {
		return HeardLength{units.SaidLength{MM: thing.MM()}, thing}, nil
	}
	return said, nil
}

// LengthTyped is the length in mm that somebody gave who was asked for one: 12, 1,5 cm, an
// inch and a half, a grain of rice, as long as my finger.
func LengthTyped(v *taxa.Vocabulary, text string) (float64, error) {
	mm, wrong := units.BodyLength(text)
	if wrong == nil {
		return mm, nil
	}
	said, err := howLongIsIt(v, text)
	switch {
	case err != nil:
		return 0, err
	case said.MM > 0:
		return said.MM, nil
	case said.Part != "" || said.Wide:
		return 0, wording.NewError(NotItsLength(said.SaidLength))
	case strings.ContainsAny(text, "0123456789"):
		return 0, wrong
	}
	return 0, wording.Errorf("%q tells no length; say it in mm, such as 12, or as 1.5 cm, or beside a thing: a grain of rice, a "+
		"fingernail, my finger", text)
}

// Words are the length, with the thing that it is taken from.
func (l HeardLength) Words() string {
	if l.yardstick.Thing == "" {
		return wording.Sprintf("%g mm long", l.MM)
	}
	return wording.Sprintf("about %g mm long (%s: %g to %g mm)", l.MM, plain.OneLine(l.yardstick.Thing), l.yardstick.Min, l.yardstick.Max)
}

// NotItsLength says that a length was taken for that of a part, such as its case, or for
// how wide the animal is.
func NotItsLength(said units.SaidLength) string {
	if said.Part == "" {
		return wording.Text("How wide it is was said, not how long, and is not noted; for its length say \"body 12 mm\".")
	}
	return wording.Sprintf("The length was taken for that of the %s, and is not noted; for the animal's own say \"body 12 mm\".",
		plain.OneLine(said.Part))
}

// heardChoices are what was understood: what is taken has a mark.
func heardChoices(s *sitting) []choice {
	var out []choice
	for i, h := range s.heard {
		box := "[ ] "
		if h.taken {
			box = "[x] "
		}
		out = append(out, choice{letter: letters[i : i+1], text: box + s.heardWords(i)})
	}
	return out
}

// heardWords are words that were said, and what they are taken for; with the question
// where they may be meant of another part, or where what is asked does not name its own.
func (s *sitting) heardWords(i int) string {
	if s.ticking {
		return tickedWords(s, i)
	}
	h := s.heard[i]
	labels := strings.Join(labelsOf(h.Seen), wording.Text(", or "))
	switch others := show.AllBut(h.Trait, h.States); {
	case others != "" && h.asked:
		labels = others
	case others != "":
		labels = show.TraitStates(h.Trait, h.States)
	}
	if named := show.TraitStates(h.Trait, h.States) == labels; h.asked && (h.Trait.Where != nil || !named) {
		return plain.OneLine(fmt.Sprintf("\"%s\": %s %s", h.Words, h.Trait.Question, labels))
	}
	if h.Trait.Where != nil {
		labels = show.TraitStates(h.Trait, h.States) // with its part: large pincers are of the front legs
	}
	return plain.OneLine(fmt.Sprintf("\"%s\": %s", h.Words, labels))
}

// toggle takes or leaves one thing that was understood; of several meanings of the same
// words for one trait one is taken at most, and that another is left out then is told.
func (s *sitting) toggle(i int) {
	h := &s.heard[i]
	h.taken, s.said = !h.taken, ""
	for j := range s.heard {
		if other := &s.heard[j]; j != i && h.taken && other.taken && other.saying == h.saying && other.Trait == h.Trait {
			other.taken = false
			if s.buttons {
				s.said = wording.Sprintf("\"%s\" can mean one of them only: what was taken in before is left out.", plain.OneLine(h.Words))
				continue
			}
			s.said = wording.Sprintf("%s in the place of %s: \"%s\" can mean one of them only.", letters[i:i+1], letters[j:j+1],
				plain.OneLine(h.Words))
		}
	}
}

// takeHeard notes all that is taken.
func (s *sitting) takeHeard() {
	if s.ticking {
		takeTicked(s)
		s.settle()
		return
	}
	var taken []string
	for _, h := range s.heard {
		if h.taken {
			s.observe(h.Seen, s.q.Hear)
			taken = append(taken, plain.OneLine(show.TraitStates(h.Trait, h.States)))
		}
	}
	switch {
	case len(taken) == 0:
		s.said = nothingNoted(s)
	case len(taken) > 1 && s.buttons:
		s.said = notedAs(s, strings.Join(taken, "; "))
	case len(taken) > 1:
		s.said = wording.Sprintf("Noted: %d things. < takes them back one by one.", len(taken))
	}
	if s.heard, s.later = heardFirst(s.later); len(s.heard) > 0 {
		s.said = wording.Sprintf("Noted of what you said: %d. Here is the rest.", len(taken))
		return
	}
	s.settle()
}

func labelsOf(seen taxa.Seen) []string {
	var out []string
	for _, id := range seen.States {
		out = append(out, seen.Trait.States[seen.Trait.State(id)].Label)
	}
	return out
}

// strikingBlocks ask what strikes the person.
func strikingBlocks(s *sitting) []block {
	if s.sizing {
		return sizingBlocks(s)
	}
	blocks := []block{{title, "", wording.Text("What strikes you?")}}
	if len(s.marks) == 0 {
		return append(blocks, block{advice, "", wording.Text("Say it in your own words.")})
	}
	how := wording.Text("its number")
	if s.buttons {
		how = wording.Text("one")
	}
	return append(append(blocks, block{advice, "",
		wording.Sprintf("Choose %s, or say it in your own words, such as \"pincers, ten legs, 40 mm\".", how)}),
		leads(s.choices())...)
}

// sizingBlocks ask how long the animal is.
func sizingBlocks(s *sitting) []block {
	if mm := s.q.Length(); mm > 0 {
		how := wording.Text("Enter leaves it as it is.")
		if s.buttons {
			how = wording.Text("It may stay as it is.")
		}
		return []block{{title, "", wording.Text("How long is it?")},
			{advice, "", wording.Sprintf("In mm, without tails, feelers and a case it carries; so far %g mm.", mm) + " " + how}}
	}
	how := wording.Text("Enter leaves it open.")
	if s.buttons {
		how = wording.Text("It may stay open.")
	}
	measure := wording.Text("In mm, without tails, feelers and a case it carries: that would now tell most.")
	if s.now.question == nil {
		measure = wording.Text("Before the name: in mm, without tails, feelers and a case it carries.")
	}
	return []block{{title, "", wording.Text("How long is it?")}, {advice, "", measure + " " + how}}
}

// hearingBlocks show what was understood.
func hearingBlocks(s *sitting) []block {
	if s.ticking {
		return tickingBlocks(s)
	}
	heading := wording.Text("Is that what you see?")
	if !slices.ContainsFunc(s.heard, func(h heard) bool { return h.taken }) {
		heading = wording.Text("Which of these do you mean?")
	}
	how := wording.Text("A letter takes one in or leaves it out; Enter notes those with an x.")
	if s.buttons {
		how = wording.Text("Take in what you meant, leave out the rest, and note it.")
	}
	if n := len(s.later); n > 0 {
		how += " " + wording.Sprintf("Then come %d more.", n)
	}
	return append([]block{{title, "", heading}, {advice, "", how}}, leads(s.choices())...)
}

// saidFigures draws marks, or what was understood.
func saidFigures(atlas *figure.Atlas, all []taxa.Seen) []figure.Figure {
	out := make([]figure.Figure, len(all))
	for i, one := range all {
		if len(one.States) == 1 {
			out[i], _ = atlas.State(one.Trait.ID, one.States[0])
		}
	}
	return out
}

// shownNow are the marks or findings that are drawn at present.
func (s *sitting) shownNow() []taxa.Seen {
	var out []taxa.Seen
	switch s.stage {
	case striking:
		for _, m := range s.marks {
			out = append(out, taxa.Seen{Trait: m.Trait, States: []string{m.State}})
		}
	case hearing:
		for _, h := range s.heard {
			out = append(out, h.Seen)
		}
	}
	return out
}
