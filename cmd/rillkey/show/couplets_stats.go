//go:build !js

package show

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"rillkey/key"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// most is how many rows a chart of couplets or traits has.
const most = 10

// Stats writes the figures of a key.
func Stats(w io.Writer, width int, title string, s key.Stats) error {
	p := newPage(w, width)
	p.text(0, 2, "%s: %s, %s", title, plain.Count(s.Couplets, "couplet"), plain.Count(s.Ends, "end point"))
	p.item("Questions", "%.2f on average, every end point counted once (no key of two leads can be under %.2f)", s.MeanFlat, s.Bound)
	if s.MeanWeighted > 0 {
		p.item("", "%.2f on average, weighted by how common the animals are (no key of two leads can be under %.2f); %.0f "+
			"in 100 animals need six or fewer", s.MeanWeighted, s.BoundWeighted, 100*s.CommonWithin)
	}
	p.item("Effort", "%.2f on average, a look with the naked eye being 1", s.MeanEffort)
	p.item("Lost", "%.0f in 100 beginners leave the right path at some misread answer, if nobody looks twice", 100*s.Lost)
	p.item("Longest", "%d, to %s", s.Longest, strings.Join(s.LongestEnds, ", "))
	p.depths(s)
	p.carriers(s)
	p.losses(s)
	return p.err
}

// bars draws rows of a chart: the longest bar stands for the largest value.
func (p *page) bars(labels []string, values []float64, written func(float64) string) {
	top, wide := 0.0, 0
	for i, v := range values {
		top = max(top, v)
		wide = max(wide, len(labels[i]))
	}
	bar := max(4, min(40, p.width-wide-12))
	for i, v := range values {
		n := 0
		if v > 0 {
			n = max(1, int(v/top*float64(bar)+0.5))
		}
		p.line(fmt.Sprintf("  %-*s %6s  %s", wide, plain.Printable(labels[i]), written(v), strings.Repeat("=", n)))
	}
}

func (p *page) depths(s key.Stats) {
	p.line("")
	p.line(wording.Text("End points by questions"))
	var labels []string
	var values []float64
	for depth, n := range s.Depths {
		if n > 0 {
			labels = append(labels, fmt.Sprintf("%3d", depth))
			values = append(values, float64(n))
		}
	}
	p.bars(labels, values, func(v float64) string { return fmt.Sprintf("%.0f", v) })
}

func (p *page) carriers(s key.Stats) {
	p.line("")
	p.line(wording.Text("Traits asked, times for each animal"))
	var labels []string
	var values []float64
	for _, c := range s.Carriers[:min(most, len(s.Carriers))] {
		labels = append(labels, c.Trait)
		values = append(values, c.Asked)
	}
	p.bars(labels, values, func(v float64) string { return fmt.Sprintf("%.2f", v) })
}

func (p *page) losses(s key.Stats) {
	p.line("")
	p.line(wording.Text("Lost at each couplet, of 100 animals"))
	at := slices.Clone(s.PerCouplet)
	slices.SortStableFunc(at, func(a, b key.AtCouplet) int { return cmp.Compare(b.Lost, a.Lost) })
	var labels []string
	var values []float64
	for _, c := range at[:min(most, len(at))] {
		labels = append(labels, c.Couplet)
		values = append(values, 100*c.Lost)
	}
	p.bars(labels, values, func(v float64) string { return fmt.Sprintf("%.1f", v) })
}
