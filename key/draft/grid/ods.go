package grid

import (
	"encoding/xml"
	"io"
	"strconv"
	"strings"

	"rillkey/taxa/wording"
)

// Names of OpenDocument 1.3, part 3 (OASIS, 2021): tables, and the text in their cells.
const (
	tableSpace = "urn:oasis:names:tc:opendocument:xmlns:table:1.0"
	textSpace  = "urn:oasis:names:tc:opendocument:xmlns:text:1.0"
)

var errDamaged = wording.NewError("the sheet is damaged; save it again")

// odsReader reads the first table of a content.xml.
type odsReader struct {
	*xmlReader
	cells
	spans map[int]span // by column, cells merged downwards that are not at their end
	blank int          // empty rows since the last one that was not
}

type span struct {
	text string
	left int // rows
}

func readOds(content io.Reader) ([][]string, error) {
	r := &odsReader{xmlReader: newXMLReader(content), spans: map[int]span{}}
	in := 0 // tables within each other: those within cells are not read
	for {
		token, err := r.Token()
		if err != nil {
			return nil, errDamaged
		}
		switch t := token.(type) {
		case xml.StartElement:
			switch {
			case is(t.Name, tableSpace, "table"):
				in++
			case in == 1 && is(t.Name, tableSpace, "table-row"):
				if err := r.row(t); err != nil {
					return nil, err
				}
			}
		case xml.EndElement:
			if is(t.Name, tableSpace, "table") {
				return r.rows, nil
			}
		}
	}
}

func is(n xml.Name, space, local string) bool { return n.Space == space && n.Local == local }

// repeated is a number that an attribute gives, at least 1.
func repeated(e xml.StartElement, name string) int {
	for _, a := range e.Attr {
		if is(a.Name, tableSpace, name) {
			if n, err := strconv.Atoi(a.Value); err == nil && n > 1 {
				return n
			}
		}
	}
	return 1
}

// row reads a row, which may stand for many alike.
func (r *odsReader) row(e xml.StartElement) error {
	times := repeated(e, "number-rows-repeated")
	var row []string
	empty := 0 // cells since the last one with text
	for {
		token, err := r.Token()
		if err != nil {
			return errDamaged
		}
		switch t := token.(type) {
		case xml.StartElement:
			if !is(t.Name, tableSpace, "table-cell") && !is(t.Name, tableSpace, "covered-table-cell") {
				if err := r.Skip(); err != nil {
					return errDamaged
				}
				continue
			}
			if row, empty, err = r.cell(t, row, empty); err != nil {
				return err
			}
		case xml.EndElement:
			return r.addRow(row, times)
		}
	}
}

// cell adds a cell to a row as often as it is repeated.
func (r *odsReader) cell(e xml.StartElement, row []string, empty int) ([]string, int, error) {
	text, err := r.text()
	if err != nil {
		return nil, 0, err
	}
	times, column := repeated(e, "number-columns-repeated"), len(row)+empty
	if s, ok := r.spans[column]; ok && is(e.Name, tableSpace, "covered-table-cell") && text == "" {
		text = s.text
	}
	if text == "" {
		return row, min(empty+times, MaxColumns+1), nil
	}
	if column+times > MaxColumns {
		return nil, 0, errTooLarge()
	}
	row = append(row, make([]string, empty)...)
	for range times {
		row = append(row, text)
	}
	if down := repeated(e, "number-rows-spanned"); down > 1 {
		r.spans[column] = span{text, min(down, maxRows)}
	}
	return row, 0, nil
}

// addRow adds a row, after the empty ones before it, and ends merged cells.
func (r *odsReader) addRow(row []string, times int) error {
	for column, s := range r.spans {
		if s.left--; s.left < 1 {
			delete(r.spans, column)
		} else {
			r.spans[column] = s
		}
	}
	if len(row) == 0 {
		r.blank = min(r.blank+times, maxRows+1)
		return nil
	}
	if len(r.rows)+r.blank+times > maxRows {
		return errTooLarge()
	}
	for range r.blank {
		r.rows = append(r.rows, nil)
	}
	r.blank = 0
	for range times {
		if err := r.add(row); err != nil {
			return err
		}
	}
	return nil
}

// text is the text of a cell, its paragraphs parted by blanks, without notes.
func (r *odsReader) text() (string, error) {
	var b strings.Builder
	for depth, words := 1, 0; depth > 0; {
		token, err := r.Token()
		if err != nil {
			return "", errDamaged
		}
		switch t := token.(type) {
		case xml.StartElement:
			switch {
			case is(t.Name, textSpace, "p"), words > 0:
				words++
				depth++
				if t.Name.Local != "span" && t.Name.Local != "a" && b.Len() > 0 { // a paragraph, a blank, a tab
					b.WriteByte(' ')
				}
			default:
				if err := r.Skip(); err != nil { // a note, a drawing
					return "", errDamaged
				}
			}
		case xml.EndElement:
			depth--
			if words > 0 {
				words--
			}
		case xml.CharData:
			if words > 0 && b.Len() < maxText {
				b.Write(t[:min(len(t), maxText)])
			}
		}
	}
	return strings.Join(strings.Fields(b.String()), " "), nil
}
