package chart

import (
	"math"
	"slices"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"rillkey/taxa/plain"
)

const leastCols = 20

// fewestBars are the columns below which bars tell nothing and are left out.
const fewestBars = 6

// cells is the width of text on a terminal.
func cells(s string) int { return ansi.StringWidth(s) }

func pad(s string, n int) string { return s + strings.Repeat(" ", max(0, n-cells(s))) }

func padLeft(s string, n int) string { return strings.Repeat(" ", max(0, n-cells(s))) + s }

// wrap breaks text into lines of so many columns; lines after the first begin
// with so many blanks.
func wrap(s string, cols, hang int) []string {
	room := max(4, cols-hang)
	lines := strings.Split(ansi.Wrap(plain.Printable(s), room, ""), "\n")
	if slices.ContainsFunc(lines, func(l string) bool { return cells(l) > room }) {
		// A character two columns wide may stand out by one.
		lines = strings.Split(ansi.Wrap(plain.Printable(s), room-1, ""), "\n")
	}
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
		if i > 0 {
			lines[i] = strings.Repeat(" ", hang) + strings.TrimLeft(lines[i], " ")
		}
	}
	return lines
}

// blocks is a bar of block characters to an eighth of a column.
func blocks(part float64, cols int) string {
	eighths := int(math.Round(max(0, min(finite(part), 1)) * float64(cols) * 8))
	if part > 0 {
		eighths = max(1, eighths)
	}
	s := strings.Repeat("█", eighths/8)
	if rest := eighths % 8; rest > 0 {
		s += string([]rune("▏▎▍▌▋▊▉")[rest-1])
	}
	return s
}

// entry is a line of a chart as text: a label, numbers, and a bar's part of the
// longest.
type entry struct {
	label, value string
	part         float64
	heading      bool // a line without numbers
}

// columns lays entries out: labels, which are wrapped where they are long,
// numbers to the right, and bars in what is left.
func columns(entries []entry, cols int, bars bool) (out []string) {
	const indent = 2
	labels, values := 4, 0
	for _, e := range entries {
		if !e.heading {
			labels, values = max(labels, cells(plain.Printable(e.label))), max(values, cells(e.value))
		}
	}
	free := cols - indent - 2 - values
	bars = bars && free-barRoom(cols) >= min(labels, leastLabel)
	if bars {
		free -= barRoom(cols)
	}
	labels = max(4, min(labels, free))
	room := cols - indent - labels - 2 - values - 2
	for _, e := range entries {
		if e.heading {
			out = append(out, wrap("  "+e.label, cols, 2)...)
			continue
		}
		names := wrap(e.label, labels, 0)
		line := strings.Repeat(" ", indent) + pad(names[0], labels) + "  " + padLeft(e.value, values)
		if bars {
			line += "  " + blocks(e.part, room)
		}
		out = append(out, clip(line, cols))
		for _, more := range names[1:] {
			out = append(out, clip(strings.Repeat(" ", indent+2)+more, cols))
		}
	}
	return out
}

// barRoom is what columns are kept for bars, so that long labels leave some.
func barRoom(cols int) int { return 2 + max(fewestBars, cols/5) }

// leastLabel is how far labels are narrowed for the sake of bars.
const leastLabel = 12

func clip(line string, cols int) string {
	return strings.TrimRight(ansi.Truncate(line, cols, "…"), " ")
}
