//go:build !js

package question

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/taxa/plain"
)

const (
	narrow = 24 // columns below which nothing is indented
	indent = 2  // columns before a mark
	hang   = 6  // column where the text after a short mark starts
)

// gaps is where blank lines part what does not belong together.
type gaps int

const (
	noGaps   gaps = iota
	leadGaps      // around leads only
	allGaps
)

// gapBetween reports whether there is a gap between two blocks.
func (g gaps) gapBetween(a, b block) bool {
	if a.kind == going {
		return false
	}
	if a.kind == lead || b.kind == lead {
		return g >= leadGaps
	}
	return g == allGaps && a.kind != b.kind
}

// line is the destination in at most width cells, a long name without its middle; 0 or
// less leaves it whole.
func (d Destination) line(width int) string {
	if width <= 0 {
		return d.whole()
	}
	rest := plain.Printable(d.Rest)
	name := terminal.Middle(plain.OneLine(d.Name), max(0, width-ansi.StringWidth(rest)))
	return terminal.Cut(name+rest, width)
}

// set folds blocks into lines of at most width cells; 0 does not fold.
func set(blocks []block, width int, g gaps, ink terminal.Styles) []string {
	var lines []string
	for i, b := range blocks {
		if i > 0 && g.gapBetween(blocks[i-1], b) {
			lines = append(lines, "")
		}
		lines = append(lines, b.set(width, ink)...)
	}
	return lines
}

func (b block) set(width int, ink terminal.Styles) []string {
	if (b.kind == lead || b.kind == entry) && width >= narrow {
		return b.setHanging(width, ink)
	}
	style := ink.Plain
	if b.kind == going && b.mark != "" {
		return []string{Destination{b.mark, b.text}.line(width)}
	}
	switch b.kind {
	case title:
		style = ink.Title
	case advice:
		style = ink.Advice
	}
	lines := terminal.Wrap(strings.TrimSpace(b.mark+" "+b.text), width)
	for i, l := range lines {
		lines[i] = style.Render(l)
	}
	return lines
}

// setHanging puts the mark in a column of its own, the text beside it.
func (b block) setHanging(width int, ink terminal.Styles) []string {
	pad := max(1, hang-indent-ansi.StringWidth(b.mark))
	column := indent + ansi.StringWidth(b.mark) + pad
	lines := terminal.Wrap(b.text, width-column)
	for i, l := range lines {
		if i == 0 {
			lines[i] = strings.Repeat(" ", indent) + ink.Mark.Render(b.mark) + strings.Repeat(" ", pad) + l
			continue
		}
		lines[i] = strings.Repeat(" ", column) + l
	}
	return lines
}
