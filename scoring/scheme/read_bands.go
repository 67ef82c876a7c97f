package scheme

import (
	"math"
	"sort"

	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// readBands wants every value from 0 up in exactly one band. A scheme without
// the table has no rating.
func (s *Scheme) readBands(top *authored.Table) {
	rows := needRows(top, "band")
	at := map[string]authored.Pos{}
	for _, row := range rows {
		b := Band{Rating: row.NeedStr("rating"), ListedAs: row.Str("listed_as"), Status: readStatus(row.Table, s.Status),
			Highest: math.MaxInt64}
		if _, doubled := at[b.Rating]; doubled {
			row.Fail("rating", "doubled-rating", wording.Sprintf("another band has the rating %s", plain.Quote(b.Rating)),
				wording.Text("give each band a word of its own"))
		}
		at[b.Rating] = row.Here()
		b.Lowest = s.edge(row.Table, "from", "above", 0, 1)
		b.Highest = s.edge(row.Table, "to", "below", math.MaxInt64, -1)
		if b.Highest < b.Lowest {
			row.FailAt(row.Here(), "band-empty", wording.Text("the band ends before it begins"),
				wording.Text("write the lower number after from, the higher after to"))
		}
		s.Bands = append(s.Bands, b)
		row.Done()
	}
	sort.SliceStable(s.Bands, func(i, j int) bool { return s.Bands[i].Lowest < s.Bands[j].Lowest })
	next := int64(0)
	for _, b := range s.Bands {
		s.joins(top, at[b.Rating], b.Lowest, next)
		next = b.Highest + 1 // wraps around behind the last band, which is checked below
	}
	if n := len(s.Bands); n > 0 && s.Bands[n-1].Highest != math.MaxInt64 {
		top.FailAt(at[s.Bands[n-1].Rating], "band-gap", wording.Sprintf("no band holds values above %s", s.Text(s.Bands[n-1].Highest)),
			wording.Text("leave the upper edge of the highest band out"))
	}
}

func (s *Scheme) joins(top *authored.Table, at authored.Pos, from, next int64) {
	switch {
	case next < 0 || from < next:
		top.FailAt(at, "band-overlap", wording.Sprintf("the value %s lies in two bands", s.Text(from)),
			wording.Text("let this band begin where the one below it ends: change its from, or the to or below of the other"))
	case from > next:
		top.FailAt(at, "band-gap", wording.Sprintf("no band holds the values from %s to %s", s.Text(next), s.Text(from-1)),
			wording.Sprintf("begin this band at %s, or end the one below it at %s", s.Text(next), s.Text(from-1)))
	}
}

// edge reads one edge of a band: inside is the key for a value that belongs
// to the band, outside for one that just does not.
func (s *Scheme) edge(row *authored.Table, inside, outside string, open, inward int64) int64 {
	switch {
	case row.Has(inside) && row.Has(outside):
		row.Fail(outside, "band-edges", wording.Text("an edge is given twice"), wording.Sprintf("keep either %s or %s", inside, outside))
		row.Num(inside)
		return s.steps(row, outside) + inward
	case row.Has(inside):
		return s.steps(row, inside)
	case row.Has(outside):
		return s.steps(row, outside) + inward
	}
	return open
}
