package main

import (
	"slices"
	"strings"

	"rillkey/scoring"
	"rillkey/scoring/visit"
)

// gone reports whether somebody has gone through a station: an animal was typed in
// there, or it was said that there is no more. One identified on the screen says
// nothing of what is written on the sheet.
func (e *entering) gone(s station) bool {
	past := e.past(s.column)
	if s.row == len(e.rows) {
		return past.Below
	}
	typed := func(r visit.Record) bool { return strings.HasPrefix(r.Note, fromPaper) }
	return slices.Contains(past.Rows, e.rows[s.row].Kind.ID) || slices.ContainsFunc(e.held[s.column][s.row], typed)
}

// past are the rows of a column that were gone through without typing in animals.
func (e *entering) past(column int) visit.SheetRows {
	for _, a := range e.tally.Answered {
		if a.Sample == e.samples[column] {
			return a
		}
	}
	return visit.SheetRows{}
}

// open are the ids of the rows of a column that nobody has gone through.
func (e *entering) open(column int) (ids []string) {
	for i, row := range e.rows {
		if !e.gone(station{column, i}) {
			ids = append(ids, row.Kind.ID)
		}
	}
	return ids
}

// pass remembers that a station was gone through, and goes on to the next.
func (e *entering) pass(at int) (next int, _ error) { return at + 1, e.remember(e.station(at)) }

func (e *entering) remember(s station) error {
	if e.gone(s) {
		return nil
	}
	body := visit.SheetRows{Sample: e.samples[s.column], Below: s.row == len(e.rows)}
	if !body.Below {
		body.Rows = []string{e.rows[s.row].Kind.ID}
	}
	return e.save(body)
}

// passRest remembers that the rest of a column's rows is empty.
func (e *entering) passRest(at int) (next int, _ error) {
	s := e.station(at)
	var rest []string
	for _, id := range e.open(s.column) {
		if slices.ContainsFunc(e.rows[s.row:], func(row scoring.SheetRow) bool { return row.Kind.ID == id }) {
			rest = append(rest, id)
		}
	}
	next = at + len(e.rows) - s.row
	for part := range slices.Chunk(rest, visit.MaxList) {
		if err := e.save(visit.SheetRows{Sample: e.samples[s.column], Rows: part}); err != nil {
			return at, err
		}
	}
	return next, nil
}

// save puts an entry into the file and reads what it then holds.
func (e *entering) save(body visit.Body) error {
	if _, err := e.app.save(e.path, e.who, body); err != nil {
		return err
	}
	return e.read()
}
