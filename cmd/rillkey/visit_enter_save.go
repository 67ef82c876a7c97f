package main

import (
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// fromPaper is the note on what was typed in, asRowOf what the note on animals
// begins with that stand for a row whose name is not that of one taxon.
const (
	fromPaper = "typed in from paper"
	asRowOf   = fromPaper + " as "
)

// asRow is the note by which the animals of such a row are found again.
func asRow(row scoring.SheetRow) string { return asRowOf + row.Kind.Label }

// read sorts what the file holds of these samples into columns and rows.
func (e *entering) read() error {
	v, err := visit.Read(e.path)
	if err != nil {
		return err
	}
	e.tally = v.Tally()
	e.held = make([][][]visit.Record, len(e.samples))
	for column, label := range e.samples {
		e.held[column] = make([][]visit.Record, len(e.rows))
		for _, r := range e.tally.Records {
			if i := e.rowOf(r); r.Sample == label && i >= 0 {
				e.held[column][i] = append(e.held[column][i], r)
			}
		}
	}
	return nil
}

// rowOf is the row that a record belongs to, -1 for none.
func (e *entering) rowOf(r visit.Record) int {
	kind, ok := e.rules.KindOf(e.rules.Scheme(e.protocol.Schemes[0]), r)
	for i, row := range e.rows {
		if r.Undecided && r.Note == asRow(row) || !r.Undecided && ok && row.Kind.ID == kind.ID {
			return i
		}
	}
	return -1
}

func (e *entering) mustBeNamed(row int) bool {
	return mustBeNamed(e.rows[row])
}

// onto enters or corrects the count of a row.
func (e *entering) onto(s station, text string) error {
	records := e.held[s.column][s.row]
	switch {
	case len(records) > 1:
		return misused("row %d has several records; correct the one you mean by its name, or with 'rillkey visit amend'", e.rows[s.row].Number)
	case len(records) == 1:
		return e.correct(records[0], text)
	case text == "0":
		return nil
	}
	if id := e.rows[s.row].Taxon; id != "" {
		return e.saveTaxon(s.column, e.catalog.Taxon(id), text)
	}
	if e.rows[s.row].Wider != "" {
		return e.saveWider(s, text)
	}
	return e.saveUnnamed(s, text)
}

func (e *entering) correct(has visit.Record, text string) error {
	body := visit.Amendment{Of: has.ID, Reason: "corrected while the sheet was typed in"}
	if text == "0" {
		body.Withdrawn = true
	} else {
		n, err := wholeCount(text)
		if err != nil {
			return misused("%w", err)
		}
		if n == has.Count {
			return nil
		}
		body.Change.Count = &n
	}
	if err := e.save(body); err != nil {
		return err
	}
	name, ofRow := strings.CutPrefix(has.Note, asRowOf)
	if !ofRow {
		name = nameOf(e.catalog, has)
	}
	e.plainly("Saved: %s is now %s, not %d.", name, text, has.Count)
	return nil
}

// byName enters an animal of a column by any of its names. What the sheet calls a
// row is that row.
func (e *entering) byName(column int, name, count string) error {
	if _, err := wholeCount(count); err != nil && count != "0" {
		return misused("%w", err)
	}
	for i, row := range e.rows {
		switch {
		case !strings.EqualFold(row.Kind.Label, name):
		case row.Taxon != "":
			return e.onTaxon(column, e.catalog.Taxon(row.Taxon), count)
		default:
			return e.outOfTurn(station{column: column, row: i}, count)
		}
	}
	free := func(t *taxa.Taxon) bool { _, has := e.recordOf(column, t); return !has }
	return e.mean(name, count, free, func(t *taxa.Taxon) error { return e.onTaxon(column, t, count) })
}

// onTaxon enters or corrects the count of a taxon in a column.
func (e *entering) onTaxon(column int, t *taxa.Taxon, count string) error {
	if r, has := e.recordOf(column, t); has {
		return e.correct(r, count)
	}
	if count == "0" {
		return nil
	}
	return e.saveTaxon(column, t, count)
}

// recordOf is the record of a taxon in a column that is not the count of a row.
func (e *entering) recordOf(column int, t *taxa.Taxon) (visit.Record, bool) {
	for _, r := range e.tally.Records {
		if r.Sample == e.samples[column] && r.Taxon == t.ID && !r.Undecided && !strings.HasPrefix(r.Note, asRowOf) {
			return r, true
		}
	}
	return visit.Record{}, false
}

func (e *entering) saveTaxon(column int, t *taxa.Taxon, text string) error {
	n, err := wholeCount(text)
	if err != nil {
		return misused("%w", err)
	}
	if err := e.save(visit.Identification{Sample: e.samples[column], Taxon: t.ID, Rank: t.Rank, Count: n, Note: fromPaper}); err != nil {
		return err
	}
	e.plainly("Saved: %d x %s.", n, show.Named(t))
	return nil
}

// saveWider enters animals of a row under the taxon above them, with what they
// may be.
func (e *entering) saveWider(s station, text string) error {
	n, err := wholeCount(text)
	if err != nil {
		return misused("%w", err)
	}
	row := e.rows[s.row]
	t := e.catalog.Taxon(row.Wider)
	if err := e.save(visit.Identification{Sample: e.samples[s.column], Taxon: t.ID, Rank: t.Rank, Count: n, Possible: row.Among, Note: asRow(row)}); err != nil {
		return err
	}
	e.plainly("Saved: %d x %s.", n, row.Kind.Label)
	return nil
}

// saveUnnamed keeps animals of a row as undecided, since its name alone is too
// broad to be counted, or no list of animals here has it.
func (e *entering) saveUnnamed(s station, text string) error {
	n, err := wholeCount(text)
	if err != nil {
		return misused("%w", err)
	}
	row := e.rows[s.row]
	if err := e.save(visit.Identification{Sample: e.samples[s.column], Count: n, Undecided: true, Possible: row.Kind.Taxa, Note: asRow(row)}); err != nil {
		return err
	}
	e.plainly("Saved: %d x %s, set aside: they do not count until somebody gives them a closer name.", n, row.Kind.Label)
	return nil
}
