package paper

import (
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/couplets"
	"rillkey/taxa"
)

const hostile = `"><script>alert(1)</script><b x='`

func written(t *testing.T, p *Page) string {
	t.Helper()
	var b strings.Builder
	if _, err := p.WriteTo(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestTextStaysText(t *testing.T) {
	p := New(hostile)
	p.Section(hostile)
	p.Section(hostile) // two sections, so that there is a list of links
	p.Heading(hostile)
	p.Text(hostile, hostile)
	p.Begin("div", hostile)
	p.Figure("", hostile)
	p.List(hostile, []string{hostile})
	p.table(hostile, hostile, []string{hostile, hostile}, [][]string{{hostile, hostile, hostile}})
	if page := written(t, p); strings.Contains(page, "<script") || strings.Contains(page, "<b ") {
		t.Error("markup in a text reaches the page")
	}
}

func TestAPageStandsAlone(t *testing.T) {
	p := New("A title")
	p.Section("First")
	p.Begin("div", "grid")
	page := written(t, p)
	for _, tc := range []struct {
		what string
		ok   bool
	}{
		{"it names its language", strings.Contains(page, `<html lang="en">`)},
		{"it has one first heading", strings.Count(page, "<h1>") == 1},
		{"it fits a phone", strings.Contains(page, `name="viewport"`)},
		{"it has no script", !strings.Contains(page, "<script")},
		{"it fetches nothing", !regexp.MustCompile(`(src|href)="[^#]|url\(|@import`).MatchString(page)},
		{"what was begun is ended", strings.Count(page, "<div") == strings.Count(page, "</div") &&
			strings.Count(page, "<section") == strings.Count(page, "</section")},
		{"no sheet size is forced on a printer", !regexp.MustCompile(`@page[^}]*size`).MatchString(page)},
	} {
		if !tc.ok {
			t.Errorf("not so: %s", tc.what)
		}
	}
}

func TestTheContactSheetShowsEveryTaxonAndLead(t *testing.T) {
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	key := fstest.MapFS{"k.toml": {Data: []byte(`[key]
id = "k"
title = "K"
source = "invented"
[couplet.1]
ask = "Legs"
a = { text = "Ten <i>legs</i>", traits = { legs = "10" }, taxon = "cambaridae" }
b = { text = "No legs", traits = { legs = "0" }, taxon = "turbellaria" }
`)}}
	sound, err := couplets.Load(key, "k.toml", "k.toml", catalog)
	if err != nil {
		t.Fatal(err)
	}
	page := written(t, Figures(catalog, sound))
	if got, want := strings.Count(page, "<svg "), len(catalog.Taxa())+2; got != want {
		t.Errorf("%d drawings of %d", got, want)
	}
	if strings.Count(page, "<svg ") != strings.Count(page, "<title>")-1 {
		t.Error("a drawing has no title")
	}
	if strings.Contains(page, "<i>") {
		t.Error("markup in a lead reaches the page")
	}
}
