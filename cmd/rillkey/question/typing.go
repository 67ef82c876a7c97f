//go:build !js

package question

import (
	"slices"
	"strings"
	"unicode/utf8"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/key"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// typing acts on a key while the screen asks what strikes the person: all of it is
// typed, and sent off with Enter. A number does not choose by itself, since a length
// begins with one.
func (m *screen) typing(k string) {
	switch {
	case k == "enter" && m.typed == "":
		m.said = ""
		m.settle()
	case k == "enter" && m.passes(m.typed): // it answers the question behind
		answer := m.typed
		m.typed, m.refused = "", false
		if m.now.question != nil {
			m.ask(answer)
		}
	case k == "enter" && keyMeant(m.typed) != m.typed:
		m.typed, m.said = "", "" // the keys stand at the question
		m.settle()
	case k == "enter" && m.markTyped() >= 0:
		i := m.markTyped()
		m.typed = ""
		m.pickMark(i)
	case k == "enter":
		if m.refused = !m.hear(m.typed); !m.refused {
			m.typed = ""
		}
	case k == "esc" && m.typed != "":
		m.typed = ""
	case takesBack(m.sitting) && (k == "esc" || (k == "left" || k == back) && m.typed == ""):
		m.back()
	case k == "esc" || (k == "left" || k == back) && m.typed == "": // no length and no words begin so
		m.said = ""
		m.settle()
	case k == "backspace": // one too many takes nothing back
		_, n := utf8.DecodeLastRuneInString(m.typed)
		m.typed, m.refused = m.typed[:len(m.typed)-n], false
	case k == "ctrl+u":
		m.typed, m.refused = "", false
	case k == "tab":
		m.view()
	case k == key.Unsure && m.typed == "":
		m.settle()
	case utf8.RuneCountInString(k) == 1 && len(m.typed) >= mostTyped:
		m.said = wording.Text("No more fits: Enter notes this much, and the rest can be said after it.")
	case utf8.RuneCountInString(k) == 1:
		if k != " " {
			k = plain.OneLine(k)
		}
		if m.refused {
			m.typed, m.refused = "", false
		}
		m.typed, m.said = m.typed+k, ""
	}
}

// markTyped is the place of the mark whose number is typed and nothing else, -1 for none.
func (m *screen) markTyped() int {
	if len(m.typed) != 1 {
		return -1
	}
	return strings.Index(numbers[:len(m.marks)], m.typed)
}

// confirming acts on a key while what was understood is shown.
func (m *screen) confirming(k string) {
	i := slices.IndexFunc(m.choices(), func(c choice) bool { return c.letter == k })
	switch {
	case k == "enter" || k == " ":
		m.takeHeard()
	case m.ticking && slices.Contains([]string{enlarge, stop, leave, howTo}, k):
		m.ask(k)
	case m.ticking && k == say:
		sayBeside(m.sitting)
	case m.ticking && k == key.Unsure: // of the rest
		m.takeHeard()
	case m.ticking && isBack(k):
		m.heard, m.said = nil, ""
		m.settle()
	case isBack(k):
		m.heard, m.later = nil, nil
		m.strike()
	case i >= 0:
		m.toggle(i)
	}
}

// typedLines are the words typed so far, and what was last said of them.
func (m *screen) typedLines() []string {
	line := "> " + m.typed + "_"
	switch {
	case m.typed != "":
	case m.sizing:
		line = wording.Text("> _ (type 12, 1.5 cm, a grain of rice)")
	case len(m.marks) == 0:
		line = wording.Text("> _ (type)")
	default:
		line = wording.Text("> _ (type words or a number, then Enter)")
	}
	var lines []string
	shown := terminal.Wrap(line, m.width)
	for _, l := range shown[max(0, len(shown)-typedShown):] {
		lines = append(lines, m.ink.Mark.Render(l))
	}
	if m.said != "" {
		for _, l := range terminal.Wrap(m.said, m.width) {
			lines = append(lines, m.ink.Advice.Render(l))
		}
	}
	return lines
}

// sayingKeys are the keys while something is said or confirmed.
func (m *screen) sayingKeys() []answerKey {
	if m.ticking {
		return tickingKeys(m.sitting)
	}
	if m.stage == hearing {
		return []answerKey{{mark: "Enter", short: wording.Text("note those with an x")},
			{mark: listed(m.choices()), short: wording.Text("take in or leave out")},
			{mark: "Esc", short: wording.Text("say it again")}}
	}
	keys := []answerKey{{mark: "Enter", short: wording.Text("nothing of this: be asked")}}
	switch {
	case m.markTyped() >= 0:
		keys[0].short = wording.Sprintf("note number %s", m.typed)
	case m.typed != "" && m.sizing:
		keys[0].short = wording.Text("note it")
	case m.typed != "":
		keys[0].short = wording.Text("see how it is understood")
	case m.sizing && m.q.Length() > 0:
		keys[0].short = wording.Text("leave it as it is")
	case m.sizing:
		keys[0].short = wording.Text("leave it open")
	}
	if len(m.marks) > 0 && len(m.figuresNow()) > 0 {
		keys = append(keys, answerKey{mark: "Tab", short: wording.Text("drawings")})
	}
	return append(keys, answerKey{mark: "Esc", short: wording.Text("back")}, answerKey{mark: "Ctrl-C", short: wording.Text("leave")})
}
