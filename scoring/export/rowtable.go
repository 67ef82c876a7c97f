package export

import (
	"io"
	"iter"
	"slices"

	"rillkey/scoring/account"
	"rillkey/scoring/visit"
)

// RowTable is the table of [Rows] a row at a time, for a program that keeps the rows.
type RowTable struct {
	columns           []column[summed]
	site, north, east int // places of columns
}

// NewRowTable has the columns of the rules of k.
func NewRowTable(k Knowledge) *RowTable {
	t := &RowTable{columns: summaryColumns(k)}
	names := heads(t.columns)
	t.site, t.north, t.east = slices.Index(names, "site"), slices.Index(names, "latitude"), slices.Index(names, "longitude")
	return t
}

// Cells are the row of a visit as it may be given away, without its place; k describes
// the visit, and a is its account by the rules of k.
func (t *RowTable) Cells(a *account.Account, k Knowledge) []string {
	return t.placed(cells(t.columns, summed{v: a.Visit, t: a.Tally, grade: k.grade(a)}), "", nil)
}

// PlacedRow is a row with its place as it may be given away; the spot may be nil.
type PlacedRow struct {
	Cells []string // of [RowTable.Cells]
	Site  string
	Spot  *visit.Spot
}

func (t *RowTable) placed(row []string, site string, spot *visit.Spot) []string {
	row = slices.Clone(row)
	v := &visit.Visit{Header: visit.Header{Site: site, Spot: spot}}
	for _, i := range []int{t.site, t.north, t.east} {
		row[i] = asText(t.columns[i].cell(summed{v: v}))
	}
	return row
}

// Write writes the table.
func (t *RowTable) Write(w io.Writer, rows iter.Seq[PlacedRow]) error {
	table := newCSV(w)
	if err := table.Write(heads(t.columns)); err != nil {
		return err
	}
	for r := range rows {
		if err := table.Write(t.placed(r.Cells, r.Site, r.Spot)); err != nil {
			return err
		}
	}
	table.Flush()
	return table.Error()
}
