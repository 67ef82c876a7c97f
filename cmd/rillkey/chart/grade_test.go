package chart

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"rillkey/scoring"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
)

// afternoon is an invented visit of three samples with a doubtful name in it.
func afternoon(t *testing.T, protocol string) (*scoring.Rules, *visit.Visit) {
	t.Helper()
	cat, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	rules, err := scoring.EmbeddedRules(cat)
	if err != nil {
		t.Fatal(err)
	}
	v := &visit.Visit{Header: visit.Header{ID: "v", Site: "Otter Run", Date: "2026-05-16", Protocol: protocol, Begun: time.Unix(0, 0)}}
	found := func(sample, taxon string, n int) visit.Body {
		return visit.Identification{Sample: sample, Taxon: taxon, Count: 40 * n, Confidence: 1}
	}
	doubtful := visit.Identification{Sample: "3", Taxon: "plecoptera", Count: 80, Confidence: 0.7,
		Also: []visit.Chance{{Taxon: "baetidae", Probability: 0.3}}}
	for i, body := range []visit.Body{
		visit.Sample{Label: "1", Habitat: "riffle", Area: 0.4, Said: visit.Sorted},
		visit.Sample{Label: "2", Habitat: "riffle", Area: 0.4, Said: visit.Sorted},
		visit.Sample{Label: "3", Habitat: "riffle", Area: 0.4, Said: visit.Sorted},
		found("1", "baetidae", 9), found("1", "chironomidae", 4), found("2", "baetidae", 1), found("2", "gammaridae", 6),
		found("3", "hydropsychidae", 7), found("3", "elmidae", 2), found("3", "tipulidae", 1), doubtful, visit.Finish{},
	} {
		v.Events = append(v.Events, visit.Event{ID: fmt.Sprintf("event%03d", i), Time: time.Unix(int64(i), 0), Body: body})
	}
	return rules, v
}

// What is drawn are the numbers of the grade, read back from the drawing.
func TestChartsShowTheGradesNumbers(t *testing.T) {
	for _, protocol := range []string{"riffle-three", "riffle-best", "riffle-families"} {
		rules, v := afternoon(t, protocol)
		g, err := rules.Grade(rules.Account(v), scoring.GradeOptions{})
		if err != nil {
			t.Fatal(err)
		}
		classes, kinds := FoundByGroup(g), FoundByKind(g)
		inClasses, inKinds := parse(t, classes.SVG(PaperSize{120, 200})).words, parse(t, kinds.SVG(PaperSize{260, 400})).words
		all := 0.0
		for _, c := range g.Found {
			all += float64(c.Animals)
		}
		for _, c := range g.Found {
			pair(t, inClasses, c.Label, fmt.Sprintf("%d (%s), %s", c.Animals, plain.Percent(float64(c.Animals)/all),
				plain.Count(len(c.Kinds), "kind")))
			for _, k := range c.Kinds {
				pair(t, inKinds, k.Label, fmt.Sprintf("%d (%s)", k.Count, plain.Percent(float64(k.Count)/all)))
			}
		}
		index := &g.Indices[0]
		l, ok := Chances(index, rules.Scheme(index.ID))
		if !ok {
			t.Fatalf("%s: no chances of ratings", protocol)
		}
		rows := map[string][]string{}
		for _, row := range l.Data().Rows {
			rows[strings.TrimSuffix(row[0], " (the grade)")] = row[1:]
		}
		for n, spread := range []*scoring.Spread{index.Identification, index.Sampling} {
			for _, c := range spread.Ratings {
				if got := rows[c.Rating][n]; got != plain.Percent(c.Chance) {
					t.Errorf("%s: %s is drawn with %s, not %s", protocol, c.Rating, got, plain.Percent(c.Chance))
				}
			}
		}
	}
}

// pair wants two words side by side.
func pair(t *testing.T, words []string, first, second string) {
	t.Helper()
	for i := range words[:len(words)-1] {
		if words[i] == first && words[i+1] == second {
			return
		}
	}
	t.Errorf("%q is not beside %q in %q", second, first, words)
}

// The dots of the curve stand where scoring/diversity, which is checked against
// vegan, says: heights on the page are in proportion to the kinds expected.
func TestTheCurveIsThatOfTheIncidence(t *testing.T) {
	rules, v := afternoon(t, "seven-samples")
	x, err := rules.Incidence(rules.Account(v))
	if err != nil {
		t.Fatal(err)
	}
	c, ok := Accumulated(x, 7)
	if !ok || len(c.Taken) != 3 || len(c.Ahead) != 4 {
		t.Fatalf("%d steps taken and %d ahead", len(c.Taken), len(c.Ahead))
	}
	g, err := rules.Grade(rules.Account(v), scoring.GradeOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if _, last := c.last(); last.Kinds != g.Effort.Forecast.Expected || last.Low != g.Effort.Forecast.Low ||
		last.High != g.Effort.Forecast.High {
		t.Errorf("the curve ends at %+v, the outlook at %+v", last, g.Effort.Forecast)
	}
	dots := parse(t, c.SVG(PaperSize{88, 60})).dots[2:] // two in the legend
	var kinds []float64
	for _, samples := range []int{7, 1, 2, 3} { // in the order drawn
		e, _ := x.Expected(samples)
		kinds = append(kinds, e.Kinds)
	}
	scale := (dots[1].y - dots[0].y) / (kinds[0] - kinds[1])
	for i := range dots {
		if want := dots[1].y - scale*(kinds[i]-kinds[1]); math.Abs(dots[i].y-want) > 0.03 {
			t.Errorf("dot %d is %.2f mm down, not %.2f", i, dots[i].y, want)
		}
	}
	if _, ok := Accumulated(x, 2); !ok {
		t.Error("a complete effort has no curve")
	}
	x.Samples = 1
	if _, ok := Accumulated(x, 7); ok {
		t.Error("one sample has a curve")
	}
}

func TestASiteOverTimeIsTheSeries(t *testing.T) {
	rules, v := afternoon(t, "riffle-three")
	dir := t.TempDir()
	var files []string
	for i, date := range []string{"2024-05-12", "2025-05-11", "2026-05-16"} {
		v.Header.ID, v.Header.Date = fmt.Sprint("visit00", i), date
		file := filepath.Join(dir, date)
		if err := os.WriteFile(file, v.Encode(), 0o644); err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
		v.Events = v.Events[:len(v.Events)-3]
	}
	table := series.GradeVisits(rules, series.FileSource{Files: files, Open: visit.Read},
		series.Options{Today: time.Date(2026, 7, 1, 0, 0, 0, 0, time.UTC), Workers: 1})
	c := History(table.Rows, rules.Scheme("presence"), "visit002")
	if len(c.Visit) != 3 || !c.Visit[2].This || c.Visit[0].This || len(c.Zones) != 4 {
		t.Fatalf("%+v %q", c, table.Problems)
	}
	for i, row := range table.Rows {
		got, word := c.Visit[i], row.Rating
		if len(row.RatingRange) > 0 {
			word = "between " + row.RatingRange[0] + " and " + row.RatingRange[1]
		} else if row.RatingProvisional {
			word += ", provisional"
		}
		if *got.Value != *row.Value || got.Rating != word || got.Date != row.Visit.Date ||
			math.Abs(got.Samples.High-*row.Value-1.96*(*row.Samples)) > 1e-3*got.Samples.High ||
			row.NamesRange != nil && got.Names != (Bounds{row.NamesRange[0], row.NamesRange[1]}) {
			t.Errorf("%+v is drawn as %+v", row, got)
		}
	}
	fits(t, "series", c, PaperSize{88, 66})
	few := table.Rows[0]
	few.Withheld, few.Rating, few.RatingRange, few.Reason = true, "", nil, "too few animals for a word"
	if got := History([]series.Row{few}, rules.Scheme("presence"), "").Visit[0]; got.Value != nil || got.Rating != few.Reason {
		t.Errorf("a value among the zones of the words would be a word: %+v", got)
	}
}
