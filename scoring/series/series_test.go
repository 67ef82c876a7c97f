package series_test

import (
	"errors"
	"fmt"
	"math/rand"
	"strings"
	"testing"
	"time"

	"github.com/BurntSushi/toml"

	"rillkey/scoring"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

func rules(t testing.TB) *scoring.Rules {
	t.Helper()
	cat, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	r, err := scoring.EmbeddedRules(cat)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

var today = time.Date(2026, 5, 31, 18, 0, 0, 0, time.UTC)

// made is a visit with three samples, each of which holds the animals.
func made(id, site, date string, taxa ...string) *visit.Visit {
	v := &visit.Visit{File: id, Header: visit.Header{ID: id, Site: site, Date: date, Protocol: "riffle-three", Begun: today}}
	add := func(b visit.Body) {
		v.Events = append(v.Events, visit.Event{ID: fmt.Sprintf("e%d", len(v.Events)), Time: today, Who: "Ada", Body: b})
	}
	for i := range 3 {
		label := fmt.Sprint(i + 1)
		add(visit.Sample{Label: label, Habitat: "riffle", Area: 0.37, Said: visit.Sorted})
		for _, taxon := range taxa {
			add(visit.Identification{Sample: label, Taxon: taxon, Count: 70, Confidence: 1})
		}
	}
	return v
}

func grade(t *testing.T, visits ...*visit.Visit) *series.VisitTable {
	t.Helper()
	byFile := map[string]*visit.Visit{}
	var files []string
	for i, v := range visits {
		file := fmt.Sprintf("%02d.visit.toml", i)
		files = append(files, file)
		byFile[file] = v
	}
	read := func(file string) (*visit.Visit, error) {
		if v := byFile[file]; v != nil {
			return v, nil
		}
		return nil, errors.New(file + ": damaged")
	}
	last := 0
	table := series.GradeVisits(rules(t), series.FileSource{Files: files, Open: read},
		series.Options{Today: today, Workers: 2, Progress: func(n int) { last = n }})
	if last != len(visits) {
		t.Errorf("progress ended at %d of %d", last, len(visits))
	}
	return table
}

var (
	poor = []string{"chironomidae", "hirudinea"}                                                          // 1 + 1
	fair = []string{"chironomidae", "plecoptera", "ephemeroptera", "trichoptera", "psephenidae"}          // 1 + 12
	good = []string{"elmidae", "plecoptera", "ephemeroptera", "trichoptera", "psephenidae", "cambaridae"} // 15 + 2
)

// yearly are visits in May of consecutive years.
func yearly(site string, lists ...[]string) (out []*visit.Visit) {
	for i, list := range lists {
		out = append(out, made(fmt.Sprint(site, i), site, fmt.Sprintf("%d-05-%02d", 2014+i, 3+i), list...))
	}
	return out
}

func TestWhatChanged(t *testing.T) {
	for _, row := range []struct {
		why   string
		years [][]string
		shown string // the first visit after a step
		words string
	}{
		{"too little to judge by", [][]string{good, fair, poor}, "",
			"cannot be said yet: that takes 4 visits at one time of year with the same effort"},
		{"varying as it does", [][]string{good, fair, good, fair, good, fair}, "",
			"Nothing stands out from how this site varies between visits."},
		{"all the sensitive gone", [][]string{good, fair, good, fair, good, fair, poor}, "2020-05-09",
			"Per cent sensitive animals: 0.0 on 2020-05-09, against"},
		{"gone for three years", [][]string{good, fair, good, fair, good, fair, poor, poor, poor}, "2020-05-09",
			"Per cent sensitive animals: 0.0 in the 3 visits since 2020-05-09, against"},
	} {
		table := grade(t, yearly("Otter Run", row.years...)...)
		p := table.Places[0]
		if !strings.Contains(p.Words, row.words) || p.Visits != len(row.years) {
			t.Errorf("%s: %s", row.why, p.Words)
		}
		if row.shown != "" && (!strings.HasPrefix(p.ChangedBy(row.shown), row.words) || p.ChangedBy("2019-12-31") != "") {
			t.Errorf("%s: %q", row.why, p.ChangedBy(row.shown))
		}
		for _, r := range table.Rows {
			if shown := r.Change != nil && r.Change.Shown; shown != (r.Visit.Date == row.shown) {
				t.Errorf("%s: %s: %+v", row.why, r.Visit.Date, r.Change)
			}
		}
	}
}

// Nothing is compared with another season, another effort, or in a figure that
// what was not sorted is missing from.
func TestOnlyLikeIsComparedWithLike(t *testing.T) {
	all := yearly("Otter Run", good, fair, good, fair, good, fair)
	autumn := made("h", "Otter Run", "2020-10-02", poor...)
	more := made("m", "Otter Run", "2020-05-09", poor...)
	more.Events = append(more.Events, visit.Event{
		ID: "z", Time: today, Who: "Ada", Body: visit.Sample{Label: "4", Habitat: "riffle", Area: 0.37, Said: visit.Empty}})
	for why, last := range map[string]*visit.Visit{"autumn": autumn, "four samples": more} {
		for _, test := range grade(t, append(all, last)...).Places[0].Tests {
			if test.Asked == series.StepChange {
				t.Errorf("%s: %+v", why, test)
			}
		}
	}
	part := made("p", "Otter Run", "2020-05-09", poor...)
	for i, e := range part.Events {
		if s, ok := e.Body.(visit.Sample); ok {
			s.Fraction = 0.25
			part.Events[i].Body = s
		}
	}
	for _, test := range grade(t, append(all, part)...).Places[0].Tests {
		if test.Figure != "Per cent sensitive animals" && test.FirstDay == "2020-05-09" {
			t.Errorf("kinds in the unsorted part were taken for gone: %+v", test)
		}
	}
}

func TestWhatCannotBeCompared(t *testing.T) {
	short := made("s", "Otter Run", "2024-06-01", good...)
	short.Events = short.Events[:2]
	table := grade(t, made("a", "Otter Run", "2024-05-01", good...), made("a", "Otter Run", "2024-05-01", good...),
		made("f", "Otter Run", "2026-06-01", good...), nil, short, made("x", "Mill Brook", "2024-05-01", poor...))
	aside := map[string]string{}
	for _, r := range table.Rows {
		aside[r.File] = r.Aside
	}
	if aside["00.visit.toml"] != "" || aside["01.visit.toml"] != "doubled" || aside["02.visit.toml"] != "future" || len(table.Rows) != 5 {
		t.Errorf("%v", aside)
	}
	said := strings.Join(table.Problems, "\n")
	for _, want := range []string{"03.visit.toml: damaged", `01.visit.toml: this visit has the id "a" of 00.visit.toml`,
		"02.visit.toml: this visit is dated 2026-06-01, after today (2026-05-31)"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q is missing from\n%s", want, said)
		}
	}
	if len(table.Places) != 2 || table.Places[1].Visits != 1 || table.Places[1].Trend != nil || len(table.Places[1].Tests) != 0 {
		t.Errorf("%+v", table.Places)
	}
}

// written is the text of a visit of 25 records with chances and paths.
func written(random *rand.Rand, id string) []byte {
	v := made(id, "Otter Run", "2024-05-31")
	names := []string{"baetidae", "perlidae", "tipulidae", "chironomidae", "elmidae", "hydropsychidae", "asellidae"}
	for i := range 25 {
		v.Events = append(v.Events, visit.Event{ID: fmt.Sprintf("r%d", i), Time: today, Who: "Ada", Body: visit.Identification{
			Sample: fmt.Sprint(1 + i%3), Taxon: names[random.Intn(len(names))], Rank: "family", Count: 1 + random.Intn(20), Cell: "A1",
			Confidence: 0.7, Path: []string{"1b", "2a", "3a", "4b"},
			Also: []visit.Chance{{Taxon: "simuliidae", Probability: 0.2}, {Taxon: "leuctridae", Probability: 0.1}},
		}})
	}
	return v.Encode()
}

// BenchmarkManyVisits grades visits of 25 records on two workers, and decodes the
// same TOML, all of it and nothing else, on two as well: grading must run at half
// the rate of decoding or better.
func BenchmarkManyVisits(b *testing.B) {
	random := rand.New(rand.NewSource(1))
	texts := map[string][]byte{}
	var files []string
	size := 0
	for i := range 200 {
		file := fmt.Sprintf("%03d.visit.toml", i)
		files = append(files, file)
		texts[file] = written(random, fmt.Sprintf("v%d", i))
		size += len(texts[file])
	}
	r := rules(b)
	run := func(name string, read func(string) (*visit.Visit, error)) {
		b.Run(name, func(b *testing.B) {
			b.SetBytes(int64(size))
			b.ReportAllocs()
			for b.Loop() {
				series.GradeVisits(r, series.FileSource{Files: files, Open: read}, series.Options{Today: today, Workers: 2})
			}
		})
	}
	run("decode", func(file string) (*visit.Visit, error) {
		var doc map[string]any
		if err := toml.Unmarshal(texts[file], &doc); err != nil {
			b.Error(err)
		}
		return nil, errors.New("only decoded")
	})
	run("grade", func(file string) (*visit.Visit, error) { return visit.Parse(file, texts[file]) })
}
