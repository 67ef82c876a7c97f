//go:build unix

package main

import (
	"html"
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"rillkey/scoring"
	"rillkey/scoring/export/exporttest"
	"rillkey/scoring/visit"
)

// countedRecord is a record as the SQL script has it, in one scheme.
type countedRecord struct {
	visit, record, scheme, kind, sample string
	counted, recorded                   int64 // animals, of record_kind and of record
}

func countedInSQL(t *testing.T, db exporttest.Database) (out []countedRecord) {
	t.Helper()
	for _, row := range csvText(t, db("", "SELECT k.visit, k.record, k.scheme, k.kind, r.sample, k.animals, r.animals FROM record r "+
		"JOIN record_kind k ON k.visit = r.visit AND k.record = r.record")) {
		c := countedRecord{visit: row[0], record: row[1], scheme: row[2], kind: row[3], sample: row[4]}
		c.counted, _ = strconv.ParseInt(row[5], 10, 64)
		c.recorded, _ = strconv.ParseInt(row[6], 10, 64)
		out = append(out, c)
	}
	return out
}

// sameAnimals holds the animals of a visit, by taxon, against CSV, Darwin Core, list
// and rows.
func sameAnimals(t *testing.T, v *visit.Visit, o otherAccounts) {
	t.Helper()
	id, tally := v.Header.ID, v.Tally()
	want, all := map[string]int{}, 0
	for _, r := range tally.Records {
		want[r.Taxon] += r.Count
		all += r.Count
	}
	say := func(who string, got map[string]int) {
		if !maps.Equal(got, want) {
			t.Errorf("%s: %s has the animals %v, the visit %v", id, who, got, want)
		}
	}
	table, archive := map[string]int{}, map[string]int{}
	for _, row := range o.csv {
		if row["visit"] == id {
			n, _ := strconv.Atoi(row["count"])
			table[row["taxon"]] += n
		}
	}
	for _, row := range o.archive.present(id) {
		n, _ := strconv.Atoi(row["organismQuantity"])
		archive[row["taxonID"]] += n
	}
	say("the CSV table", table)
	say("Darwin Core", archive)
	if l := o.list[id]; l.Animals != all || l.Samples != len(tally.Samples) {
		t.Errorf("%s: the list has %d animals in %d samples, the visit %d in %d", id, l.Animals, l.Samples, all, len(tally.Samples))
	}
	if row := o.row(id); row["animals"] != strconv.Itoa(all) || row["samples"] != strconv.Itoa(len(tally.Samples)) {
		t.Errorf("%s: the rows have %s animals in %s samples, the visit %d in %d", id, row["animals"], row["samples"], all,
			len(tally.Samples))
	}
}

// sameIndices holds every index of a grade against SQL and rows: what it counts, its
// value, its rating.
func sameIndices(t *testing.T, v *visit.Visit, g *scoring.Grade, rules *scoring.Rules, o otherAccounts) {
	t.Helper()
	id := v.Header.ID
	fractions := map[string]float64{}
	for _, s := range v.Tally().Samples {
		fractions[s.Label] = s.Fraction
	}
	for _, c := range o.sql {
		if c.visit != id {
			continue
		}
		want := c.recorded
		if f := fractions[c.sample]; f > 0 && f < 1 && rules.Scheme(c.scheme).Scaled {
			want = int64(math.Floor(float64(want)/f + 0.5)) // in the whole of the sample, rounded half up
		}
		if c.counted != want {
			t.Errorf("%s: in %s record_kind has %d animals of %s for %s, not %d", id, c.scheme, c.counted, c.record, c.kind, want)
		}
	}
	for n, i := range g.Indices {
		o.sameTerms(t, id, &i)
		if !slices.ContainsFunc(o.indices, func(r []string) bool {
			return r[0] == id && r[1] == i.ID && sameValue(parsed(r[2]), i.Value) && r[3] == i.Rating && (r[4] == "1") == i.Withheld
		}) {
			t.Errorf("%s: visit_index has no row as grade has %s: %s, %q", id, i.ID, words(i.Value), i.Rating)
		}
		if n > 0 {
			continue
		}
		if l := o.list[id]; l.Rating != i.Rating {
			t.Errorf("%s: the list says %q, grade %q", id, l.Rating, i.Rating)
		}
		if row := o.row(id); !sameValue(parsed(row["value"]), i.Value) || row["rating"] != i.Rating {
			t.Errorf("%s: the rows have %s, %q, grade %s, %q", id, row["value"], row["rating"], words(i.Value), i.Rating)
		}
	}
	for _, i := range slices.Concat(g.Indices, g.Further) {
		if got := o.row(id)[column(i.ID)]; !sameValue(parsed(got), i.Value) {
			t.Errorf("%s: the rows have %q for %s, grade %s", id, got, i.ID, words(i.Value))
		}
	}
}

// sameTerms holds what an index with a value adds up against the sums of record_kind,
// of its best sample where that alone counts.
func (o otherAccounts) sameTerms(t *testing.T, id string, i *scoring.Index) {
	t.Helper()
	if i.Value == nil {
		return
	}
	want, got := map[string]int64{}, map[string]int64{}
	for _, term := range i.Terms {
		want[term.Kind] += term.Count
	}
	for _, c := range o.sql {
		if c.visit == id && c.scheme == i.ID && (i.Sample == "" || c.sample == i.Sample) {
			got[c.kind] += c.counted
		}
	}
	if !maps.Equal(got, want) {
		t.Errorf("%s: record_kind has the animals %v for %s, grade adds up %v", id, got, i.ID, want)
	}
}

func (o otherAccounts) row(id string) map[string]string {
	for _, row := range o.rows {
		if row["visit"] == id {
			return row
		}
	}
	return nil
}

func sameValue(a, b *float64) bool {
	return (a == nil) == (b == nil) && (a == nil || math.Abs(*a-*b) <= 1e-9)
}

// column is the name of an index's column in the table of rows.
func column(scheme string) string { return "index_" + strings.ReplaceAll(scheme, "-", "_") }

// reported is the value of an index in a report's table of all indices.
func reported(page, title string) *float64 {
	cell := regexp.MustCompile(`<th scope="row">` + regexp.QuoteMeta(html.EscapeString(title)) + `</th><td>([^ <]*)`)
	row := cell.FindStringSubmatch(page)
	if row == nil {
		return nil
	}
	return parsed(row[1])
}
