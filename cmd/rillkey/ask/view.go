package ask

import (
	"fmt"
	"slices"
	"strings"

	"github.com/charmbracelet/huh"
	"github.com/charmbracelet/lipgloss"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// View implements tea.Model: what was answered, what is asked and its help, the
// field, what is wrong with its answer, and the keys. Where the terminal is too
// low, what was answered goes first, then all but the first line of the keys,
// then the end of the help.
func (m *form) View() string {
	switch {
	case m.width == 0 || m.goesBack || m.form.State == huh.StateAborted:
		return ""
	case m.form.State == huh.StateCompleted || m.instead != nil:
		// What was answered stays on the terminal. The library wipes its last line.
		return strings.Join(append(last(m.done(m.ended()), m.height-1), ""), "\n")
	}
	i := m.position()
	if len(m.fields[i].Text) > 0 {
		return strings.Join(m.reading(i), "\n")
	}
	field, at := m.drawn()
	title := m.fold(m.ink.Title, heading(m.fields, i))
	about := m.fold(m.ink.Plain, plain.OneLine(m.opening))
	if len(about) > m.height/4 {
		about = nil
	}
	help := append(m.fold(m.ink.Plain, plain.OneLine(m.fields[i].Help)), m.offers(i)...)
	keys := terminal.SideBySide(m.keys(i), m.width)
	room := max(1, m.height)
	wrong := shorten(m.wrong(), room-1)
	kept := 0 // lines of keys that stay whatever the rest needs
	if room >= lowKeys {
		kept = 1
	}
	field = linesAround(field, at, max(1, min(len(field), room-len(title)-len(wrong)-kept)))
	room -= len(field) + len(wrong) + kept
	if len(about)+len(title) > room {
		about = nil
	}
	room -= len(about)
	title = title[:max(0, min(len(title), room))]
	room -= len(title)
	help = shorten(help, room)
	room -= len(help)
	if len(keys) > room+kept {
		keys = keys[:kept]
	}
	room -= len(keys) - kept
	above := last(append(m.done(i), ""), room)
	if room -= len(above); room > 0 && keys != nil {
		keys = append([]string{""}, keys...)
	}
	return strings.Join(slices.Concat(above, about, title, help, field, wrong, keys), "\n")
}

// lowKeys is how many lines a terminal has on which keys are always named.
const lowKeys = 8

// last is the last n of the lines.
func last(lines []string, n int) []string { return lines[max(0, len(lines)-max(0, n)):] }

func (m *form) fold(style lipgloss.Style, text string) []string {
	if text == "" {
		return nil
	}
	lines := terminal.Wrap(text, m.width)
	for i, l := range lines {
		lines[i] = style.Render(l)
	}
	return lines
}

// wrong is what the last answer to the field was refused for.
func (m *form) wrong() []string {
	err := m.form.GetFocusedField().Error()
	if err == nil {
		return nil
	}
	return m.fold(m.ink.Advice, "! "+plain.Capital(plain.OneLine(err.Error()))+".")
}

// done is what was answered before i, each field on lines of its own.
func (m *form) done(i int) []string {
	var lines []string
	for j, f := range m.fields[:i] {
		if len(f.Text) > 0 {
			continue
		}
		title := plain.OneLine(f.Title)
		if !strings.HasSuffix(title, "?") {
			title += ":"
		}
		text := title + " " + f.shown(m.answer(j))
		lines = append(lines, terminal.Wrap(text, m.width)...)
	}
	return lines
}

func (m *form) keys(i int) []string {
	keys := []string{wording.Text("Enter next")}
	if i == len(m.fields)-1 {
		keys[0] = wording.Text("Enter done")
	}
	switch f := m.fields[i]; {
	case f.Confirm:
		keys = append(keys, wording.Text("y yes"), wording.Text("n no"))
	case len(f.Options) > 0:
		keys = append(keys, wording.Text("arrows move"), wording.Text("/ search"))
	}
	for _, o := range m.fields[i].Instead {
		keys = append(keys, o.Value+" "+o.label())
	}
	if i > 0 || m.fields[i].GoesBack {
		keys = append(keys, wording.Text("Esc back"))
	}
	return append(keys, wording.Text("Ctrl-C leave"))
}

// ended is how many fields were answered in the end.
func (m *form) ended() int {
	if m.instead != nil {
		return m.position()
	}
	return len(m.fields)
}

// offers are the answers that a number stands for.
func (m *form) offers(i int) []string {
	if len(m.fields[i].Offers) == 0 {
		return nil
	}
	items := []string{wording.Text("A number, or any other name:")}
	for j, o := range m.fields[i].Offers {
		items = append(items, fmt.Sprintf("%d %s", j+1, plain.OneLine(o)))
	}
	return terminal.SideBySide(items, m.width)
}

// linesAround is n of the lines, among them the one at.
func linesAround(lines []string, at, n int) []string {
	start := max(0, min(at-n/2, len(lines)-n))
	return lines[start : start+n]
}

// shorten is the first n of the lines; dots end them where some are left out.
func shorten(lines []string, n int) []string {
	if n = max(0, n); len(lines) <= n {
		return lines
	}
	lines = slices.Clone(lines[:n])
	if n > 0 {
		lines[n-1] = "…"
	}
	return lines
}
