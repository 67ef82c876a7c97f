package paper

import (
	"encoding/xml"
	"fmt"
	"io"
	"regexp"
	"strings"
	"testing"
	"time"

	"rillkey/cmd/rillkey/chart"
	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
)

var site = "Otter Run"

// visitOf is an invented visit with these events.
func visitOf(protocol string, bodies ...visit.Body) *visit.Visit {
	v := &visit.Visit{Header: visit.Header{
		ID: "visit001", Site: site, Date: "2026-05-16", Protocol: protocol, People: []string{"Oona", "Mags"}, Begun: time.Unix(0, 0)}}
	for i, body := range bodies {
		v.Events = append(v.Events, visit.Event{ID: fmt.Sprintf("event%03d", i), Time: time.Unix(int64(i), 0), Who: "Oona", Body: body})
	}
	return v
}

func taken(labels ...string) (out []visit.Body) {
	for _, l := range labels {
		out = append(out, visit.Sample{Label: l, Habitat: "riffle", Area: 0.4, Said: visit.Sorted})
	}
	return out
}

func animals(sample, taxon string, n int) visit.Body {
	return visit.Identification{Sample: sample, Taxon: taxon, Count: n, Confidence: 0.95}
}

func reportOf(t *testing.T, v *visit.Visit) (VisitReport, string) {
	t.Helper()
	cat, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	rules, err := scoring.EmbeddedRules(cat)
	if err != nil {
		t.Fatal(err)
	}
	g, err := rules.Grade(rules.Account(v), scoring.GradeOptions{})
	if err != nil {
		t.Fatal(err)
	}
	r := VisitReport{Catalog: cat, Rules: rules, Account: rules.Account(v), Grade: g}
	return r, written(t, r.Page())
}

// everyTaxon is a visit on which every animal of the catalog was found.
func everyTaxon(t *testing.T, protocol string) *visit.Visit {
	cat, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	bodies := taken("1", "2", "3")
	for i, x := range cat.Taxa() {
		bodies = append(bodies, visit.Identification{Sample: fmt.Sprint(i%3 + 1), Taxon: x.ID, Count: i + 1, Confidence: 1})
	}
	return visitOf(protocol, bodies...)
}

var ratings = regexp.MustCompile(`(?i)\b(excellent|very good|good|fair|fairly poor|poor|very poor|polluted)\b`)

// What must be so of every report, whatever the visit.
func TestEveryReportIsSound(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	long := visit.Identification{Sample: "1", Undecided: true, Count: 1, Note: "Oona said so"}
	hostileSample := visit.Sample{Label: "1", Habitat: hostile, Effort: hostile}
	for what, v := range map[string]*visit.Visit{
		"nothing entered": visitOf("riffle-three"),
		"samples alone":   visitOf("riffle-three", taken("1", "2", "3")...),
		"truly empty":     visitOf("riffle-three", append(taken("1", "2", "3"), visit.Finish{})...),
		"one sample":      visitOf("riffle-three", append(taken("1"), animals("1", "baetidae", 4))...),
		"a mean of one":   visitOf("riffle-families", append(taken("1"), animals("1", "baetidae", 4))...),
		"only set aside":  visitOf("riffle-families", append(taken("1"), long)...),
		"hostile": visitOf("riffle-families", hostileSample, animals("1", "baetidae", 4),
			animals("1", hostile, 2), visit.Identification{Sample: "1", Taxon: "perlidae", Count: 1_000_000, Note: hostile}),
		"every taxon":         everyTaxon(t, "riffle-three"),
		"every taxon by best": everyTaxon(t, "riffle-best"),
		"every family":        everyTaxon(t, "all-habitats-three-minutes"),
	} {
		if what == "hostile" {
			v.Header.Site = hostile
		}
		r, page := reportOf(t, v)
		body := page[strings.Index(page, "<main>"):strings.Index(page, "</main>")]
		if err := nests(body + "</main>"); err != nil {
			t.Errorf("%s: %v", what, err)
		}
		for _, bad := range []string{"<script", "NaN", "Oona", "%!", "<b "} {
			if strings.Contains(page, bad) {
				t.Errorf("%s: the page holds %q", what, bad)
			}
		}
		for _, must := range []string{"fit to drink or to swim in", "local authority", "2 people took part", scoring.Caution()} {
			if !strings.Contains(strings.ReplaceAll(page, "&#39;", "'"), must) {
				t.Errorf("%s: the page does not say %q", what, must)
			}
		}
		if r.Grade.Withheld() && len(r.Grade.Indices[0].RatingRange) == 0 && ratings.MatchString(body) {
			at := ratings.FindStringIndex(body)
			t.Errorf("%s: no grade, and yet the page says %q", what, body[max(0, at[0]-80):at[1]])
		}
		if !r.Grade.Withheld() && !strings.Contains(body, `<p class="verdict">`+strings.ToUpper(r.Grade.Indices[0].Rating)+`</p>`) {
			t.Errorf("%s: the grade does not stand first", what)
		}
		for _, svg := range strings.Split(body, "<svg ")[1:] {
			if head, _, _ := strings.Cut(svg, ">"); !strings.Contains(head, "aria-label") && !strings.Contains(svg, "<desc>") {
				t.Errorf("%s: a drawing without words: %s", what, head)
			}
		}
	}
}

// What an animal cannot tell is not said of it: no cause, no age, and nothing on
// poisons that would be untrue.
func TestAReportSaysNothingUntrueOfTheAnimals(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a while")
	}
	_, page := reportOf(t, everyTaxon(t, "riffle-three"))
	for _, untrue := range []string{"most poisons", "for months", "others could not live", "They need clean"} {
		if strings.Contains(page, untrue) {
			t.Errorf("the page says %q", untrue)
		}
	}
	for _, must := range []string{"Germs do not show in these animals. Some poisons do", "weeks to years",
		"something keeps the others away"} {
		if !strings.Contains(page, must) {
			t.Errorf("the page does not say %q", must)
		}
	}
}

// The box says no more than the animals bear: a word, a provisional one, between
// which words it lies, or none.
func TestTheBoxSaysWhatTheAnimalsBear(t *testing.T) {
	in := func(n int, sample string, names ...string) (out []visit.Body) {
		for _, taxon := range names {
			out = append(out, visit.Identification{Sample: sample, Taxon: taxon, Count: n, Confidence: 1})
		}
		return out
	}
	five := []string{"baetidae", "perlidae", "psephenidae", "elmidae", "tipulidae"}
	nets := func(n int) (out []visit.Body) {
		for _, sample := range []string{"1", "2", "3"} {
			out = append(out, in(n, sample, five...)...)
		}
		return out
	}
	for what, tt := range map[string]struct {
		animals          []visit.Body
		verdict, besides string
	}{
		"a word":          {nets(50), "FAIR", "Presence index, 3-2-1: 14, on 750 animals, one day."},
		"provisional":     {nets(10), "FAIR, provisionally", "14, on 150 animals, one day."},
		"between two":     {in(100, "3", append(five, "oligochaeta")...), "Between poor and excellent", "no word is likely enough"},
		"too few animals": {nets(5), "No grade", "too few animals for a word: 75 that this index counts, where at least 100 are asked for"},
	} {
		_, page := reportOf(t, visitOf("riffle-three", append(taken("1", "2", "3"), tt.animals...)...))
		if !strings.Contains(page, `<p class="verdict">`+tt.verdict+`</p>`) || !strings.Contains(page, tt.besides) {
			t.Errorf("%s: the box does not hold %q and %q", what, tt.verdict, tt.besides)
		}
	}
}

// nests checks that every element is closed where it should be.
func nests(body string) error {
	d := xml.NewDecoder(strings.NewReader(body))
	d.Entity = xml.HTMLEntity
	for {
		if _, err := d.Token(); err == io.EOF {
			return nil
		} else if err != nil {
			return err
		}
	}
}

// The figures on the page are those of the grade.
func TestAReportShowsTheGrade(t *testing.T) {
	r, page := reportOf(t, visitOf("riffle-three", append(taken("1", "2", "3"),
		animals("1", "baetidae", 90), animals("2", "perlidae", 20), animals("3", "chironomidae", 300), animals("3", "gammaridae", 40),
		visit.SecondLook{Entry: "event004", Taxon: "perlodidae", Count: 30})...))
	var rows []string
	for _, i := range append(r.Grade.Indices, r.Grade.Further...) {
		if i.Withheld {
			continue
		}
		rows = append(rows, `<th scope="row">`+i.Title+`</th><td>`+plain.FormatFloat(*i.Value)+"</td>")
	}
	for _, c := range r.Grade.Found {
		for _, k := range c.Kinds {
			rows = append(rows, fmt.Sprintf(`<th scope="row">%s (%s)</th><td>%d</td>`, k.Label, c.Label, k.Count))
		}
	}
	likely, _ := chart.Chances(&r.Grade.Indices[0], r.Rules.Scheme("presence"))
	rows = append(rows, likely.SVG(chart.PaperSize{Width: chartWidth, Height: likely.Height()}))
	a := r.Rules.Agreement(r.Account)
	rows = append(rows, fmt.Sprintf("<td>%.1f %%</td>", *a.Disagreement), fmt.Sprintf("<td>%.1f %%</td>", *a.Enumeration),
		"<td>1 of 4</td>")
	for _, words := range show.Doubts(&r.Grade.Indices[0], r.Grade.Indices[0].Identification, r.Grade.Indices[0].Sampling) {
		rows = append(rows, "<li>"+words+"</li>")
	}
	for _, row := range rows {
		if !strings.Contains(page, row) {
			t.Errorf("the page lacks %s", row)
		}
	}
}

// Names of people come only where that was asked for, and the site's visits
// likewise.
func TestAReportIsDiscreet(t *testing.T) {
	r, page := reportOf(t, visitOf("riffle-three", append(taken("1"), animals("1", "baetidae", 9))...))
	if strings.Contains(page, "Mags") || strings.Contains(page, "over time") {
		t.Error("names or other visits are on the page unasked")
	}
	r.People = true
	r.History = &chart.OverTime{Title: "t", Index: "i", Visit: []chart.VisitPoint{{Date: "2025-05-18", Rating: "too few samples"}}}
	r.Trouble = []string{"line 7: changed by hand"}
	page = written(t, r.Page())
	for _, must := range []string{"Taken part: Oona, Mags.", "This site over time", "2025-05-18",
		"The file: line 7: changed by hand", "changed by hand in 1 place"} {
		if !strings.Contains(page, must) {
			t.Errorf("the page does not say %q", must)
		}
	}
}
