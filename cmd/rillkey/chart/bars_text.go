package chart

import "rillkey/taxa/wording"

// mostLines are the bars that a terminal shows of a group.
const mostLines = 20

// Text is one line for every bar, at most 20 of a group.
func (b Bars) Text(cols int, bars bool) []string {
	cols = max(leastCols, cols)
	shown := b.atMost(mostLines)
	total, most := b.total(), shown.most()
	wide := len(number(shown.total(), 0))
	var all []entry
	for _, g := range shown.Groups {
		if g.Label != "" {
			all = append(all, entry{label: g.Label + ":", heading: true})
		}
		for _, r := range g.Bars {
			value := padLeft(number(float64(r.Count), 0), wide) + padLeft(share(r.Count, total), shareWide)
			label := r.Label
			if r.Note != "" {
				label += ", " + r.Note
			}
			part := float64(r.Count) / most
			if r.Fill == unbarred {
				part = 0
			}
			all = append(all, entry{label: label, value: value, part: part})
		}
	}
	return append(wrap(wording.Sprintf("%s, %s %s in all", b.Title, number(total, 0), b.counted()), cols, 2), columns(all, cols, bars)...)
}

// shareWide is the width of the longest share, "under 1 %", and a blank.
const shareWide = 10
