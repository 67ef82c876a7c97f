package grid

import (
	"encoding/xml"
	"math"
	"strconv"
	"strings"

	"rillkey/taxa/wording"
)

// The largest sheet that there is.
const (
	lastRow    = 1_048_576
	lastColumn = 16_384
)

// sheetReader reads the cells of a sheet.
type sheetReader struct {
	*workbook
	*xmlReader
	cells
	row    []string // the present one
	number int      // of it, counted from 0
	merged int
}

func (b *workbook) readSheet(part string) ([][]string, error) {
	s := &sheetReader{workbook: b, number: -1}
	err := b.eachElement(part, func(x *xmlReader, e xml.StartElement) error {
		s.xmlReader = x
		switch e.Name.Local {
		case "sheetData":
			return x.path([]string{"row"}, s.readRow)
		case "mergeCells":
			return x.path([]string{"mergeCell"}, s.merge)
		}
		return nil
	}, "worksheet", "*")
	if err != nil {
		return nil, err
	}
	return s.rows, nil
}

// readRow reads a row; one without a number comes after the one before it.
func (s *sheetReader) readRow(e xml.StartElement) error {
	s.number++
	if r := attribute(e, "r"); r != "" {
		n, err := strconv.Atoi(r)
		if err != nil || n < 1 || n > lastRow {
			return errDamaged
		}
		s.number = n - 1
	}
	s.row = s.row[:0]
	column := -1
	err := s.each(func(e xml.StartElement) error {
		if e.Name.Local != "c" {
			return nil
		}
		column++
		if r := attribute(e, "r"); r != "" {
			_, c, ok := place(r)
			if !ok {
				return errDamaged
			}
			column = c
		}
		text, err := s.cell(e)
		switch {
		case err != nil:
			return err
		case text == "":
			return nil
		case column >= MaxColumns:
			return errTooLarge()
		}
		for len(s.row) <= column {
			s.row = append(s.row, "")
		}
		s.row[column] = text
		return nil
	})
	if err != nil || len(s.row) == 0 {
		return err
	}
	return s.set(s.number, s.row)
}

// cell is the text of a cell as it is shown (18.18.11, ST_CellType, says of what kinds there are).
func (s *sheetReader) cell(e xml.StartElement) (string, error) {
	value, inline := "", ""
	err := s.each(func(e xml.StartElement) (err error) {
		switch e.Name.Local {
		case "v":
			value, err = s.chars()
		case "is":
			inline, err = richText(s.xmlReader)
		}
		return err
	})
	if err != nil {
		return "", err
	}
	var code numberCode
	if style := attribute(e, "s"); style != "" {
		n, err := strconv.Atoi(style)
		if err != nil {
			return "", errDamaged
		}
		code = s.code(n)
	}
	switch attribute(e, "t") {
	case "s":
		if value = strings.TrimSpace(value); value == "" {
			return "", nil
		}
		n, err := strconv.Atoi(value)
		if err != nil || n < 0 || n >= len(s.texts) {
			return "", errDamaged
		}
		return code.text(s.texts[n]), nil
	case "inlineStr":
		return code.text(inline), nil
	case "str":
		return unescaped(value), nil
	case "b":
		switch strings.TrimSpace(value) {
		case "1", "true":
			return "TRUE", nil
		case "0", "false":
			return "FALSE", nil
		}
		return value, nil
	case "e":
		return value, nil
	case "d":
		return code.day(value, s.from1904), nil
	}
	n, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
	if err != nil || math.IsInf(n, 0) || math.IsNaN(n) {
		return value, nil
	}
	return code.number(n, s.from1904), nil
}

// merge repeats a merged cell downwards.
func (s *sheetReader) merge(e xml.StartElement) error {
	if s.merged++; s.merged > maxMerged {
		return wording.Errorf("the workbook has more than %d merged cells; save the sheet alone", maxMerged)
	}
	from, to, _ := strings.Cut(attribute(e, "ref"), ":")
	fromRow, column, ok1 := place(from)
	toRow, _, ok2 := place(to)
	if !ok1 || !ok2 {
		return nil
	}
	return s.repeatDown(fromRow, toRow, column)
}

// place is the row and the column of an address, "A1", counted from 0.
func place(address string) (row, column int, ok bool) {
	i := 0
	for ; i < len(address) && column <= lastColumn; i++ {
		letter := address[i] &^ 0x20
		if letter < 'A' || letter > 'Z' {
			break
		}
		column = column*26 + int(letter-'A') + 1
	}
	row, err := strconv.Atoi(address[i:])
	return row - 1, column - 1, err == nil && 0 < row && row <= lastRow && 0 < column && column <= lastColumn
}
