package publish

import (
	"bytes"
	"io"
	"iter"
	"strings"
	"sync"
	"time"

	"rillkey/cmd/rillkey/paper"
	"rillkey/scoring/export"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// rowsFile is the table with a row a visit.
const rowsFile = "summary.csv"

// tablesOf are what can be taken away of a year, with what each is.
var tablesOf = []struct{ file, words string }{
	{rowsFile, wording.Mark("a row a visit: grade, chances, indices, conditions")},
	{export.RecordsFile, wording.Mark("a row an animal named and counted, as it stands")},
	{export.VisitsFile, wording.Mark("a row a visit: its header")},
	{export.EventsFile, wording.Mark("a row an entry as it was made")},
	{export.PackageFile, wording.Mark("what every column of the last three means (Data Package with Table Schemas)")},
}

// tables are the exports of a year, as 'rillkey export' writes them. Long ones are made of a
// piece a week, so that a visit that changes costs a week and not a year.
func (c *county) tables(y *year) (out []siteFile) {
	rests := c.rests("tables", y.name, restsOf(y.visits))
	heads := sync.OnceValues(func() (map[string][]byte, error) { return c.tablesOf(y.visits[:1], c.aboutData(y.name, y.visits)) })
	weeks := c.weeksOf(y)
	for _, t := range tablesOf {
		f := siteFile{Path: "data/" + y.name + "/" + t.file, Rests: rests}
		head := func() ([]byte, error) { // without rows
			files, err := heads()
			first, _, _ := bytes.Cut(files[t.file], []byte("\n"))
			return append(bytes.Clone(first), '\n'), err
		}
		switch t.file {
		case rowsFile:
			f.Make = func() ([]byte, error) {
				var b bytes.Buffer
				err := c.rowTable(y, &b)
				return b.Bytes(), err
			}
		case export.PackageFile:
			f.Make = func() ([]byte, error) { files, err := heads(); return files[t.file], err }
		default:
			f.Pieces = append(f.Pieces, piece{c.rests("head of table", t.file), head})
			for _, w := range weeks {
				f.Pieces = append(f.Pieces, piece{w.rests, func() ([]byte, error) { return w.table(t.file) }})
			}
		}
		out = append(out, f)
	}
	return out
}

// week are the visits of one week of a year, and their rows in each table, which are made with
// one reading and forgotten once each table has its own.
type week struct {
	rests string
	make  func() (map[string][]byte, error)

	lock sync.Mutex
	made map[string][]byte
}

func (c *county) weeksOf(y *year) (out []*week) {
	for i := 0; i < len(y.visits); {
		j := i
		for j < len(y.visits) && weekOf(y.visits[j].date()) == weekOf(y.visits[i].date()) {
			j++
		}
		visits := y.visits[i:j]
		i = j
		out = append(out, &week{rests: c.rests("week", restsOf(visits)), make: func() (map[string][]byte, error) {
			return c.tablesOf(visits, c.aboutData(y.name, visits))
		}})
	}
	return out
}

// weekOf numbers the weeks of a year by its days, which are in order as texts.
func weekOf(date string) int {
	day, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return -1
	}
	return day.YearDay() / 7
}

func (w *week) table(file string) ([]byte, error) {
	w.lock.Lock()
	defer w.lock.Unlock()
	if w.made[file] == nil {
		var err error
		if w.made, err = w.make(); err != nil {
			return nil, err
		}
	}
	_, rows, _ := bytes.Cut(w.made[file], []byte("\n")) // the names of columns hold no line break
	delete(w.made, file)
	return rows, nil
}

// restsOf is what the data of visits rest on.
func restsOf(visits []*shown) (on []any) {
	for _, v := range visits {
		on = append(on, v.Mark, v.site.name, v.site.obscured, v.site.spot)
	}
	return on
}

func (c *county) knowledge() export.Knowledge {
	return export.Knowledge{Catalog: c.Catalog, Rules: c.Rules,
		Regional: func(v *visit.Visit) export.Knowledge { return c.Regional(v.Header) }}
}

// aboutData is what a data set of some visits says of itself.
func (c *county) aboutData(name string, visits []*shown) export.Metadata {
	return export.Metadata{Title: c.Title + ", " + name, Group: c.Group, Licence: c.Terms, Day: changed(visits)}
}

// tablesOf makes the tables that one reading of some visits gives.
func (c *county) tablesOf(visits []*shown, about export.Metadata) (map[string][]byte, error) {
	files := map[string]*bytes.Buffer{}
	create := func(name string) (io.WriteCloser, error) {
		files[name] = &bytes.Buffer{}
		return unclosed{files[name]}, nil
	}
	err := export.Tables(create, c.visitsOf(visits), c.knowledge(), export.Discretion{Applied: true}, about)
	out := map[string][]byte{}
	for name, b := range files {
		out[name] = b.Bytes()
	}
	return out, err
}

type unclosed struct{ io.Writer }

func (unclosed) Close() error { return nil }

// changed is when the newest entry of some visits was made.
func changed(visits []*shown) (newest time.Time) {
	for _, v := range visits {
		if v.Changed.After(newest) {
			newest = v.Changed
		}
	}
	return newest
}

// visitsOf are some visits as the public may have them.
func (c *county) visitsOf(visits []*shown) export.Visits {
	return func(yield func(*visit.Visit, error) bool) {
		for _, v := range visits {
			if !yield(c.given.visitFor(v.Name, v.site)) {
				return
			}
		}
	}
}

func (c *county) rowTable(y *year, w io.Writer) error {
	rows := iter.Seq[export.PlacedRow](func(yield func(export.PlacedRow) bool) {
		for _, v := range y.visits {
			spot := v.Spot
			if v.site.obscured {
				spot = v.site.spot
			}
			if !yield(export.PlacedRow{Cells: strings.Split(v.Cells, cellMark), Site: v.site.name, Spot: spot}) {
				return
			}
		}
	})
	return export.NewRowTable(export.Knowledge{Catalog: c.Catalog, Rules: c.Rules}).Write(w, rows)
}

// dataPage says what there is to take away.
func (c *county) dataPage() siteFile {
	var on []any
	for _, y := range c.years {
		on = append(on, y.name, len(y.visits))
	}
	return c.page("data/index.html", wording.Text("The data"), c.way(), c.rests("data", on), func(p *paper.Page) error {
		p.Text("lead", wording.Text("All that these pages rest on, as tables that any program reads: CSV in UTF-8, a comma between cells."))
		terms := wording.Text("Terms on which others may use it are not stated: ask before you do.")
		if c.Terms != "" {
			terms = wording.Sprintf("Terms: %s", plain.Printable(c.Terms))
		}
		p.List("", []string{terms,
			wording.Text("Nobody is named: people are person 1, person 2 and so on, anew in each visit. " +
				"What they wrote in their own words is left out."),
			wording.Text("A site whose place is kept back has neither its name nor its exact coordinates here."),
			wording.Text("A text that a spreadsheet would take for a formula has an apostrophe before it."),
			wording.Text("'rillkey import' reads the tables of a year back."),
			wording.Text("A word or a value describes the animals of one day; it says nothing on drinking or swimming."),
		})
		p.Links("links", []paper.WebLink{{Words: wording.Text("Darwin Core Archives, one a stream"), Address: archiveDir + "/index.html"}})
		for _, y := range c.years {
			p.Section(y.name)
			var links [][]paper.WebLink
			for _, t := range tablesOf {
				links = append(links, []paper.WebLink{{Words: t.file, Address: y.name + "/" + t.file}, {Words: wording.Text(t.words)}})
			}
			p.LinkTable("dense", y.name+": "+plain.Count(len(y.visits), "visit"), headed("file", "what is in it"), links)
			p.End()
		}
		return nil
	})
}
