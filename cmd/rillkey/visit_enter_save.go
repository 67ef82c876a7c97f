package main

import (
	"cmp"
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/sheet"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// put saves what a count comes to, and says so.
func (e *entering) put(entry sheet.RowEntry) error {
	if err := e.save(entry.Bodies...); err != nil {
		return err
	}
	name := cmp.Or(entry.Label, wording.Text("no name yet"))
	if entry.Taxon != nil && !entry.Correct {
		name = show.BothNames(entry.Taxon)
	}
	switch {
	case entry.Correct && entry.Count != entry.Was:
		e.plainly("Saved: %s is now %d, not %d.", name, entry.Count, entry.Was)
	case entry.Correct, len(entry.Bodies) == 0:
	case entry.Aside && !entry.Again:
		e.plainly("Saved: %d x %s, set aside: they do not count until somebody gives them a closer name.", entry.Count, name)
	case entry.Aside:
		e.plainly("Saved: %d set aside for a second look: %s.", entry.Count, name)
	default:
		e.plainly("Saved: %d x %s.", entry.Count, name)
	}
	return nil
}

// save puts entries into the file and reads what it then holds.
func (e *entering) save(bodies ...visit.Body) error {
	if len(bodies) == 0 {
		return nil
	}
	for _, body := range bodies {
		if _, err := e.app.save(e.path, e.who, body); err != nil {
			return err
		}
	}
	v, err := visit.Read(e.path)
	if err != nil {
		return err
	}
	e.Read(v)
	return nil
}

// pass remembers that a place was gone through, and goes on to the next.
func (e *entering) pass(at int) (next int, _ error) { return at + 1, e.save(e.Pass(e.Place(at))...) }

// enterCount enters or corrects the count of a row.
func (e *entering) enterCount(p sheet.Position, n int) error {
	entry, err := e.CountRow(p, n)
	if err != nil {
		return misused("%w", err)
	}
	return e.put(entry)
}

// byName enters an animal of a column by any of its names. What the sheet calls a
// row is that row.
func (e *entering) byName(column int, name string, n int) error {
	for i, row := range e.Rows {
		switch {
		case !strings.EqualFold(row.Kind.Label, name):
		case row.Taxon != "":
			return e.put(e.CountTaxon(column, e.catalog.Taxon(row.Taxon), n))
		default:
			return e.outOfTurn(sheet.Position{Column: column, Row: i}, n)
		}
	}
	free := func(t *taxa.Taxon) bool { return !e.Holds(column, t) }
	return e.mean(name, n, free, func(t *taxa.Taxon) error { return e.put(e.CountTaxon(column, t, n)) })
}
