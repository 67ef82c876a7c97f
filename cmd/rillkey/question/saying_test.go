package question

import (
	"bytes"
	"math/rand/v2"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/taxa"
)

func embeddedInquiry(t *testing.T) *key.Inquiry {
	t.Helper()
	return begin(t, keytest.Key(t))
}

// opened is a screen as Screen opens it.
func opened(t *testing.T, q *key.Inquiry, width, height int) *screen {
	t.Helper()
	m := shown(q, width, height)
	if marks := m.offers(); marks != nil {
		m.strikeBy(marks)
	}
	return m
}

func TestSayingWhatStrikes(t *testing.T) {
	long := strings.TrimSpace(strings.Repeat("l o n g space ", 60)) // 300 letters
	for _, row := range []struct{ why, keys, path, shows string }{
		{"the screen opens on marks", "", "", "What strikes you?"},
		{"Enter alone begins the questions", "enter", "", "Question 1 (couplet 1)"},
		{"can't tell does so too", "?", "", "Question 1 (couplet 1)"},
		{"a number notes a mark", "1 enter", "tails=3", "Noted: three tails."},
		{"a number waits for Enter", "2", "", "Enter note number 2"},
		{"a length begins with a number that is a mark's", "2 0 space m m enter enter", "length=20", "Question 1"},
		{"a length among words is noted with them", "2 0 space m m , space s n a i l enter enter", "length=20 said:shell=coil", "Noted"},
		{"a length among unknown words is noted", "2 0 space m m , space x y z z y enter", "length=20", `Not known here: "xyzzy".`},
		{"words are shown as they are understood", "p i n c e r s enter", "", `[x] "pincers": forelegs: large pincers`},
		{"Enter notes them", "s n a i l enter enter", "said:shell=coil", "Noted: a coiled shell in one piece."},
		{"a letter leaves one out", "p i n c e r s enter a enter", "", "Nothing is noted."},
		{"going back says it again", "p i n c e r s enter esc", "", "What strikes you?"},
		{"of several meanings one is chosen", "r o u n d enter b", "", `[x] "round": not flat: about as high`},
		{"unknown words are said to be", "x y z z y enter", "", `Not known here: "xyzzy".`},
		{"what is typed then replaces them", "x y z z y enter s n a i l enter enter", "said:shell=coil", "Noted: a coiled shell"},
		{"Backspace mends them", "s n a i l x q enter backspace backspace enter enter", "said:shell=coil", "Noted"},
		{"Backspace takes a letter back", "x backspace s n a i l enter enter", "said:shell=coil", "Noted"},
		{"a Backspace too many takes nothing back", "1 enter w x backspace backspace backspace", "tails=3", "What strikes you?"},
		{"a long account is kept whole", long + " s n a i l enter", "", `"snail": a coiled shell in one piece`},
		{"what does not fit is told", strings.Repeat("x ", mostTyped+1), "", "No more fits"},
		{"Ctrl-U clears what was typed", "x y z ctrl+u s n a i l enter enter", "said:shell=coil", "Noted"},
		{"Ctrl-U clears what was refused", "x y z z y enter ctrl+u", "", "(type words or a number"},
		{"Esc empties the line, then goes on", "x esc esc", "", "Question 1 (couplet 1)"},
		{"it can be said at any question", "enter a w p i n c e r s enter enter", "1a said:forelegs=pincers", "Noted"},
		{"what was noted is taken back", "1 enter <", "", "is taken away"},
		{"two in a row that nobody could tell bring a list of marks", "enter ? ?", "1? legs?", "Do you see any of these?"},
		{"which Enter leaves", "enter ? ? enter", "1?", "Question 3"},
		{"as a step back does", "enter ? ? <", "1?", "Question 3"},
		{"and another two bring another", "enter ? ? enter ? ?", "1?", "Do you see any of these?"},
		{"of which a letter ticks one", "enter ? ? a", "1?", "a:  [x] "},
		{"and Enter notes it", "enter ? ? a enter", "1?", "Noted: "},
		{"and so does ?, which is for the rest", "enter ? ? a ?", "1?", "Noted: "},
		{"or for all of it", "enter ? ? ?", "1?", "Question 3"},
		{"w turns from it to own words", "enter ? ? a w", "1?", "What strikes you?"},
		{"and notes what was ticked", "enter ? ? a w", "1?", "Noted: "},
		{"back after it shows it once more", "enter ? ? enter <", "1?", "Do you see any of these?"},
		{"and goes on to the answer before it", "enter ? ? enter < < <", "1?", "Question 2"},
		{"one does not", "enter ?", "1?", "Question 2"},
		{"the next one alone does not", "enter ? ? enter ?", "1?", "Question 4"},
	} {
		t.Run(row.why, func(t *testing.T) {
			q := embeddedInquiry(t)
			if strings.HasPrefix(row.path, "1?") {
				q.LeaveLength() // else it is asked for between
			}
			m := opened(t, q, 80, 24)
			press(m, row.keys)
			if got := m.View(); !strings.Contains(got, row.shows) {
				t.Errorf("the screen shows\n%s\nwithout %q", got, row.shows)
			}
			if path(q) != row.path && !strings.HasPrefix(row.path, "1?") {
				t.Errorf("path %q, want %q", path(q), row.path)
			}
		})
	}
}

// Whatever is typed in whatever order, in bursts, and also when the questions have
// ended and the screen is about to go, nothing breaks; the same on lines and on a page.
func TestWhateverIsSaidNothingBreaks(t *testing.T) {
	said := []string{"2", "20 mm", "12 mm, no legs", "7 mm, xyzzy", "maggot, no legs, flattened", "snail", "pincers", "round",
		"six legs, three tails", "xyzzy", "0", "1", "half an inch", "worm, not flat", "a", "b", "c"}
	keys := []string{"enter", "enter", "enter", "w", "w", "?", "?", "<", "esc", "backspace", "r", "a", "b", "c", "s", "1", "tab"}
	r, ended := rand.New(rand.NewPCG(11, 30)), 0
	walks := keytest.Thoroughly(50, 12)
	if testing.Short() {
		walks = 6
	}
	for range walks {
		m := opened(t, embeddedInquiry(t), 40, 20)
		l := newLiner(embeddedInquiry(t), Destination{}, nil, nil, new(bytes.Buffer), 40)
		page := NewTalk(embeddedInquiry(t), Destination{}, nil)
		for range 25 {
			if words := said[r.IntN(len(said))]; r.IntN(2) == 0 {
				m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(words), Paste: r.IntN(4) == 0})
				press(m, "enter")
				if !l.done {
					l.take(words)
				}
				page.Hear(words)
			} else {
				k := keys[r.IntN(len(keys))]
				press(m, k)
				if !l.done {
					l.take(map[bool]string{true: "", false: k}[k == "enter"])
				}
				page.Answer(k)
				page.Confirm()
			}
			m.View()
			page.Now()
			if !l.done {
				l.blocks()
				l.prompt()
				l.place()
			}
			if m.done {
				ended++
			}
		}
	}
	if ended == 0 {
		t.Error("no walk came to its end")
	}
}

// "w say what you see" is read as "w, and then what you see".
func TestTheKeyForSayingMayStandBeforeWhatIsSaid(t *testing.T) {
	_, alone, err := typed(embeddedInquiry(t), "pincers\n\nq\n", 80)
	if err != nil {
		t.Fatal(err)
	}
	if _, behind, err := typed(embeddedInquiry(t), "w pincers\n\nq\n", 80); err != nil || behind != alone {
		t.Errorf("%v\n%s", err, behind)
	}
}

// The lines take the same words and numbers.
func TestSayingWhatStrikesByLine(t *testing.T) {
	for _, row := range []struct{ why, lines, path, says string }{
		{"marks are named before the first question", "q\n", "", "1:  Three tails"},
		{"words instead of an answer", "pincers\n\nq\n", "said:forelegs=pincers", `a:  [x] "pincers": forelegs: large pincers`},
		{"of joined states one can be taken", "many legs\nb\n\nq\n", "said:legs=14", `b:  [x] "many legs": twelve to sixteen`},
		{"a length at any question", "a\n12 mm\nq\n", "1a length=12", "Noted: 12 mm long."},
		{"a number instead of an answer", "1\nq\n", "tails=3", "Noted: three tails."},
		{"after w too", "w\n2\nq\n", "wings=hard", "Noted"},
		{"an empty line after w is asked on", "w\n\na\nq\n", "1a", "Question 2"},
		{"of several meanings one is chosen", "round\na\n\nq\n", "said:outline=disc", "Which of these do you mean?"},
		{"unknown words are said to be", "xyzzy\nq\n", "", `Not known here: "xyzzy".`},
		{"what is said against itself is asked", "pincers, no pincers\na\n\nq\n", "said:forelegs=pincers", "Which of these do you mean?"},
		{"too many words are refused, and nothing is lost", "snail\n\n" + strings.Repeat("legs ", 2000) + "\nq\n", "said:shell=coil",
			"that line is too long to be an answer"},
		{"so are signs that are no letters", "snail\n\nten\x01 legs\nq\n", "said:shell=coil", "Noted: a coiled shell"},
		{"taken back before it is noted", "pincers\n<\nq\n", "", "Question 1"},
		{"help is the key for it", "help\nq\n", "", "Wait: Living animals only."},
		{"quit is the key for it", "quit\n", "", "Question 1"},
		{"back is the key for it", "a\nback\nq\n", "", "Question 2"},
		{"so are ways to say that one can't tell", "Don't know\nidk\nq\n", "1? move?", "Can't tell"},
		{"a denial of one of many is told by that one", "doesn't crawl\n\nq\n",
			"said:move=swim+thrash+loop+glide+row+skate+whirl+hop+still", "Noted: move: anything but: walks or creeps."},
		{"a length that begins with the couplet's number is a length", "18 mm\nq\n", "length=18", "Noted: 18 mm long."},
		{"so does an answer begin with it", "1a\nq\n", "1a", ""},
		{"letters typed together are several", "a\nab\nq\n", "1a", "One letter at a time"},
		{"nothing of what is offered strikes", "w\nno idea\na\nq\n", "1a", "What strikes you?"},
		{"what is of another part is asked with where it would be", "hooks on its feet\n\nq\n", "",
			`[ ] "hooks": Are there hooks at the hind end? there; more was not said`},
		{"an unknown word beside known ones is told", "pincers and flurble\n\nq\n", "said:forelegs=pincers", `Not known here: "flurble".`},
		{"many unknown words are told in part", "pincers, zaa, zbb, zcc, zdd, zee, zff, zgg\n\nq\n", "said:forelegs=pincers",
			`"zee" and 2 more.`},
		{"the length of a case is not the animal's", "stone case 2 cm long\n\nq\n", "said:case-stuff=stones",
			"The length was taken for that of the case"},
		{"how wide it is is not how long", "six legs, 8 mm across\n\nq\n", "said:legs=6", "How wide it is was said, not how long"},
		{"what only goes with an answer is asked", "strong legs\nq\n", "", `[ ] "strong legs"`},
		{"of two meanings for one trait the last is taken, and that is said", "two tails, three tails\na\nb\n\nq\n", "said:tails=3",
			"b in the place of a"},
		{"several meanings of one word are taken in at once", "round\na, b\n\nq\n", "said:outline=disc said:flat=round", ""},
		{"what is asked names its part", "round\n\nq\n", "", "Look from above: what shape is the body? round"},
		{"a thing stands for a length", "as big as a grain of rice\nq\n", "length=6", "about 6 mm long (grain of rice: 5 to 8 mm)"},
		{"several are taken in at once", "ten legs, pincers\na, b\n\nq\n", "", "Nothing is noted."},
		{"a name is no mark", "mayfly\nq\n", "", `"mayfly" is the name of an animal; say what you see of it.`},
		{"what was understood waits beside words that are not", "round\nxyzzy\na\n\nq\n", "said:outline=disc", `a:  [ ] "round"`},
		{"more may be said before the first is confirmed", "snail\nno legs\n\nq\n", "said:shell=coil said:legs=0", `b:  [x] "no legs"`},
		{"a length too", "snail\n20 mm\n\nq\n", "length=20 said:shell=coil", "Noted: 20 mm long."},
		{"said twice is said once", "snail\nsnail\n\nq\n", "said:shell=coil", `a:  [x] "snail"`},
		{"a length among unknown words is noted", "20 mm, xyzzy\nq\n", "length=20", `Not known here: "xyzzy".`},
		{"an answer stays an answer", "a\nq\n", "1a", "Question 2"},
	} {
		t.Run(row.why, func(t *testing.T) {
			q := embeddedInquiry(t)
			_, out, err := typed(q, row.lines, 80)
			if err != nil || !strings.Contains(out, row.says) {
				t.Errorf("%v\n%s\nwithout %q", err, out, row.says)
			}
			if path(q) != row.path {
				t.Errorf("path %q, want %q", path(q), row.path)
			}
		})
	}
}

// Whatever is typed, at whatever size, nothing breaks.
func TestSayingAtEverySize(t *testing.T) {
	drawings := atlas(keytest.Key(t))
	for _, size := range []size{{1, 1}, {10, 3}, {40, 20}, {80, 24}, {200, 60}} {
		m := pictured(embeddedInquiry(t), drawings, size.width, size.height)
		m.strike()
		press(m, "p i n c e r s space r o u n d")
		m.View()
		press(m, "enter a b")
		m.View()
		press(m, "tab v enter enter")
		m.View()
	}
}

// A word that is known for a trait is noted unasked only where it speaks of it.
func TestAWordAmongOthersIsAskedAbout(t *testing.T) {
	for _, row := range []struct {
		said, words string
		taken       bool
	}{
		{"hard", "hard", true},
		{"it was holding on so hard that I could not lift it", "hard", false},
		{"a big thing with pincers on its legs", "pincers", true},
		{"six slim legs and a brown head", "six slim legs", true},
		{"something like a snail", "snail", false},
		{"three tails that it holds wide apart", "three tails", true},
	} {
		s := sit(embeddedInquiry(t), Destination{}, nil)
		s.hear(row.said)
		for _, h := range s.heard {
			if strings.Contains(h.Words, row.words) && h.taken != row.taken {
				t.Errorf("%q: %q is noted unasked: %v, want %v", row.said, h.Words, h.taken, row.taken)
			}
		}
		if row.taken && len(s.heard) == 0 {
			t.Errorf("%q is not understood", row.said)
		}
	}
}

// A bare number is the length where that is asked for, by key and by line; a letter
// answers the question behind it, and where none is left that ends the questions.
func TestABareNumberIsTheLength(t *testing.T) {
	for pressed, want := range map[string]string{"9 enter": "length=9", "1 2 m m enter": "length=12", "1 , 5 space c m enter": "length=15",
		"m y space f i n g e r enter": "length=63", "a space g r a i n space o f space r i c e enter": "length=6",
		"a b o u t space a n space i n c h enter": "length=25.4", "a enter": "1a"} {
		q := embeddedInquiry(t)
		m := opened(t, q, 80, 24)
		m.size()
		if press(m, pressed); path(q) != want {
			t.Errorf("%q where the length is asked for: %q, want %q", pressed, path(q), want)
		}
	}
	q := embeddedInquiry(t)
	m := opened(t, q, 80, 24)
	for now := q.Question(); now != nil; now = q.Question() {
		lead := "a"
		if now.Trait != nil {
			lead = now.States()[0]
		}
		if err := q.Answer(lead); err != nil {
			t.Fatal(err)
		}
	}
	m.size()
	if press(m, "a enter"); m.sizing {
		t.Error("a letter does not end the question for the length")
	}
	l := &liner{sitting: sit(q, Destination{}, nil)}
	l.size()
	if !l.words("a") || l.sizing {
		t.Error("a letter does not end the question for the length, line by line")
	}
}

// A length stands among what can be looked at again, also when it is all that was said;
// another takes its place, and nothing leaves it as it is.
func TestALengthCanBeLookedAtAgain(t *testing.T) {
	for anew, want := range map[string]float64{"9": 9, "": 12} {
		q := embeddedInquiry(t)
		if err := q.ObserveLength(12); err != nil {
			t.Fatal(err)
		}
		if !CanLookAgain(q) {
			t.Error("nothing can be looked at again")
		}
		_, out, _ := typed(q, "r\na\n"+anew+"\ns\n", 80)
		if q.Length() != want || !strings.Contains(out, "How long is it? 12 mm.") || !strings.Contains(out, "so far 12 mm") {
			t.Errorf("%q: the length is %g, want %g\n%s", anew, q.Length(), want, out)
		}
	}
}

func TestABareNumberIsTheLengthByLine(t *testing.T) {
	asked := func(lines string) string {
		q := embeddedInquiry(t)
		if err := q.Observe("tails", "2"); err != nil {
			t.Fatal(err)
		}
		_, out, _ := typed(q, lines, 80)
		return out
	}
	lines := "?\n"
	for !strings.Contains(asked(lines), "How long is it?") {
		if lines += "?\n"; len(lines) > 24 {
			t.Fatal("the length is never asked for")
		}
	}
	if out := asked(lines + "9\n"); !strings.Contains(out, "Noted: 9 mm long") {
		t.Error(out)
	}
	if out := asked(lines + "a\n"); strings.Contains(out, "There is no a") || strings.Count(out, "How long is it?") != 1 {
		t.Error(out)
	}
}

// What is asked for as a length is taken in all the ways in which it is taken among other
// words, and refused in words that say how.
func TestALengthIsTypedInManyWays(t *testing.T) {
	v := keytest.Key(t).Catalog().Vocabulary()
	for text, want := range map[string]float64{
		"12": 12, "12 mm": 12, "1,5 cm": 15, "6,5": 6.5, "about an inch": 25.4, "an inch and a half": 38.1, "half an inch": 12.7,
		"a grain of rice": 6, "rice grain": 6, "as big as a grain of rice": 6, "as long as my finger": 63, "my finger": 63,
		"body 8 mm": 8, "small": 0, "case 8 mm": 0, "": 0, "0": 0, "8 mm across": 0, "1.2.3": 0,
	} {
		mm, err := LengthTyped(v, text)
		if mm != want || (err == nil) != (want > 0) {
			t.Errorf("%q is %g mm, %v; want %g", text, mm, err, want)
		}
	}
	if _, err := LengthTyped(v, "small"); err == nil || !strings.Contains(err.Error(), "grain of rice") {
		t.Errorf("small is refused with: %v", err)
	}
}

// The line beneath what is asked says what can be typed there: a number is a mark
// only where marks are offered.
func TestTheLineBeneathSaysWhatCanBeTyped(t *testing.T) {
	for _, row := range []struct {
		why, beneath, enter, line string
		turn                      func(*sitting)
	}{
		{"the length", "> _ (type 12, 1.5 cm, a grain of rice)", "Enter leave it open", "Answer its length in mm", (*sitting).size},
		{"no marks", "> _ (type)", "Enter nothing of this", "Answer in your own words", func(s *sitting) { s.strikeBy(nil) }},
		{"marks", "> _ (type words or a number, then Enter)", "Enter nothing of this", "Answer a number, or", (*sitting).strike},
	} {
		for _, width := range []int{40, 80} {
			m := opened(t, embeddedInquiry(t), width, 20)
			row.turn(m.sitting)
			if got := m.View(); !strings.Contains(got, row.beneath) || !strings.Contains(got, row.enter) {
				t.Errorf("%s, %d columns: the screen shows\n%s", row.why, width, got)
			}
		}
		l := &liner{sitting: sit(embeddedInquiry(t), Destination{}, nil)}
		row.turn(l.sitting)
		if got := l.prompt(); !strings.HasPrefix(got, row.line) {
			t.Errorf("%s, by line: %q", row.why, got)
		}
	}
}

// More that was said than a screen holds is told of, and shown when the first of it was noted.
func TestAllThatWasSaidIsShown(t *testing.T) {
	s := sit(embeddedInquiry(t), Destination{}, nil)
	all := make([]heard, 0, 2*mostHeard)
	for _, trait := range s.now.catalog.Vocabulary().Traits()[:mostHeard+3] {
		all = append(all, heard{Seen: taxa.Seen{Trait: trait, States: []string{trait.States[0].ID}}})
	}
	s.stage, s.buttons = hearing, false
	s.heard, s.later = heardFirst(appendHeard(nil, all))
	if text := hearingBlocks(s)[1].text; len(s.choices()) != mostHeard || !strings.Contains(text, "Then come 3 more.") {
		t.Errorf("%d choices, %q", len(s.choices()), text)
	}
	s.takeHeard()
	if len(s.choices()) != 3 || s.stage != hearing || strings.Contains(hearingBlocks(s)[1].text, "more.") {
		t.Errorf("then %d choices", len(s.choices()))
	}
	if s.takeHeard(); s.stage == hearing {
		t.Error("it goes on for ever")
	}
}
