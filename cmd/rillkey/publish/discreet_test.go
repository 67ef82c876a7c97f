package publish_test

import (
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"rillkey/scoring/condition"
	"rillkey/scoring/visit"
)

// planted are people and words of their own in every place that a visit has for them.
func planted(v *visit.Visit) {
	v.Header.People = []string{"Zebulon Quark", "Mags Ottoline"}
	moment := v.Header.Begun
	for i := range v.Events {
		v.Events[i].Who = "Zebulon Quark"
		switch b := v.Events[i].Body.(type) {
		case visit.Sample:
			b.Effort = "Zebulon kicked for a minute"
			v.Events[i].Body = b
		case visit.Identification:
			b.Note, b.Kept, b.Cell, b.Expert, b.ExpertOn = "Ottoline saw it", "at Ottoline's", "Mags' cell",
				"Dr Thorkild Vane", "2026-06-01"
			v.Events[i].Body = b
		}
	}
	first := ""
	for _, e := range v.Events {
		if e.Kind() == "identification" {
			first = e.ID
		}
	}
	add := func(id string, b visit.Body) {
		moment = moment.Add(time.Minute)
		v.Events = append(v.Events, visit.Event{ID: id, Time: moment.Add(2 * time.Hour), Who: "Mags Ottoline", Body: b})
	}
	finish := v.Events[len(v.Events)-1]
	v.Events = v.Events[:len(v.Events)-1]
	note, kept := "Quark was sure", "Ottoline's shed"
	add("own-label", visit.Sample{Label: "Zebulon-net", Habitat: "riffle", Area: 0.4, Said: visit.Sorted})
	add("own-find", visit.Identification{Sample: "Zebulon-net", Taxon: "perlidae", Count: 2, Confidence: 1})
	add("amended", visit.Amendment{Entry: first, Reason: "Zebulon looked again", Change: visit.Change{Note: &note, Kept: &kept}})
	add("look", visit.SecondLook{Entry: first, Taxon: "perlidae", Count: 1, Confidence: 0.9, Note: "Ottoline agrees"})
	add("noted", visit.Conditions{Values: condition.Values{"smell": {Text: "Zebulon smelt nothing"}}})
	finish.Time, finish.Body = moment.Add(3*time.Hour), visit.Finish{Note: "Zebulon drove home"}
	v.Events = append(v.Events, finish)
}

func TestNobodyIsNamed(t *testing.T) {
	dir := t.TempDir()
	c := invented(2, 1)
	for _, v := range c {
		planted(v)
	}
	c.publish(t, filepath.Join(dir, "site"))
	names := regexp.MustCompile(`Zebulon|Quark|Mags|Ottoline|Thorkild|Vane`)
	for file, text := range opened(t, filepath.Join(dir, "site")) {
		if at := names.FindStringIndex(text); at != nil {
			t.Errorf("%s names somebody: …%s…", file, text[max(0, at[0]-60):min(len(text), at[1]+60)])
		}
	}
}

// One visit obscures its site for all of them: on pages, in the feed, in the tables,
// and in the names of files.
func TestAnObscuredSiteStaysObscured(t *testing.T) {
	dir := t.TempDir()
	c := invented(3, 2)
	names := c.names()
	site, spot := "Velvet Hollow, at the spring", &visit.Spot{Latitude: 57.123456, Longitude: -5.345678, Uncertainty: 12}
	old := "Emerald Run"
	for i, name := range []string{names[0], names[len(names)-1]} {
		v := c[name]
		v.Header.Site, v.Header.Spot, v.Header.Obscured = site, spot, i == 0
		if i == 1 { // this visit says nothing of it, and had another name once
			v.Header.Site = old
			v.Events = append(v.Events, visit.Event{ID: "renamed", Time: v.Header.Begun.Add(4 * time.Hour), Who: "Ada",
				Body: visit.Amendment{Entry: v.Header.ID, Reason: "its name is " + site,
					Change: visit.Change{Site: &site, Spot: &visit.Spot{Latitude: 57.149321, Longitude: -5.345678}}}})
		}
	}
	for _, name := range names[1 : len(names)-1] { // all others are compared with it
		c[name].Header.Reference, c[name].Header.Date = site, c[names[0]].Header.Date
	}
	at := filepath.Join(dir, "site")
	r := c.publish(t, at)
	if len(r.Problems) > 0 {
		t.Fatal(r.Problems)
	}
	exact := regexp.MustCompile(`(?i)velvet|emerald|57\.12|57\.14|5\.34[0-9]`)
	withheld := 0
	for file, text := range opened(t, at) {
		if exact.MatchString(file) {
			t.Errorf("the name of %s gives it away", file)
		}
		if at := exact.FindStringIndex(text); at != nil && !strings.HasSuffix(file, ".svg") {
			if part := text[max(0, at[0]-50):min(len(text), at[1]+50)]; !strings.Contains(part, `d="M`) {
				t.Errorf("%s gives it away: …%s…", file, part)
			}
		}
		if strings.Contains(text, "Site withheld ") {
			withheld++
		}
	}
	if withheld < 6 {
		t.Errorf("the site is shown without its name in %d files", withheld)
	}
	if page := tree(t, at)["sites/index.html"]; !strings.Contains(page, "beside Site withheld ") {
		t.Errorf("no site is beside it: %s", page)
	}
	rows := tree(t, at)["data/2026/summary.csv"]
	if !strings.Contains(rows, "Site withheld ") || !strings.Contains(rows, ",57.1,-5.3,") {
		t.Errorf("the table has no rough place:\n%s", rows)
	}
}

// Text from files is text on a page.
func TestTextOfVisitsIsNoMarkup(t *testing.T) {
	dir := t.TempDir()
	c := invented(2, 1)
	for i, name := range c.names() {
		c[name].Header.Site = []string{`<script>alert(1)</script>"'&`, "=cmd|' /C calc'!A0 ]]><x>"}[i]
	}
	o := c.options(filepath.Join(dir, "site"))
	o.Title, o.Group, o.Terms = `<b>"Ours"`, `</title><script>`, `<img src=x>`
	c.publishWith(t, o)
	for file, text := range opened(t, o.Dir) {
		if ext := filepath.Ext(file); ext == ".csv" || ext == ".json" {
			if strings.Contains(text, ",=cmd") || strings.Contains(text, "\"=cmd") {
				t.Errorf("%s holds a formula", file)
			}
			continue
		}
		for _, bad := range []string{"<script", "<b>\"", "<img src=x", "<x>"} {
			if strings.Contains(text, bad) {
				t.Errorf("%s holds %s", file, bad)
			}
		}
	}
}

var link = regexp.MustCompile(`(?:href|src)="([^"]*)"`)

// Every link of every page leads to a file of the site, none elsewhere, and every page
// is small, has no script, and says what a grade does not.
func TestPagesHoldTogether(t *testing.T) {
	if testing.Short() {
		t.Skip("it makes 45 sites")
	}
	dir := t.TempDir()
	c := invented(45, 1) // more than fit on one sketch
	c.publish(t, filepath.Join(dir, "site"))
	files := tree(t, filepath.Join(dir, "site"))
	sheets := 0
	for file, text := range files {
		if !strings.HasSuffix(file, ".html") {
			continue
		}
		if strings.HasPrefix(file, "map/") {
			sheets++
		}
		if len(text) > 200<<10 {
			t.Errorf("%s has %d kB", file, len(text)>>10)
		}
		if strings.Contains(text, "<script") || strings.Contains(text, "http-equiv=\"refresh\"") {
			t.Errorf("%s has a script", file)
		}
		for _, m := range link.FindAllStringSubmatch(text, -1) {
			if to, _, _ := strings.Cut(m[1], "#"); to != "" {
				if _, there := files[filepath.ToSlash(filepath.Join(filepath.Dir(file), to))]; !there {
					t.Errorf("%s links to %s, which is not there", file, m[1])
				}
			}
		}
	}
	if sheets < 4 {
		t.Errorf("%d sheets of the map", sheets)
	}
	drinking := regexp.MustCompile(`(?i)[^.]*\b(drink|swim)[^.]*\.`)
	for file, text := range files {
		if filepath.Ext(file) != ".html" {
			continue
		}
		for _, said := range drinking.FindAllString(text, -1) {
			if !strings.Contains(said, "nothing on") && !strings.Contains(said, "water to drink in the sun") { // a caution
				t.Errorf("%s speaks on it: %s", file, said)
			}
		}
	}
	if !strings.Contains(files["index.html"], "says nothing on drinking or swimming") {
		t.Error("the first page does not say what a grade leaves open")
	}
}
