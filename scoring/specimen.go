package scoring

import (
	"cmp"

	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// mostPossible is how many taxa of a record that was set aside a label can name.
const mostPossible = 3

// Specimens are the records whose animals are worth a vial and an expert's look: those
// whose name is doubtful, but for animals likelier of a kind that no index scores, such as
// a salamander, which belong back in the stream. Where somebody said of animals set aside
// what few taxa they may be, that stands in the place of what the region makes of it: a
// vial keeps what was seen at the table.
func (l *Recheck) Specimens(t visit.Tally, catalog *taxa.Catalog) (out []RecheckRecord) {
	for _, s := range l.Records {
		if !s.Doubtful() || s.likelyUnscored(catalog) {
			continue
		}
		if r, ok := t.Record(s.Record); ok && r.Undecided && len(r.Possible) > 0 && len(r.Possible) <= mostPossible {
			s.Rivals = nil
			for _, id := range r.Possible {
				if known := catalog.Taxon(id); known != nil {
					s.Rivals = append(s.Rivals, Alternative{Taxon: id, Name: known.Name(), Chance: 1 / float64(len(r.Possible))})
				}
			}
		}
		out = append(out, s)
	}
	return out
}

// likelyUnscored reports whether animals are likelier than not of a kind that no index
// scores.
func (s *RecheckRecord) likelyUnscored(catalog *taxa.Catalog) bool {
	unscored := 0.0
	add := func(id string, chance float64) {
		if t := catalog.Taxon(id); t != nil && t.Class == taxa.NotScored {
			unscored += chance
		}
	}
	add(s.Taxon, s.Sure)
	for _, r := range s.Rivals {
		add(r.Taxon, r.Chance)
	}
	return unscored > 0.5
}

// Settling is the feature that tells what a record is named from what else it may be most
// likely, and the two; nil where none does for certain.
func (s *RecheckRecord) Settling(catalog *taxa.Catalog) (*taxa.Trait, []*taxa.Taxon) {
	var two []*taxa.Taxon
	if s.Taxon != "" {
		two = append(two, catalog.Taxon(s.Taxon))
	}
	for _, r := range s.Rivals[:min(len(s.Rivals), 2-len(two))] {
		two = append(two, catalog.Taxon(r.Taxon))
	}
	if len(two) < 2 || two[0] == nil || two[1] == nil {
		return nil, nil
	}
	traits := catalog.TellApart(two[0], two[1])
	if len(traits) == 0 {
		return nil, nil
	}
	return traits[0], two
}

// CompareGain orders records of several visits by how much settling them would tell, most
// first; 0 where they would tell as much.
func CompareGain(x, y *RecheckRecord) int {
	return cmp.Or(-cmp.Compare(x.Gain, y.Gain), -cmp.Compare(x.Moves, y.Moves))
}
