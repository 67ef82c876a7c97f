package lesson

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/key/practice"
)

func pressed(m *screen, keys ...string) {
	for _, k := range keys {
		msg := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(k)}
		switch k {
		case "enter":
			msg = tea.KeyMsg{Type: tea.KeyEnter}
		case "esc":
			msg = tea.KeyMsg{Type: tea.KeyEsc}
		}
		m.Update(msg)
	}
}

func TestScreenFitsEverySize(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	for _, size := range [][2]int{{80, 24}, {40, 20}, {160, 50}, {20, 8}, {7, 3}, {1, 1}} {
		m := &screen{lesson: New(o), ink: terminal.Bare()}
		m.Update(tea.WindowSizeMsg{Width: size[0], Height: size[1]})
		for _, keys := range [][]string{{}, {"v"}, {"v"}, {"+"}, {"enter"}, {"h"}, {"enter"}, {"n", "x", "esc"}, {"k"}, {"v"}, {"v"}, {"a"},
			{"q"}, {"x"}, {"?"}} {
			pressed(m, keys...)
			lines := strings.Split(m.View(), "\n")
			if len(lines) > size[1] {
				t.Fatalf("%v after %v: %d lines", size, keys, len(lines))
			}
			for _, line := range lines {
				if ansi.StringWidth(line) > size[0] {
					t.Fatalf("%v after %v: a line of %d: %q", size, keys, ansi.StringWidth(line), line)
				}
			}
		}
	}
}

func TestScreenShowsTheAnimalAndTakesAName(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	for _, size := range [][2]int{{80, 24}, {40, 20}} {
		m := &screen{lesson: New(o), ink: terminal.Bare()}
		m.Update(tea.WindowSizeMsg{Width: size[0], Height: size[1]})
		dots := func(r rune) bool { return r > 0x2800 && r < 0x2900 }
		if view := m.View(); !strings.ContainsFunc(view, dots) || !strings.Contains(view, "say its name") {
			t.Errorf("%v:\n%s", size, view)
		}
		pressed(m, "n", "golden stonefly", "enter")
		if met, _ := m.lesson.Met(); met != 1 {
			t.Errorf("%v: the name was not taken:\n%s", size, m.View())
		}
	}
}

// Who typed "crane fly" at once was told of all true flies: its n had begun the name.
func TestANameMayBeTypedAtOnce(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	m := &screen{lesson: New(o), ink: terminal.Bare()}
	m.Update(tea.WindowSizeMsg{Width: 80, Height: 24})
	pressed(m, "c", "r", "a", "n", "e", " ", "f", "l", "y")
	if !m.typing || m.typed != "crane fly" {
		t.Errorf("typed %q", m.typed)
	}
	pressed(m, "esc")
	if pressed(m, "h"); m.typing {
		t.Error("a key of the page began a name")
	}
}

// A name that was pasted is no row of keys: its letters had left the lesson, or chosen.
func TestWhatIsPastedIsAName(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	m := &screen{lesson: New(o), ink: terminal.Bare()}
	m.Update(tea.WindowSizeMsg{Width: 80, Height: 24})
	paste := func(text string) {
		m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text), Paste: true})
	}
	if paste("quill\n"); !m.typing || m.typed != "quill" {
		t.Errorf("typed %q", m.typed)
	}
	m.Update(tea.KeyMsg{Type: tea.KeyCtrlU})
	if m.typed != "" {
		t.Errorf("Ctrl-U leaves %q", m.typed)
	}
	if paste("scud"); m.typed != "scud" {
		t.Errorf("typed %q", m.typed)
	}
	pressed(m, "esc", "q")
	if paste("q"); !m.leaving || m.lesson.Ended() {
		t.Error("what was pasted left the lesson, or took the question away")
	}
}

func TestLeavingIsAskedTwice(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	m := &screen{lesson: New(o), ink: terminal.Bare()}
	m.Update(tea.WindowSizeMsg{Width: 80, Height: 24})
	if pressed(m, "q", "a"); m.lesson.Ended() {
		t.Error("one q left")
	}
	if pressed(m, "q", "q"); !m.lesson.Ended() {
		t.Error("two did not")
	}
}
