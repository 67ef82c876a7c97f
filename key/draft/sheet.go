package draft

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"rillkey/key/draft/grid"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// The largest sheet that is read.
const (
	maxRows    = 100000
	maxColumns = 1000
)

// mostFindings are reported of one sheet.
const mostFindings = 200

// Spreadsheet is a table as a spreadsheet exports it: one row a taxon, one column a
// trait, the first column the taxon's name. A cell holds a state, several with "|"
// or "/" between them, or "?", "-" or nothing where nothing is known. A column
// called "commonness" holds numbers: how often the taxa turn up beside each other.
// Further columns that are no traits are "scientific name", "rank", "group", "class",
// "length (mm)", "source", "notes" and "wording", what a lead says that ends in the
// taxon; a row called "wording" holds what is asked of each trait, one called "misread"
// the share of answers to it that beginners get wrong. "(lens)" or
// "(patience)" behind a trait's name says how it is looked at. All these words may
// stand in the language in use.
type Spreadsheet struct {
	Names  []string // of the taxa, in the order of the rows
	IDs    []string
	Traits []*taxa.Trait
	Asks   map[string]string // what is asked of traits, where a row says it

	rates map[string]bool // traits whose misread rate a row says
	// Remarks are what is worth a look though the sheet was read.
	Remarks authored.Findings

	common  bool // the sheet says how common its taxa are
	weights []float64
	details []rowDetails
	cells   [][]int // by row and column: places of states; none is unknown
}

// LargestSheet is the most bytes of a spreadsheet's file that ReadSheet should be given.
const LargestSheet = 64 << 20

// ReadSheet reads a sheet. All that is wrong goes to report; the sheet is nil
// where there is any.
func ReadSheet(file string, data []byte, report *authored.Report) *Spreadsheet {
	r := &sheetReader{file: file, report: report, states: []map[string]int{}, common: -1}
	r.sheet = &Spreadsheet{Asks: map[string]string{}, rates: map[string]bool{}}
	r.ids, r.blank, r.told = map[string]int{}, map[int]authored.Pos{}, map[string]bool{}
	r.kinds = map[string]cellKind{}
	if grid.IsWorkbook(data) {
		r.readWorkbook(data)
	} else {
		r.readText(data)
	}
	if r.found > 0 {
		return nil
	}
	return r.sheet
}

type sheetReader struct {
	file    string
	data    []byte
	report  *authored.Report
	found   int
	sheet   *Spreadsheet
	csv     *csv.Reader
	posAt   func(field int) authored.Pos // of the present row
	fields  int
	column  []int         // by field, the trait, or -1
	details []aboutColumn // by field, how it is read; nil for what is something else
	common  int           // the field of the commonness, or -1
	states  []map[string]int
	names   []string // of the traits, as their columns call them
	seen    [][]seen // by column and state
	ids     map[string]int
	blank   map[int]authored.Pos // columns without a name, by field
	told    map[string]bool      // what was found in cells of columns that are no traits
	kinds   map[string]cellKind  // by text
	title   authored.Pos         // of rows above the first that hold one cell each
}

// readWorkbook reads the first sheet of a workbook. Its cells are found at their
// addresses.
func (r *sheetReader) readWorkbook(data []byte) {
	rows, err := grid.Read(data)
	if err != nil {
		r.fail(authored.Pos{File: r.file}, "not-a-sheet", wording.Reason(err).Error(), wording.Text("or save the sheet as \"CSV UTF-8\""))
		return
	}
	number := 0
	r.posAt = func(field int) authored.Pos {
		return authored.Pos{File: r.file, Line: number + 1, Col: field + 1, Cell: grid.Address(number, field)}
	}
	for i, row := range rows {
		number = i
		for len(row) < r.fields {
			row = append(row, "")
		}
		if r.found >= mostFindings || !r.record(row) {
			return
		}
	}
	r.whole()
}

func (r *sheetReader) readText(data []byte) {
	var encoding string
	r.data, encoding = grid.DecodeText(data)
	if bytes.IndexByte(r.data, 0) >= 0 {
		r.fail(authored.Pos{File: r.file, Line: 1, Col: 1}, "encoding",
			wording.Text("the file is no text, or is saved in a way that cannot be read"), wording.Text("save the sheet as \"CSV UTF-8\""))
		return
	}
	if encoding == "Windows-1252" { // which nothing in the file says
		r.sheet.Remarks = append(r.sheet.Remarks, authored.Finding{Pos: authored.Pos{File: r.file, Line: 1, Col: 1}, Rule: "encoding",
			Message: wording.Text("the file is not saved as UTF-8; it is read as Windows-1252"),
			Hint:    wording.Text("if letters with marks come out wrong, save the sheet as \"CSV UTF-8\"")})
	}
	r.read()
}

func (r *sheetReader) read() {
	r.csv = csv.NewReader(bytes.NewReader(r.data))
	r.csv.Comma = r.separator()
	r.csv.FieldsPerRecord = -1
	r.csv.ReuseRecord = true
	r.posAt = func(field int) authored.Pos { return r.place(r.csv.FieldPos(field)) }
	for r.found < mostFindings {
		record, err := r.csv.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			r.broken(err)
			return
		}
		if r.fields == 0 && r.isSeparatorLine(record) {
			continue
		}
		if !r.record(record) {
			return
		}
	}
	r.whole()
}

// record reads one row of a table, and reports whether to go on.
func (r *sheetReader) record(record []string) bool {
	switch {
	case isBlank(record):
	case r.fields == 0 && isTitle(record):
		if r.title.Line == 0 {
			r.title = r.pos(0)
		}
	case r.fields == 0:
		r.header(record)
	default:
		r.row(record)
	}
	return r.found == 0 || len(r.column) > 0 && len(r.sheet.Names) < maxRows
}

// isBlank reports whether nothing stands in a row, as in those that spreadsheets
// leave below a table.
func isBlank(record []string) bool {
	return !slices.ContainsFunc(record, func(s string) bool { return strings.TrimSpace(s) != "" })
}

// isTitle reports whether a row holds its first cell alone, as titles above a table do.
func isTitle(record []string) bool { return !isBlank(record[:1]) && isBlank(record[1:]) }

// separatorLine is a first line by which some spreadsheets tell each other what
// stands between the cells.
var separatorLine = pattern.New(`^"?sep=(.)"?\r?$`)

func (r *sheetReader) isSeparatorLine(record []string) bool {
	line, _, _ := bytes.Cut(r.data, []byte("\n"))
	at, _ := r.csv.FieldPos(0)
	return at == 1 && separatorLine().Match(line)
}

// mostTitles are the lines above a table in which the separator is looked for.
const mostTitles = 5

// separator is the character between the cells: the one most often in the first line
// that has two or more, since spreadsheets of many countries write semicolons, and a
// title may hold a comma.
func (r *sheetReader) separator() rune {
	best, most, rest := ',', 0, r.data
	for range mostTitles {
		var line []byte
		line, rest, _ = bytes.Cut(rest, []byte("\n"))
		if m := separatorLine().FindSubmatch(line); m != nil && bytes.ContainsAny(m[1], ",;\t") {
			return rune(m[1][0])
		}
		for _, c := range ",;\t" {
			if n := bytes.Count(line, []byte(string(c))); n > most {
				best, most = c, n
			}
		}
		if most > 1 {
			break
		}
	}
	return best
}

func (r *sheetReader) fail(p authored.Pos, rule, message, hint string) {
	if r.found++; r.found <= mostFindings {
		r.report.Add(p, rule, message, hint)
	}
}

// pos is where a field of the present record begins.
func (r *sheetReader) pos(field int) authored.Pos {
	return r.posAt(field)
}

// place turns a line and a byte of it into a place that people can go to.
func (r *sheetReader) place(line, column int) authored.Pos {
	rest := r.data
	for range line - 1 {
		i := bytes.IndexByte(rest, '\n')
		if i < 0 {
			break
		}
		rest = rest[i+1:]
	}
	n := max(0, min(column-1, len(rest)))
	return authored.Pos{File: r.file, Line: line, Col: utf8.RuneCount(rest[:n]) + 1}
}

func (r *sheetReader) broken(err error) {
	var pe *csv.ParseError
	if !errors.As(err, &pe) {
		r.fail(authored.Pos{File: r.file}, "syntax", plain.Printable(wording.Reason(err).Error()), "")
		return
	}
	r.fail(r.place(pe.Line, pe.Column), "syntax", wording.Text("a quotation mark stands where none can"),
		wording.Text("put the whole cell in quotation marks, and write each one inside it twice"))
}

func (r *sheetReader) header(record []string) {
	r.fields = len(record)
	if r.title.Line > 0 {
		r.sheet.Remarks = append(r.sheet.Remarks, authored.Finding{Pos: r.title, Rule: "title",
			Message: wording.Text("what stands above the row that names the traits is taken for a title and left out")})
	}
	if len(record) > maxColumns {
		r.fail(r.pos(maxColumns), "too-many-columns",
			wording.Sprintf("the sheet has %d columns; at most %d are read", len(record), maxColumns),
			wording.Text("leave out columns that are no traits"))
		return
	}
	r.column, r.details = make([]int, len(record)), make([]aboutColumn, len(record))
	seen := map[string]int{}
	for i, name := range record[1:] {
		r.headerCell(i+1, name, seen)
	}
}

func (r *sheetReader) headerCell(field int, name string, seen map[string]int) {
	r.column[field] = -1
	name, look := lookOf(r.text(field, name))
	id := plain.ID(name)
	switch first, doubled := seen[id]; {
	case name == "":
		r.blank[field] = r.pos(field) // which matters once something stands below it
		return
	case id == "":
		r.fail(r.pos(field), "no-name", wording.Text("the column has no name that letters or digits could make an id of"),
			wording.Text("name the trait in the first row"))
		return
	case doubled:
		r.fail(r.pos(field), "doubled-column",
			wording.Sprintf("columns %d and %d are both called %s", first+1, field+1, plain.Quote(name)),
			wording.Text("give each trait a name of its own"))
		return
	}
	seen[id] = field
	if isCalled(id, commonnessName) {
		r.common, r.sheet.common = field, true
		return
	}
	if read := aboutNamed(id); read != nil {
		r.details[field] = read
		return
	}
	r.column[field] = len(r.sheet.Traits)
	r.sheet.Traits = append(r.sheet.Traits,
		&taxa.Trait{ID: id, Question: plain.Capital(name) + "?", Look: look, Misread: sheetMisread,
			Source: sheetSource()})
	r.states, r.seen, r.names = append(r.states, map[string]int{}), append(r.seen, nil), append(r.names, name)
}

// sheetMisread is the share of wrong answers taken for a trait of a sheet, which
// says nothing about it (memory).
const sheetMisread = 0.1

// text is a cell's text without outer blanks.
func (r *sheetReader) text(field int, s string) string {
	s = strings.TrimSpace(s)
	if !utf8.ValidString(s) || plain.HasControl(s) {
		r.fail(r.pos(field), "control-character", wording.Sprintf("the cell holds what is no text: %s", plain.Quote(s)),
			wording.Text("export the sheet as UTF-8"))
		return ""
	}
	return s
}

func (r *sheetReader) row(record []string) {
	if len(r.sheet.Names) == maxRows {
		r.fail(r.pos(0), "too-many-rows", wording.Sprintf("at most %d taxa are read", maxRows),
			wording.Text("split the table into several"))
		return
	}
	if len(record) != r.fields {
		r.fail(r.pos(min(len(record), r.fields)-1), "ragged-row",
			wording.Sprintf("the row has %s, the first row %d", plain.Count(len(record), "cell"), r.fields),
			wording.Text("each row needs as many cells; leave those empty of which nothing is known"))
		return
	}
	name := r.text(0, record[0])
	id := plain.ID(name)
	switch {
	case isCalled(id, wordingName):
		r.asked(record)
		return
	case isCalled(id, misreadName):
		r.misread(record)
		return
	}
	if first, doubled := r.ids[id]; id == "" || doubled {
		what := wording.Text("the row has no name in its first cell, but something stands in the others")
		if doubled {
			what = wording.Sprintf("%s is already in row %d", plain.Quote(name), first+2)
		}
		r.fail(r.pos(0), "doubled-taxon", what, wording.Text("give each row a name of its own"))
		return
	}
	r.ids[id] = len(r.sheet.Names)
	r.sheet.Names, r.sheet.IDs = append(r.sheet.Names, name), append(r.sheet.IDs, id)
	r.weight(record)
	r.aboutCells(record)
	for i, cell := range record {
		switch at, nameless := r.blank[i]; {
		case nameless && strings.TrimSpace(cell) != "":
			r.fail(at, "no-name", wording.Text("the column has no name"), wording.Text("name the trait in the first row"))
			delete(r.blank, i) // one finding for the column is enough
		case i > 0 && r.column[i] >= 0:
			r.cell(i, cell)
		}
	}
}

// asked reads the row that says what is asked of each trait.
func (r *sheetReader) asked(record []string) {
	for field, text := range record {
		if text = r.text(field, text); field > 0 && r.column[field] >= 0 && text != "" {
			t := r.sheet.Traits[r.column[field]]
			t.Question = strings.Join(strings.Fields(text), " ")
			r.sheet.Asks[t.ID] = t.Question
		}
	}
}

// misread reads the row that says how often each trait is misread: "0.05", "0,05" or "5 %".
func (r *sheetReader) misread(record []string) {
	for field, text := range record {
		text = r.text(field, text)
		if field == 0 || r.column[field] < 0 || text == "" || r.kindOf(text) == unknown {
			continue
		}
		number, hundredths := strings.CutSuffix(text, "%")
		rate, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(number), ",", ".", 1), 64)
		if hundredths {
			rate /= 100
		}
		if err != nil || !(rate >= 0 && rate <= mostMisread) {
			r.fail(r.pos(field), "bad-cell", wording.Sprintf("%s is no share of answers that are wrong", plain.Quote(text)),
				wording.Text("write 0.1, or 10 %, for one in ten; at most it is 0.5"))
			continue
		}
		t := r.sheet.Traits[r.column[field]]
		t.Misread, r.sheet.rates[t.ID] = rate, true
	}
}

// mostMisread is the largest misread rate that a trait can have.
const mostMisread = 0.5

func (r *sheetReader) weight(record []string) {
	w := 1.0
	if r.common > 0 {
		v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(record[r.common]), ",", ".", 1), 64)
		if err != nil || !(v > 0 && v <= 1e6) {
			r.fail(r.pos(r.common), "bad-weight",
				wording.Sprintf("a commonness is a number above 0 and at most 1000000, not %s", plain.Quote(record[r.common])),
				wording.Text("write how often the animal turns up beside the others: 1, 5, 20"))
		}
		w = v
	}
	r.sheet.weights = append(r.sheet.weights, w)
}

// cell reads the states of one cell. Cells of a row come in the order of the
// traits.
func (r *sheetReader) cell(field int, text string) {
	column := r.column[field]
	text = r.text(field, text)
	var places []int
	switch r.kindOf(text) {
	case unknown:
	case unknownWord:
		r.sheet.Remarks = append(r.sheet.Remarks,
			authored.Finding{Pos: r.pos(field), Rule: "unknown-word", Message: wording.Sprintf("%s is read as unknown", plain.Quote(text)),
				Hint: wording.Text("write ? or leave the cell empty")})
	case states:
		for state := range strings.SplitSeq(strings.ReplaceAll(text, "|", "/"), "/") {
			if k, ok := r.state(field, column, strings.TrimSpace(state), places); ok {
				places = append(places, k)
			}
		}
	default:
		r.refuse(field, text)
	}
	r.sheet.cells = append(r.sheet.cells, places)
}

func (r *sheetReader) state(field, column int, label string, before []int) (int, bool) {
	id, trait := plain.ID(label), r.sheet.Traits[column]
	if id == "" {
		r.fail(r.pos(field), "empty-cell", wording.Sprintf("%s names no state", plain.Quote(label)),
			wording.Text("use letters or digits, and ? for what is unknown"))
		return 0, false
	}
	k, known := r.states[column][id]
	if !known {
		if len(trait.States) == maxStates {
			r.fail(r.pos(field), "too-many-states",
				wording.Sprintf("column %s has more than %d states", plain.Quote(trait.ID), maxStates),
				wording.Text("a trait has a few states; numbers that all differ are grouped first"))
			r.column[field] = -1 // one finding for the column is enough
			return 0, false
		}
		k = len(trait.States)
		r.states[column][id] = k
		trait.States = append(trait.States, taxa.State{ID: id, Label: labelled(r.names[column], label)})
		r.seen[column] = append(r.seen[column], seen{pos: r.pos(field), text: label})
	}
	if first := r.seen[column][k].text; signsOf(label) != signsOf(first) {
		r.fail(r.pos(field), "unlike-state",
			wording.Sprintf("%s would be taken for %s, which stands in the column %s", plain.Quote(label), plain.Quote(first),
				plain.Quote(trait.ID)),
			wording.Text(`write the states that it may be, as 2|3, or give it a name in words, as "more than 2"`))
		return 0, false
	}
	r.seen[column][k].times++
	for _, b := range before {
		if b == k {
			r.fail(r.pos(field), "doubled-state", wording.Sprintf("the cell names %s twice", plain.Quote(label)),
				wording.Text("name each state once"))
			return 0, false
		}
	}
	return k, true
}

// labelled is a finding in words: "fins: no". What languages other than English write
// with a capital keeps it.
func labelled(column, state string) string {
	if wording.Language() == "en" {
		column = strings.ToLower(column)
	}
	return column + ": " + state
}

// whole checks what can only be seen at the end.
func (r *sheetReader) whole() {
	if r.found == 0 && r.fields == 0 && r.title.Line > 0 {
		hint := wording.Text("the first column names the taxa, each further one is a trait")
		if r.csv != nil {
			hint += wording.Text("; separate the cells with commas")
		}
		r.fail(r.title, "few-columns", wording.Text("the sheet has one column"), hint)
	}
	r.question()
	if r.found == 0 && len(r.sheet.Names) < 2 {
		r.fail(authored.Pos{File: r.file, Line: 1, Col: 1}, "few-rows",
			wording.Sprintf("the sheet holds %s; a key needs two", plain.Count(len(r.sheet.Names), "animal")),
			wording.Text("one row a taxon, below a first row that names the traits"))
	}
	if r.found > mostFindings {
		r.report.Add(authored.Pos{File: r.file}, "and-more", wording.Text("there is more wrong than is listed"),
			wording.Text("fix this first"))
	}
}
