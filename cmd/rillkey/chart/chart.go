// Package chart draws the figures of a grade: what was found by class and kind,
// how likely each rating is, how many kinds more samples would find, and a site
// over time.
//
// Begin with [Chart], [Bars] and [Sketch].
//
// A chart is a value made of numbers that were computed elsewhere. It becomes
// an SVG element for a page, lines of plain text for a terminal, a sentence for
// people who see neither, and a table of all its numbers. Fills, kinds of line
// and marks tell things apart, never colour, and words stand beside all of
// them: a copy in black and white loses nothing.
package chart

import (
	"math"
	"rillkey/taxa/wording"
	"strconv"
)

// Chart is figures that can be drawn.
type Chart interface {
	// SVG is the chart as one svg element of the size given, bars at least 40 mm by
	// 12 and all others 60 by 45, or as high as a row for each rating needs; without
	// script, style, reference, id or font. Text in it is escaped.
	SVG(PaperSize) string
	// Text is the chart as lines no wider than cols, which is 20 at least: words
	// and numbers first and, if bars is set, bars of block characters after them.
	Text(cols int, bars bool) []string
	// Alt says in a sentence or two what is to be seen.
	Alt() string
	// Data is every number of the chart.
	Data() Data
}

// PaperSize is the size of a chart on paper in millimetres.
type PaperSize struct{ Width, Height float64 }

// Data is a table: the head names the columns, the first cell of a row the row.
type Data struct {
	Head []string
	Rows [][]string
}

// The size of type in millimetres, 8 points: nothing on paper is smaller.
const (
	type8 = 2.83
	lead  = 3.4 // from line to line
)

// The least sizes of bars, and of charts with more to them.
var (
	leastBars = PaperSize{40, 12}
	least     = PaperSize{60, 45}
)

// atLeast is the size, if it is not below the least.
func (s PaperSize) atLeast(least PaperSize) PaperSize {
	const most = 2000
	return PaperSize{min(max(least.Width, finite(s.Width)), most), min(max(least.Height, finite(s.Height)), most)}
}

// finite makes every number one that can be drawn: what has none is 0.
func finite(v float64) float64 {
	const most = 1e15
	if math.IsNaN(v) {
		return 0
	}
	return max(-most, min(v, most))
}

// number writes a value without decimals that it does not need, and at most so
// many.
func number(v float64, decimals int) string {
	scale := math.Pow10(decimals)
	return wording.Decimal(strconv.FormatFloat(math.Round(finite(v)*scale)/scale, 'f', -1, 64))
}
