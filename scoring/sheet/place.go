package sheet

import (
	"slices"

	"rillkey/scoring/visit"
)

// Position is a row of a column; the row after the last is what is written in below
// the rows.
type Position struct{ Column, Row int }

// Places is how many places are gone through in turn: the rows of each column and
// what is below them, and at last the column "look again".
func (s *Sheet) Places() int { return len(s.Samples)*(len(s.Rows)+1) + 1 }

// Place is the place at a turn from 0 on, column by column.
func (s *Sheet) Place(turn int) Position {
	return Position{turn / (len(s.Rows) + 1), turn % (len(s.Rows) + 1)}
}

// LookAgain reports whether the column "look again" has its turn, which is no row.
func (s *Sheet) LookAgain(turn int) bool { return turn == s.Places()-1 }

// OnRow reports whether a row with a printed name has its turn.
func (s *Sheet) OnRow(turn int) bool { return !s.LookAgain(turn) && s.Place(turn).Row < len(s.Rows) }

// First is the first turn whose place nobody has gone through; the last one where
// all have been.
func (s *Sheet) First() int {
	for turn := range s.Places() - 1 {
		if !s.Gone(s.Place(turn)) {
			return turn
		}
	}
	return s.Places() - 1
}

// Gone reports whether somebody has gone through a place: an animal was typed in
// there, or it was said that there is no more. One identified on the screen says
// nothing of what is written on the sheet.
func (s *Sheet) Gone(p Position) bool {
	past := s.goneThrough(p.Column)
	if p.Row == len(s.Rows) {
		return past.WrittenIn
	}
	typed := func(r visit.Record) bool { return begins(r.Note, fromPaper) }
	return slices.Contains(past.Rows, s.Rows[p.Row].Kind.ID) || slices.ContainsFunc(s.held[p.Column][p.Row], typed)
}

// goneThrough are the rows of a column that were gone through without typing in animals.
func (s *Sheet) goneThrough(column int) visit.SheetRows {
	for _, a := range s.tally.Answered {
		if a.Sample == s.Samples[column] {
			return a
		}
	}
	return visit.SheetRows{}
}

// Open is how many rows of a column nobody has gone through.
func (s *Sheet) Open(column int) int { return len(s.openFrom(Position{Column: column})) }

// RowsGone is how many rows of all columns somebody has gone through.
func (s *Sheet) RowsGone() (n int) {
	for column := range s.Samples {
		n += len(s.Rows) - s.Open(column)
	}
	return n
}

func (s *Sheet) openFrom(p Position) (ids []string) {
	for i := p.Row; i < len(s.Rows); i++ {
		if !s.Gone(Position{p.Column, i}) {
			ids = append(ids, s.Rows[i].Kind.ID)
		}
	}
	return ids
}

// Pass is the entry that remembers that a place was gone through; none where that
// is known.
func (s *Sheet) Pass(p Position) []visit.Body {
	switch {
	case s.Gone(p):
		return nil
	case p.Row == len(s.Rows):
		return []visit.Body{visit.SheetRows{Sample: s.Samples[p.Column], WrittenIn: true}}
	}
	return []visit.Body{visit.SheetRows{Sample: s.Samples[p.Column], Rows: []string{s.Rows[p.Row].Kind.ID}}}
}

// PassRest are the entries that remember that a row and all after it were.
func (s *Sheet) PassRest(p Position) (out []visit.Body) {
	for part := range slices.Chunk(s.openFrom(p), visit.MaxList) {
		out = append(out, visit.SheetRows{Sample: s.Samples[p.Column], Rows: part})
	}
	return out
}
