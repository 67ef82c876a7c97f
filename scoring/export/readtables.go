package export

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"
	"time"

	"rillkey/scoring/condition"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// ReadTables reads the visits of a set of tables as [Tables] writes it, one by
// one in the order of visits.csv's events, and gives each to use. Nothing is
// guessed: a missing column, a value of another kind, an unsound event or an
// event of an unknown visit is an error that names the file, the line and the
// column; so is a table, a row or a visit that is too large. Empty lines are
// passed over, and remarks say where. dir is how messages call the folder.
func ReadTables(fsys fs.FS, dir string, use func(*visit.Visit) error) (remarks []string, err error) {
	r := reading{dir: dir, use: use, heads: map[string]visit.Header{}, done: map[string]bool{}}
	if err := r.table(fsys, VisitsFile, heads(visitColumns), r.header); err != nil {
		return nil, err
	}
	if err := r.table(fsys, EventsFile, heads(eventColumns), r.entry); err != nil {
		return nil, err
	}
	if err := r.finish(); err != nil {
		return nil, err
	}
	for _, id := range r.order {
		if !r.done[id] {
			v := &visit.Visit{File: r.shown(VisitsFile), Header: r.heads[id]}
			if err := errors.Join(v.Check(), use(v)); err != nil {
				return nil, err
			}
		}
	}
	return r.remarks, nil
}

// reading is a set of tables on the way to visits.
type reading struct {
	dir   string
	use   func(*visit.Visit) error
	heads map[string]visit.Header
	order []string
	done  map[string]bool // visits whose rows have all been read

	open  *visit.Visit    // the visit whose rows are read; nil before the first
	start int64           // where they begin
	seen  map[string]bool // ids of its events

	remarks []string
}

// entry reads a row of events.csv.
func (r *reading) entry(c *cellReader) error {
	id := c.str("visit")
	if r.open == nil || r.open.Header.ID != id {
		if err := r.begin(id, c.offset); err != nil {
			return err
		}
	}
	if len(r.open.Events) >= visit.MaxEvents || c.offset-r.start > perByte*visit.MaxFile {
		return wording.Errorf("column visit: %s has more entries than a visit can hold", plain.Quote(id))
	}
	e, err := c.event()
	if r.seen[e.ID] {
		return wording.Errorf("column event: %s stands in an earlier row of this visit too", plain.Quote(e.ID))
	}
	r.seen[e.ID] = true
	r.open.Events = append(r.open.Events, e)
	return err
}

// begin finishes the visit before and opens the next, whose rows begin at an offset.
func (r *reading) begin(id string, offset int64) error {
	h, known := r.heads[id]
	if !known {
		return wording.Errorf("column visit: %s has no visit %s", VisitsFile, plain.Quote(id))
	}
	if r.done[id] {
		return wording.Errorf("column visit: the rows of visit %s do not stand together; sort the file by visit, keeping "+
			"the order within each", plain.Quote(id))
	}
	if err := r.finish(); err != nil {
		return err
	}
	r.open = &visit.Visit{File: r.shown(EventsFile), Header: h}
	r.start, r.seen = offset, map[string]bool{}
	return nil
}

// finish hands on the visit whose rows have been read.
func (r *reading) finish() error {
	if r.open == nil {
		return nil
	}
	r.done[r.open.Header.ID] = true
	if err := r.open.Check(); err != nil {
		return wording.Errorf("%s, visit %s: %w", r.shown(EventsFile), r.open.Header.ID, err)
	}
	return r.use(r.open.Recast(r.open.Header, r.open.Events))
}

func (r *reading) shown(name string) string { return plain.Printable(path.Join(r.dir, name)) }

// isLater reports whether tables of earlier versions lack a column.
func isLater(name string) bool {
	return slices.Contains([]string{"state", "region", "conditions", "expert", "expert_on"}, name) ||
		slices.ContainsFunc(visit.RecordTexts(), func(t visit.RecordText) bool { return t.Key == name })
}

// plainly puts what the reader of CSV says of a row into plain words.
func plainly(err error) error {
	switch {
	case errors.Is(err, csv.ErrBareQuote):
		return wording.Errorf(
			`a quotation mark stands in a cell without others round it; ` +
				`put the whole cell in quotation marks, with two for each of its own: "a ""b"""`)
	case errors.Is(err, csv.ErrQuote):
		return wording.Errorf(
			`a cell in quotation marks has one too few or too many; it begins and ends with one, with two for each of its own: "a ""b"""`)
	case errors.Is(err, csv.ErrFieldCount):
		return wording.Errorf("this row has more or fewer cells than the first; a comma within a cell needs quotation marks round the cell")
	}
	return wording.Errorf("this is no row of the table: %w", err)
}

// table gives every row of a file to use.
func (r *reading) table(fsys fs.FS, name string, want []string, use func(*cellReader) error) error {
	f, err := openTable(fsys, name)
	if err != nil {
		return fmt.Errorf("%s: %w", r.shown(name), err)
	}
	defer f.Close()
	rows := &rowReader{source: f, left: largestRow}
	in := csv.NewReader(rows)
	in.ReuseRecord = true
	head, err := in.Read()
	switch {
	case errors.Is(err, errLargeRow):
		return fmt.Errorf("%s:1: %w", r.shown(name), err)
	case err != nil:
		return wording.Errorf("%s:1: there is no row with the names of the columns", r.shown(name))
	}
	empty := emptyLines{next: 1}
	empty.row(in, head)
	c := &cellReader{columnIndex: map[string]int{}}
	if err := c.columns(head, want); err != nil {
		return fmt.Errorf("%s:1: %w", r.shown(name), err)
	}
	for line := 1; ; {
		c.offset, rows.left = in.InputOffset(), largestRow
		row, err := in.Read()
		if err == io.EOF {
			empty.skipped(rows.lines + 1)
			r.remarks = append(r.remarks, empty.remarks(r.shown(name))...)
			return nil
		}
		var pe *csv.ParseError
		switch {
		case errors.As(err, &pe):
			return fmt.Errorf("%s:%d:%d: %w", r.shown(name), pe.Line, pe.Column, plainly(pe.Err))
		case err != nil:
			return wording.Errorf("%s:%d: what comes after this line cannot be read: %w", r.shown(name), line, err)
		case name == VisitsFile && c.offset > largestVisits:
			return wording.Errorf("%s:%d: the table is larger than %d MB; export fewer visits at a time", r.shown(name), line,
				largestVisits>>20)
		}
		line, _ = in.FieldPos(0)
		if empty.row(in, row) {
			continue
		}
		c.row, c.err = row, nil
		err = use(c)
		if err = cmp.Or(c.err, err); err != nil {
			return fmt.Errorf("%s:%d: %w", r.shown(name), line, err)
		}
	}
}

func (r *reading) header(c *cellReader) error {
	h := visit.Header{
		ID: c.str("visit"), Site: c.str("site"), Date: c.str("date"), People: c.list("people"),
		Region: c.str("region"), Edition: c.list("edition"), Protocol: c.str("protocol"),
		CautionsRead: c.yes("cautions_read"), Begun: c.time("begun"), Obscured: c.yes("obscured"), Joined: c.list("joined"),
		Reference: c.str("reference"),
	}
	if lines := c.str("unread"); lines != "" {
		var err error
		if h, err = h.WithUnread(lines); err != nil {
			c.err = cmp.Or(c.err, (&visit.Visit{Header: h}).Check(), wording.Errorf("column unread: %w", err))
		}
	}
	if c.str("latitude") != "" || c.str("longitude") != "" {
		h.Spot = &visit.Spot{Latitude: c.num("latitude"), Longitude: c.num("longitude"), Uncertainty: c.num("uncertainty_m")}
		if c.str("latitude") == "" || c.str("longitude") == "" {
			return wording.NewError("latitude and longitude go together; one of them is empty")
		}
	}
	if _, doubled := r.heads[h.ID]; doubled {
		return wording.Errorf("column visit: %s stands in an earlier row too", plain.Quote(h.ID))
	}
	r.heads[h.ID] = h
	r.order = append(r.order, h.ID)
	return cmp.Or(c.err, (&visit.Visit{Header: h}).Check())
}

// What is kept in memory is bounded: one row, one visit, and the headers of all
// visits. A byte of a visit's file may take several in a table, where quotes are
// doubled.
const (
	perByte       = 4
	largestRow    = perByte * visit.MaxBlock
	largestVisits = 256 << 20 // about a million visits
)

var errLargeRow largeRow

type largeRow struct{}

func (largeRow) Error() string {
	return wording.Sprintf("a row is larger than %d kB; a quote may be missing, or it is another file", largestRow>>10)
}

// openTable opens a file that has an end: no pipe, no device.
func openTable(fsys fs.FS, name string) (fs.File, error) {
	info, err := fs.Stat(fsys, name)
	switch {
	case err != nil:
		return nil, wording.Errorf("cannot be opened; give the folder that export wrote as csv: %w", errors.Unwrap(err))
	case !info.Mode().IsRegular():
		return nil, wording.NewError("this is no file; give the folder that export wrote as csv")
	}
	f, err := fsys.Open(name)
	if err != nil {
		return nil, wording.Errorf("cannot be opened: %w", errors.Unwrap(err))
	}
	return f, nil
}

// rowReader fails once more was read than one row may take.
type rowReader struct {
	source io.Reader
	left   int
	lines  int // that have ended in what was read
}

func (r *rowReader) Read(p []byte) (int, error) {
	if r.left <= 0 {
		return 0, errLargeRow
	}
	n, err := r.source.Read(p[:min(len(p), r.left)])
	r.left -= n
	r.lines += bytes.Count(p[:n], []byte("\n"))
	return n, err
}

// cellReader reads one row by the names of its columns and keeps the first
// error.
type cellReader struct {
	columnIndex map[string]int
	row         []string
	offset      int64 // bytes before the row
	err         error
}

// columns learns where each of the columns wanted stands, by the first row.
func (c *cellReader) columns(head, want []string) error {
	for i, column := range head {
		column = strings.TrimPrefix(column, "\ufeff")
		if !slices.Contains(want, column) {
			return wording.Errorf("there is no column %s; the columns are %s", plain.Quote(column), strings.Join(want, ", "))
		}
		c.columnIndex[column] = i
	}
	for _, column := range want {
		if _, ok := c.columnIndex[column]; !ok && !isLater(column) {
			return wording.Errorf("the column %s is missing", column)
		}
	}
	return nil
}

func (c *cellReader) fail(column, value, want string) {
	if c.err == nil {
		c.err = wording.Errorf("column %s: %s is not %s", column, plain.Quote(value), wording.Text(want))
	}
}

func (c *cellReader) str(column string) string { return asWritten(c.raw(column)) }

// raw is a cell as it stands in the file; empty where the table lacks the column.
func (c *cellReader) raw(column string) string {
	at, there := c.columnIndex[column]
	if !there {
		return ""
	}
	return strings.Clone(c.row[at])
}

func (c *cellReader) yes(column string) bool {
	switch s := c.str(column); s {
	case "", "false":
		return false
	case "true":
		return true
	default:
		c.fail(column, s, wording.Mark("true, false or empty"))
		return false
	}
}

func (c *cellReader) num(column string) float64 {
	return read(c, column, c.raw(column), wording.Mark("a number"), func(s string) (float64, error) { return strconv.ParseFloat(s, 64) })
}

func (c *cellReader) whole(column string) int {
	return read(c, column, c.raw(column), wording.Mark("a whole number"), strconv.Atoi)
}

func (c *cellReader) time(column string) time.Time {
	return read(c, column, c.str(column), wording.Mark("a time such as 2024-05-31T14:05:00+02:00"),
		func(s string) (time.Time, error) { return time.Parse(time.RFC3339Nano, s) })
}

// read is what a cell holds, which is nothing where it is empty.
func read[T any](c *cellReader, column, cell, want string, parse func(string) (T, error)) (out T) {
	if cell == "" {
		return out
	}
	out, err := parse(cell)
	if err != nil {
		c.fail(column, cell, want)
	}
	return out
}

func (c *cellReader) list(column string) []string {
	return fromJSON[[]string](c, column, wording.Mark("a JSON list of texts"))
}

func fromJSON[T any](c *cellReader, column, want string) (out T) {
	s := c.str(column)
	if s == "" {
		return out
	}
	dec := json.NewDecoder(strings.NewReader(s))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&out); err != nil || dec.More() {
		c.fail(column, s, want)
	}
	return out
}

func (c *cellReader) event() (visit.Event, error) {
	e := visit.Event{ID: c.str("event"), Time: c.time("time"), Who: c.str("who")}
	if after := c.time("after"); !after.IsZero() {
		e.Follows = after.UTC()
	}
	if text := c.str("unread"); text != "" {
		return c.unreadEvent(text)
	}
	kind := c.str("kind")
	body, ok := bodies[kind]
	if !ok {
		return e, wording.Errorf("column kind: %s is not one of %s", plain.Quote(kind), strings.Join(sortedKeys(bodies), ", "))
	}
	e.Body = body(c)
	return e, c.unused(e)
}

// unreadEvent reads an entry that holds what this program does not know from its
// own text; the other cells must say the same.
func (c *cellReader) unreadEvent(text string) (visit.Event, error) {
	e, err := visit.ParseBlock(text)
	if err != nil {
		return e, wording.Errorf("column unread: %w", err)
	}
	for _, column := range eventColumns[1:] {
		if c.str(column.name) != column.cell(one{&visit.Visit{}, e}) {
			return e, wording.Errorf("column %s: %s is not what the column unread says", column.name, plain.Quote(c.str(column.name)))
		}
	}
	return e, nil
}

// unused refuses a value in a column that this kind of event has no use for: it
// would be lost.
func (c *cellReader) unused(e visit.Event) error {
	if c.err != nil {
		return c.err
	}
	o := one{&visit.Visit{}, e}
	for _, column := range eventColumns {
		s := c.str(column.name)
		if s != "" && s != "false" && column.name != "visit" && column.cell(o) == "" && s != "0" {
			return wording.Errorf("column %s: an event of the kind %s has no use for %s; leave it empty", column.name, e.Kind(),
				plain.Quote(s))
		}
	}
	return nil
}

// bodies read what each kind of event says.
var bodies = map[string]func(*cellReader) visit.Body{
	"sample": func(c *cellReader) visit.Body {
		return visit.Sample{Label: c.str("label"), Habitat: c.str("habitat"), Area: c.num("area_m2"), Effort: c.str("effort"),
			Fraction: c.num("fraction"), Said: visit.Sorting(c.str("state"))}
	},
	"identification": func(c *cellReader) visit.Body {
		d := visit.Identification{
			Sample: c.str("sample"), Taxon: c.str("taxon"), Rank: c.str("rank"), Count: c.whole("count"), Cell: c.str("cell"),
			Confidence: c.num("confidence"), Path: c.list("path"), Possible: c.list("possible"), Also: c.chances(),
			Undecided: c.yes("undecided"), Length: c.num("length_mm"), FitsHalf: c.num("fits_half"),
			FitsTwice: c.num("fits_twice"), Note: c.str("note"),
			Expert: c.str("expert"), ExpertOn: c.str("expert_on"),
		}
		for _, t := range visit.RecordTexts() {
			*t.Text(&d) = c.str(t.Key)
		}
		return d
	},
	"amendment": func(c *cellReader) visit.Body {
		ch := fromJSON[visit.Change](c, "change", wording.Mark("a JSON object of new values"))
		return visit.Amendment{Entry: c.str("of"), Reason: c.str("reason"), Withdrawn: c.yes("withdrawn"), Change: ch}
	},
	"second-look": func(c *cellReader) visit.Body {
		return visit.SecondLook{Entry: c.str("of"), Taxon: c.str("taxon"), Rank: c.str("rank"), Count: c.whole("count"),
			Confidence: c.num("confidence"), Path: c.list("path"), Undecided: c.yes("undecided"), Note: c.str("note")}
	},
	"finish": func(c *cellReader) visit.Body { return visit.Finish{Note: c.str("note")} },
	"settlement": func(c *cellReader) visit.Body {
		return visit.Settlement{Entry: c.str("of"), Holds: c.str("holds"), Overruled: c.list("over")}
	},
	"sheet-rows": func(c *cellReader) visit.Body {
		return visit.SheetRows{Sample: c.str("sample"), Rows: c.list("rows"), WrittenIn: c.yes("below")}
	},
	"conditions": func(c *cellReader) visit.Body {
		return visit.Conditions{Values: fromJSON[condition.Values](c, "conditions", wording.Mark("a JSON object of conditions"))}
	},
	"same-name": func(c *cellReader) visit.Body {
		return visit.SameName{What: c.str("what"), Name: c.str("name"), Spelling: c.str("as"), Differ: c.yes("differ")}
	},
}

func (c *cellReader) chances() []visit.Chance {
	table := fromJSON[map[string]float64](c, "also", wording.Mark("a JSON object of probabilities"))
	if s := c.str("also"); c.err == nil && doubledKey(s) {
		c.fail("also", s, wording.Mark("free of doubled names"))
	}
	var out []visit.Chance
	for _, taxon := range sortedKeys(table) {
		out = append(out, visit.Chance{Taxon: taxon, Probability: table[taxon]})
	}
	slices.SortStableFunc(out, func(a, b visit.Chance) int { return cmp.Compare(b.Probability, a.Probability) })
	return out
}

// doubledKey tells whether a JSON object of numbers names a key twice, of which a
// map would keep the last in silence.
func doubledKey(object string) bool {
	seen := map[string]bool{}
	dec := json.NewDecoder(strings.NewReader(object))
	for {
		token, err := dec.Token()
		if err != nil {
			return false
		}
		if key, ok := token.(string); ok {
			if seen[key] {
				return true
			}
			seen[key] = true
		}
	}
}
