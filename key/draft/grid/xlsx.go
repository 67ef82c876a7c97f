package grid

import (
	"bytes"
	"encoding/xml"
	"io"

	"github.com/xuri/excelize/v2"

	"rillkey/taxa/wording"
)

// maxMerged bounds the merged cells of a workbook, each of which the library compares to all others.
const maxMerged = 10_000

// readXlsx reads the first sheet that is shown.
func readXlsx(data []byte) (out [][]string, err error) {
	defer func() {
		if recover() != nil { // the library's, on a damaged file
			out, err = nil, wording.NewError("the workbook is damaged; save it again")
		}
	}()
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{UnzipSizeLimit: maxUnzip, UnzipXMLSizeLimit: maxUnzip})
	if err != nil {
		return nil, errNoWorkbook()
	}
	defer f.Close()
	name := shown(f)
	if name == "" {
		return nil, wording.NewError("the workbook has no sheet")
	}
	g, err := readRows(f, name)
	if err != nil {
		return nil, err
	}
	merged, err := mergedCells(f, name)
	if err != nil {
		return nil, err
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

func readRows(f *excelize.File, name string) (g cells, err error) {
	rows, err := f.Rows(name)
	if err != nil {
		return g, wording.NewError("the sheet cannot be read; save it again")
	}
	defer rows.Close()
	for rows.Next() {
		row, err := rows.Columns()
		if err != nil {
			return g, errDamaged
		}
		if err := g.add(row); err != nil {
			return g, err
		}
	}
	if rows.Error() != nil {
		return g, errDamaged
	}
	return g, nil
}

// mergedCells asks the library for the merged cells of a sheet. For these it would make every
// cell of the sheet, empty ones among them, which a small file can have by the thousand million;
// so the rows, which are read by then, are cut out before.
func mergedCells(f *excelize.File, name string) (merged []excelize.MergeCell, err error) {
	f.Pkg.Range(func(part, content any) bool {
		data, ok := content.([]byte)
		if !ok || !bytes.Contains(data, []byte("sheetData")) {
			return true
		}
		var n int
		if data, n = withoutRows(data); n > maxMerged {
			err = wording.Errorf("the workbook has more than %d merged cells; save the sheet alone", maxMerged)
		}
		f.Pkg.Store(part, data)
		return err == nil
	})
	if err != nil {
		return nil, err
	}
	if merged, err = f.GetMergeCells(name, true); err != nil {
		return nil, errDamaged
	}
	return merged, nil
}

// withoutRows is the XML of a sheet without what stands in its rows, and how many merged cells
// it has. One that is no XML to its end stays none.
func withoutRows(data []byte) (rest []byte, merged int) {
	d := xml.NewDecoder(bytes.NewReader(data))
	kept := int64(0)
	for {
		before := d.InputOffset()
		token, err := d.Token()
		switch t := token.(type) {
		case nil:
			if err != io.EOF {
				return []byte("<"), merged
			}
			return append(rest, data[kept:]...), merged
		case xml.StartElement:
			switch t.Name.Local {
			case "mergeCell":
				merged++
			case "sheetData":
				rest = append(rest, data[kept:d.InputOffset()]...)
			}
		case xml.EndElement:
			if t.Name.Local == "sheetData" {
				kept = before
			}
		}
	}
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
	if len(c.rows) == maxRows || n > MaxColumns || c.sum > maxCells {
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
