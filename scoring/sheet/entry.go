package sheet

import (
	"slices"
	"strings"

	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// fromPaper is the note on what was typed in, asRowOf that on animals that stand for a
// row whose name is not that of one taxon, and lookAgain that on those to be looked at
// again. They are written in the language in use, and read in English too.
var (
	fromPaper = wording.Mark("typed in from paper")
	asRowOf   = wording.Mark("typed in from paper as %s")
	lookAgain = wording.Mark("typed in from paper, to be looked at again")
	asWhat    = wording.Mark("typed in from paper, to be looked at again: %s")
)

// asRow is the note by which the animals of such a row are found again.
func asRow(row scoring.SheetRow) string { return wording.Sprintf(asRowOf, row.Kind.Label) }

// rowOfNote is the label of the row that a note names, if it names one.
func rowOfNote(note string) (label string, found bool) {
	for _, said := range []string{asRowOf, wording.Text(asRowOf)} {
		before, after, _ := strings.Cut(said, "%s")
		if label, found = strings.CutPrefix(note, before); found {
			return strings.TrimSuffix(label, after), true
		}
	}
	return "", false
}

// is reports whether a note is a sentence, and begins whether it begins with it.
func is(note, english string) bool { return note == english || note == wording.Text(english) }

func begins(note, english string) bool {
	return strings.HasPrefix(note, english) || strings.HasPrefix(note, wording.Text(english))
}

// RowEntry is what a count comes to.
type RowEntry struct {
	Bodies  []visit.Body // to append, in this order; none where nothing changes
	Taxon   *taxa.Taxon  // what was counted; nil where Label says it
	Label   string
	Count   int
	Correct bool // of a record that had Was animals
	Was     int
	Aside   bool // they do not count until somebody names them
	Again   bool // and were written in the column "look again"
}

// TooBroad reports whether a row that is still empty needs a closer name before it
// can be counted, and has some to offer.
func (s *Sheet) TooBroad(p Position) bool {
	return len(s.held[p.Column][p.Row]) == 0 && s.Rows[p.Row].MustBeNamed()
}

// CountRow enters or corrects the count of a row, 0 to take it out. A row with
// several records has no one count to correct.
func (s *Sheet) CountRow(p Position, n int) (RowEntry, error) {
	row, records := s.Rows[p.Row], s.held[p.Column][p.Row]
	switch {
	case len(records) > 1:
		return RowEntry{}, wording.Errorf("row %d has several records; correct the one you mean by its name, or choose it after: "+
			"rillkey visit amend --visit %s", row.Number, plain.ShellWord(s.file))
	case len(records) == 1:
		return s.correct(records[0], n), nil
	case n == 0:
		return RowEntry{}, nil
	case row.Taxon != "":
		return s.taxon(p.Column, s.catalog.Taxon(row.Taxon), n), nil
	case row.Wider != "":
		body := OfRow(s.catalog, row, s.Samples[p.Column], n)
		body.Note = asRow(row)
		return RowEntry{Bodies: []visit.Body{body}, Label: row.Kind.Label, Count: n}, nil
	}
	return s.CountUnnamed(p, n), nil
}

// CountUnnamed enters animals of a row as undecided, since its name alone is too
// broad to be counted, or the catalog has none for it.
func (s *Sheet) CountUnnamed(p Position, n int) RowEntry {
	row := s.Rows[p.Row]
	row.Taxon, row.Wider = "", ""
	body := OfRow(s.catalog, row, s.Samples[p.Column], n)
	body.Note = asRow(row)
	return RowEntry{Bodies: []visit.Body{body}, Label: row.Kind.Label, Count: n, Aside: true}
}

// CountTaxon enters or corrects the count of a taxon in a column, 0 to take it out.
func (s *Sheet) CountTaxon(column int, t *taxa.Taxon, n int) RowEntry {
	if r, has := s.recordOf(column, t); has {
		return s.correct(r, n)
	}
	if n == 0 {
		return RowEntry{}
	}
	return s.taxon(column, t, n)
}

func (s *Sheet) taxon(column int, t *taxa.Taxon, n int) RowEntry {
	body := visit.Identification{Sample: s.Samples[column], Taxon: t.ID, Rank: t.Rank, Count: n, Note: wording.Text(fromPaper)}
	return RowEntry{Bodies: []visit.Body{body}, Taxon: t, Count: n}
}

// correct replaces the count of a record. One that was identified on the screen
// then stands for its row of the sheet.
func (s *Sheet) correct(has visit.Record, n int) RowEntry {
	e := RowEntry{Label: wording.Text("set aside"), Count: n, Correct: true, Was: has.Count}
	if label, ofRow := rowOfNote(has.Note); ofRow {
		e.Label = label
	} else if e.Taxon = s.catalog.Taxon(has.Taxon); e.Taxon != nil {
		e.Label = e.Taxon.Name()
	}
	body := visit.Amendment{Entry: has.ID, Reason: wording.Text("corrected while the sheet was typed in")}
	switch n {
	case has.Count:
	case 0:
		body.Withdrawn = true
		e.Bodies = append(e.Bodies, body)
	default:
		body.Change.Count = &n
		e.Bodies = append(e.Bodies, body)
	}
	if row := s.rowOf(has); row >= 0 && (n == 0 || !begins(has.Note, fromPaper)) {
		ids := visit.SheetRows{Sample: has.Sample, Rows: []string{s.Rows[row].Kind.ID}}
		if !slices.Contains(s.goneThrough(slices.Index(s.Samples, has.Sample)).Rows, ids.Rows[0]) {
			e.Bodies = append(e.Bodies, ids)
		}
	}
	return e
}

// Alternatives is what animals of the column "look again" may be: what a row is for, one
// taxon, or, as the zero Doubt, nobody knows.
type Alternatives struct {
	Label string // for people
	Taxa  []string
}

// SetAside enters or corrects animals that wait for a second look, with what they
// may be and what the catalog says that is taken for. A cell of the tray holds one
// lot of them, so the same cell once more corrects its count.
func (s *Sheet) SetAside(column int, cell string, n int, d Alternatives) RowEntry {
	if r, has := s.InCell(column, cell); has {
		return s.correct(r, n)
	}
	possible := slices.Clone(d.Taxa)
	for _, id := range d.Taxa {
		for _, m := range s.catalog.Taxon(id).Mistaken {
			if !slices.Contains(possible, m.Taxon) {
				possible = append(possible, m.Taxon)
			}
		}
	}
	note := wording.Text(lookAgain)
	if d.Label != "" {
		note = wording.Sprintf(asWhat, d.Label)
	}
	body := visit.Identification{Sample: s.Samples[column], Count: n, Cell: cell, Undecided: true, Possible: possible, Note: note}
	return RowEntry{Bodies: []visit.Body{body}, Label: d.Label, Count: n, Aside: true, Again: true}
}

// InCell is the record of the column "look again" that lies in a cell of the tray,
// and whether there is one.
func (s *Sheet) InCell(column int, cell string) (visit.Record, bool) {
	for _, r := range s.tally.Records {
		if cell != "" && r.Undecided && r.Sample == s.Samples[column] && strings.EqualFold(r.Cell, cell) &&
			begins(r.Note, lookAgain) {
			return r, true
		}
	}
	return visit.Record{}, false
}
