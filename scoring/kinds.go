package scoring

import (
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// KindOf is the kind that animals of a taxon count as in a scheme, and whether
// they count there at all.
func (r *Rules) KindOf(s *Scheme, taxon string) (Kind, bool) {
	kind, why, _ := r.placeTaxon(s, taxon)
	if why != "" {
		return Kind{}, false
	}
	return s.Kinds[kind], true
}

// KindOfRecord is the kind that the animals of a record count as in a scheme, and
// whether they count there at all. A record that says what its animals may be
// can count under a name that is too broad by itself.
func (r *Rules) KindOfRecord(s *Scheme, rec visit.Record) (Kind, bool) {
	kind, why, _ := r.placeRecord(s, rec)
	if why != "" {
		return Kind{}, false
	}
	return s.Kinds[kind], true
}

// Weight is what one kind of a group is worth in a scheme; false where that
// depends on how many animals there are.
func (s *Scheme) Weight(group string) (float64, bool) {
	w, ok := s.weight[group]
	return s.number(w), ok
}

// SheetRow is one line of a field sheet: a kind of the protocol's main scheme.
type SheetRow struct {
	Number int // from 1; what people may type instead of a name
	Kind   Kind
	Group  Group
	Taxon  string // what a count on this line names; empty where the kind's name alone would be too broad to count

	// Wider is then the taxon above all that the kind holds, and Among what the
	// animals may be beneath it: a record with both counts as the kind. They are
	// empty where no taxon of the catalog can say it.
	Wider string
	Among []string
}

// SheetRows are the lines of the field sheet for a protocol, in the order of
// its main scheme. Paper and typing in go by the same rows.
func (r *Rules) SheetRows(p *Protocol) []SheetRow {
	s := r.Scheme(p.Schemes[0])
	rows := make([]SheetRow, len(s.Kinds))
	for i, k := range s.Kinds {
		g, _ := s.group(k.Group)
		rows[i] = SheetRow{Number: i + 1, Kind: k, Group: g, Taxon: r.plainTaxon(s, k)}
		if rows[i].Taxon == "" {
			rows[i].Wider, rows[i].Among = r.widerTaxon(s, i)
		}
	}
	return rows
}

// plainTaxon is the taxon that a count beside a kind's name stands for.
func (r *Rules) plainTaxon(s *Scheme, k Kind) string {
	var one *taxa.Taxon
	switch len(k.Taxa) {
	case 0:
		return ""
	case 1:
		one = r.catalog.Taxon(k.Taxa[0])
	default:
		one = r.catalog.Cover(k.Taxa)
	}
	if one == nil {
		return ""
	}
	if got, ok := r.KindOf(s, one.ID); !ok || got.ID != k.ID {
		return ""
	}
	return one.ID
}

// widerTaxon is the taxon above all of a kind, with the broadest taxa beneath it
// that are of the kind.
func (r *Rules) widerTaxon(s *Scheme, kind int) (wider string, among []string) {
	top := r.catalog.Cover(s.Kinds[kind].Taxa)
	if top == nil {
		return "", nil
	}
	ofKind := func(id string) bool {
		k, why, _ := r.placeTaxon(s, id)
		return why == "" && k == kind
	}
	for _, t := range r.catalog.Taxa() {
		if ofKind(t.ID) && r.catalog.IsUnder(t.ID, top.ID) && !ofKind(t.Parent) {
			among = append(among, t.ID)
		}
	}
	if k, why, _ := r.placeNamed(s, top.ID, among); why != "" || k != kind {
		return "", nil
	}
	return top.ID, among
}
