package scoring

import "rillkey/taxa"

// KindOf is the kind that animals of a taxon count as in a scheme, and whether
// they count there at all.
func (r *Rules) KindOf(s *Scheme, taxon string) (Kind, bool) {
	kind, why, _ := r.placeTaxon(s, taxon)
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
}

// SheetRows are the lines of the field sheet for a protocol, in the order of
// its main scheme. Paper and typing in go by the same rows.
func (r *Rules) SheetRows(p *Protocol) []SheetRow {
	s := r.Scheme(p.Schemes[0])
	rows := make([]SheetRow, len(s.Kinds))
	for i, k := range s.Kinds {
		g, _ := s.group(k.Group)
		rows[i] = SheetRow{Number: i + 1, Kind: k, Group: g, Taxon: r.plainTaxon(s, k)}
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
