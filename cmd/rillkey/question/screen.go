//go:build !js

package question

import (
	"io"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/key"
	"rillkey/taxa/wording"
)

// Screen asks the rest of an inquiry on a full screen, with figures where the
// words leave room, and one by one on a key; to says where the animal goes. in and out must be terminals that
// can move a cursor; the caller has seen to that. One key answers, but s
// and q ask for a second press of the same key, so that a cold finger ends
// nothing. Ctrl-C, SIGTERM and the end of in leave: the outcome is [Left] and
// the error nil. The terminal is given back as it was in every case.
func Screen(q *key.Inquiry, to Destination, drawings Drawings, in io.Reader, out io.Writer, look terminal.Appearance) (Ending, error) {
	return newScreen(q, to, drawings, look.Ink(out)).run(in, out)
}

// ScreenAgain is [Screen] after the questions have ended, and begins with which
// answer to look at again.
func ScreenAgain(q *key.Inquiry, to Destination, drawings Drawings, in io.Reader, out io.Writer, look terminal.Appearance) (Ending, error) {
	m := newScreen(q, to, drawings, look.Ink(out))
	m.reopen()
	return m.run(in, out)
}

func (m *screen) run(in io.Reader, out io.Writer) (Ending, error) {
	if m.done {
		return m.outcome, nil
	}
	if marks := m.offers(); marks != nil {
		m.strikeBy(marks)
	}
	_, err := terminal.Run(m, in, out, tea.WithAltScreen())
	return m.outcome, err
}

// page is what the screen shows.
type page int

const (
	main page = iota // what the person is asked
	helping
	stopping
	leaving
	viewing // figures, one by one
)

// screen is the state of the screen. Its size is unknown until the terminal
// told it.
type screen struct {
	*sitting
	page          page
	top           int // first line shown of the page
	shown         int // which figure, while they are shown one by one
	width, height int
	wide          int    // columns for figures
	typed         string // words, while they are typed
	refused       bool   // the words typed were not understood; what is typed next replaces them
	ink           terminal.Styles
	laid          *frame // the page as it is cut, while it is only moved; else nil
}

func newScreen(q *key.Inquiry, to Destination, drawings Drawings, ink terminal.Styles) *screen {
	return &screen{sitting: sit(q, to, drawings), ink: ink}
}

// Init implements tea.Model.
func (m *screen) Init() tea.Cmd { return nil }

// Update implements tea.Model.
func (m *screen) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if m.done { // keys that came before the screen was put away
		return m, tea.Quit
	}
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.resize(msg.Width, msg.Height)
	case tea.KeyMsg:
		m.keys(msg)
	}
	if m.done {
		return m, tea.Quit
	}
	return m, nil
}

// widest is how many columns words use: longer lines are hard to read.
const widest = 80

// resize takes the size of the terminal; one that does not know its size is
// taken for the usual one.
func (m *screen) resize(width, height int) {
	if width <= 0 || height <= 0 {
		width, height = 80, 24
	}
	m.laid = nil
	m.width, m.height, m.wide = min(width, widest), height, min(width, 2*widest)
	m.scroll(0)
}

// keys acts on a key message. Letters that arrive together were typed fast, or
// over a slow line; text that was pasted is no answer.
func (m *screen) keys(msg tea.KeyMsg) {
	if !m.scrolls(msg.String()) {
		m.laid = nil
	} else if m.laid == nil {
		f := m.cutPage()
		m.laid = &f
	}
	if msg.Paste && m.stage == striking {
		for _, r := range msg.Runes {
			m.typing(strings.ToLower(string(r)))
		}
		return
	}
	if msg.Paste {
		m.said = wording.Text("Pasted text is no answer: press one key.")
		return
	}
	if msg.Type != tea.KeyRunes || msg.Alt {
		m.press(msg.String())
		return
	}
	if together(m, msg.Runes) {
		return
	}
	for _, r := range msg.Runes {
		if !m.done {
			m.press(strings.ToLower(string(r)))
		}
	}
}

// together acts on several letters of one question that came at once, and reports whether that
// is what they are: states of a trait may all be noted; of leads the first is taken, and the
// others answer no question that nobody has read yet.
func together(m *screen, runes []rune) bool {
	if len(runes) < 2 || m.page != main || m.stage != asking && m.stage != anew {
		return false
	}
	line := strings.ToLower(string(runes))
	for _, r := range line {
		if !strings.ContainsRune(letters, r) && r != ' ' && r != ',' {
			return false
		}
	}
	choices := m.choices()
	first := slices.IndexFunc(choices, func(c choice) bool { return c.letter == line[:1] })
	if first < 0 {
		return false
	}
	pick := choices[first].pick
	said := wording.Sprintf("Only %s was taken: one letter answers a question.", choices[first].letter)
	if several := lettersIn(choices, line); several != nil && m.question().Trait != nil {
		pick, said = "", ""
		for _, i := range several {
			pick = strings.Trim(pick+","+choices[i].pick, ",")
		}
	}
	if m.pick(pick) && said != "" {
		m.said = said
	}
	if marks := m.offers(); marks != nil {
		m.strikeBy(marks)
	}
	m.turn(main)
	return true
}

// press acts on one key.
func (m *screen) press(k string) {
	if k == "ctrl+c" {
		m.done, m.outcome = true, Left
		return
	}
	if m.page == viewing {
		m.look(k)
		return
	}
	if m.page == main && m.stage == striking {
		if m.scrolls(k) {
			m.scrolled(k)
			return
		}
		m.typing(k)
		m.top = 0
		return
	}
	if m.scrolled(k) {
		return
	}
	if m.page == main && m.stage == hearing {
		m.confirming(k)
		return
	}
	switch m.page {
	case main:
		m.ask(k)
	case helping:
		if k == howTo || k == leave || k == "enter" || isBack(k) {
			m.turn(main)
		}
	case stopping:
		m.confirm(k, stop)
	case leaving:
		m.confirm(k, leave)
	}
}

func (m *screen) ask(k string) {
	switch {
	case k == howTo:
		m.turn(helping)
	case k == enlarge:
		m.view()
	case k == stop:
		m.turn(stopping)
	case k == leave:
		m.turn(leaving)
	case isBack(k):
		m.answer(back)
		m.turn(main)
	case m.answer(k):
		if k != key.Unsure {
			m.said = ""
		}
		if marks := m.offers(); marks != nil {
			m.strikeBy(marks)
		}
		m.turn(main)
	}
}

// confirm does what the page asks about if its key was pressed again.
func (m *screen) confirm(k, again string) {
	m.turn(main)
	if k == again {
		m.answer(again)
	}
}

// scrolls reports whether all that a key does is to move the page.
func (m *screen) scrolls(k string) bool {
	switch k {
	case "up", "down", "pgup", "pgdown", "home", "end":
		return m.page != viewing
	}
	return false
}

// turn shows another page, from its top. A remark stays with the question.
func (m *screen) turn(p page) {
	m.page, m.top = p, 0
	if p != main {
		m.said = ""
	}
}

// scrolled moves the page if k is a key for that.
func (m *screen) scrolled(k string) bool {
	switch k {
	case "up":
		m.scroll(-1)
	case "down":
		m.scroll(1)
	case "pgup":
		m.scroll(-m.leap())
	case "pgdown", " ":
		m.scroll(m.leap())
	case "home":
		m.scroll(-m.top)
	case "end":
		m.scroll(bottom)
	default:
		return false
	}
	return true
}

// bottom is further down than any page goes.
const bottom = 1 << 20

// leap is how many lines a page key moves: all but one of those shown.
func (m *screen) leap() int { return max(1, m.layout().room-1) }

// scroll moves the page by some lines, as far as it goes.
func (m *screen) scroll(by int) {
	f := m.layout()
	m.top = max(0, min(m.top+by, len(f.body)-f.room))
}
