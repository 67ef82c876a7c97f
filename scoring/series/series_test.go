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

func grade(t *testing.T, visits ...*visit.Visit) *series.Table {
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
	table := series.Grade(rules(t), series.Source{Files: files, Read: read}, series.Options{Today: today, Workers: 2, Progress: func(n int) { last = n }})
	if last != len(visits) {
		t.Errorf("progress ended at %d of %d", last, len(visits))
	}
	return table
}

var (
	poor = []string{"chironomidae", "hirudinea"}                                                                       // 1 + 1
	fair = []string{"chironomidae", "plecoptera", "ephemeroptera", "trichoptera", "psephenidae"}                       // 1 + 12
	good = []string{"elmidae", "plecoptera", "ephemeroptera", "trichoptera", "psephenidae", "cambaridae"}              // 15 + 2
	more = []string{"elmidae", "plecoptera", "ephemeroptera", "trichoptera", "psephenidae", "cambaridae", "amphipoda"} // 19
)

func TestARiseIsATrend(t *testing.T) {
	table := grade(t, made("d", "Otter Run", "2024-05-01", more...), made("a", "otter  run", "2021-05-01", poor...), made("b", "Otter Run", "2022-05-01", fair...), made("c", "Otter Run", "2023-05-01", good...), made("e", "Otter Run", "2025-05-01", append(more, "zygoptera")...))
	if len(table.Places) != 1 || len(table.Problems) != 0 || table.Places[0].Visits != 5 {
		t.Fatalf("%+v", table)
	}
	p := table.Places[0]
	// Five rising values: S = 10, exact p = 2 / 120; the slopes lie from 2 to 11.
	if p.Trend == nil || p.Trend.S != 10 || p.Trend.P > 2.0/120+1e-12 || p.Trend.Sen < 2 || p.Trend.Sen > 11 || !strings.HasPrefix(p.Words, "rising over 5 visits") {
		t.Errorf("%+v", p)
	}
	if table.Rows[0].Change != nil || !table.Rows[1].Change.Shown || table.Rows[1].Change.Difference != 11 {
		t.Errorf("%+v", table.Rows[1].Change)
	}
}

func TestWhatCannotBeCompared(t *testing.T) {
	short := made("s", "Otter Run", "2024-06-01", good...)
	short.Events = short.Events[:2]
	table := grade(t, made("a", "Otter Run", "2024-05-01", good...), made("a", "Otter Run", "2024-05-01", good...), made("f", "Otter Run", "2026-06-01", good...), nil, short, made("x", "Mill Brook", "2024-05-01", poor...))
	aside := map[string]string{}
	for _, r := range table.Rows {
		aside[r.File] = r.Aside
	}
	if aside["00.visit.toml"] != "" || aside["01.visit.toml"] != "doubled" || aside["02.visit.toml"] != "future" || len(table.Rows) != 5 {
		t.Errorf("%v", aside)
	}
	said := strings.Join(table.Problems, "\n")
	for _, want := range []string{"03.visit.toml: damaged", `01.visit.toml: this visit has the id "a" of 00.visit.toml`, "02.visit.toml: this visit is dated 2026-06-01, after today (2026-05-31)"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q is missing from\n%s", want, said)
		}
	}
	if len(table.Places) != 2 || table.Places[1].Visits != 1 || table.Places[1].Trend != nil {
		t.Errorf("%+v", table.Places)
	}
}

func TestADifferenceIsJudgedByItsUncertainty(t *testing.T) {
	uneven := made("u", "Otter Run", "2024-05-01", "chironomidae")
	uneven.Events = append(uneven.Events, visit.Event{ID: "z", Time: today, Who: "Ada", Body: visit.Identification{Sample: "1", Taxon: "plecoptera", Count: 1, Confidence: 1}})
	table := grade(t, uneven, made("v", "Otter Run", "2025-05-01", "chironomidae", "tipulidae"))
	if c := table.Rows[1].Change; c.Difference != -1 || c.Shown || c.Words != "no change that the sampling could show" {
		t.Errorf("a stonefly in one of three samples: %+v", c)
	}
	doubtful := made("w", "Otter Run", "2024-05-01", "chironomidae")
	for i, e := range doubtful.Events {
		if d, ok := e.Body.(visit.Identification); ok {
			d.Also = []visit.Chance{{Taxon: "plecoptera", Probability: 0.5}}
			d.Confidence = 0.5
			doubtful.Events[i].Body = d
		}
	}
	table = grade(t, doubtful, made("v", "Otter Run", "2025-05-01", "chironomidae", "hirudinea"))
	if c := table.Rows[1].Change; c.Shown || c.Words != "no change that the names are certain enough to show" {
		t.Errorf("%+v", c)
	}
}

// written is the text of a visit of 25 records with chances and paths.
func written(random *rand.Rand, id string) []byte {
	v := made(id, "Otter Run", "2024-05-31")
	names := []string{"baetidae", "perlidae", "tipulidae", "chironomidae", "elmidae", "hydropsychidae", "asellidae"}
	for i := range 25 {
		v.Events = append(v.Events, visit.Event{ID: fmt.Sprintf("r%d", i), Time: today, Who: "Ada", Body: visit.Identification{
			Sample: fmt.Sprint(1 + i%3), Taxon: names[random.Intn(len(names))], Rank: "family", Count: 1 + random.Intn(20), Cell: "A1",
			Confidence: 0.7, Path: []string{"1b", "2a", "3a", "4b"}, Also: []visit.Chance{{Taxon: "simuliidae", Probability: 0.2}, {Taxon: "leuctridae", Probability: 0.1}},
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
				series.Grade(r, series.Source{Files: files, Read: read}, series.Options{Today: today, Workers: 2})
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
