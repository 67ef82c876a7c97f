package grid

import (
	"bytes"

	"github.com/xuri/excelize/v2"

	"rillkey/taxa/wording"
)

// readXlsx reads the first sheet that is shown.
func readXlsx(data []byte) (out [][]string, err error) {
	defer func() {
		if recover() != nil { // the library's, on a damaged file
			out, err = nil, wording.NewError("the workbook is damaged; save it again")
		}
	}()
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{UnzipSizeLimit: maxUnzip, UnzipXMLSizeLimit: maxUnzip})
	if err != nil {
		return nil, wording.NewError("the workbook cannot be read; save it again, without a password")
	}
	defer f.Close()
	name := shown(f)
	if name == "" {
		return nil, wording.NewError("the workbook has no sheet")
	}
	rows, err := f.Rows(name)
	if err != nil {
		return nil, wording.NewError("the sheet cannot be read; save it again")
	}
	defer rows.Close()
	var g cells
	for rows.Next() {
		row, err := rows.Columns()
		if err != nil {
			return nil, wording.NewError("the sheet is damaged; save it again")
		}
		if err := g.add(row); err != nil {
			return nil, err
		}
	}
	merged, err := f.GetMergeCells(name)
	if err != nil {
		return nil, wording.NewError("the sheet is damaged; save it again")
	}
	for _, m := range merged {
		fromColumn, fromRow, err1 := excelize.CellNameToCoordinates(m.GetStartAxis())
		_, toRow, err2 := excelize.CellNameToCoordinates(m.GetEndAxis())
		if err1 == nil && err2 == nil {
			g.repeatDown(fromRow-1, toRow-1, fromColumn-1)
		}
	}
	return g.rows, nil
}

func shown(f *excelize.File) string {
	for _, name := range f.GetSheetList() {
		if visible, err := f.GetSheetVisible(name); err == nil && visible {
			return name
		}
	}
	return ""
}

// cells are the rows of a sheet within bounds.
type cells struct {
	rows [][]string
	sum  int
}

// add adds a row without what is empty at its end.
func (c *cells) add(row []string) error {
	n := len(row)
	for n > 0 && row[n-1] == "" {
		n--
	}
	c.sum += n
	if len(c.rows) == MaxRows || n > MaxColumns || c.sum > maxCells {
		return errTooLarge()
	}
	for i := range row[:n] {
		row[i] = row[i][:min(len(row[i]), maxText)]
	}
	c.rows = append(c.rows, row[:n:n])
	return nil
}

// repeatDown repeats a cell in the rows that it was merged with.
func (c *cells) repeatDown(from, to, column int) {
	if from < 0 || from >= len(c.rows) || column < 0 || column >= len(c.rows[from]) {
		return
	}
	text := c.rows[from][column]
	for row := from + 1; row <= min(to, len(c.rows)-1) && c.sum < maxCells; row++ {
		for len(c.rows[row]) <= column {
			c.rows[row] = append(c.rows[row], "")
			c.sum++
		}
		c.rows[row][column] = text
	}
}
