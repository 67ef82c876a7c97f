// Package sheet is a filled field sheet on its way into a visit's file: what its
// rows hold, which of them somebody has gone through, and which entry a count
// makes. It saves nothing and asks nobody.
//
// Begin with [Sheet], [Position] and [RowEntry].
//
// A [Sheet] has a column for each sample and a row for each kind of the protocol's
// main scheme; a [Place] is a row of a column. [Entry] is what a count comes to.
package sheet

import (
	"slices"

	"rillkey/scoring"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// Sheet is the columns of some samples. Begin with [New].
type Sheet struct {
	Samples []string // labels of the columns
	Rows    []scoring.SheetRow

	catalog *taxa.Catalog
	rules   *scoring.Rules
	scheme  *scheme.Scheme
	tally   visit.Tally
	file    string             // of the visit
	kinds   map[string]int     // of the records that count, by their ids
	held    [][][]visit.Record // by column and row
}

// New is the sheet of a protocol with columns for these samples, holding what v
// holds.
func New(catalog *taxa.Catalog, rules *scoring.Rules, p *scheme.Protocol, samples []string, v *visit.Visit) *Sheet {
	s := &Sheet{Samples: samples, Rows: rules.SheetRows(p), catalog: catalog, rules: rules, scheme: rules.Scheme(p.Schemes[0])}
	s.Read(v)
	return s
}

// Read sorts what a visit holds of the samples into columns and rows.
func (s *Sheet) Read(v *visit.Visit) {
	of := s.rules.Account(v)
	s.file = v.File
	s.tally, s.kinds = of.Tally, map[string]int{}
	for _, b := range of.Rows(s.scheme.Counting()) {
		if b.Why == "" {
			s.kinds[b.ID] = b.Kind
		}
	}
	s.held = make([][][]visit.Record, len(s.Samples))
	for column, label := range s.Samples {
		s.held[column] = make([][]visit.Record, len(s.Rows))
		for _, r := range s.tally.Records {
			if i := s.rowOf(r); r.Sample == label && i >= 0 {
				s.held[column][i] = append(s.held[column][i], r)
			}
		}
	}
}

// rowOf is the row that a record belongs to, -1 for none.
func (s *Sheet) rowOf(r visit.Record) int {
	if kind, ok := s.kinds[r.ID]; ok {
		return kind // a row is a kind
	}
	label, ofRow := rowOfNote(r.Note)
	return slices.IndexFunc(s.Rows, func(row scoring.SheetRow) bool { return r.Undecided && ofRow && label == row.Kind.Label })
}

// Sample is the sample of a column as it stands.
func (s *Sheet) Sample(column int) visit.Taken {
	taken, _ := s.tally.Sample(s.Samples[column])
	return taken
}

// Animals are how many a column holds, on its rows and off them.
func (s *Sheet) Animals(column int) (n int) {
	for _, r := range s.tally.Records {
		if r.Sample == s.Samples[column] {
			n += r.Count
		}
	}
	return n
}

// Filled is how many rows of a column hold animals.
func (s *Sheet) Filled(column int) (n int) {
	for _, records := range s.held[column] {
		if len(records) > 0 {
			n++
		}
	}
	return n
}

// Count is how many animals a row holds.
func (s *Sheet) Count(p Position) (n int) {
	for _, r := range s.held[p.Column][p.Row] {
		n += r.Count
	}
	return n
}

// Holds reports whether a column has a record of a taxon that is not the count of
// a row, so that another count would replace it.
func (s *Sheet) Holds(column int, t *taxa.Taxon) bool {
	_, has := s.recordOf(column, t)
	return has
}

func (s *Sheet) recordOf(column int, t *taxa.Taxon) (visit.Record, bool) {
	for _, r := range s.tally.Records {
		if _, ofRow := rowOfNote(r.Note); r.Sample == s.Samples[column] && r.Taxon == t.ID && !r.Undecided && !ofRow {
			return r, true
		}
	}
	return visit.Record{}, false
}
