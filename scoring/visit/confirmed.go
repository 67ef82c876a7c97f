package visit

// Confirmed is a record whose right name became known after it was made.
type Confirmed struct {
	Record string   // its id
	Path   []string // what was answered when it was made; empty for one from a sheet of paper
	Named  string   // what it was named then
	Taxon  string   // what the animal proved to be
	Drawn  bool     // chance chose it for a second look, and nobody skipped one before it
}

// Confirmed are the records whose right name is known: what they were corrected
// to, else what the last second look that came to a name found. Those without a
// path and a first name, or without a name, are left out, and so is what nobody looked
// at twice.
func (v *Visit) Confirmed() []Confirmed {
	first, corrected := map[string]Identification{}, map[string]bool{}
	for _, e := range v.Events {
		switch b := e.Body.(type) {
		case Identification:
			first[e.ID] = b
		case Amendment:
			corrected[b.Entry] = corrected[b.Entry] || b.Change.Taxon != nil
		}
	}
	var out []Confirmed
	for _, r := range v.Tally().Records {
		c := Confirmed{Record: r.ID, Path: first[r.ID].Path, Named: first[r.ID].Taxon, Taxon: r.found()}
		if corrected[r.ID] {
			c.Taxon = r.Taxon
		}
		if c.Taxon != "" && (len(c.Path) > 0 || c.Named != "") {
			out = append(out, c)
		}
	}
	known := corrected
	for _, r := range v.Tally().Records {
		known[r.ID] = known[r.ID] || len(r.Looks) > 0
	}
	byChance := drawn(v.Draw(), known)
	for i := range out {
		out[i].Drawn = byChance[out[i].Record]
	}
	return out
}

// found is what the last second look that came to a name found.
func (r Record) found() string {
	for i := len(r.Looks) - 1; i >= 0; i-- {
		if look := r.Looks[i]; !look.Undecided && look.Taxon != "" {
			return look.Taxon
		}
	}
	return ""
}
