//go:build !js

package terminal

import (
	"io"
	"strconv"
	"strings"

	"github.com/charmbracelet/lipgloss"
)

// Appearance is how a screen is painted. It is decided before the screen starts. No
// colour is legible on every background (4.5:1 on Solarized's dark and on its
// light one exclude each other), so Color wants Dark to be known.
type Appearance struct {
	Color bool // false leaves bold and reversed letters, and no colour at all
	Dark  bool // the background is dark
}

// Background reads the variable COLORFGBG, in which some terminals give the
// numbers of their text and background colours: 0 to 6 and 8 are dark, 7 and 9 to
// 15 light (common practice). It is not known where the variable says anything
// else, or nothing.
func Background(colorFgBg string) (dark, known bool) {
	fields := strings.Split(colorFgBg, ";")
	n, err := strconv.Atoi(fields[len(fields)-1])
	if err != nil || len(fields) < 2 || n < 0 || n > 15 {
		return false, false
	}
	return n < 7 || n == 8, true
}

// Styles is the styles of a screen. Whatever a style says is also said in words or
// by a mark.
type Styles struct {
	Title  lipgloss.Style
	Mark   lipgloss.Style // keys to press
	Advice lipgloss.Style // what to do or mind
	Cursor lipgloss.Style
	Plain  lipgloss.Style
}

// boldOnly is the profile of a terminal with sixteen colours, the smallest that
// lets bold and reversed letters through. The type of its constants is in a
// package of which nothing else is needed.
const boldOnly = 2

// Ink gives the styles for a screen written to out. Blue and orange stay apart
// for people who cannot tell red from green (Okabe and Ito's palette, from
// memory, darkened for light backgrounds until WCAG 2.1's 7:1 is met). A terminal
// with sixteen colours gets none: which they are is up to whoever set it up.
func (l Appearance) Ink(out io.Writer) Styles {
	r := lipgloss.NewRenderer(out)
	r.SetHasDarkBackground(l.Dark)
	if !l.Color {
		r.SetColorProfile(boldOnly)
	}
	accent, advice := l.colors()
	plain := r.NewStyle()
	return Styles{
		Title:  plain.Bold(true),
		Mark:   plain.Bold(true).Foreground(accent),
		Advice: plain.Foreground(advice),
		Cursor: plain,
		Plain:  plain,
	}
}

// Bare is styles that add nothing to a text.
func Bare() Styles {
	var s lipgloss.Style
	return Styles{s, s, s, s, s}
}

func (l Appearance) colors() (accent, advice lipgloss.TerminalColor) {
	switch {
	case !l.Color:
		return lipgloss.NoColor{}, lipgloss.NoColor{}
	case l.Dark:
		return lipgloss.CompleteColor{TrueColor: "#56B4E9", ANSI256: "75"}, lipgloss.CompleteColor{TrueColor: "#E69F00", ANSI256: "214"}
	}
	return lipgloss.CompleteColor{TrueColor: "#004C7A", ANSI256: "24"}, lipgloss.CompleteColor{TrueColor: "#7A4100", ANSI256: "94"}
}
