//go:build !js

package terminal

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
)

var (
	span     = pattern.New(`(\d)-(\d)`)
	flagName = pattern.New(`(?:^|[ (,])--[a-z-]+`)
)

// Wrap breaks s into lines of at most width cells, between words where it can; "3-5" is
// never broken, nor a flag such as --cert-key or the name of a file that have room. A
// width of 0 or less leaves one line. In a width of 1, characters two cells wide are left
// out.
func Wrap(s string, width int) []string {
	if width <= 0 {
		return []string{s}
	}
	kept := plain.WholeNames(span().ReplaceAllString(s, "$1"+plain.Unbroken+"$2"))
	kept = flagName().ReplaceAllStringFunc(kept, func(name string) string { return strings.ReplaceAll(name, "-", plain.Unbroken) })
	var lines []string
	for _, l := range strings.Split(ansi.Wrap(kept, width, ""), "\n") {
		l = strings.TrimSpace(l)
		// Next to signs and in widths of a few cells the wrapping overshoots.
		if ansi.StringWidth(l) > width {
			l = ansi.Hardwrap(l, width, false)
		}
		lines = append(lines, strings.Split(l, "\n")...)
	}
	for i, l := range lines {
		if !strings.Contains(s, plain.Unbroken) {
			l = strings.ReplaceAll(l, plain.Unbroken, "-")
		}
		lines[i] = Cut(l, width)
	}
	return lines
}

// Cut is s cut after width cells.
func Cut(s string, width int) string { return ansi.Truncate(s, width, "") }

// Middle is s in width cells: where it has more, its beginning and its end, which often
// tells two names apart, with … between them.
func Middle(s string, width int) string {
	n := ansi.StringWidth(s)
	if n <= width || width < 3 {
		return ansi.Truncate(s, width, "…")
	}
	end := (width - 1) / 2
	return ansi.Truncate(s, width-1-end, "") + "…" + ansi.TruncateLeft(s, n-end, "")
}

// SideBySide sets items side by side, three blanks apart, on as few lines of at most
// width cells as will hold them in order.
func SideBySide(items []string, width int) []string {
	const gap = "   "
	var lines []string
	line := ""
	for _, item := range items {
		if line != "" && ansi.StringWidth(line+gap+item) <= width {
			line += gap + item
			continue
		}
		if line != "" {
			lines = append(lines, Wrap(line, width)...)
		}
		line = item
	}
	return append(lines, Wrap(line, width)...)
}
