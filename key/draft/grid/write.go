package grid

import (
	"encoding/csv"
	"io"

	"github.com/xuri/excelize/v2"
)

// Write writes a table as a workbook of one sheet, every cell as text, so that no
// spreadsheet makes a date of 2-3.
func Write(w io.Writer, rows [][]string) error {
	f := excelize.NewFile()
	defer f.Close()
	name := f.GetSheetName(0)
	s, err := f.NewStreamWriter(name)
	if err != nil {
		return err
	}
	asText, err := f.NewStyle(&excelize.Style{NumFmt: 49}) // "@", text: ECMA-376, part 1, 18.8.30
	if err != nil {
		return err
	}
	for i, row := range rows {
		cells := make([]any, len(row))
		for j, text := range row {
			cells[j] = excelize.Cell{StyleID: asText, Value: text}
		}
		if err := s.SetRow(Address(i, 0), cells); err != nil {
			return err
		}
	}
	if err := s.Flush(); err != nil {
		return err
	}
	return f.Write(w)
}

// WriteCSV writes a table as CSV in UTF-8, with the mark by which spreadsheets know
// that.
func WriteCSV(w io.Writer, rows [][]string) error {
	if _, err := io.WriteString(w, "\ufeff"); err != nil {
		return err
	}
	c := csv.NewWriter(w)
	if err := c.WriteAll(rows); err != nil {
		return err
	}
	c.Flush()
	return c.Error()
}
