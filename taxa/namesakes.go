package taxa

import (
	"cmp"

	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Namesakes are warnings of taxa that cannot be told apart by their names: two that are
// shown to people under one name, and two of the same scientific name, rank and stage. In
// a region, which may be nil for all taxa, they are those of its list and what holds them.
// A taxon may share its name with one that holds it.
func (c *Catalog) Namesakes(r *Region) authored.Findings {
	called, met := map[string]regional{}, map[string]bool{}
	if r != nil {
		for _, resident := range r.Taxa {
			for t := c.index[resident.Taxon]; t != nil; t = t.parent {
				met[t.ID] = true
			}
		}
		for _, x := range r.called {
			called[x.taxon] = x
		}
	}
	var report authored.Report
	shown, latin := map[string]*Taxon{}, map[string]*Taxon{}
	for _, t := range c.taxa {
		if r != nil && !met[t.ID] {
			continue
		}
		name, at := t.Name(), t.nameAt()
		own := called[t.ID]
		if len(own.names) > 0 {
			name, at = own.names[0], own.pos
		}
		if first := c.first(shown, plain.Fold(name), t); first != nil {
			if x := called[first.ID]; len(x.names) > 0 && len(own.names) == 0 {
				at = x.pos
			}
			report.Add(at, "same-name",
				wording.Sprintf("%s and %s are both called %s, so nobody can know which is meant", plain.Quote(first.ID),
					plain.Quote(t.ID), plain.Quote(name)), wording.Text("give one of the two another first name"))
			continue
		}
		if t.Rank == Informal {
			continue
		}
		if first := c.first(latin, plain.Fold(t.Scientific)+" "+t.Rank+" "+t.Stage, t); first != nil {
			report.Add(t.table.Pos("scientific"), "same-name",
				wording.Sprintf("%s and %s have the same scientific name, %s", plain.Quote(first.ID), plain.Quote(t.ID),
					plain.Quote(t.Scientific)),
				wording.Text("correct one of the two; where they are stages of one kind, say which with stage"))
		}
	}
	return report.Findings()
}

// first is the taxon that has the name already and does not hold this one, nor is held by
// it; nil where there is none.
func (c *Catalog) first(by map[string]*Taxon, name string, t *Taxon) *Taxon {
	first := by[name]
	by[name] = cmp.Or(first, t)
	if first == nil || c.IsUnder(t.ID, first.ID) || c.IsUnder(first.ID, t.ID) {
		return nil
	}
	return first
}

// nameAt is where the name stands that people are shown first.
func (t *Taxon) nameAt() authored.Pos {
	if len(t.Common) > 0 {
		return t.table.Elem("common", 0)
	}
	return t.table.Pos("scientific")
}
