package question

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"rillkey/cmd/rillkey/ask/terminal"
	"rillkey/key"
)

func TestKeysOfTheScreen(t *testing.T) {
	k := small(t)
	for _, row := range []struct {
		why, keys string
		path      string
		shows     string // somewhere on the screen, or nothing when it has closed
		outcome   Outcome
	}{
		{"the first question, both leads in full", "", "", "a:  Six legs with joints, three on each side of the chest, 3-5 mm long", Left},
		{"its second lead", "", "", "b:  No legs anywhere", Left},
		{"there is no way back yet, so none is offered", "", "", "a or b choose   ? can't tell   h how to look   s set aside   q leave", Left},
		{"one key answers", "a", "1a", "Question 2 (couplet 2): Tails", Left},
		{"capitals are the same keys", "A", "1a", "Question 2 (couplet 2): Tails", Left},
		{"advice to wait", "a", "1a", "Wait: Float it in a finger of water until the tails fan out.", Left},
		{"a lens is announced", "a a", "1a 2a", "Use: a hand lens.", Left},
		{"few kinds are named", "a a", "1a 2a", "Still possible, 3 kinds: small swimmer mayfly, Heptageniidae, Ephemerellidae.", Left},
		{"stopping is offered with its name", "a a", "1a 2a", "If you stop here (s): it is named mayfly (Ephemeroptera).", Left},
		{"the walk ends and the screen closes", "b", "1b", "", Named},
		{"letters that come in one go are one key each", "aac", "1a 2a 3c", "", Named},
		{"can't tell says that it rules nothing out", "?", "1?", "Can't tell: nothing is ruled out.", Left},
		{"no such lead here", "c", "", "There is no c here: it is a or b.", Left},
		{"a letter that is nothing", "x", "", "That is no answer here. Choose a or b, or ? for can't tell, or h for help.", Left},
		{"a remark goes with the next answer", "x a", "1a", "Question 2", Left},
		{"back", "a <", "", "Back: your answer 1a is taken away.", Left},
		{"back by backspace", "a a backspace", "1a", "Back: your answer 2a is taken away.", Left},
		{"back by the left arrow", "a ? left", "1a", "Back: your answer 2? is taken away.", Left},
		{"no way back from the first", "<", "", "This is the first question.", Left},
		{"help", "a h", "1a", "How many tails? Float it: thin tails fan out. Use patience, until it moves.", Left},
		{"help on a trait without a hint", "a a h", "1a 2a", "How does it move? Your eyes are enough.", Left},
		{"help says what can't tell does", "h", "", "?:  can't tell. That is a good answer: it rules nothing out", Left},
		{"help shows the answers", "a h", "1a", "Your answers so far, with what follows from them: 1a.", Left},
		{"help closes by its key", "h h", "", "Question 1", Left},
		{"help closes by Enter", "h enter", "", "Question 1", Left},
		{"help takes no answers", "h a b", "", "How to look", Left},
		{"q in the help only closes the help", "h q", "", "Question 1", Left},
		{"stop asks again, and says what for", "a a s", "1a 2a", "If you stop, it is named mayfly (Ephemeroptera).", Left},
		{"stop without a name says so", "a s", "1a", "If you stop, it gets no name yet and is set aside for a second look.", Left},
		{"stop twice stops", "a a s s", "1a 2a", "", Named},
		{"another key goes on, and answers nothing", "a a s a", "1a 2a", "Question 3", Left},
		{"leave asks again", "q", "", "Leave without a name?", Left},
		{"leave by Esc asks again", "esc", "", "Leave without a name?", Left},
		{"Esc twice goes on", "esc esc", "", "Question 1", Left},
		{"leave twice leaves", "a q q", "1a", "", Left},
		{"Ctrl-C leaves at once", "a a ctrl+c", "1a 2a", "", Left},
		{"Ctrl-C leaves from the help", "h ctrl+c", "", "", Left},
		{"keys that are nothing change nothing", "tab enter", "", "That is no answer here.", Left},
	} {
		t.Run(row.why, func(t *testing.T) {
			w := k.Walk()
			m := shown(w, 80, 24)
			press(m, row.keys)
			if got := m.View(); (row.shows == "") != (got == "") || !strings.Contains(got, row.shows) {
				t.Errorf("the screen shows\n%s\nwithout %q", got, row.shows)
			}
			if path(w) != row.path || m.outcome != row.outcome {
				t.Errorf("path %q, outcome %v", path(w), m.outcome)
			}
		})
	}
}

func TestPastedTextIsNoAnswer(t *testing.T) {
	w := small(t).Walk()
	m := shown(w, 80, 24)
	m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("ab"), Paste: true})
	if path(w) != "" || !strings.Contains(m.View(), "Pasted text is no answer") {
		t.Errorf("%q\n%s", path(w), m.View())
	}
}

// What was observed before the questions is not undone by going back.
func TestBackStopsAtWhatWasObserved(t *testing.T) {
	w := small(t).Walk()
	if err := w.Observe("swims", "crawls"); err != nil {
		t.Fatal(err)
	}
	before := len(w.Possible())
	press(shown(w, 80, 24), "< backspace <")
	if len(w.Possible()) != before {
		t.Errorf("%d kinds, there were %d", len(w.Possible()), before)
	}
}

func TestAScreenOfAWalkThatHasEndedDoesNotOpen(t *testing.T) {
	w := small(t).Walk()
	w.Stop()
	if got, err := Screen(w, strings.NewReader(""), nil, Look{}); got != Named || err != nil {
		t.Error(got, err)
	}
}

type size struct{ width, height int }

var sizes = []size{{80, 24}, {40, 20}, {30, 6}, {20, 5}, {24, 3}, {7, 2}, {1, 1}, {1, 24}, {200, 1}, {0, 0}}

// At every size, on every page: no line is wider than the terminal, there are
// never more lines than it has, and scrolling shows every word.
func TestEveryPageFitsAndNothingIsLost(t *testing.T) {
	for _, row := range []struct {
		name  string
		key   *key.Key
		sizes []size
		pages []string
	}{
		{"small", small(t), sizes, []string{"", "x", "h", "s", "q"}},
		{"embedded", embedded(t), []size{{80, 24}, {40, 20}}, []string{"", "h"}},
		{"embedded", embedded(t), []size{{20, 5}}, []string{""}},
	} {
		ways := waysTo(t, row.key)
		if len(ways) != len(row.key.Couplets()) {
			t.Fatalf("%d of %d couplets can be reached", len(ways), len(row.key.Couplets()))
		}
		for _, size := range row.sizes {
			t.Run(fmt.Sprintf("%s %dx%d", row.name, size.width, size.height), func(t *testing.T) {
				pages := row.pages
				if size.width == 1 {
					pages = pages[:1] // a page is hundreds of lines long here
				}
				for _, answers := range ways {
					for _, page := range pages {
						m := shown(walked(t, row.key, answers), size.width, size.height)
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
	for _, b := range m.blocks() {
		if !strings.Contains(seen, squeeze(b.text)) || !strings.Contains(seen, squeeze(b.mark)) {
			t.Fatalf("after %s, page %d: %q is not to be seen", path(m.walk), m.page, b.text)
		}
	}
}

// waysTo is, for each couplet, answers that lead to it.
func waysTo(t *testing.T, k *key.Key) map[string][]string {
	t.Helper()
	ways := map[string][]string{}
	for queue := [][]string{nil}; len(queue) > 0; queue = queue[1:] {
		c := walked(t, k, queue[0]).Couplet()
		if c == nil || ways[c.ID] != nil {
			continue
		}
		ways[c.ID] = append([]string{}, queue[0]...)
		for _, l := range c.Leads {
			queue = append(queue, append(slices.Clone(queue[0]), c.ID+l.Letter))
		}
	}
	return ways
}

func walked(t *testing.T, k *key.Key, answers []string) *key.Walk {
	t.Helper()
	w := k.Walk()
	for _, a := range answers {
		if err := w.Answer(a); err != nil {
			t.Fatal(err)
		}
	}
	return w
}

// readAll scrolls down line by line and joins what passes, without blanks.
func readAll(t *testing.T, m *screen, width, height int) string {
	t.Helper()
	var passed strings.Builder
	for range 2000 {
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
		m := shown(small(t).Walk(), 30, 6)
		press(m, row.keys)
		if v := m.View(); !strings.Contains(v, row.shows) || strings.Contains(v, row.hides) {
			t.Errorf("%q: %q without %q:\n%s", row.keys, row.shows, row.hides, v)
		}
	}
}

func TestAnAnswerStartsTheNextPageAtItsTop(t *testing.T) {
	m := shown(small(t).Walk(), 30, 6)
	press(m, "end a")
	if v := m.View(); !strings.HasPrefix(v, "Question 2") {
		t.Errorf("\n%s", v)
	}
}

func TestATerminalMayChangeItsSizeAtAnyTime(t *testing.T) {
	m := shown(small(t).Walk(), 20, 4)
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
	m := newScreen(small(t).Walk(), terminal.Look{}.Ink(nil))
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
	w := k.Walk()
	c := w.Couplet()
	c.Ask, c.Wait, c.Leads[0].Text = evil, evil, evil
	for _, tx := range k.Ends() {
		tx.Common = []string{evil}
	}
	trait := k.Catalog().Vocabulary().Trait("legs")
	trait.How, trait.Question = evil, evil
	m := shown(w, 80, 24)
	for _, keys := range []string{"", "h", "h", "s", "x", "q"} {
		press(m, keys)
		if v := m.View(); strings.ContainsAny(v, "\x1b\a\r\u202e\u009b") {
			t.Errorf("after %q: %q", keys, v)
		}
	}
	_, out, err := typed(w, "h\n\x1b[31m\nx\x1b\n", 0)
	if err == nil || strings.ContainsAny(out+err.Error(), "\x1b\a\r\u202e\u009b") {
		t.Errorf("%v: %q", err, out)
	}
}
