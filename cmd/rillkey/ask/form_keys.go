package ask

import (
	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/huh"
)

// take acts on a key message. Letters that arrive in one go are one key each: the
// library would take the word "left" for the key of that name.
func (m *form) take(msg tea.KeyMsg) tea.Cmd {
	if msg.Type != tea.KeyRunes || msg.Paste || len(msg.Runes) < 2 {
		return m.press(msg)
	}
	var all []tea.Cmd
	for _, r := range msg.Runes {
		all = append(all, m.press(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}, Alt: msg.Alt}))
	}
	return tea.Batch(all...)
}

// press acts on one key. The form moves from field to field at once, where the
// library would send itself a message, so that keys typed ahead find the field
// that they are meant for.
func (m *form) press(msg tea.KeyMsg) tea.Cmd {
	f := m.fields[m.position()]
	switch {
	case msg.Type == tea.KeyCtrlC:
		return m.pass(msg)
	case msg.Type == tea.KeyShiftTab || msg.Type == tea.KeyEsc && !m.searching():
		return m.back()
	case len(f.Text) > 0:
		return m.turn(msg)
	case !m.began && f.elsewhere(msg.String()) != "":
		m.instead = Answers{f.Key: f.elsewhere(msg.String())}
		return tea.Quit
	case msg.Type == tea.KeyEnter || msg.Type == tea.KeyTab:
		m.pass(msg)
		return m.next()
	case f.Confirm && confirms(msg) != "":
		m.pass(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(confirms(msg)[:1])})
		return m.next()
	case m.inputs[m.position()] != nil:
		return m.write(msg)
	}
	return m.pass(msg)
}

// confirms is yes or no where a key is the first letter of it in the language in use or in
// English; of the library's own keys only "y" and "n" are.
func confirms(msg tea.KeyMsg) string {
	if msg.Type != tea.KeyRunes || msg.Alt || len(msg.Runes) != 1 {
		return ""
	}
	answer, _ := yesOrNo(string(msg.Runes))
	return answer
}

// write puts a key into a line of text. The first one that prints takes the place
// of what stands there.
func (m *form) write(msg tea.KeyMsg) tea.Cmd {
	i := m.position()
	if (msg.Type == tea.KeyRunes || msg.Type == tea.KeySpace) && !msg.Alt && !m.began {
		m.texts[i] = ""
		m.inputs[i].Value(&m.texts[i])
	}
	m.began = true
	return m.pass(msg)
}

// turn turns the pages of a text to read; after the last comes the next field.
func (m *form) turn(msg tea.KeyMsg) tea.Cmd {
	last := len(m.pages(m.position())) - 1
	switch msg.String() {
	case "up", "pgup", "left", "backspace":
		m.page = max(0, min(m.page, last)-1)
	case "enter", "tab":
		if m.page >= last {
			return m.next()
		}
		m.page++
	case " ", "down", "pgdown", "right":
		m.page = min(m.page+1, last)
	}
	return nil
}

// next goes on to the next field if the answer to the present one is taken.
func (m *form) next() tea.Cmd {
	field := m.form.GetFocusedField()
	if s, ok := field.(*huh.Select[string]); ok {
		if _, any := s.Hovered(); !any {
			return nil
		}
	}
	if field.Error() == nil {
		field.Blur()
	}
	if field.Error() != nil {
		field.Focus()
		m.began = false // what is typed next replaces what was refused
		return nil
	}
	m.began, m.page = false, 0
	return m.form.NextGroup()
}

// back goes back to the page or the field before, whatever stands in this one.
func (m *form) back() tea.Cmd {
	i := m.position()
	if len(m.fields[i].Text) > 0 && m.page > 0 {
		m.page = min(m.page, len(m.pages(i))-1) - 1
		return nil
	}
	switch {
	case i == 0 && m.fields[i].GoesBack:
		m.goesBack = true
		return tea.Quit
	case i == 0:
		return nil
	}
	m.goingBack = true
	m.form.GetFocusedField().Blur()
	m.goingBack = false
	m.began, m.page = false, 0
	if len(m.fields[i-1].Text) > 0 {
		m.page = len(m.pages(i-1)) - 1
	}
	return m.form.PrevGroup()
}

// searching reports whether letters go into the search of a choice.
func (m *form) searching() bool {
	s, ok := m.form.GetFocusedField().(*huh.Select[string])
	return ok && s.GetFiltering()
}
