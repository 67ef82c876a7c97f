package question

import (
	"bufio"
	"strings"
	"testing"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/key"
	"rillkey/key/keytest"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
)

// The first line of every question says where the animal goes, whole where it
// fits; the middle of a long name gives way, its end, the sample and the animals never
// do. That it goes nowhere is folded, not cut.
func TestTheScreenSaysWhereTheAnimalGoes(t *testing.T) {
	const rest = ", sample 2, 41 animals"
	k := keytest.Key(t)
	m, drawings := model(t, k), atlas(k)
	for _, row := range []struct {
		width, height int
		name, want    string
	}{
		{80, 24, "Tanyard Brook", "Tanyard Brook" + rest},
		{40, 20, "Tanyard Brook", "Tanyard Brook" + rest},
		{40, 20, "left bank by the mill, south end", "left bank…outh end" + rest},
		{40, 20, "", "Nothing is saved: there is no visit in\nthis folder"},
	} {
		to := Destination{row.name, rest}
		if row.name == "" {
			to.Rest = "Nothing is saved: there is no visit in this folder"
		}
		q, err := m.Inquire(key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		s := newScreen(q, to, drawings, terminal.Bare())
		s.Update(tea.WindowSizeMsg{Width: row.width, Height: row.height})
		for range 3 {
			if !strings.HasPrefix(ansi.Strip(s.View()), row.want+"\n") {
				t.Errorf("%dx%d: it does not begin with %q:\n%s", row.width, row.height, row.want, s.View())
			}
			checkFits(t, s.View(), row.width, row.height)
			press(s, "a")
		}
		press(s, "h")
		help := ansi.Strip(strings.Join(set(s.pageBlocks(), 200, noGaps, s.ink), " "))
		if !strings.Contains(help, to.Name+to.Rest+".") {
			t.Errorf("the help does not say it whole:\n%s", help)
		}
	}
}

func TestTheLinesSayOnceWhereTheAnimalGoes(t *testing.T) {
	var out strings.Builder
	to := Destination{"Tanyard Brook", ", sample 2, 41 animals"}
	if _, err := Lines(begin(t, small(t)), to, nil, bufio.NewReader(strings.NewReader("a\na\nq\n")), &out, 40); err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(out.String(), "Tanyard Brook, sample 2, 41 animals\n") || strings.Count(out.String(), "Tanyard") != 1 {
		t.Error(out.String())
	}
}
