package export

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"io"

	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// The files of a set of tables.
const (
	VisitsFile  = "visits.csv"
	EventsFile  = "events.csv"
	RecordsFile = "records.csv"
	PackageFile = "datapackage.json"
)

// Tables writes the visits as CSV tables with a data dictionary, a Data Package
// whose resources have a Table Schema (Frictionless standards). visits.csv and
// events.csv hold every entry as it was made, and [ReadTables] reads them back
// without loss; records.csv holds each record as it stands, for reading and
// counting. No cell is a formula to a spreadsheet. create opens a file of the set by its name.
func Tables(create func(name string) (io.WriteCloser, error), visits Visits, k Knowledge, d Discretion, about Metadata) (err error) {
	var s set
	defer func() { err = errors.Join(err, s.close()) }()
	writers := make([]*csv.Writer, 3)
	for i, name := range []string{VisitsFile, EventsFile, RecordsFile} {
		if writers[i], err = s.open(create, name); err != nil {
			return err
		}
	}
	if err := errors.Join(writers[0].Write(heads(visitColumns)), writers[1].Write(heads(eventColumns)),
		writers[2].Write(heads(recordColumns))); err != nil {
		return err
	}
	err = each(visits, d, func(v *visit.Visit) error {
		errs := []error{writers[0].Write(cells(visitColumns, v))}
		for _, e := range v.Events {
			errs = append(errs, writers[1].Write(cells(eventColumns, one{v, e})))
		}
		for _, f := range k.founds(v) {
			errs = append(errs, writers[2].Write(cells(recordColumns, f)))
		}
		return errors.Join(errs...)
	})
	if err != nil {
		return err
	}
	return s.dictionary(create, about)
}

func heads[T any](columns []column[T]) []string {
	out := make([]string, len(columns))
	for i, c := range columns {
		out[i] = c.name
	}
	return out
}

func cells[T any](columns []column[T], v T) []string {
	out := make([]string, len(columns))
	for i, c := range columns {
		out[i] = asText(c.cell(v))
	}
	return out
}

// set is the files that are open.
type set struct {
	files  []io.Closer
	tables []*csv.Writer
}

func (s *set) open(create func(string) (io.WriteCloser, error), name string) (*csv.Writer, error) {
	f, err := create(name)
	if err != nil {
		return nil, err
	}
	w := newCSV(f)
	s.files, s.tables = append(s.files, f), append(s.tables, w)
	return w, nil
}

func (s *set) close() error {
	var errs []error
	for i, w := range s.tables {
		w.Flush()
		errs = append(errs, w.Error(), s.files[i].Close())
	}
	return errors.Join(errs...)
}

func (s *set) dictionary(create func(string) (io.WriteCloser, error), about Metadata) error {
	f, err := create(PackageFile)
	if err != nil {
		return err
	}
	enc := json.NewEncoder(f)
	enc.SetIndent("", "  ")
	return errors.Join(enc.Encode(dataPackage(about)), f.Close())
}

type resource struct {
	Name        string `json:"name"`
	Path        string `json:"path"`
	Profile     string `json:"profile"`
	Description string `json:"description"`
	Encoding    string `json:"encoding"`
	MediaType   string `json:"mediatype"`
	Schema      schema `json:"schema"`
}

type schema struct {
	Fields        []field      `json:"fields"`
	MissingValues []string     `json:"missingValues"`
	PrimaryKey    []string     `json:"primaryKey"`
	ForeignKeys   []foreignKey `json:"foreignKeys,omitempty"`
}

type field struct {
	Name        string      `json:"name"`
	Type        string      `json:"type"`
	Description string      `json:"description"`
	Constraints constraints `json:"constraints"`
}

type constraints struct {
	Required bool   `json:"required,omitempty"`
	Pattern  string `json:"pattern,omitempty"`
}

type foreignKey struct {
	Fields    []string  `json:"fields"`
	Reference reference `json:"reference"`
}

type reference struct {
	Resource string   `json:"resource"`
	Fields   []string `json:"fields"`
}

// timePattern is RFC 3339 with an offset and up to nine digits of a second.
const timePattern = `[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(\.[0-9]{1,9})?(Z|[+-][0-9]{2}:[0-9]{2})`

func fields[T any](columns []column[T]) []field {
	out := make([]field, len(columns))
	for i, c := range columns {
		out[i] = field{c.name, c.kind, wording.Text(c.description), constraints{Required: c.required}}
		if c.kind == timeKind {
			out[i].Type, out[i].Constraints.Pattern = "string", timePattern
		}
	}
	return out
}

func dataPackage(about Metadata) any {
	ofVisit := []foreignKey{{[]string{"visit"}, reference{"visits", []string{"visit"}}}}
	table := func(name, path, about string, fields []field, key []string, foreign []foreignKey) resource {
		return resource{name, path, "tabular-data-resource", about, "utf-8", "text/csv", schema{fields, []string{""}, key, foreign}}
	}
	return struct {
		Name        string     `json:"name"`
		Title       string     `json:"title"`
		Profile     string     `json:"profile"`
		Created     string     `json:"created"`
		Description string     `json:"description"`
		Resources   []resource `json:"resources"`
	}{
		"stream-visits", about.Title, "tabular-data-package", moment(about.Day),
		wording.Text("Visits to streams with the animals found. An empty cell is 'not stated'. A text that a spreadsheet would take " +
			"for a formula has an apostrophe before it. visits and events hold every entry as it was made; records holds each " +
			"record as it stands after all amendments."),
		[]resource{
			table("visits", VisitsFile, wording.Text("one row a visit"), fields(visitColumns), []string{"visit"}, nil),
			table("events", EventsFile, wording.Text("one row an entry, in the order in which entries were made"), fields(eventColumns),
				[]string{"visit", "event"}, ofVisit),
			table("records", RecordsFile, wording.Text("one row a record as it stands"), fields(recordColumns),
				[]string{"visit", "record"}, ofVisit),
		},
	}
}
