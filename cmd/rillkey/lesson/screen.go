//go:build !js

package lesson

import (
	"io"
	"slices"
	"strings"
	"unicode"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"rillkey/cmd/rillkey/question"
	"rillkey/cmd/rillkey/terminal"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Screen leads a lesson on a full screen: the animal as a drawing, and on v each
// drawing as large as there is room. in and out must be terminals that can move a
// cursor. Ctrl-C, SIGTERM and the end of in leave; what was practised is saved.
func Screen(l *Lesson, in io.Reader, out io.Writer, look terminal.Appearance) error {
	_, err := terminal.Run(&screen{lesson: l, ink: look.Ink(out)}, in, out, tea.WithAltScreen())
	return err
}

// screen is the state of the screen.
type screen struct {
	lesson        *Lesson
	ink           terminal.Styles
	width, height int
	top           int
	typing        bool
	typed         string
	viewing       bool
	shown         int
	leaving       bool
	page          *Prompt // as it was laid out last
}

const (
	widest   = 80
	mostRows = 16 // of a drawing beside words
	least    = 5  // rows below which a drawing is left to its own page
	enlarge  = "v"
	name     = "n"
)

// Init implements tea.Model.
func (m *screen) Init() tea.Cmd { return nil }

// Update implements tea.Model.
func (m *screen) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.width, m.height = msg.Width, msg.Height
		if m.width <= 0 || m.height <= 0 {
			m.width, m.height = 80, 24
		}
	case tea.KeyMsg:
		if msg.Paste && !m.typing && !m.pasted() {
			break
		}
		if msg.Type == tea.KeyRunes && !msg.Alt {
			for _, r := range msg.Runes {
				m.press(string(r))
			}
		} else {
			m.press(msg.String())
		}
	}
	if m.lesson.Ended() {
		return m, tea.Quit
	}
	return m, nil
}

// pasted begins a name where one can be said, and reports whether it did: nothing else
// that is pasted is an answer.
func (m *screen) pasted() bool {
	if m.leaving || m.viewing || m.lesson.Ended() || !m.now().Named {
		return false
	}
	m.typing, m.typed = true, ""
	return true
}

// now is the page, laid out anew only after something was done.
func (m *screen) now() *Prompt {
	if m.page == nil {
		p := m.lesson.Now()
		m.page = &p
	}
	return m.page
}

func (m *screen) press(k string) {
	switch {
	case m.lesson.Ended():
	case k == "ctrl+c":
		m.lesson.Do(leave)
	case m.typing:
		m.write(k)
	case m.leaving:
		if m.leaving = false; strings.ToLower(k) == leave {
			m.do(leave)
		}
	case m.viewing:
		m.look(k)
	case m.scrolled(k):
	default:
		m.act(strings.ToLower(k))
	}
}

// act does what a key of the page stands for.
func (m *screen) act(k string) {
	p := m.now()
	switch {
	case k == leave:
		m.leaving = true
	case k == name && p.Named:
		m.typing, m.typed = true, ""
	case k == enlarge:
		if m.viewing = len(p.Drawings()) > 0; m.viewing {
			m.shown = 0
		}
	case k == "enter", k == " ":
		m.do(GoOn)
	case k == "esc", k == "backspace", k == "left":
		m.do(terminal.Back)
	case p.Named && isLetter(k) && !slices.ContainsFunc(p.Keys, func(c Command) bool { return c.Sign == k }):
		m.typing, m.typed = true, k // who types a name at once has not read that n begins it
	default:
		m.do(k)
	}
}

// isLetter reports whether a key is a letter.
func isLetter(k string) bool {
	r := []rune(k)
	return len(r) == 1 && unicode.IsLetter(r[0])
}

func (m *screen) do(sign string) {
	m.lesson.Do(sign)
	m.page, m.top = nil, 0
}

// write takes a key while a name is typed.
func (m *screen) write(k string) {
	switch k {
	case "enter":
		if m.typing = false; strings.TrimSpace(m.typed) != "" {
			m.lesson.Name(strings.TrimSpace(m.typed))
			m.page, m.top = nil, 0
		}
	case "esc":
		m.typing = false
	case "backspace":
		if r := []rune(m.typed); len(r) > 0 {
			m.typed = string(r[:len(r)-1])
		}
	case "ctrl+u":
		m.typed = ""
	default:
		if len([]rune(k)) == 1 && !plain.HasControl(k) && len(m.typed) < 60 {
			m.typed += k
		}
	}
}

// look acts on a key while the drawings are shown one by one.
func (m *screen) look(k string) {
	n := len(m.now().Drawings())
	switch k {
	case "right", "down", " ", "tab":
		m.shown = (m.shown + 1) % n
	case "left", "up", "shift+tab":
		m.shown = (m.shown + n - 1) % n
	case enlarge, "esc", "enter", "backspace", terminal.Back:
		m.viewing = false
	default:
		m.viewing = false
		m.press(k)
	}
}

// scrolled moves the page if k is a key for that.
func (m *screen) scrolled(k string) bool {
	switch k {
	case "up":
		m.top--
	case "down":
		m.top++
	case "pgup":
		m.top -= m.height / 2
	case "pgdown":
		m.top += m.height / 2
	case "home":
		m.top = 0
	case "end":
		m.top = 1 << 20
	default:
		return false
	}
	return true
}

// View implements tea.Model.
func (m *screen) View() string {
	if m.width == 0 || m.lesson.Ended() {
		return ""
	}
	foot := m.foot()
	if len(foot) > m.height/2 {
		foot = foot[:m.height/2]
	}
	room := max(1, m.height-len(foot)-1)
	body := m.body(room)
	m.top = max(0, min(m.top, len(body)-room))
	lines := make([]string, room)
	copy(lines, body[m.top:])
	lines = append(lines, m.moreLine(len(body), room))
	lines = append(lines, foot...)
	return strings.Join(lines[:min(len(lines), m.height)], "\n")
}

func (m *screen) moreLine(all, room int) string {
	switch below := m.top+room < all; {
	case below && m.top > 0:
		return m.ink.Mark.Render(terminal.Cut(wording.Text("↑↓ more: arrow keys"), m.width))
	case below:
		return m.ink.Mark.Render(terminal.Cut(wording.Text("↓ more: down arrow"), m.width))
	case m.top > 0:
		return m.ink.Mark.Render(terminal.Cut(wording.Text("↑ more: up arrow"), m.width))
	}
	return ""
}

// wide is how many columns words have.
func (m *screen) wide() int { return min(m.width, widest) }

// body is the page in so many lines, or more where words need them. Drawings have the
// room that words leave.
func (m *screen) body(room int) []string {
	p := m.now()
	if m.viewing {
		return m.viewed(p, room)
	}
	above, below := m.aboveDrawing(p), m.belowDrawing(p)
	spare := room - len(above) - len(below)
	switch plates := p.Plates; {
	case len(plates) == 2 && m.width >= 2*20+2 && spare > least:
		above = append(above, m.sideBySide(plates, min(spare, mostRows))...)
	case len(plates) == 0 && !p.Picture.Figure.Empty() && spare >= least && m.width >= 20:
		above = append(above, p.Picture.Figure.Terminal(min(m.width, widest), min(spare, mostRows))...)
	}
	return append(above, below...)
}

// aboveDrawing is what stands above the drawing.
func (m *screen) aboveDrawing(p *Prompt) (out []string) {
	out = append(out, terminal.Cut(p.Where, m.wide()))
	if p.Said != "" {
		out = append(out, m.styled(p.Said, m.ink.Advice.Render)...)
	}
	out = append(out, m.styled(p.Title, m.ink.Title.Render)...)
	for _, t := range p.Before {
		out = append(out, m.text(t)...)
	}
	return out
}

// belowDrawing is what stands below it.
func (m *screen) belowDrawing(p *Prompt) (out []string) {
	for _, o := range p.Options {
		for i, line := range terminal.Wrap(plain.Printable(o.Words), m.wide()-5) {
			mark := "     "
			if i == 0 {
				mark = "  " + m.ink.Mark.Render(o.Letter+":") + " "
			}
			out = append(out, mark+line)
		}
	}
	for _, t := range p.After {
		out = append(out, m.text(t)...)
	}
	return out
}

func (m *screen) text(t question.Paragraph) []string {
	if t.Advice {
		return m.styled(t.Words, m.ink.Advice.Render)
	}
	return m.styled(t.Words, m.ink.Plain.Render)
}

func (m *screen) styled(words string, render func(...string) string) []string {
	lines := terminal.Wrap(plain.Printable(words), m.wide())
	for i, l := range lines {
		lines[i] = render(l)
	}
	return lines
}

// sideBySide sets two drawings side by side, each under its words.
func (m *screen) sideBySide(plates []Picture, rows int) []string {
	cols := (m.wide() - 2) / 2
	var columns [2][]string
	for i, p := range plates {
		columns[i] = terminal.Wrap(plain.Printable(p.Caption), cols)
	}
	heads := max(len(columns[0]), len(columns[1]))
	if rows-heads < least-1 {
		return nil
	}
	for i, p := range plates {
		columns[i] = append(columns[i], make([]string, heads-len(columns[i]))...)
		columns[i] = append(columns[i], p.Figure.Terminal(cols, rows-heads)...)
	}
	out := make([]string, rows)
	for i := range out {
		left := columns[0][i]
		out[i] = strings.TrimRight(left+strings.Repeat(" ", max(0, cols-ansi.StringWidth(left))+2)+columns[1][i], " ")
	}
	return out
}

// viewed is one drawing as large as there is room.
func (m *screen) viewed(p *Prompt, room int) []string {
	all := p.Drawings()
	one := all[min(m.shown, len(all)-1)]
	head := m.styled(one.Caption, m.ink.Title.Render)
	head = head[:min(len(head), max(1, room/3))]
	if rows := room - len(head); rows > 0 {
		head = append(head, one.Figure.Terminal(min(m.width, 2*widest), rows)...)
	}
	return head
}

// foot names the keys.
func (m *screen) foot() []string {
	p := m.now()
	switch {
	case m.typing:
		return []string{terminal.Cut(wording.Sprintf("Its name: %s_", m.typed), m.width),
			terminal.Cut(wording.Text("Enter: that is it   Esc: back"), m.width)}
	case m.leaving:
		return terminal.Wrap(wording.Text("Press q once more to leave; any other key goes on. All but this animal is saved."), m.width)
	case m.viewing:
		return m.keys([]Command{{Sign: wording.Text("arrows"), Short: wording.Text("next drawing")},
			{Sign: enlarge, Short: wording.Text("back to the words")}})
	}
	var keys []Command
	if p.Go != "" {
		keys = append(keys, Command{Sign: "Enter", Short: p.Go})
	}
	if p.Named {
		keys = append(keys, Command{Sign: name, Short: wording.Text("say its name")})
	}
	keys = append(keys, p.Keys...)
	if len(p.Drawings()) > 0 {
		at := max(0, len(keys)-2)
		keys = slices.Insert(keys, at, Command{Sign: enlarge, Short: wording.Text("drawings")})
	}
	return m.keys(keys)
}

func (m *screen) keys(keys []Command) []string {
	var items, short []string
	for _, k := range keys {
		items = append(items, m.ink.Mark.Render(k.Sign)+" "+k.Short)
		short = append(short, k.Sign)
	}
	lines := terminal.SideBySide(items, m.width)
	if len(lines) > max(1, m.height/4) {
		return terminal.Wrap(strings.Join(short, " "), m.width)
	}
	return lines
}
