//go:build unix

package main

import (
	"archive/zip"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"html"
	"io"
	"maps"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"rillkey/scoring"
	"rillkey/scoring/condition"
	"rillkey/scoring/export/exporttest"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
)

// told is what one way out of the program says of a visit: how many animals
// counted as each kind of the main index, by the kind's label, and that index's
// value, nil where it is withheld.
type told struct {
	kinds map[string]int64
	value *float64
}

// Whatever the program makes of a visit, it counts the same animals as the same
// kinds. The beetles of this sheet have a name too broad for the index, and
// count all the same because of what they may be.
func TestASheetCountsTheSameEverywhere(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "mill.visit.toml")
	does(t, "", "visit", "begin", "--visit", file, "--site", "Mill", "--date", "2026-05-16", "--protocol", "riffle-three",
		"--cautions-read")
	for range 3 {
		does(t, "", "visit", "sample", "--visit", file, "--habitat", "riffle", "--area", "0.37")
	}
	does(t, "9 5\n13 2\n.\n", "visit", "enter", "--visit", file, "--sample", "1")
	does(t, "", "visit", "sorted", "--visit", file, "--sample", "2", "--sample", "3", "--empty")
	does(t, "", "visit", "finish", "--visit", file)
	g := sameEverywhere(t, dir, file)
	if want := map[string]int64{"aquatic beetle": 5, "crayfish": 2}; !maps.Equal(g.kinds, want) || g.value == nil || *g.value != 4 {
		t.Errorf("grade counts %v with a value of %v; the sheet says %v, worth 2 each", g.kinds, g.value, want)
	}
}

// sameEverywhere holds all that the program says of the visits in dir against
// grade, and gives what that says of the last.
func sameEverywhere(t *testing.T, dir string, files ...string) (g told) {
	t.Helper()
	out := t.TempDir()
	does(t, "", "export", "--as", "sql", "--to", filepath.Join(out, "all.sql"), dir)
	does(t, "", "export", "--as", "csv", "--to", filepath.Join(out, "csv"), dir)
	does(t, "", "export", "--as", "darwin-core", "--to", filepath.Join(out, "all.zip"), dir)
	rules, db := rulesHere(t), exporttest.SQLite(t)
	script := readText(t, filepath.Join(out, "all.sql"))
	db(script, "SELECT 1")
	elsewhere := otherAccounts{
		csv: csvRows(t, readText(t, filepath.Join(out, "csv", "records.csv"))), archive: archiveRows(t, filepath.Join(out, "all.zip")),
		list: listed(t, dir), series: inSeries(t, files),
		sql:        countedInSQL(t, db),
		indices:    csvText(t, db("", "SELECT visit, scheme, value, rating, withheld FROM visit_index")),
		conditions: csvText(t, db("", "SELECT visit, field, value FROM visit_condition")),
		views:      map[string][][]string{},
	}
	for _, view := range []string{"presence_index", "family_biotic_index"} {
		elsewhere.views[view] = csvText(t, db("", "SELECT visit, value FROM "+view))
	}
	does(t, "", "export", "--as", "rows", "--to", filepath.Join(out, "rows.csv"), dir)
	elsewhere.rows = csvRows(t, readText(t, filepath.Join(out, "rows.csv")))
	values := 0
	for _, file := range files {
		v, err := visit.Read(file)
		if err != nil {
			t.Fatal(err)
		}
		p, err := rules.Protocol(v.Header.Protocol)
		if err != nil {
			t.Fatal(err)
		}
		_, rules := whereFollowed(t, p.ID)
		main := rules.Scheme(p.Schemes[0])
		grade, err := rules.Grade(rules.Account(v), scoring.GradeOptions{Plain: true})
		if err != nil {
			t.Fatal(err)
		}
		g = told{kinds: map[string]int64{}, value: grade.Indices[0].Value}
		if g.value != nil {
			values++
		}
		for _, c := range grade.Found {
			for _, k := range c.Kinds {
				g.kinds[k.Label] += k.Count
			}
		}
		say := func(who string, got told, counts bool) {
			if counts && !maps.Equal(got.kinds, g.kinds) {
				t.Errorf("%s: %s counts %v, grade %v", v.Header.Site, who, got.kinds, g.kinds)
			}
			if (got.value == nil) != (g.value == nil) || g.value != nil && math.Abs(*got.value-*g.value) > 1e-9 {
				t.Errorf("%s: %s has the value %v, grade %v", v.Header.Site, who, words(got.value), words(g.value))
			}
		}
		say("the list", told{value: elsewhere.list[v.Header.ID].Value}, false)
		say("the table of visits", told{value: elsewhere.series[v.Header.ID]}, false)
		say("Darwin Core", told{value: elsewhere.archive.value(v.Header.ID, main.ID)}, false)
		say("the CSV table", told{elsewhere.csvKinds(v.Header.ID, main), g.value}, true)
		say("the SQL script", told{elsewhere.sqlKinds(v.Header.ID, main), g.value}, true)
		page := does(t, "", "print", "report", file)
		say("the report", told{drawn(page, g.kinds), reported(page, main.Title)}, true)
		sameConditions(t, v, elsewhere)
		sameAnimals(t, v, elsewhere)
		sameIndices(t, v, grade, rules, elsewhere)
		for _, id := range elsewhere.archive.absent(v.Header.ID) {
			if k := slices.IndexFunc(main.Kinds, func(k scheme.Kind) bool { return slices.Contains(k.Taxa, id) }); k < 0 ||
				g.kinds[main.Kinds[k].Label] > 0 {
				t.Errorf("%s: Darwin Core says that there is no %s, of which grade counts %d", v.Header.Site, id,
					g.kinds[main.Kinds[k].Label])
			}
		}
		for _, i := range append(slices.Clone(grade.Indices), grade.Further...) {
			if view := map[string]string{"presence": "presence_index", "fbi": "family_biotic_index"}[i.ID]; view != "" {
				compareView(t, elsewhere, view, v.Header, i.Value)
			}
		}
	}
	if values < len(files)/5 {
		t.Errorf("only %d of %d visits have a value to compare", values, len(files))
	}
	return g
}

func compareView(t *testing.T, o otherAccounts, view string, h visit.Header, want *float64) {
	t.Helper()
	var got *float64
	for _, row := range o.views[view] {
		if row[0] == h.ID {
			got = parsed(row[1])
		}
	}
	if (got == nil) != (want == nil) || want != nil && math.Abs(*got-*want) > 1e-9 {
		t.Errorf("%s: the view %s says %s, grade %s", h.Site, view, words(got), words(want))
	}
}

// otherAccounts are what exports and lists say of several visits.
type otherAccounts struct {
	csv        []map[string]string
	archive    archiveTables
	list       map[string]listedVisit
	series     map[string]*float64   // values by visit
	sql        []countedRecord       // what each record counts as
	indices    [][]string            // visit, scheme, value, rating and withheld, as SQL has them
	views      map[string][][]string // visit and value, by view
	conditions [][]string            // visit, field and value
	rows       []map[string]string   // one a visit
}

// sameConditions holds what was noted of stream and day against SQL, Darwin Core and
// the table of rows.
func sameConditions(t *testing.T, v *visit.Visit, o otherAccounts) {
	t.Helper()
	id := v.Header.ID
	v.Tally().Conditions().Each(func(f *condition.Parameter, value condition.Value) {
		if f.Form == condition.PersonsForm {
			return // their names stay at home
		}
		want := f.Cell(value)
		if !slices.ContainsFunc(o.conditions, func(r []string) bool { return r[0] == id && r[1] == f.Column && r[2] == want }) {
			t.Errorf("%s: SQL lacks %s %s", id, f.Column, want)
		}
		if f.Term == "" && !slices.ContainsFunc(o.archive["measurement.csv"], func(r map[string]string) bool {
			return r["measurementID"] == id+":condition:"+f.ID && r["measurementValue"] == want
		}) {
			t.Errorf("%s: Darwin Core lacks %s %s", id, f.ID, want)
		}
		if !slices.ContainsFunc(o.rows, func(r map[string]string) bool { return r["visit"] == id && r[f.Column] == want }) {
			t.Errorf("%s: the rows lack %s %s", id, f.Column, want)
		}
	})
}

func (o otherAccounts) csvKinds(id string, s *scheme.Scheme) map[string]int64 {
	out := map[string]int64{}
	for _, row := range o.csv {
		if row["visit"] == id && row["kind"] != "" {
			n, _ := strconv.ParseInt(row["count"], 10, 64)
			out[labelOf(s, row["kind"])] += n
		}
	}
	return out
}

func (o otherAccounts) sqlKinds(id string, s *scheme.Scheme) map[string]int64 {
	out := map[string]int64{}
	for _, c := range o.sql {
		if c.visit == id && c.scheme == s.ID {
			out[labelOf(s, c.kind)] += c.recorded
		}
	}
	return out
}

func labelOf(s *scheme.Scheme, kind string) string {
	if i := slices.IndexFunc(s.Kinds, func(k scheme.Kind) bool { return k.ID == kind }); i >= 0 {
		return s.Kinds[i].Label
	}
	return "no kind " + kind
}

var caption = regexp.MustCompile(`<figcaption[^>]*>([^<]*), ([0-9]+)</figcaption>`)

// drawn are the kinds that a report draws, with their number. It draws the most
// frequent ones only; the others are taken from want.
func drawn(page string, want map[string]int64) map[string]int64 {
	out := map[string]int64{}
	for _, m := range caption.FindAllStringSubmatch(page, -1) {
		n, _ := strconv.ParseInt(m[2], 10, 64)
		out[html.UnescapeString(m[1])] += n
	}
	const mostDrawn = 12
	for label, n := range want {
		if _, has := out[label]; !has && len(out) >= mostDrawn {
			out[label] = n
		}
	}
	return out
}

// listedVisit is what a list says of a visit.
type listedVisit struct {
	ID      string   `json:"id"`
	Value   *float64 `json:"value"`
	Rating  string   `json:"rating"`
	Animals int      `json:"animals"`
	Samples int      `json:"samples"`
}

func listed(t *testing.T, dir string) map[string]listedVisit {
	t.Helper()
	var doc struct {
		Visits []listedVisit `json:"visits"`
	}
	fromJSON(t, does(t, "", "visit", "list", "--json", dir), &doc)
	out := map[string]listedVisit{}
	for _, v := range doc.Visits {
		out[v.ID] = v
	}
	return out
}

func inSeries(t *testing.T, files []string) map[string]*float64 {
	t.Helper()
	var doc struct {
		Visits []struct {
			Visit struct {
				ID string `json:"id"`
			} `json:"visit"`
			Value *float64 `json:"value"`
		} `json:"visits"`
	}
	w, text := offline("")
	run(append([]string{"grade", "--json", filepath.Dir(files[0])}, files[:0]...), w)
	fromJSON(t, text.String(), &doc)
	out := map[string]*float64{}
	for _, v := range doc.Visits {
		out[v.Visit.ID] = v.Value
	}
	return out
}

func fromJSON(t *testing.T, text string, to any) {
	t.Helper()
	if err := json.Unmarshal([]byte(text), to); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
}

// archiveTables are the files of a Darwin Core Archive by name.
type archiveTables map[string][]map[string]string

func archiveRows(t *testing.T, path string) archiveTables {
	t.Helper()
	z, err := zip.OpenReader(path)
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	out := archiveTables{}
	for _, f := range z.File {
		if !strings.HasSuffix(f.Name, ".csv") {
			continue
		}
		in, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(in)
		if err != nil {
			t.Fatal(err)
		}
		out[f.Name] = csvRows(t, string(text))
	}
	return out
}

func (a archiveTables) value(id, scheme string) *float64 {
	for _, row := range a["measurement.csv"] {
		if row["measurementID"] == id+":index:"+scheme {
			return parsed(row["measurementValue"])
		}
	}
	return nil
}

func (a archiveTables) present(id string) (rows []map[string]string) {
	for _, row := range a["occurrence.csv"] {
		if row["occurrenceStatus"] == "present" && strings.HasPrefix(row["occurrenceID"], id+":") {
			rows = append(rows, row)
		}
	}
	return rows
}

func (a archiveTables) absent(id string) (taxa []string) {
	for _, row := range a["occurrence.csv"] {
		if row["occurrenceStatus"] == "absent" && strings.HasPrefix(row["occurrenceID"], id+":") {
			taxa = append(taxa, row["taxonID"])
		}
	}
	return taxa
}

func csvText(t *testing.T, text string) [][]string {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

func csvRows(t *testing.T, text string) (out []map[string]string) {
	t.Helper()
	rows := csvText(t, text)
	for _, cells := range rows[1:] {
		row := map[string]string{}
		for i, name := range rows[0] {
			row[name] = cells[i]
		}
		out = append(out, row)
	}
	return out
}

func readText(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// parsed is a number, nil where there is none, as for a withheld value.
func parsed(text string) *float64 {
	f, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return nil
	}
	return &f
}

func words(v *float64) string {
	if v == nil {
		return "none"
	}
	return fmt.Sprint(*v)
}

func rulesHere(t *testing.T) *scoring.Rules {
	t.Helper()
	_, rules := protocolsHere(t)
	return rules
}
