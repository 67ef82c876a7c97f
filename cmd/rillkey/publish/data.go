package publish

import (
	"bytes"
	"errors"
	"io"
	"iter"
	"slices"
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
	{rowsFile, "a row a visit: grade, chances, indices, conditions"},
	{export.RecordsFile, "a row an animal named and counted, as it stands"},
	{export.VisitsFile, "a row a visit: its header"},
	{export.EventsFile, "a row an entry as it was made"},
	{export.PackageFile, "what every column of the last three means (Data Package with Table Schemas)"},
}

// tables are the exports of a year, as 'rillkey export' writes them.
func (c *county) tables(y *year) (out []File) {
	rests := c.rests("tables", y.name, restsOf(y.visits))
	dir := "data/" + y.name + "/"
	made := sync.OnceValues(func() (map[string][]byte, error) { return c.tablesOf(y) })
	for _, t := range tablesOf {
		out = append(out, File{dir + t.file, rests, func() ([]byte, error) {
			if t.file == rowsFile {
				var b bytes.Buffer
				err := c.rowTable(y, &b)
				return b.Bytes(), err
			}
			files, err := made()
			return files[t.file], err
		}})
	}
	return out
}

// restsOf is what the data of visits rest on.
func restsOf(visits []*shown) (on []any) {
	for _, v := range visits {
		on = append(on, v.Mark, v.at.name, v.at.obscured, v.at.spot)
	}
	return on
}

// tablesOf makes the tables that one reading of the year's visits gives: of a few visits
// each, by as many as there are workers, and then put together.
func (c *county) tablesOf(y *year) (map[string][]byte, error) {
	var parts []*year
	for part := range slices.Chunk(y.visits, batch) {
		parts = append(parts, &year{y.name, part})
	}
	made, errs := make([]map[string]*bytes.Buffer, len(parts)), make([]error, len(parts))
	inParallel(len(parts), func(i int) { made[i], errs[i] = c.tablesOfPart(parts[i], c.aboutData(y.name, y.visits)) })
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	out := map[string][]byte{}
	for name := range made[0] {
		var whole []byte
		for i := range made {
			data := made[i][name].Bytes()
			switch _, rows, _ := bytes.Cut(data, []byte("\n")); { // the names of columns hold no line break
			case i == 0:
				whole = data
			case name != export.PackageFile:
				whole = append(whole, rows...)
			}
		}
		out[name] = whole
	}
	return out, nil
}

func (c *county) knowledge() export.Knowledge {
	return export.Knowledge{Catalog: c.Catalog, Rules: c.Rules, Of: func(v *visit.Visit) export.Knowledge { return c.Of(v.Header) }}
}

// aboutData is what a data set of some visits says of itself.
func (c *county) aboutData(name string, visits []*shown) export.About {
	return export.About{Title: c.Title + ", " + name, Group: c.Group, Licence: c.Terms, Day: changed(visits)}
}

func (c *county) tablesOfPart(y *year, about export.About) (map[string]*bytes.Buffer, error) {
	files := map[string]*bytes.Buffer{}
	create := func(name string) (io.WriteCloser, error) {
		files[name] = &bytes.Buffer{}
		return unclosed{files[name]}, nil
	}
	return files, export.Tables(create, c.visitsOf(y.visits), c.knowledge(), export.Discretion{People: true, Places: true}, about)
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

// visitsOf reads some visits as the public may have them.
func (c *county) visitsOf(visits []*shown) export.Visits {
	return func(yield func(*visit.Visit, error) bool) {
		for _, v := range visits {
			read, err := c.From.Read(v.Name)
			if err == nil {
				read = c.given(v.at, read)
			}
			if !yield(read, err) {
				return
			}
		}
	}
}

func (c *county) rowTable(y *year, w io.Writer) error {
	rows := iter.Seq[export.PlacedRow](func(yield func(export.PlacedRow) bool) {
		for _, v := range y.visits {
			spot := v.Spot
			if v.at.obscured {
				spot = v.at.spot
			}
			if !yield(export.PlacedRow{Cells: strings.Split(v.Cells, between), Site: v.at.name, Spot: spot}) {
				return
			}
		}
	})
	return export.NewRowTable(export.Knowledge{Catalog: c.Catalog, Rules: c.Rules}).Write(w, rows)
}

// dataPage says what there is to take away.
func (c *county) dataPage() File {
	var on []any
	for _, y := range c.years {
		on = append(on, y.name, len(y.visits))
	}
	return c.page("data/index.html", "The data", c.way(), c.rests("data", on), func(p *paper.Page) error {
		p.Text("lead", wording.Of("All that these pages rest on, as tables that any program reads: CSV in UTF-8, a comma between cells."))
		terms := "Terms on which others may use it are not stated: ask before you do."
		if c.Terms != "" {
			terms = "Terms: " + plain.Printable(c.Terms)
		}
		p.List("", []string{terms,
			"Nobody is named: people are person 1, person 2 and so on, anew in each visit. What they wrote in their own words is left out.",
			"A site whose place is kept back has neither its name nor its exact coordinates here.",
			"A text that a spreadsheet would take for a formula has an apostrophe before it.",
			"'rillkey import' reads the tables of a year back.",
			"A word or a value describes the animals of one day; it says nothing on drinking or swimming.",
		})
		p.Links("links", []paper.Link{{Words: wording.Of("Darwin Core Archives, one a stream"), To: archiveDir + "/index.html"}})
		for _, y := range c.years {
			p.Section(y.name)
			var links [][]paper.Link
			for _, t := range tablesOf {
				links = append(links, []paper.Link{{Words: t.file, To: y.name + "/" + t.file}, {Words: t.words}})
			}
			p.LinkTable("dense", y.name+": "+plain.Count(len(y.visits), "visit"), []string{"file", "what is in it"}, links)
			p.End()
		}
		return nil
	})
}
