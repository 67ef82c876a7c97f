package chart

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Bars are counts of animals, or of something else, with their shares, in one group or several. The
// bars of a group are shown in the order given.
type Bars struct {
	Title   string
	Groups  []BarGroup
	Counted string // what is counted, many of it; animals where it is empty
}

func (b Bars) counted() string { return cmp.Or(b.Counted, wording.Text("animals")) }

// BarGroup is bars under one heading, which may be empty.
type BarGroup struct {
	Label string
	Bars  []Bar
}

// Bar is how many animals there were of something.
type Bar struct {
	Label string
	Count int64  // 0 or more
	Note  string // said after the count and share
	Fill  BarFill
}

func (b Bars) total() (sum float64) {
	for _, g := range b.Groups {
		for _, r := range g.Bars {
			sum += float64(max(0, r.Count))
		}
	}
	return sum
}

func (b Bars) most() (most float64) {
	for _, g := range b.Groups {
		for _, r := range g.Bars {
			if r.Fill != unbarred {
				most = max(most, float64(r.Count))
			}
		}
	}
	return max(most, 1)
}

// share is a count's part of the whole in words; nothing has no share.
func share(n int64, total float64) string {
	if total <= 0 {
		return ""
	}
	return plain.Percent(float64(n) / total)
}

// Data is every bar.
func (b Bars) Data() Data {
	d := Data{Head: []string{wording.Text("what"), b.counted(), wording.Text("share"), wording.Text("note")}}
	total := b.total()
	for _, g := range b.Groups {
		for _, r := range g.Bars {
			label := r.Label
			if g.Label != "" {
				label += " (" + g.Label + ")"
			}
			d.Rows = append(d.Rows, []string{label, fmt.Sprint(r.Count), share(r.Count, total), r.Note})
		}
	}
	return d
}

// Alt names the title, the number of bars and the longest.
func (b Bars) Alt() string {
	var all []Bar
	for _, g := range b.Groups {
		all = append(all, g.Bars...)
	}
	if b.total() == 0 {
		return wording.Sprintf("%s: no %s.", b.Title, b.counted())
	}
	slices.SortStableFunc(all, func(a, b Bar) int { return cmp.Compare(b.Count, a.Count) })
	var parts []string
	for _, r := range all[:min(3, len(all))] {
		parts = append(parts, r.Label+" "+b.value(r))
	}
	more := ""
	if n := len(all) - len(parts); n > 0 {
		more = wording.Sprintf("; and %d more", n)
	}
	return wording.Sprintf("Bar chart, %s, %s %s in all: %s%s.", b.Title, number(b.total(), 0), b.counted(),
		strings.Join(parts, "; "), more)
}

// atMost keeps the first bars of each group, so many at most, and sums up the
// others. Their sum gets no bar beside others, which would dwarf them.
func (b Bars) atMost(n int) Bars {
	out := Bars{Title: b.Title, Counted: b.Counted}
	for _, g := range b.Groups {
		if len(g.Bars) > n+1 {
			rest := Bar{Label: wording.Sprintf("%d more", len(g.Bars)-n), Fill: unbarred}
			if n == 0 {
				rest.Label, rest.Fill = wording.Sprintf("%d in all", len(g.Bars)), g.Bars[0].Fill
			}
			for _, r := range g.Bars[n:] {
				rest.Count += r.Count
			}
			g.Bars = append(slices.Clone(g.Bars[:n]), rest)
		}
		out.Groups = append(out.Groups, g)
	}
	return out
}

const (
	rowGap    = 1.7
	groupGap  = 1.2
	labelPart = 0.42 // of the width, at most, for labels
)

// Height is how many millimetres the chart needs at a width to show every bar.
func (b Bars) Height(width float64) float64 {
	l := b.layout(PaperSize{Width: width}.atLeast(leastBars).Width)
	return max(leastBars.Height, l.height)
}

// placed is a bar or a heading with its lines of text and its place.
type placed struct {
	lines   []string
	heading bool
	bar     Bar
	y, h    float64
}

type barLayout struct {
	rows          []placed
	left, right   float64 // of the bars
	height, total float64
}

func (b Bars) layout(w float64) barLayout {
	l := barLayout{total: b.total()}
	labels, values := 0.0, 0.0
	for _, g := range b.Groups {
		for _, r := range g.Bars {
			labels = max(labels, width(plain.Printable(r.Label), type8))
			values = max(values, width(b.value(r), type8))
		}
	}
	labels = min(labels, w*labelPart)
	values = min(values, w*0.4)
	l.left, l.right = labels+2, max(labels+6, w-values-1.5)
	for _, g := range b.Groups {
		if g.Label != "" {
			l.height += groupGap
			l.add(placed{lines: fold(plain.Printable(g.Label), type8, w/bolder, 2), heading: true})
		}
		for _, r := range g.Bars {
			l.add(placed{lines: fold(plain.Printable(r.Label), type8, labels, 3), bar: r})
		}
	}
	return l
}

func (l *barLayout) add(r placed) {
	r.y, r.h = l.height, float64(len(r.lines))*lead+rowGap
	l.height += r.h
	l.rows = append(l.rows, r)
}

// value is a bar's count, share and note.
func (b Bars) value(r Bar) string {
	text := fmt.Sprint(r.Count)
	if part := share(r.Count, b.total()); part != "" {
		text += " (" + part + ")"
	}
	if r.Note != "" {
		text += ", " + plain.Printable(r.Note)
	}
	return text
}

// SVG draws one bar below the other. Where there is too little room the last
// bars of each group are summed up in one.
func (b Bars) SVG(s PaperSize) string {
	s = s.atLeast(leastBars)
	p := newPen(s, b.Title, b.Alt())
	shown := b
	longest := 0
	for _, g := range b.Groups {
		longest = max(longest, len(g.Bars))
	}
	for n := longest - 2; n >= 0 && shown.layout(s.Width).height > s.Height; n-- {
		shown = b.atMost(n)
	}
	l := shown.layout(s.Width)
	for _, r := range l.rows {
		if r.y+r.h > s.Height {
			break
		}
		shown.row(p, l, r)
	}
	return p.done()
}

func (b Bars) row(p *pen, l barLayout, r placed) {
	for i, line := range r.lines {
		p.text(point{0, r.y + lead*float64(i+1) - 0.6}, words{line, type8, fromStart, r.heading, p.size.Width})
	}
	if r.heading {
		return
	}
	long := (l.right - l.left) * float64(max(0, r.bar.Count)) / b.most()
	switch {
	case r.bar.Fill == unbarred:
		long = 0
	case r.bar.Count > 0:
		long = max(long, 0.3)
	}
	p.bar(l.left, r.y+0.4, long, lead-0.4, r.bar.Fill)
	p.line(point{l.left, r.y}, point{l.left, r.y + r.h}, medium)
	at := l.left + long + 1
	p.text(point{at, r.y + lead - 0.6}, words{b.value(r.bar), type8, fromStart, false, p.size.Width - at})
}
