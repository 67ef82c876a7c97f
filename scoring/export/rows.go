package export

import (
	"bufio"
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strings"

	"rillkey/scoring"
	"rillkey/scoring/condition"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// summed is a visit with its grade, nil where no known protocol was followed.
type summed struct {
	v     *visit.Visit
	t     visit.Tally
	grade *scoring.Grade
	// referenceDay is the day of the visit to its reference that it stands beside.
	referenceDay string
}

// main is the headline index, or one without anything.
func (s summed) main() scoring.Index {
	if s.grade == nil {
		return scoring.Index{}
	}
	return s.grade.Indices[0]
}

// summaryColumns are those of a table with one row a visit: the visit, its grade
// with the chances of each word because of the names, every index that the rules
// know, and every condition.
func summaryColumns(k Knowledge) []column[summed] {
	out := []column[summed]{
		{name: "visit", cell: func(s summed) string { return s.v.Header.ID }},
		{name: "site", cell: func(s summed) string { return s.v.Header.Site }},
		{name: "date", cell: func(s summed) string { return s.v.Header.Date }},
		{name: "protocol", cell: func(s summed) string { return s.v.Header.Protocol }},
		{name: "latitude", cell: func(s summed) string { return spotCell(s.v.Header, north) }},
		{name: "longitude", cell: func(s summed) string { return spotCell(s.v.Header, east) }},
		{name: "samples", cell: func(s summed) string { return plain.FormatFloat(float64(len(s.t.Samples))) }},
		{name: "animals", cell: func(s summed) string { return plain.FormatFloat(float64(animalsOf(s.t))) }},
		{name: "finished", cell: func(s summed) string { return yes(s.t.Finished) }},
		{name: "complete", cell: func(s summed) string { return yes(s.grade != nil && s.grade.Effort.Complete) }},
		{name: "index", cell: func(s summed) string { return s.main().ID }},
		{name: "value", cell: func(s summed) string { return valueCell(s.main()) }},
		{name: "reference", cell: func(s summed) string { return s.v.Header.Reference }},
		{name: "beside", cell: func(s summed) string { return s.referenceDay }},
		{name: "rating", cell: func(s summed) string { return s.main().Rating }},
		{name: "provisional", cell: func(s summed) string { return yes(s.main().RatingProvisional) }},
		{name: "between", cell: func(s summed) string { return strings.Join(s.main().RatingRange, wording.Text(" and ")) }},
		{name: "withheld_because", cell: func(s summed) string { return s.main().Reason }},
		{name: "chances", cell: func(s summed) string {
			if len(s.main().Probabilities) == 0 {
				return ""
			}
			return asJSON(s.main().Probabilities)
		}},
	}
	for _, scheme := range k.Rules.Schemes() {
		out = append(out, column[summed]{
			name: "index_" + strings.ReplaceAll(scheme.ID, "-", "_"), cell: func(s summed) string { return s.value(scheme.ID) }})
	}
	for _, f := range condition.Parameters() {
		value := func(s summed) (condition.Value, bool) { v, ok := s.t.Conditions()[f.ID]; return v, ok }
		out = append(out, column[summed]{name: f.Column, cell: func(s summed) string {
			if v, ok := value(s); ok {
				return f.Cell(v)
			}
			return ""
		}})
		if f.Instrumented {
			out = append(out, column[summed]{name: f.WithColumn(), cell: func(s summed) string { v, _ := value(s); return v.Instrument }})
		}
	}
	return out
}

func animalsOf(t visit.Tally) (n int) {
	for _, r := range t.Records {
		n += r.Count
	}
	return n
}

func valueCell(i scoring.Index) string {
	if i.Value == nil {
		return ""
	}
	return plain.FormatFloat(*i.Value)
}

// value is that of an index of the grade or beside it, empty where it has none.
func (s summed) value(id string) string {
	if s.grade == nil {
		return ""
	}
	for _, i := range slices.Concat(s.grade.Indices, s.grade.Further) {
		if i.ID == id {
			return valueCell(i)
		}
	}
	return ""
}

// Rows writes one CSV table with one row a visit, for those who look at many: as
// it stands after all corrections, with its grade, all indices and what was noted of
// stream and day. It cannot be read back. No cell is a formula to a spreadsheet.
func Rows(w io.Writer, visits Visits, k Knowledge, d Discretion) error {
	table := newCSV(w)
	columns := summaryColumns(k)
	if err := table.Write(heads(columns)); err != nil {
		return err
	}
	err := each(visits, d, func(v *visit.Visit) error {
		by := k.forVisit(v)
		by.ReferenceDay = k.ReferenceDay
		a := by.Rules.Account(v)
		s := summed{v: v, t: a.Tally, grade: by.grade(a)}
		if k.ReferenceDay != nil {
			s.referenceDay = k.ReferenceDay(v)
		}
		return table.Write(cells(columns, s))
	})
	table.Flush()
	return errors.Join(err, table.Error())
}

// newCSV is a writer of CSV with a large buffer, which its Flush empties.
func newCSV(w io.Writer) *csv.Writer { return csv.NewWriter(bufio.NewWriterSize(w, 64<<10)) }
