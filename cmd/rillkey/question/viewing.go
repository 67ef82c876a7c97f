//go:build !js

package question

import (
	"slices"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/key"
	"rillkey/taxa/wording"
)

// view turns to the figures one by one, if there are any.
func (m *screen) view() {
	if len(m.figuresNow()) == 0 {
		m.said = wording.Text("There is nothing to draw here.")
		return
	}
	m.turn(viewing)
	m.shown = 0
}

// look acts on a key while figures are shown one by one; every key that answers
// does so here too.
func (m *screen) look(k string) {
	n := len(m.figuresNow())
	switch k {
	case "right", "down", " ", "pgdown", "tab":
		m.shown = (m.shown + 1) % n
	case "left", "up", "pgup", "shift+tab":
		m.shown = (m.shown + n - 1) % n
	case "home":
		m.shown = 0
	case "end":
		m.shown = n - 1
	case enlarge, "esc", "enter", "backspace", back:
		m.turn(main)
		return
	default:
		if m.stage == striking || m.stage == hearing {
			m.turn(main)
			m.press(k)
			return
		}
		m.ask(k)
		return
	}
	m.said = ""
}

// viewed is one figure as large as there is room, its words above it.
func (m *screen) viewed() frame {
	c := m.choices()[m.shown]
	foot := m.footer(m.height < fairRows)
	said := m.saidLines()
	foot = append(said[:min(len(said), m.height/4)], foot...)
	if len(foot) > m.height/3 {
		foot = nil
	}
	head := m.viewedWords(c, max(1, (m.height-len(foot))/3))
	rows := max(0, m.height-len(head)-len(foot))
	body := head
	if rows > 0 {
		body = slices.Concat(head, m.gallery.braille(m.shown, min(m.wide, 2*widest), rows))
	}
	return frame{body: body, room: m.height - len(foot), foot: foot}
}

// viewedWords are the words of the choice on at most so many lines; dots say
// that some are left out.
func (m *screen) viewedWords(c choice, most int) []string {
	lines := terminal.Wrap(wording.Sprintf("%s: %s (%d of %d)", c.letter, c.text, m.shown+1, len(m.choices())), m.width)
	if len(lines) > most {
		lines = lines[:most]
		lines[most-1] = terminal.Cut(lines[most-1], max(0, m.width-1)) + "…"
	}
	for i, l := range lines {
		lines[i] = m.ink.Title.Render(l)
	}
	return lines
}

// viewKeys are the keys while figures are shown one by one.
func (m *screen) viewKeys() []answerKey {
	return []answerKey{
		{mark: listed(m.choices()), short: wording.Text("choose")},
		{mark: key.Unsure, short: wording.Text("can't tell")},
		{mark: wording.Text("arrows"), short: wording.Text("next drawing")},
		{mark: enlarge, short: wording.Text("back to the words")},
	}
}
