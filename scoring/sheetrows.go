package scoring

import (
	"slices"

	"rillkey/scoring/scheme"
	"rillkey/taxa"
)

// SheetRow is one line of a field sheet: a kind of the protocol's main scheme.
type SheetRow struct {
	Number int // from 1; what people may type instead of a name
	Kind   scheme.Kind
	Group  scheme.Group
	Taxon  string // what a count on this line names; empty where the kind's name alone would be too broad to count

	// Wider is then the taxon above all that the kind holds, and MayBe what the
	// animals may be beneath it: a record with both counts as the kind. They are
	// empty where no taxon of the catalog can say it.
	Wider string
	MayBe []string
}

// MustBeNamed reports whether a count on the line needs a closer name and has some
// to offer.
func (r SheetRow) MustBeNamed() bool { return r.Taxon == "" && r.Wider == "" && len(r.Kind.Taxa) > 0 }

// SheetRows are the lines of the field sheet for a protocol, in the order of
// its main scheme. Paper and typing in go by the same rows.
func (r *Rules) SheetRows(p *scheme.Protocol) []SheetRow {
	s := r.grader(p.Schemes[0])
	rows := make([]SheetRow, len(s.Kinds))
	for i, k := range s.Kinds {
		g, _ := s.Group(k.Group)
		rows[i] = SheetRow{Number: i + 1, Kind: k, Group: g, Taxon: r.plainTaxon(s, i)}
		if rows[i].Taxon == "" {
			rows[i].Wider, rows[i].MayBe = r.widerTaxon(s, i)
		}
	}
	return rows
}

// plainTaxon is the taxon that a count beside a kind's name stands for: its only
// one, the one above all of them, or the first that goes by the kind's very name, as
// the key and the catalog have it. It must count as that kind.
func (r *Rules) plainTaxon(s grader, kind int) string {
	k := s.Kinds[kind]
	var may []*taxa.Taxon
	switch len(k.Taxa) {
	case 0:
	case 1:
		may = append(may, r.catalog.Taxon(k.Taxa[0]))
	default:
		may = append(may, r.catalog.Cover(k.Taxa))
	}
	ofKind := func(t *taxa.Taxon) bool { return t != nil && s.Place(t.ID).Kind == kind }
	if i := slices.IndexFunc(may, ofKind); i >= 0 {
		return may[i].ID
	}
	called := r.catalog.Called(k.Label) // which reads all names first
	if i := slices.IndexFunc(called, ofKind); i >= 0 {
		return called[i].ID
	}
	return ""
}

// widerTaxon is the taxon above all of a kind, with the broadest taxa beneath it
// that are of the kind.
func (r *Rules) widerTaxon(s grader, kind int) (wider string, among []string) {
	top := r.catalog.Cover(s.Kinds[kind].Taxa)
	if top == nil {
		return "", nil
	}
	ofKind := func(id string) bool { return s.Place(id).Kind == kind }
	for _, t := range r.catalog.Taxa() {
		if r.catalog.IsUnder(t.ID, top.ID) && ofKind(t.ID) && !ofKind(t.Parent) {
			among = append(among, t.ID)
		}
	}
	if s.PlaceNamed(top.ID, among).Kind != kind {
		return "", nil
	}
	return top.ID, among
}
