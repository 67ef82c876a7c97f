//go:build !js

package question

import (
	"slices"
	"strings"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/taxa/wording"
)

// frame is a page cut for a terminal: its lines, how many of them can be shown
// at once, and what stays in place below them.
type frame struct {
	body []string
	room int
	foot []string // without the line that says that there is more
	more bool     // that line has a place
}

// View implements tea.Model.
func (m *screen) View() string {
	if m.width == 0 || m.done {
		return ""
	}
	f := m.layout()
	lines := make([]string, f.room)
	if m.top < len(f.body) {
		copy(lines, f.body[m.top:])
	}
	if f.more {
		lines = append(lines, m.moreLine(f))
	}
	return strings.Join(append(lines, f.foot...), "\n")
}

// layout is the page cut for the terminal.
func (m *screen) layout() frame {
	if m.laid != nil {
		return *m.laid
	}
	return m.cutPage()
}

// cutPage cuts the page. Where the terminal is too low, blank lines go first,
// then the words beside the keys, which the help page has too, then the rest
// below the page.
func (m *screen) cutPage() frame {
	if m.page == viewing {
		return m.viewed()
	}
	blocks := m.pageBlocks()
	if m.page == main {
		if f, ok := m.pictured(blocks); ok {
			return f
		}
	}
	for _, g := range []gaps{allGaps, leadGaps} {
		if f := m.cut(set(blocks, m.width, g, m.ink)); len(f.body) <= f.room {
			return f
		}
	}
	return m.cut(set(blocks, m.width, noGaps, m.ink))
}

func (m *screen) cut(body []string) frame {
	said := m.saidLines()
	for _, try := range []struct {
		foot  []string
		least int // lines of the page that must be left
	}{
		{slices.Concat(said, m.footer(false)), 8},
		{slices.Concat(said, m.footer(true)), 2},
		{said, 1},
	} {
		if room := m.height - 1 - len(try.foot); room >= min(len(body), try.least) {
			return frame{body, room, try.foot, true}
		}
	}
	return frame{body, max(1, m.height), nil, false}
}

func (m *screen) moreLine(f frame) string {
	above, below := m.top > 0, m.top+f.room < len(f.body)
	text, rest := "", ""
	switch {
	case above && below:
		text, rest = wording.Text("↑↓ more"), wording.Text(" above and below: arrow keys")
	case above:
		text, rest = wording.Text("↑ more"), wording.Text(" above: up arrow")
	case below:
		text, rest = wording.Text("↓ more"), wording.Text(" below: down arrow")
	}
	if m.width >= narrow+len(rest)/2 {
		text += rest
	}
	return m.ink.Mark.Render(terminal.Cut(text, m.width))
}

func (m *screen) saidLines() []string {
	if m.page == main && m.stage == striking {
		return m.typedLines()
	}
	if m.said == "" {
		return nil
	}
	lines := terminal.Wrap(m.said, m.width)
	for i, l := range lines {
		lines[i] = m.ink.Advice.Render(l)
	}
	return lines
}

// blocks are the words of the page.
func (m *screen) pageBlocks() []block {
	switch m.page {
	case helping:
		return m.help(m.answersOnScreen(), true)
	case stopping:
		return []block{
			{title, "", wording.Text("Stop here?")},
			{advice, "", wording.Text("Press s once more to stop. Any other key goes on.")},
			{remark, "", wording.Sprintf("If you stop, %s", m.now.stopping())},
			{remark, "", m.now.possible(false)},
		}
	case leaving:
		return []block{
			{title, "", wording.Text("Leave without a name?")},
			{advice, "", wording.Text("Press q once more to leave. Any other key goes on.")},
			{remark, "", wording.Text("Nothing of this animal is kept. What was saved stays saved.")},
		}
	}
	return append(m.going(), m.blocks()...)
}

// footer names the keys of the page, in short only the keys.
func (m *screen) footer(short bool) []string {
	var items []string
	for _, k := range m.pageKeys() {
		mark := k.mark
		if m.width >= narrow {
			mark = m.ink.Mark.Render(mark)
		}
		if !short {
			mark += " " + k.short
		}
		items = append(items, mark)
	}
	if short {
		return terminal.Wrap(strings.Join(items, " "), m.width)
	}
	return terminal.SideBySide(items, m.width)
}

func (m *screen) pageKeys() []answerKey {
	switch m.page {
	case helping:
		return []answerKey{{mark: "h", short: wording.Text("back")}}
	case stopping:
		return []answerKey{{mark: "s", short: wording.Text("stop")}, {mark: wording.Text("any other key"), short: wording.Text("go on")}}
	case leaving:
		return []answerKey{{mark: "q", short: wording.Text("leave")}, {mark: wording.Text("any other key"), short: wording.Text("go on")}}
	case viewing:
		return m.viewKeys()
	}
	if m.stage == striking || m.stage == hearing {
		return m.sayingKeys()
	}
	return m.answersOnScreen()
}

// answersOnScreen are the keys taken on a screen.
func (m *screen) answersOnScreen() []answerKey {
	return m.answersWith(answerKey{enlarge, wording.Text("drawings"),
		wording.Text("the drawings one by one, as large as there is room. Answer from there too."), ""})
}
