package question

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"rillkey/key"
	"rillkey/key/keytest"
)

var update = flag.Bool("update", false, "write the golden screens anew; look at each before committing it")

// dots counts the dots of braille characters.
func dots(s string) int {
	n := 0
	for _, r := range s {
		if r > 0x2800 && r <= 0x28ff {
			for b := r - 0x2800; b > 0; b >>= 1 {
				n += int(b & 1)
			}
		}
	}
	return n
}

// columnOf is what stands in a column of some lines.
func columnOf(lines []string, from, to int) string {
	var out strings.Builder
	for _, l := range lines {
		out.WriteString(ansi.Cut(l, from, to) + "\n")
	}
	return out.String()
}

// leastDots are to be seen of every figure that is called one.
const leastDots = 15

// checkPlates holds that every choice has its words whole and its figure below
// them, in a column of its own.
func checkPlates(t *testing.T, m *screen) plates {
	t.Helper()
	a, _ := m.arrange(m.blocks(), m.height-len(m.picturedFoot()))
	p, choices := a.plates, m.blocks()[len(a.head):]
	shown := strings.TrimRight(strings.Join(m.setPlates(p), "\n"), "\n")
	if !strings.Contains(m.View(), shown) {
		t.Fatalf("%s: the plates are not on the screen\n%s", path(m.q), m.View())
	}
	for row, tall := range p.tall {
		lines := m.setPlateRow(p, row)
		if !strings.Contains(shown, strings.TrimRight(strings.Join(lines, "\n"), "\n")) {
			t.Fatalf("%s: row %d of the plates is not on the screen\n%s", path(m.q), row, m.View())
		}
		for i := row * p.perRow; i < min(len(p.heads), (row+1)*p.perRow); i++ {
			x := (i % p.perRow) * (p.cols + plateGap)
			words := columnOf(lines[:tall], x, x+p.cols)
			if squeeze(words) != squeeze(choices[i].mark+choices[i].text) {
				t.Errorf("%s: %q is shown as %q", path(m.q), choices[i].text, words)
			}
			if n := dots(columnOf(lines[tall:], x, x+p.cols)); n < leastDots {
				t.Errorf("%s: %q has %d dots\n%s", path(m.q), choices[i].text, n, m.View())
			}
		}
	}
	return p
}

// Size by question: the words of every lead, its figure or the key for it, the
// keys; nothing wider or higher than the terminal.
func TestEveryLeadIsShownInWordsAndDrawn(t *testing.T) {
	k := keytest.Key(t)
	ways, model, drawings := waysTo(t, k), model(t, k), atlas(k)
	for _, row := range []struct {
		size  size
		least int // of 100 couplets whose leads have their figures at once
	}{
		{size{80, 24}, 95},
		{size{100, 40}, 100},
		{size{40, 20}, 0},
		{size{60, 15}, 0},
	} {
		t.Run(fmt.Sprint(row.size), func(t *testing.T) {
			if testing.Short() && row.size != (size{80, 24}) {
				t.Skip("one size will do")
			}
			t.Parallel()
			at, all := 0, 0
			for _, answers := range ways {
				m := pictured(walked(t, model, answers), drawings, row.size.width, row.size.height)
				if m.stage != asking || m.question().Couplet == nil {
					continue
				}
				all++
				checkFits(t, m.View(), row.size.width, row.size.height)
				if !strings.Contains(m.View(), "v drawings") || !strings.Contains(squeeze(m.View()), squeeze("? can't tell")) {
					t.Fatalf("the keys are missing:\n%s", m.View())
				}
				if _, ok := m.pictured(m.blocks()); !ok {
					checkAllIsSeen(t, m, row.size.width, row.size.height)
					continue
				}
				at++
				if p := checkPlates(t, m); p.cols < leastCols || p.rows < leastRows {
					t.Errorf("figures of %d x %d cells", p.cols, p.rows)
				}
			}
			if all < len(ways)/2 || 100*at < row.least*all {
				t.Errorf("%d of %d couplets show their figures", at, all)
			}
			t.Logf("%d of %d couplets show their figures", at, all)
		})
	}
}

// A trait with few states shows them all; one with many does if that is no
// jumble, and has its figures on the key in any case.
func TestStatesAreDrawnToo(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	k := keytest.Key(t)
	m, drawings := model(t, k), atlas(k)
	for _, trait := range k.Catalog().Vocabulary().Asked() {
		q, err := m.Inquire(key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		s := pictured(q, drawings, 80, 24)
		s.now.question = &key.Question{Trait: trait}
		_, at := s.pictured(s.blocks())
		n := len(trait.States)
		switch {
		case n <= 3 && !at:
			t.Errorf("%s has %d states and no figures\n%s", trait.ID, n, s.View())
		case at:
			if p := checkPlates(t, s); n > fewFigures && (p.cols < jumbleCols || p.rows < jumbleRows) {
				t.Errorf("%s has %d states in figures of %d x %d cells\n%s", trait.ID, n, p.cols, p.rows, s.View())
			}
		}
		checkFits(t, s.View(), 80, 24)
		press(s, "v")
		if s.page != viewing || dots(s.View()) < leastDots || !strings.Contains(s.View(), fmt.Sprintf("(1 of %d)", n)) {
			t.Errorf("%s: no figure on the key\n%s", trait.ID, s.View())
		}
	}
}

func TestKeysAmongTheDrawings(t *testing.T) {
	k := keytest.Key(t)
	m, drawings := model(t, k), atlas(k)
	for _, row := range []struct{ why, keys, shows string }{
		{"the key shows the first", "v", "a: "},
		{"and how many there are", "v", "(1 of 4)"},
		{"the keys are named", "v", "a, b, c or d choose   ? can't tell   arrows next drawing   v back to the words"},
		{"right is the next", "v right", "b: "},
		{"so is the space bar", "v space space", "c: "},
		{"so is down", "v down", "(2 of 4)"},
		{"after the last comes the first", "v right right right right", "(1 of 4)"},
		{"left is the one before", "v left", "(4 of 4)"},
		{"home and end", "v end home end", "(4 of 4)"},
		{"v goes back to the words", "v v", "Still possible"},
		{"so does escape", "v esc", "Still possible"},
		{"and <, without taking an answer away", "a v <", "Question 2"},
		{"an answer answers from there", "v right a", "Question 2"},
		{"can't tell too", "v ?", "Can't tell: nothing is ruled out."},
		{"a lead that is not there is refused there", "v z", "There is no z here: it is a, b, c or d."},
		{"a remark goes with the next drawing", "v z right", "(2 of 4)"},
		{"help on the keys", "v h", "How to look"},
		{"the help names the key", "h", "v:  the drawings one by one"},
		{"stopping is asked about", "v s", "Stop here?"},
		{"leaving too", "v q", "Leave without a name?"},
		{"the next question has its own", "v a v", "(1 of "},
	} {
		q, err := m.Inquire(key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		s := pictured(q, drawings, 80, 24)
		press(s, row.keys)
		if v := s.View(); !strings.Contains(v, row.shows) {
			t.Errorf("%s: %q is not in\n%s", row.why, row.shows, v)
		}
		checkFits(t, s.View(), 80, 24)
	}
}

func TestWithoutDrawingsThereIsNoKeyForThem(t *testing.T) {
	m := shown(begin(t, small(t)), 80, 24)
	if v := m.View(); strings.Contains(v, "drawings") {
		t.Errorf("\n%s", v)
	}
	press(m, "v")
	if v := m.View(); !strings.Contains(v, "There is nothing to draw here.") {
		t.Errorf("\n%s", v)
	}
}

// A remark takes the place of a blank line, so that nothing moves.
func TestARemarkMovesNoFigure(t *testing.T) {
	k := keytest.Key(t)
	m := pictured(begin(t, k), atlas(k), 80, 24)
	before := strings.Split(m.View(), "\n")
	press(m, "!")
	after := strings.Split(m.View(), "\n")
	changed := 0
	for i := range before {
		if before[i] != after[i] {
			changed++
		}
	}
	if len(before) != len(after) || changed != 1 {
		t.Errorf("%d lines changed:\n%s", changed, m.View())
	}
}

// Whoever hears the lines asks for the drawings in words; no dots are written.
func TestDrawingsAreToldLineByLine(t *testing.T) {
	k := keytest.Key(t)
	q := begin(t, k)
	var out strings.Builder
	_, err := Lines(q, Destination{}, atlas(k), reader("v\nh\nq\n"), &out, 0)
	if err != nil || dots(out.String()) > 0 {
		t.Errorf("%v\n%s", err, out.String())
	}
	for _, want := range []string{"a: Outline that shows: six", "b: Outline that shows: ",
		"v: what the drawings of the screen show, in words."} {
		if !strings.Contains(strings.ReplaceAll(out.String(), "  ", " "), want) {
			t.Errorf("%q is not in\n%s", want, out.String())
		}
	}
	if strings.Contains(out.String(), ", v ") {
		t.Errorf("the prompt grew:\n%s", out.String())
	}
}

// Screens that were looked at, of the embedded key as it is.
func TestGoldenScreens(t *testing.T) {
	k := keytest.Key(t)
	m, drawings := model(t, k), atlas(k)
	for _, row := range []struct {
		name string
		size size
		keys string
	}{
		{"80x24", size{80, 24}, "b"},
		{"40x20", size{40, 20}, "a a"},
		{"40x20-drawing", size{40, 20}, "a a v"},
		{"100x40", size{100, 40}, "a a"},
	} {
		q, err := m.Inquire(key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		s := pictured(q, drawings, row.size.width, row.size.height)
		press(s, row.keys)
		golden(t, row.name+".txt", ansi.Strip(s.View())+"\n")
	}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil || string(want) != got {
		t.Errorf("%s (%v) has changed; look at it, then run the test with -update:\n%s", name, err, got)
	}
}

// Whatever is pressed at whatever size, nothing is wider or higher than the
// terminal, and nothing breaks.
func TestAnyKeysAtAnySize(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	k := keytest.Key(t)
	m, drawings := model(t, k), atlas(k)
	keys := strings.Fields("a b a b c d ? v v h s r q < up down left right space tab esc enter backspace pgdown home end x Ä")
	r := rand.New(rand.NewPCG(7, 3))
	for range 20 {
		q, err := m.Inquire(key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		s := pictured(q, drawings, 80, 24)
		for range 10 {
			w, h := 1+r.IntN(200), 1+r.IntN(200)
			if r.IntN(2) == 0 {
				w, h = 1+r.IntN(50), 1+r.IntN(26)
			}
			s.Update(tea.WindowSizeMsg{Width: w, Height: h})
			press(s, keys[r.IntN(len(keys))])
			if s.done {
				break
			}
			checkFits(t, s.View(), w, h)
		}
	}
}

func FuzzScreen(f *testing.F) {
	k := keytest.Key(f)
	m, drawings := model(f, k), atlas(k)
	f.Add("aav b<", 80, 24)
	f.Add("vh?vs", 1, 1)
	f.Add("b\x1b", 40, 20)
	f.Fuzz(func(t *testing.T, typed string, width, height int) {
		q, err := m.Inquire(key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		s := pictured(q, drawings, width, height)
		for _, r := range typed {
			s.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
			if s.done {
				return
			}
			if width > 0 && height > 0 {
				checkFits(t, s.View(), width, height)
			}
		}
	})
}

// From a key to the next frame: an answer and the way back, with the figures
// drawn anew each time.
func BenchmarkKeyToFrame(b *testing.B) {
	k := keytest.Key(b)
	m, drawings := model(b, k), atlas(k)
	for _, size := range []size{{80, 24}, {132, 50}, {200, 60}} {
		b.Run(fmt.Sprintf("%dx%d", size.width, size.height), func(b *testing.B) {
			q, err := m.Inquire(key.DefaultOptions())
			if err != nil {
				b.Fatal(err)
			}
			s := pictured(q, drawings, size.width, size.height)
			press(s, "a")
			for i := range b.N {
				press(s, []string{"a", "<"}[i%2])
				_ = s.View()
			}
		})
	}
}
