package visit

import (
	"slices"

	"rillkey/taxa/wording"
)

// SheetRows says that somebody went through rows of the field sheet while typing
// it in: what the file holds for them is what the sheet has, nothing where it
// holds nothing. So nobody is asked for them again.
type SheetRows struct {
	Sample    string   // label of the sample whose column it is; its case is free
	Rows      []string // ids of the kinds that the rows are for
	WrittenIn bool     // so were the animals written in below the rows
}

func (w *writer) sheetRows(s SheetRows) {
	w.str("sample", s.Sample)
	w.strs("rows", s.Rows)
	w.flag("below", s.WrittenIn)
}

func (f *fields) sheetRows() SheetRows {
	return SheetRows{Sample: f.str("sample"), Rows: f.strs("rows"), WrittenIn: f.flag("below")}
}

func (c *check) sheetRows(s SheetRows) {
	c.label(s.Sample)
	c.texts("rows", s.Rows)
	for _, id := range s.Rows {
		c.id("row", id)
	}
	if len(s.Rows) == 0 && !s.WrittenIn {
		c.fail("no row of the sheet is named")
	}
}

// rowsOf is such an entry while a visit is replayed.
type rowsOf struct {
	id string
	SheetRows
}

// rowsIn is the entry of rows with an id, or nil.
func (r *replay) rowsIn(id string) *rowsOf {
	i := slices.IndexFunc(r.sheets, func(s rowsOf) bool { return s.id == id })
	if i < 0 {
		return nil
	}
	return &r.sheets[i]
}

// misfitRows says why an amendment of rows gone through does not fit, or "".
func (r *replay) misfitRows(a Amendment) string {
	if a.Change.Sample == nil || a.Change != (Change{Sample: a.Change.Sample}) {
		return wording.Text("of rows of the field sheet only the sample can change")
	}
	if err := r.admitLabel(*a.Change.Sample); err != nil {
		return err.Error()
	}
	return ""
}

// answered are the rows of each sample that were gone through, by the label that
// the sample has now.
func (r *replay) answered() []SheetRows {
	var out []SheetRows
	for _, s := range r.sheets {
		t := r.sample(s.Sample)
		if t == nil || r.withdrawn[t.ID] {
			continue
		}
		i := slices.IndexFunc(out, func(o SheetRows) bool { return o.Sample == t.Label })
		if i < 0 {
			i, out = len(out), append(out, SheetRows{Sample: t.Label})
		}
		for _, row := range s.Rows {
			if !slices.Contains(out[i].Rows, row) {
				out[i].Rows = append(out[i].Rows, row)
			}
		}
		out[i].WrittenIn = out[i].WrittenIn || s.WrittenIn
	}
	return out
}
