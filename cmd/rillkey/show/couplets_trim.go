//go:build !js

package show

import (
	"io"
	"strings"

	"rillkey/key"
	"rillkey/taxa/plain"
)

// TrimmedJSON is what a key lost by being trimmed.
type TrimmedJSON struct {
	File     string    `json:"file,omitempty"`
	Couplets []string  `json:"couplets_gone"`
	Ends     []string  `json:"end_points_gone"`
	Left     []string  `json:"end_points_left"`
	Before   key.Stats `json:"before"`
	After    key.Stats `json:"after"`
}

// Text writes what went, and how much shorter the walk became.
func (t TrimmedJSON) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	gone, left := plain.Count(len(t.Ends), "end point"), plain.Count(len(t.Left), "end point")
	if len(t.Ends) <= len(t.Left) { // of two lists people read the shorter
		p.item("Gone", "%s: %s", gone, strings.Join(t.Ends, ", "))
		p.item("", "%s, by their old numbers: %s", plain.Count(len(t.Couplets), "couplet"), strings.Join(t.Couplets, ", "))
		p.item("Left", "%s, %s", plain.Count(t.After.Couplets, "couplet"), left)
	} else {
		p.item("Gone", "%s, %s", plain.Count(len(t.Couplets), "couplet"), gone)
		p.item("Left", "%s: %s", left, strings.Join(t.Left, ", "))
		p.item("", "%s, renumbered", plain.Count(t.After.Couplets, "couplet"))
	}
	p.item("Questions", "%.2f on average, before %.2f; at most %d, before %d", t.After.MeanFlat, t.Before.MeanFlat, t.After.Longest,
		t.Before.Longest)
	if t.After.MeanWeighted > 0 {
		p.item("", "%.2f by how common the animals are, before %.2f", t.After.MeanWeighted, t.Before.MeanWeighted)
	}
	if t.File == "" {
		p.text(0, 2, "Nothing was written: name a file with --out.")
	} else {
		p.text(0, 2, "Written to %s.", t.File)
	}
	return p.err
}

// Renumbered is a key whose couplets got other numbers.
type Renumbered struct {
	Couplets int               `json:"couplets"`
	Changed  int               `json:"changed"` // couplets that have another number now
	Numbers  map[string]string `json:"numbers"` // new ones by old ones
}
