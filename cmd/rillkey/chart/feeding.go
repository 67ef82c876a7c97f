package chart

import (
	"strings"

	"rillkey/scoring"
	"rillkey/taxa/wording"
)

// feedingIndex is an index whose groups are the ways of feeding.
const feedingIndex = "percent-shredders"

// Feeding is what was found by way of feeding, in the order of the index that knows
// them. It reports false where the grade has no such index, or it has no value.
func Feeding(g *scoring.Grade) (Bars, bool) {
	for _, i := range g.Further {
		if i.ID != feedingIndex || i.Value == nil {
			continue
		}
		group := BarGroup{}
		at := map[string]int{}
		for _, t := range i.Terms {
			n, known := at[t.Group]
			if !known {
				name, what, _ := strings.Cut(t.GroupLabel, ": ")
				n = len(group.Bars)
				at[t.Group] = n
				group.Bars = append(group.Bars, Bar{Label: name, Note: what})
			}
			group.Bars[n].Count += t.Count
		}
		for n := range group.Bars {
			group.Bars[n].Fill = fill(n, len(group.Bars))
		}
		return Bars{Title: wording.Text("Animals by way of feeding"), Groups: []BarGroup{group}}, len(group.Bars) > 0
	}
	return Bars{}, false
}
