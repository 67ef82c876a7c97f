package question

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/taxa"
)

func TestKeysOfTheScreen(t *testing.T) {
	k := small(t)
	for _, row := range []struct {
		why, keys string
		path      string
		shows     string // somewhere on the screen, or nothing when it has closed
		outcome   Ending
	}{
		{"the first question, both leads in full", "", "", "a:  Six legs with joints, three on each side of the chest, 3-5 mm long", Left},
		{"its second lead", "", "", "b:  No legs anywhere", Left},
		{"there is no way back yet, so none is offered", "", "",
			"a or b choose   ? can't tell   h how to look   w say what you see   s set aside\nq leave", Left},
		{"nor is there an answer to look at again", "r", "", "That is no answer here.", Left},
		{"later both are", "a", "1a", "a or b choose   ? can't tell   < back   h how to look   w say what you see\nr look again", Left},
		{"one key answers", "a", "1a", "Question 2 (couplet 2): Tails", Left},
		{"capitals are the same keys", "A", "1a", "Question 2 (couplet 2): Tails", Left},
		{"advice to wait", "a", "1a", "Wait: Float it in a finger of water until the tails fan out.", Left},
		{"a lens is announced", "a a", "1a 2a", "Use: a hand lens.", Left},
		{"few kinds are named", "a a", "1a 2a", "Still possible, 3 kinds: small swimmer mayfly, Heptageniidae, Ephemerellidae.", Left},
		{"stopping is offered with its name", "a a", "1a 2a", "If you stop here (s): it is named mayfly (Ephemeroptera).", Left},
		{"before the name it asks for the length", "b", "1b", "Before the name: in mm, without tails", Left},
		{"which may be left open, and the screen closes", "b enter", "1b", "", Named},
		{"of letters that come in one go a couplet takes the first", "ab", "1a", "Only a was taken: one letter answers a question.", Left},
		{"can't tell says that it rules nothing out", "a ?", "1a 2?", "Can't tell: nothing is ruled out.", Left},
		{"no such lead here", "c", "", "There is no c here: it is a or b.", Left},
		{"a key that is nothing", "!", "", "That is no answer here. Choose a or b, or ? for can't tell, or h for help.", Left},
		{"a remark goes with the next answer", "! a", "1a", "Question 2", Left},
		{"back", "a <", "", "Back, this is taken away: six legs.", Left},
		{"back by backspace", "a a backspace", "1a", "Back, this is taken away: three tails.", Left},
		{"back by the left arrow", "a ? left", "1a", "Back, this is taken away: tails: can't tell.", Left},
		{"look again lists the most suspect first", "a a r", "1a 2a", "a:  Tails: Three tails. ", Left},
		{"how suspect is said in words with its number", "? b a enter r", "1? swims=crawls tails=none", "Probably misread (0.", Left},
		{"what fits has no number", "a a r", "1a 2a", "Three tails. Fits the rest.", Left},
		{"an answer is asked anew by its letter", "a a r b", "1a 2a", "Once more (couplet 1): Legs", Left},
		{"what was said stands with it", "a a r a", "1a 2a", "You said: Three tails. ", Left},
		{"answered anew, the others are kept", "a a r a c", "1a 2a", "There is no c here: it is a or b.", Left},
		{"can't tell is an answer there too", "a a r a ?", "1a 2?", "Question 3", Left},
		{"back from the list changes nothing", "a a r <", "1a 2a", "Question 3", Left},
		{"back from the answer goes to the list", "a a r a <", "1a 2a", "Which answer do you want", Left},
		{"r there goes to the list too", "a a r a r", "1a 2a", "Which answer do you want", Left},
		{"no such answer in the list", "a a r z", "1a 2a", "There is no z here: it is a or b.", Left},
		{"can't tell is none of the list", "a a r ?", "1a 2a", "That is no answer here. Choose a or b, or < for back.", Left},
		{"what nobody could tell is in the list", "a ? r", "1a 2?", "Tails: can't tell.", Left},
		{"help in the list", "a a r h", "1a 2a", "the answer that you want to give anew.", Left},
		{"no way back from the first", "<", "", "This is the first question.", Left},
		{"help", "a h", "1a", "How many tails? Float it: thin tails fan out. Use patience, until it moves.", Left},
		{"help on a trait without a hint", "a a h", "1a 2a", "How does it move? Your eyes are enough.", Left},
		{"help says what can't tell does", "h", "", "?:  can't tell. That is a good answer, also where none", Left},
		{"help shows the answers", "a h", "1a", "Your answers so far: six legs.", Left},
		{"help closes by its key", "h h", "", "Question 1", Left},
		{"help closes by Enter", "h enter", "", "Question 1", Left},
		{"help takes no answers", "h a b", "", "How to look", Left},
		{"q in the help only closes the help", "h q", "", "Question 1", Left},
		{"stop asks again, and says what for", "a a s", "1a 2a", "If you stop, it is named mayfly (Ephemeroptera).", Left},
		{"stop with a class says so", "a s", "1a", "If you stop, it gets no name, but it is a sensitive kind, very sure (0.9", Left},
		{"stop without a name says so", "s", "", "If you stop, it gets no name yet and is set aside for a second look.", Left},
		{"stop twice stops", "a a s s", "1a 2a stop", "", Named},
		{"another key goes on, and answers nothing", "a a s a", "1a 2a", "Question 3", Left},
		{"leave asks again", "q", "", "Leave without a name?", Left},
		{"back by Esc", "a a esc", "1a", "Back, this is taken away: three tails.", Left},
		{"Esc leaves nothing", "esc esc", "", "This is the first question.", Left},
		{"Esc closes the help", "a h esc", "1a", "Question 2", Left},
		{"Esc takes leaving back", "a q esc", "1a", "Question 2", Left},
		{"Esc takes stopping back", "a s esc", "1a", "Question 2", Left},
		{"Esc goes back from the list", "a a r esc", "1a 2a", "Question 3", Left},
		{"leave twice leaves", "a q q", "1a", "", Left},
		{"Ctrl-C leaves at once", "a a ctrl+c", "1a 2a", "", Left},
		{"Ctrl-C leaves from the help", "h ctrl+c", "", "", Left},
		{"keys that are nothing change nothing", "tab enter", "", "That is no answer here.", Left},
	} {
		t.Run(row.why, func(t *testing.T) {
			q := begin(t, k)
			m := shown(q, 80, 24)
			press(m, row.keys)
			if got := m.View(); (row.shows == "") != (got == "") || !strings.Contains(got, row.shows) {
				t.Errorf("the screen shows\n%s\nwithout %q", got, row.shows)
			}
			if path(q) != row.path || m.outcome != row.outcome {
				t.Errorf("path %q, outcome %v", path(q), m.outcome)
			}
		})
	}
}

func TestPastedTextIsNoAnswer(t *testing.T) {
	q := begin(t, small(t))
	m := shown(q, 80, 24)
	m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("ab"), Paste: true})
	if path(q) != "" || !strings.Contains(m.View(), "Pasted text is no answer") {
		t.Errorf("%q\n%s", path(q), m.View())
	}
}

// What was observed before the questions is not undone by going back.
func TestBackStopsAtWhatWasObserved(t *testing.T) {
	q := begin(t, small(t))
	if err := q.Observe("swims", "crawls"); err != nil {
		t.Fatal(err)
	}
	press(shown(q, 80, 24), "a < backspace <")
	if path(q) != "swims=crawls" {
		t.Errorf("path %q", path(q))
	}
}

// Where the engine chooses, the question says why it is asked.
func TestAChosenQuestionSaysWhy(t *testing.T) {
	o := key.DefaultOptions()
	o.Order = key.Shortest
	m := shown(inquire(t, small(t), o), 80, 24)
	if v := m.View(); !strings.Contains(v, "Asked now because it tells most about what is left.") {
		t.Errorf("\n%s", v)
	}
}

// An answer that fits the ones before badly leaves more kinds possible, not
// fewer, and that is said where it is itself more likely misread than not; then,
// and not otherwise.
func TestAnUnexpectedAnswerIsRemarkedOn(t *testing.T) {
	const remark = "so that was not expected"
	r, model, remarked := rand.New(rand.NewPCG(5, 8)), model(t, keytest.Key(t)), 0
	walks := keytest.Thoroughly(500, 200)
	if testing.Short() {
		walks = 30
	}
	for range walks {
		q, err := model.Inquire(key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		m := shown(q, 80, 24)
		for step := range 6 {
			before := len(q.Possible())
			choices := m.choices()
			if step == 0 {
				choices = choices[:3] // the fourth is no animal, and soon told
			}
			if len(choices) == 0 {
				break
			}
			press(m, choices[r.IntN(len(choices))].letter)
			if m.done || m.stage != asking {
				break
			}
			after, says := len(q.Possible()), strings.Contains(squeeze(m.View()), squeeze(remark))
			suspects := q.Suspects()
			doubted := len(suspects) > 0 && suspects[0].Given == len(q.Given())-1 && suspects[0].Probability > 0.5
			if more := float64(after) > muchMore*float64(before); (more && doubted) != says {
				t.Errorf("%d kinds before, %d after %s: remarked on %v\n%s", before, after, path(q), says, m.View())
			} else if says {
				remarked++
			}
		}
	}
	t.Logf("%d of %d walks met an unexpected answer", remarked, walks)
	if remarked == 0 && !testing.Short() {
		t.Error("no answer was unexpected")
	}
}

// Once the author's path has ended, and the name is not sure enough, more is
// asked, and the screen says why and how sure the name is.
func TestMoreIsAskedToBeSurer(t *testing.T) {
	q := inquire(t, small(t), key.DefaultOptions())
	m := shown(q, 80, 24)
	press(m, "a b")
	for _, want := range []string{"Question 3: ", "One more look, to be surer. Most likely so far: stonefly, ", "sure (0."} {
		if v := squeeze(m.View()); !strings.Contains(v, squeeze(want)) {
			t.Errorf("no %q in\n%s", want, m.View())
		}
	}
}

// What was seen fits no kind, and nothing more may be asked: the answer most
// suspect is offered, and giving it anew settles the rest.
func TestWhatDoesNotSettleIsOfferedAgain(t *testing.T) {
	o := key.DefaultOptions()
	o.Most = 0
	q := inquire(t, small(t), o)
	for _, said := range []string{"legs=6", "tails=2", "gills=yes", "swims=swims"} {
		if err := q.Say(said); err != nil {
			t.Fatal(err)
		}
	}
	m := shown(q, 80, 24)
	press(m, "enter") // of any length
	for _, want := range []string{"The answers do not settle it", "No kind in this key shows all of that",
		"Most suspect: How many tails? two tails. ", "misread (0.", "r look again", "s stop here"} {
		if v := m.View(); !strings.Contains(v, want) {
			t.Errorf("no %q in\n%s", want, v)
		}
	}
	press(m, "x")
	if v := m.View(); !strings.Contains(v, "Choose r to look again, s to set it aside") {
		t.Errorf("\n%s", v)
	}
	press(m, "r <")
	if m.done || m.stage != unsettled {
		t.Errorf("back from the list: stage %d, done %v", m.stage, m.done)
	}
	press(m, "r a c")
	if v := q.Verdict(); !m.done || m.outcome != Named || v.Taxon != "swimmer" || path(q) != "legs=6 tails=2/3 gills=yes swims=swims" {
		t.Errorf("%v, %v, %+v", m.done, path(q), v)
	}
}

// A name that is checked stands above every question, with how likely it is so
// far.
func TestCheckingAName(t *testing.T) {
	q, err := model(t, small(t)).Check("stonefly", key.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	m := shown(q, 80, 24)
	if v := m.View(); !strings.Contains(v, "Is it stonefly (Plecoptera)? So far: open (0.50).") || !strings.Contains(v, "s set aside") {
		t.Errorf("\n%s", v)
	}
	for range 10 {
		if m.done {
			break
		}
		pick := map[string]string{"tails": "b", "legs": "b", "swims": "b", "gills": "b", "1": "a", "2": "b", "3": "?"}[q.Question().ID()]
		press(m, pick)
	}
	if got := q.Checked(); !m.done || got.Outcome != key.CheckConfirmed {
		t.Errorf("%v, %s\n%s", got, path(q), m.View())
	}
}

// A name refuted by answers that no kind shows is not left at that: the answer
// most suspect is offered first.
func TestAContradictionIsOfferedBeforeANameIsRefuted(t *testing.T) {
	q, err := model(t, small(t)).Check("stonefly", key.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	for _, said := range []string{"legs=6", "tails=3", "gills=yes", "swims=neither"} {
		if err := q.Say(said); err != nil {
			t.Fatal(err)
		}
	}
	m := shown(q, 80, 24)
	if got := q.Checked().Outcome; got != key.CheckRefuted {
		t.Fatalf("it is %s", got)
	}
	if v := m.View(); !strings.Contains(v, "The answers do not fit together") ||
		!strings.Contains(squeeze(v), squeeze("Press s to end: it is not that.")) {
		t.Errorf("\n%s", v)
	}
}

// More states than the first six letters have letters beyond, and no key with
// another meaning is among them.
func TestLettersOfManyStates(t *testing.T) {
	for _, taken := range []string{back, howTo, again, stop, leave, key.Unsure} {
		if strings.Contains(letters, taken) {
			t.Errorf("%s is a letter of an answer", taken)
		}
	}
	if !strings.HasPrefix(letters, couplets.Letters) {
		t.Errorf("leads have the letters %s, other answers %s", couplets.Letters, letters)
	}
	many := &taxa.Trait{ID: "many", Question: "Which?"}
	for i := range 64 {
		many.States = append(many.States, taxa.State{ID: fmt.Sprint("s", i), Label: fmt.Sprint("state ", i)})
	}
	got := choicesOf(key.Question{Trait: many})
	seen := map[string]bool{}
	for _, c := range got {
		seen[c.letter] = true
	}
	if len(got) != len(letters) || len(seen) != len(got) || got[7].letter != "i" || got[7].pick != "s7" {
		t.Errorf("%d choices, %d letters; the eighth is %v", len(got), len(seen), got[7])
	}
}

func TestAScreenOfAnInquiryThatHasEndedDoesNotOpen(t *testing.T) {
	q := begin(t, small(t))
	q.Stop()
	if got, err := Screen(q, Destination{}, nil, strings.NewReader(""), nil, terminal.Appearance{}); got != Named || err != nil {
		t.Error(got, err)
	}
}

type size struct{ width, height int }

var sizes = []size{{80, 24}, {40, 20}, {30, 6}, {20, 5}, {24, 3}, {7, 2}, {1, 1}, {1, 24}, {200, 1}, {0, 0}}

// At every size, on every page: no line is wider than the terminal, there are
// never more lines than it has, and scrolling shows every word.
func TestEveryPageFitsAndNothingIsLost(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	for _, row := range []struct {
		name  string
		key   *key.Key
		sizes []size
		pages []string
	}{
		{"small", small(t), sizes, []string{"", "!", "h", "s", "q", "r", "r a", "r h"}},
		{"embedded", keytest.Key(t), []size{{80, 24}, {40, 20}}, []string{"", "h"}},
		{"embedded", keytest.Key(t), []size{{20, 5}}, []string{""}},
	} {
		ways := waysTo(t, row.key)
		if len(ways) != len(row.key.Couplets()) {
			t.Fatalf("%d of %d couplets can be reached", len(ways), len(row.key.Couplets()))
		}
		for _, size := range row.sizes {
			t.Run(fmt.Sprintf("%s %dx%d", row.name, size.width, size.height), func(t *testing.T) {
				t.Parallel()
				model, pages := model(t, row.key), row.pages
				if size.width == 1 {
					pages = pages[:1] // a page is hundreds of lines long here
				}
				for _, answers := range ways {
					for _, page := range pages {
						m := shown(walked(t, model, answers), size.width, size.height)
						press(m, page)
						checkAllIsSeen(t, m, size.width, size.height)
					}
				}
			})
		}
	}
}

func checkAllIsSeen(t *testing.T, m *screen, width, height int) {
	t.Helper()
	seen := readAll(t, m, width, height)
	for _, b := range m.pageBlocks() {
		if !strings.Contains(seen, squeeze(b.text)) || !strings.Contains(seen, squeeze(b.mark)) {
			t.Fatalf("after %s, page %d: %q is not to be seen", path(m.q), m.page, b.text)
		}
	}
}

// waysTo is, for each couplet, answers that lead to it.
func waysTo(t *testing.T, k *key.Key) map[string][]string {
	t.Helper()
	ways := map[string][]string{k.Couplets()[0].ID: {}}
	for queue := []string{k.Couplets()[0].ID}; len(queue) > 0; queue = queue[1:] {
		for _, c := range k.Couplets() {
			if c.ID != queue[0] {
				continue
			}
			for _, l := range c.Leads {
				if _, known := ways[l.Next]; l.Next != "" && !known {
					ways[l.Next] = append(slices.Clone(ways[c.ID]), c.ID+l.Letter)
					queue = append(queue, l.Next)
				}
			}
		}
	}
	return ways
}

// walked is the inquiry after these answers, on the author's path.
func walked(t *testing.T, m *key.Model, answers []string) *key.Inquiry {
	t.Helper()
	o := key.DefaultOptions()
	o.Required, o.Confirm = 0.85, 0
	q, err := m.Inquire(o)
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range answers {
		if err := q.Say(a); err != nil {
			t.Fatal(err)
		}
	}
	return q
}

// readAll scrolls down line by line and joins what passes, without blanks.
func readAll(t *testing.T, m *screen, width, height int) string {
	t.Helper()
	var passed strings.Builder
	rounds := 2000
	if testing.Short() {
		rounds = 300
	}
	for range rounds {
		view := m.View()
		checkFits(t, view, width, height)
		first, _, _ := strings.Cut(view, "\n")
		top := m.top
		press(m, "down")
		if m.top == top {
			passed.WriteString(view)
			return squeeze(passed.String())
		}
		passed.WriteString(first)
	}
	t.Fatal("no end to scrolling")
	return ""
}

func checkFits(t *testing.T, view string, width, height int) {
	t.Helper()
	if width == 0 {
		width, height = 80, 24
	}
	lines := strings.Split(view, "\n")
	if len(lines) > height {
		t.Fatalf("%d lines on %d:\n%s", len(lines), height, view)
	}
	for _, l := range lines {
		if ansi.StringWidth(l) > width {
			t.Fatalf("%q is wider than %d", l, width)
		}
	}
}

func squeeze(s string) string { return strings.Join(strings.Fields(ansi.Strip(s)), "") }

func TestScrolling(t *testing.T) {
	for _, row := range []struct{ keys, shows, hides string }{
		{"", "↓ more", "↑"},
		{"down", "↑↓ more", "↓ more below"},
		{"end", "↑ more", "↓"},
		{"end home", "↓ more", "↑"},
		{"pgdown", "↑", "Question"},
		{"space space space space space space", "↑ more", "↓"},
		{"end pgup pgup pgup pgup pgup pgup", "↓ more", "↑"},
		{"end up", "↑↓ more", "Question"},
	} {
		m := shown(begin(t, small(t)), 30, 6)
		press(m, row.keys)
		if v := m.View(); !strings.Contains(v, row.shows) || strings.Contains(v, row.hides) {
			t.Errorf("%q: %q without %q:\n%s", row.keys, row.shows, row.hides, v)
		}
	}
}

func TestAnAnswerStartsTheNextPageAtItsTop(t *testing.T) {
	m := shown(begin(t, small(t)), 30, 6)
	press(m, "end a")
	if v := m.View(); !strings.HasPrefix(v, "Question 2") {
		t.Errorf("\n%s", v)
	}
}

func TestATerminalMayChangeItsSizeAtAnyTime(t *testing.T) {
	m := shown(begin(t, small(t)), 20, 4)
	press(m, "end")
	for _, size := range sizes {
		m.Update(tea.WindowSizeMsg{Width: size.width, Height: size.height})
		checkFits(t, m.View(), size.width, size.height)
	}
	m.Update(tea.WindowSizeMsg{Width: 80, Height: 24})
	if v := m.View(); !strings.HasPrefix(v, "Question 1") {
		t.Errorf("all fits again, and yet the page starts further down:\n%s", v)
	}
}

// Without colour there are bold letters, and no code that sets a colour.
func TestNoColourMeansNone(t *testing.T) {
	m := newScreen(begin(t, small(t)), Destination{}, nil, terminal.Appearance{}.Ink(nil))
	m.Update(tea.WindowSizeMsg{Width: 80, Height: 24})
	press(m, "a x")
	v := m.View()
	if rest := strings.NewReplacer("\x1b[1m", "", "\x1b[0m", "").Replace(v); strings.Contains(rest, "\x1b") {
		t.Errorf("%q", v)
	}
	if !strings.Contains(v, "\x1b[1ma:\x1b[0m") {
		t.Errorf("the letters do not stand out: %q", v)
	}
}

// A sound key holds no control characters; what shows it does not rely on that.
func TestHostileTextReachesNoTerminal(t *testing.T) {
	const evil = "\x1b]0;owned\a\x1b[2J\u202egnp\r\nx\x9b31m"
	k := small(t)
	q := begin(t, k)
	c := q.Question().Couplet
	c.Ask, c.Wait, c.Leads[0].Text = evil, evil, evil
	for _, tx := range k.Ends() {
		tx.Common = []string{evil}
	}
	trait := k.Catalog().Vocabulary().Trait("legs")
	trait.How, trait.Question = evil, evil
	m := shown(q, 80, 24)
	for _, keys := range []string{"", "h", "h", "s", "x", "q"} {
		press(m, keys)
		if v := m.View(); strings.ContainsAny(v, "\x1b\a\r\u202e\u009b") {
			t.Errorf("after %q: %q", keys, v)
		}
	}
	_, out, err := typed(q, "h\n\x1b[31m\nx\x1b\n", 0)
	if err == nil || strings.ContainsAny(out+err.Error(), "\x1b\a\r\u202e\u009b") {
		t.Errorf("%v: %q", err, out)
	}
}
