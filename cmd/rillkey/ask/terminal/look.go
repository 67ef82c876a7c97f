package terminal

import (
	"io"

	"github.com/charmbracelet/lipgloss"
)

// Look is how a screen is painted. It is decided before the screen starts.
type Look struct {
	Color bool // false leaves bold and reversed letters, and no colour at all
	Dark  bool // the background is dark
}

// Ink is the styles of a screen. Whatever a style says is also said in words or
// by a mark.
type Ink struct {
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
// memory, darkened for light backgrounds until WCAG 2.1's 7:1 is met).
func (l Look) Ink(out io.Writer) Ink {
	r := lipgloss.NewRenderer(out)
	r.SetHasDarkBackground(l.Dark)
	if !l.Color {
		r.SetColorProfile(boldOnly)
	}
	accent, advice := l.colors()
	plain := r.NewStyle()
	return Ink{
		Title:  plain.Bold(true),
		Mark:   plain.Bold(true).Foreground(accent),
		Advice: plain.Foreground(advice),
		Cursor: plain,
		Plain:  plain,
	}
}

// Bare is styles that add nothing to a text.
func Bare() Ink {
	var s lipgloss.Style
	return Ink{s, s, s, s, s}
}

func (l Look) colors() (accent, advice lipgloss.TerminalColor) {
	switch {
	case !l.Color:
		return lipgloss.NoColor{}, lipgloss.NoColor{}
	case l.Dark:
		return lipgloss.Color("#56B4E9"), lipgloss.Color("#E69F00")
	}
	return lipgloss.Color("#004C7A"), lipgloss.Color("#7A4100")
}
