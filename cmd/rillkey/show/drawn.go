//go:build !js

package show

import (
	"io"
	"strings"

	"github.com/charmbracelet/x/ansi"

	drawing "rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/terminal"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// Room is the terminal that figures are drawn for, in cells.
type Room struct{ Width, Height int }

// The cells of a figure beside text: it may take a third of the lines.
const (
	lowest, highest = 5, 14
	slenderest      = 12  // columns below which nothing is drawn
	broadness       = 4.5 // columns to a line of an animal twice as long as high
	figureGap       = 2
)

// DrawFigure draws a taxon for a terminal, with its length beside an inch. It writes
// nothing where the terminal is too narrow.
func DrawFigure(w io.Writer, r Room, f drawing.Figure) error {
	cols, rows := r.cells(1)
	if f.Empty() || cols < slenderest {
		return nil
	}
	p := newPage(w, r.Width)
	drawn, length := cropped(f.Terminal(cols, rows)), ruler(f.Length, cols, p.width-2)
	if beside := 2 + cols + figureGap; beside+max(cols, ansi.StringWidth(wording.Text(legend))) < p.width {
		drawn = bottomRight(drawn, length, cols)
	} else {
		drawn = append(drawn, length...)
	}
	for _, l := range drawn {
		p.line("  " + l)
	}
	return p.err
}

// DrawnBeside draws two taxa side by side, each below its name.
func DrawnBeside(w io.Writer, r Room, a, b drawing.Figure) error {
	cols, rows := r.cells(2)
	if a.Empty() || b.Empty() || cols < slenderest {
		return nil
	}
	p := newPage(w, r.Width)
	p.line("")
	p.line(cell(a.Title, cols) + terminal.Middle(b.Title, cols))
	right := b.Terminal(cols, rows)
	for i, l := range a.Terminal(cols, rows) {
		p.line(cell(l, cols) + right[i])
	}
	return p.err
}

// cell is text in a column.
func cell(text string, cols int) string {
	text = terminal.Middle(text, cols)
	return text + strings.Repeat(" ", cols-ansi.StringWidth(text)+figureGap)
}

// cells is how large each of n figures side by side may be.
func (r Room) cells(n int) (cols, rows int) {
	rows = max(lowest, min(r.Height/3, highest))
	cols = (min(r.Width, 160) - 3 - figureGap*(n-1)) / n
	return min(cols, int(broadness*float64(rows))), rows
}

// cropped is a drawing without blank lines above and below.
func cropped(lines []string) []string {
	for len(lines) > 0 && lines[0] == "" {
		lines = lines[1:]
	}
	for len(lines) > 0 && lines[len(lines)-1] == "" {
		lines = lines[:len(lines)-1]
	}
	return lines
}

var legend = wording.Mark("grown: █ at least, ░ at most")

// ruler is the length of grown animals above an inch in so many columns, and,
// where width allows, what its two shades are; nothing where no length is known.
func ruler(length taxa.Range, cols, width int) []string {
	lines := drawing.Ruler(length, cols)
	if lines == nil || width < ansi.StringWidth(wording.Text(legend)) {
		return lines
	}
	return append([]string{wording.Text(legend)}, lines...)
}

// bottomRight puts lines beside the last ones of a drawing, which take none of
// the height that the words below need.
func bottomRight(drawn, beside []string, cols int) []string {
	for len(drawn) < len(beside) {
		drawn = append(drawn, "")
	}
	for i, l := range beside {
		at := len(drawn) - len(beside) + i
		drawn[at] = cell(drawn[at], cols) + l
	}
	return drawn
}
