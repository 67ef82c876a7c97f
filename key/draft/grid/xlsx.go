package grid

import (
	"archive/zip"
	"encoding/xml"
	"io"
	"path"
	"strconv"
	"strings"

	"rillkey/taxa/wording"
)

// An .xlsx file as Office Open XML, part 1 (ECMA-376) has it, section 18: the workbook
// names its sheets, a sheet holds cells, which point to shared texts and to styles.
// Elements go by their local names, since the strict form has other name spaces. No
// library reads it here: the one there is makes tables at the start of every command
// that took as long as all else that a short one does.

// xlsxReader reads the first sheet that is shown.
type xlsxReader struct {
	parts   map[string]*zip.File
	texts   []string
	formats []string // by style
	from    epoch
	cells
	merged []merged
}

// merged are cells that were made one, from a cell to another, counted from 0.
type merged struct{ fromRow, toRow, column int }

func readXlsx(z *zip.Reader) ([][]string, error) {
	r := &xlsxReader{parts: map[string]*zip.File{}}
	for _, f := range z.File {
		r.parts[f.Name] = f
	}
	sheet, err := r.workbook()
	if err != nil {
		return nil, err
	}
	if err := r.sheet(sheet); err != nil {
		return nil, err
	}
	for _, m := range r.merged {
		r.repeatDown(m.fromRow, m.toRow, m.column)
	}
	return r.rows, nil
}

// part decodes a part of the file into what is pointed to; one that is not there changes
// nothing.
func (r *xlsxReader) part(name string, into any) error {
	content, err := r.open(name)
	if content == nil || err != nil {
		return err
	}
	defer content.Close()
	if xml.NewDecoder(io.LimitReader(content, maxUnzip)).Decode(into) != nil {
		return errDamaged
	}
	return nil
}

// open is nil for a part that is not there.
func (r *xlsxReader) open(name string) (io.ReadCloser, error) {
	f := r.parts[name]
	if f == nil {
		return nil, nil
	}
	content, err := f.Open()
	if err != nil {
		return nil, errDamaged
	}
	return content, nil
}

// workbook reads all but the sheet, and gives the name of its part.
func (r *xlsxReader) workbook() (sheet string, err error) {
	var book struct {
		Properties struct {
			From1904 bool `xml:"date1904,attr"`
		} `xml:"workbookPr"`
		Sheets []struct {
			State      string     `xml:"state,attr"`
			Attributes []xml.Attr `xml:",any,attr"`
		} `xml:"sheets>sheet"`
	}
	var links struct {
		All []struct {
			ID     string `xml:"Id,attr"`
			Type   string `xml:"Type,attr"`
			Target string `xml:"Target,attr"`
		} `xml:"Relationship"`
	}
	if err := r.part("xl/workbook.xml", &book); err != nil {
		return "", err
	}
	if err := r.part("xl/_rels/workbook.xml.rels", &links); err != nil {
		return "", err
	}
	shown := ""
	for _, s := range book.Sheets {
		for _, a := range s.Attributes {
			if shown == "" && s.State != "hidden" && s.State != "veryHidden" && a.Name.Local == "id" && a.Name.Space != "" {
				shown = a.Value
			}
		}
	}
	r.from = epoch(book.Properties.From1904)
	for _, l := range links.All {
		name := strings.TrimPrefix(path.Join("/xl", l.Target), "/")
		if strings.HasPrefix(l.Target, "/") {
			name = strings.TrimPrefix(path.Clean(l.Target), "/")
		}
		switch kind := path.Base(l.Type); {
		case l.ID == shown && kind == "worksheet":
			sheet = name
		case kind == "sharedStrings":
			err = r.shared(name)
		case kind == "styles":
			err = r.styles(name)
		}
		if err != nil {
			return "", err
		}
	}
	if sheet == "" {
		return "", wording.NewError("the workbook has no sheet")
	}
	return sheet, nil
}

// rich is a text in runs, without how it is spoken.
type rich struct {
	Text string `xml:"t"`
	Runs []struct {
		Text string `xml:"t"`
	} `xml:"r"`
}

func (t rich) text() string {
	out := t.Text
	for _, run := range t.Runs {
		out += run.Text
	}
	return unescaped(out)
}

// unescaped puts the characters in the place of _x000D_ and the like, by which texts hold
// what XML does not (22.9.2.19 there).
func unescaped(s string) string {
	if !strings.Contains(s, "_x") {
		return s
	}
	var b strings.Builder
	for {
		i := strings.Index(s, "_x")
		if i < 0 || len(s) < i+7 {
			return b.String() + s
		}
		n, err := strconv.ParseUint(s[i+2:i+6], 16, 16)
		if err != nil || s[i+6] != '_' {
			b.WriteString(s[:i+2])
			s = s[i+2:]
			continue
		}
		b.WriteString(s[:i])
		b.WriteRune(rune(n))
		s = s[i+7:]
	}
}

func (r *xlsxReader) shared(name string) error {
	content, err := r.open(name)
	if content == nil || err != nil {
		return err
	}
	defer content.Close()
	return eachElement(content, func(d *xml.Decoder, e xml.StartElement) error {
		if e.Name.Local != "si" {
			return nil
		}
		var t rich
		if err := d.DecodeElement(&t, &e); err != nil {
			return err
		}
		r.texts = append(r.texts, t.text())
		return nil
	})
}

func (r *xlsxReader) styles(name string) error {
	var styles struct {
		Own []struct {
			ID   int    `xml:"numFmtId,attr"`
			Code string `xml:"formatCode,attr"`
		} `xml:"numFmts>numFmt"`
		Cells []struct {
			ID int `xml:"numFmtId,attr"`
		} `xml:"cellXfs>xf"`
	}
	if err := r.part(name, &styles); err != nil {
		return err
	}
	own := map[int]string{}
	for _, f := range styles.Own {
		own[f.ID] = f.Code
	}
	for _, c := range styles.Cells {
		code, ok := own[c.ID]
		if !ok {
			code = builtInFormat(c.ID)
		}
		r.formats = append(r.formats, code)
	}
	return nil
}

// eachElement calls do at each beginning of an element; do may read on.
func eachElement(content io.Reader, do func(*xml.Decoder, xml.StartElement) error) error {
	d := xml.NewDecoder(io.LimitReader(content, maxUnzip))
	for {
		token, err := d.Token()
		switch {
		case err == io.EOF:
			return nil
		case err != nil:
			return errDamaged
		}
		if e, ok := token.(xml.StartElement); ok {
			if err := do(d, e); err != nil {
				return err
			}
		}
	}
}

// xlsxSheet is a sheet on its way.
type xlsxSheet struct {
	*xlsxReader
	row, column int // counted from 0
	cells       []string
	cell        *xlsxCell // nil outside of one
	taken       string    // the element whose text is that of the cell
}

// xlsxCell is a cell on its way.
type xlsxCell struct {
	kind  string // of its value, empty for a number
	style int
	text  strings.Builder
}

func (r *xlsxReader) sheet(name string) error {
	content, err := r.open(name)
	switch {
	case err != nil:
		return err
	case content == nil:
		return wording.NewError("the sheet cannot be read; save it again")
	}
	defer content.Close()
	d := xml.NewDecoder(io.LimitReader(content, maxUnzip))
	s := &xlsxSheet{xlsxReader: r, row: -1, column: -1}
	for {
		token, err := d.Token()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return errDamaged
		}
		switch t := token.(type) {
		case xml.StartElement:
			if t.Name.Local == "rPh" { // how a text is spoken
				err = d.Skip()
			} else {
				s.begins(t)
			}
		case xml.CharData:
			if s.taken != "" && s.cell.text.Len() < maxText {
				s.cell.text.Write(t[:min(len(t), maxText)])
			}
		case xml.EndElement:
			err = s.ends(t.Name.Local)
		}
		if err != nil {
			return err
		}
	}
}

func (s *xlsxSheet) begins(e xml.StartElement) {
	at := attr(e, "r")
	switch e.Name.Local {
	case "row":
		if s.row++; at != "" {
			s.row = atMost(at, MaxRows+1) - 1
		}
		s.cells, s.column = nil, -1
	case "c":
		if s.column++; at != "" {
			_, s.column = place(at)
		}
		s.cell = &xlsxCell{kind: attr(e, "t"), style: atMost(attr(e, "s"), len(s.formats))}
	case "v", "t":
		if s.cell != nil {
			s.taken = e.Name.Local
		}
	case "mergeCell":
		from, to, _ := strings.Cut(attr(e, "ref"), ":")
		fromRow, column := place(from)
		toRow, _ := place(to)
		s.merged = append(s.merged, merged{fromRow, toRow, column})
	}
}

func (s *xlsxSheet) ends(name string) error {
	switch name {
	case s.taken:
		s.taken = ""
	case "c":
		text := s.shows(s.cell)
		if s.cell = nil; text == "" {
			return nil
		}
		if s.column < 0 || s.column >= MaxColumns {
			return errTooLarge()
		}
		for len(s.cells) <= s.column {
			s.cells = append(s.cells, "")
		}
		s.cells[s.column] = text
	case "row":
		return s.addAt(s.row, s.cells)
	}
	return nil
}

// shows is what a cell shows.
func (r *xlsxReader) shows(c *xlsxCell) string {
	if c == nil || c.text.Len() == 0 {
		return ""
	}
	text := c.text.String()
	switch c.kind {
	case "s":
		if i, err := strconv.Atoi(strings.TrimSpace(text)); err == nil && i >= 0 && i < len(r.texts) {
			return r.texts[i]
		}
		return ""
	case "b":
		if text == "1" || text == "true" {
			return "TRUE"
		}
		return "FALSE"
	case "inlineStr", "str":
		return unescaped(text)
	case "e", "d":
		return text
	}
	number, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return text
	}
	code := ""
	if c.style < len(r.formats) {
		code = r.formats[c.style]
	}
	return shownNumber(number, code, r.from)
}

// addAt adds a row with the number, after the empty ones before it.
func (c *cells) addAt(row int, text []string) error {
	switch {
	case len(text) == 0:
		return nil
	case row < len(c.rows):
		return errDamaged // rows go down
	case row >= MaxRows:
		return errTooLarge()
	}
	for len(c.rows) < row {
		c.rows = append(c.rows, nil)
	}
	return c.add(text)
}

func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value
		}
	}
	return ""
}

// atMost is a number that is written, at most so large, 0 where it is none.
func atMost(s string, most int) int {
	n, err := strconv.Atoi(s)
	if err != nil || n < 0 {
		return 0
	}
	return min(n, most)
}

// place is the row and the column of a cell's address, "A1", both counted from 0, -1 where it
// has none.
func place(address string) (row, column int) {
	i := 0
	for i < len(address) && address[i] >= 'A' && address[i] <= 'Z' && column <= MaxColumns {
		column = column*26 + int(address[i]-'A') + 1
		i++
	}
	return atMost(address[i:], MaxRows+1) - 1, column - 1
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
