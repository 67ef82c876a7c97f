package terminal_test

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/taxa/plain"
)

func TestReadLine(t *testing.T) {
	long := strings.Repeat("x", 400)
	for _, row := range []struct {
		why, in, want string
		err           error
	}{
		{"a line", "a\n", "a", nil},
		{"blanks and carriage return go", " \t4a \r\n", "4a", nil},
		{"an empty line is a line", "\n", "", nil},
		{"the longest line", long + "\n", long, nil},
		{"one byte more", long + "x\n", "", terminal.ErrLong},
		{"longer than the reader's buffer", strings.Repeat("x", 9000) + "\n", "", terminal.ErrLong},
		{"an arrow key", "\x1b[A\n", "", terminal.ErrControl},
		{"turned writing", "\u202eabc\n", "", terminal.ErrControl},
		{"bytes that are not UTF-8", "\xff\xfe\n", "", terminal.ErrControl},
		{"letters with marks are text", "Bäche\n", "Bäche", nil},
		{"nothing left", "", "", io.ErrUnexpectedEOF},
		{"10 may be what is left of 102", "10", "", io.ErrUnexpectedEOF},
	} {
		got, err := terminal.ReadLine(bufio.NewReader(strings.NewReader(row.in)))
		if got != row.want || !errors.Is(err, row.err) {
			t.Errorf("%s: %q, %v", row.why, got, err)
		}
	}
}

// A name that does not fit keeps its end, by which two are often told apart.
func TestMiddleKeepsBothEnds(t *testing.T) {
	const north, south = "left bank by the mill, north end", "left bank by the mill, south end"
	for width, want := range map[int]string{0: "", 1: "…", 2: "l…", 3: "l…d", 17: "left ban…orth end",
		31: "left bank by th…mill, north end", 32: north, 80: north} {
		if got := terminal.Middle(north, width); got != want || ansi.StringWidth(got) > width {
			t.Errorf("%d: %q, not %q", width, got, want)
		}
		if width > 18 && terminal.Middle(south, width) == terminal.Middle(north, width) {
			t.Errorf("%d: two names are one", width)
		}
	}
	if got := terminal.Middle("渓流の昆虫の名前", 9); ansi.StringWidth(got) > 9 || !strings.Contains(got, "…") {
		t.Errorf("%q", got)
	}
}

func TestReadLineGoesOnAfterARefusedLine(t *testing.T) {
	in := bufio.NewReader(strings.NewReader(strings.Repeat("x", 50000) + "\n\x00\nb\n"))
	for _, want := range []error{terminal.ErrLong, terminal.ErrControl, nil} {
		line, err := terminal.ReadLine(in)
		if !errors.Is(err, want) || err == nil && line != "b" {
			t.Fatalf("%q, %v; want %v", line, err, want)
		}
	}
}

type zeros struct{}

func (zeros) Read(p []byte) (int, error) { clear(p); return len(p), nil }

func TestReadLineGivesUpOnALineWithoutEnd(t *testing.T) {
	_, err := terminal.ReadLine(bufio.NewReader(zeros{}))
	if err == nil || terminal.Again(err) {
		t.Fatal(err)
	}
}

func TestFold(t *testing.T) {
	for _, row := range []struct {
		why, text string
		width     int
		want      string
	}{
		{"between words", "three long tails", 10, "three long|tails"},
		{"a word longer than the line is broken", "caterpillar", 4, "cate|rpil|lar"},
		{"a range stays whole", "about 3-5 mm", 8, "about|3-5 mm"},
		{"other hyphens may end a line", "net-spinning", 6, "net-|spinni|ng"},
		{"the name of a file stays whole", "it is in 2026-05-a.toml", 16, "it is in|2026-05-a.toml"},
		{"no width, no folding", "three long tails", 0, "three long tails"},
		{"wide characters count twice", "水水水", 4, "水水|水"},
	} {
		if got := strings.Join(terminal.Wrap(row.text, row.width), "|"); got != row.want {
			t.Errorf("%s: %q, want %q", row.why, got, row.want)
		}
	}
}

func FuzzFold(f *testing.F) {
	f.Add("3-5 mm; 水\u00ad\u200b", 3)
	f.Add("\x1b]0;x\a \x1b[31m", 1)
	f.Fuzz(func(t *testing.T, text string, width int) {
		if width < 1 || width > 300 {
			return
		}
		for _, l := range terminal.Wrap(plain.OneLine(text), width) {
			if ansi.StringWidth(l) > width || plain.HasControl(l) {
				t.Fatalf("%q at %d", l, width)
			}
		}
	})
}

func TestFlowKeepsOrderAndWidth(t *testing.T) {
	got := terminal.SideBySide([]string{"aa", "bb", "cc"}, 8)
	if strings.Join(got, "|") != "aa   bb|cc" {
		t.Errorf("%q", got)
	}
}

// Contrast by the formulas of WCAG 2.1 (relative luminance, contrast ratio);
// success criterion 1.4.3 asks for 4.5:1 between text and background, 1.4.6 for
// 7:1. The backgrounds of Solarized are from memory.
func TestColoursStandOutInBrightSun(t *testing.T) {
	for _, row := range []struct {
		background string
		dark       bool
		least      float64
	}{
		{"#000000", true, 7},
		{"#ffffff", false, 7},
		{"#002b36", true, 4.5}, // Solarized dark
		{"#fdf6e3", false, 4.5},
	} {
		ink := terminal.Appearance{Color: true, Dark: row.dark}.Ink(io.Discard)
		for _, s := range []lipgloss.Style{ink.Mark, ink.Advice} {
			c := s.GetForeground().(lipgloss.CompleteColor)
			if got := contrast(t, c.TrueColor, row.background); got < row.least {
				t.Errorf("contrast of %s on %s is %.1f", c.TrueColor, row.background, got)
			}
			if got := contrast(t, cube(t, c.ANSI256), row.background); got < 4.5 {
				t.Errorf("contrast of colour %s of 256 on %s is %.1f", c.ANSI256, row.background, got)
			}
			if c.ANSI != "" {
				t.Errorf("%s is one of sixteen colours that anybody may have set up otherwise", c.ANSI)
			}
		}
	}
}

// cube is a colour of xterm's 6 x 6 x 6 cube, numbered 16 to 231.
func cube(t *testing.T, number string) string {
	t.Helper()
	n, err := strconv.Atoi(number)
	if err != nil || n < 16 || n > 231 {
		t.Fatalf("%s is not in the cube", number)
	}
	steps := [6]int{0x00, 0x5f, 0x87, 0xaf, 0xd7, 0xff}
	n -= 16
	return fmt.Sprintf("#%02x%02x%02x", steps[n/36], steps[n/6%6], steps[n%6])
}

func contrast(t *testing.T, a, b string) float64 {
	t.Helper()
	x, y := luminance(t, a), luminance(t, b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func luminance(t *testing.T, c string) float64 {
	t.Helper()
	var r, g, b uint8
	if _, err := fmt.Sscanf(c, "#%02x%02x%02x", &r, &g, &b); err != nil {
		t.Fatal(c, err)
	}
	return 0.2126*linear(r) + 0.7152*linear(g) + 0.0722*linear(b)
}

func TestBackground(t *testing.T) {
	for _, row := range []struct {
		why, variable string
		dark, known   bool
	}{
		{"white on black", "15;0", true, true},
		{"black on white", "0;15", false, true},
		{"light grey is light", "0;7", false, true},
		{"dark grey is dark", "7;8", true, true},
		{"the last of three", "0;default;15", false, true},
		{"nothing is known of a default", "default;default", false, false},
		{"nor without the variable", "", false, false},
		{"nor of one number alone", "15", false, false},
		{"nor of a colour that is none of sixteen", "0;231", false, false},
	} {
		dark, known := terminal.Background(row.variable)
		if dark != row.dark || known != row.known {
			t.Errorf("%s: dark %v, known %v", row.why, dark, known)
		}
	}
}

func linear(c uint8) float64 {
	v := float64(c) / 255
	if v <= 0.03928 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

type idle struct{}

func (idle) Init() tea.Cmd                         { return nil }
func (m idle) Update(tea.Msg) (tea.Model, tea.Cmd) { return m, nil }
func (idle) View() string                          { return "waiting" }

func TestAScreenEndsWithItsInput(t *testing.T) {
	var out bytes.Buffer
	if _, err := terminal.Run(idle{}, strings.NewReader("abc"), &out); err != nil {
		t.Fatal(err)
	}
}

// A signal between two screens ends the second one.
func TestAfterTheEndNoScreenStays(t *testing.T) {
	in, hold := io.Pipe()
	defer hold.Close()
	go terminal.End()
	for range 2 {
		if _, err := terminal.Run(idle{}, in, io.Discard); err != nil {
			t.Fatal(err)
		}
	}
}

// A flag is typed back as it stands: no line ends within its name.
func TestAFlagIsNotBroken(t *testing.T) {
	for _, said := range []string{
		"use one with a password, or --cert.", "names (--cert-key, --new-codes) go together; --cert-key is missing",
	} {
		words := strings.Fields(said)
		for width := 12; width < 60; width++ {
			lines := terminal.Wrap(said, width)
			if got := strings.Fields(strings.Join(lines, "\n")); !slices.Equal(got, words) {
				t.Errorf("at %d: %q", width, lines)
			}
		}
	}
}
