package grid

import (
	"encoding/xml"
	"strconv"
	"strings"
)

// sheetCells reads the cells of a worksheet.
type sheetCells struct {
	*workbook
	cells
	row    []string
	number int // of the row that is read, from 1
}

// read reads the rows, and the cells that are merged, which stand behind them.
func (s *sheetCells) read(d *xml.Decoder) error {
	for {
		e, err := nextElement(d, "row", "c", "mergeCell")
		switch {
		case err != nil:
			return errDamaged
		case e == nil:
			return s.endRow()
		case e.Name.Local == "c":
			err = s.cell(d, e)
		case e.Name.Local == "row":
			err = s.beginRow(attr(e, "r"))
		default:
			err = s.merged(attr(e, "ref"))
		}
		if err != nil {
			return err
		}
	}
}

// beginRow begins the row of that number, or the next where it has none.
func (s *sheetCells) beginRow(number string) error {
	if err := s.endRow(); err != nil {
		return err
	}
	n, err := strconv.Atoi(number)
	switch {
	case number == "":
		n = s.number + 1
	case err != nil || n <= s.number:
		return errDamaged
	}
	s.number = n
	return nil
}

// endRow adds the row, if there is text in it, behind empty ones up to its number.
func (s *sheetCells) endRow() error {
	row := s.row
	s.row = nil
	if len(row) == 0 {
		return nil
	}
	if s.number > MaxRows {
		return errTooLarge
	}
	for len(s.rows) < s.number-1 {
		s.rows = append(s.rows, nil)
	}
	return s.add(row)
}

// cell adds the text of a cell to its row.
func (s *sheetCells) cell(d *xml.Decoder, e *xml.StartElement) error {
	var c struct {
		Kind   string   `xml:"t,attr"`
		Style  int      `xml:"s,attr"`
		Value  string   `xml:"v"`
		Inline richText `xml:"is"`
	}
	if err := d.DecodeElement(&c, e); err != nil {
		return errDamaged
	}
	column := len(s.row)
	if at := attr(e, "r"); at != "" {
		var sound bool
		if column, _, sound = place(at); !sound {
			return errDamaged
		}
	}
	text := c.Value
	switch c.Kind {
	case "s":
		i, err := strconv.Atoi(strings.TrimSpace(c.Value))
		if err != nil || i < 0 || i >= len(s.strings) {
			return errDamaged
		}
		text = s.strings[i]
	case "inlineStr":
		text = c.Inline.String()
	case "b":
		text = strings.ToUpper(strconv.FormatBool(strings.TrimSpace(c.Value) == "1"))
	case "", "n":
		text = s.shown(strings.TrimSpace(c.Value), c.Style)
	}
	switch {
	case text == "":
		return nil
	case column >= MaxColumns:
		return errTooLarge
	case column < len(s.row):
		return errDamaged
	}
	s.row = append(append(s.row, make([]string, column-len(s.row))...), text)
	return nil
}

// merged repeats the first of some merged cells, "B2:C4", down its column.
func (s *sheetCells) merged(ref string) error {
	if err := s.endRow(); err != nil {
		return err
	}
	from, to, _ := strings.Cut(ref, ":")
	column, first, sound := place(from)
	if _, last, also := place(to); sound && also {
		s.down(first, last, column)
	}
	return nil
}

// place is the column and the row of a cell's address, both counted from 0.
func place(address string) (column, row int, sound bool) {
	letters := strings.TrimRight(address, "0123456789")
	row, err := strconv.Atoi(address[len(letters):])
	if err != nil || row < 1 || letters == "" || len(letters) > 3 {
		return 0, 0, false
	}
	for _, c := range letters {
		if c < 'A' || c > 'Z' {
			return 0, 0, false
		}
		column = column*26 + int(c-'A') + 1
	}
	return column - 1, row - 1, true
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
		return errTooLarge
	}
	for i := range row[:n] {
		row[i] = row[i][:min(len(row[i]), maxText)]
	}
	c.rows = append(c.rows, row[:n:n])
	return nil
}

// down repeats a cell in the rows that it was merged with.
func (c *cells) down(from, to, column int) {
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
