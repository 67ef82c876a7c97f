package series_test

import (
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// settled is a visit of one region with two animals, by key and from paper, whose names were
// corrected, and a third that nobody looked at twice.
func settled(t *testing.T, site string, edition ...string) *visit.Visit {
	t.Helper()
	random := rand.NewChaCha8([32]byte([]byte(strings.Repeat(site, 32)[:32])))
	v, err := visit.Begin(visit.Header{Site: site, Date: "2026-05-16", Protocol: "riffle-three", Region: "north-america",
		Edition: edition, Begun: time.Date(2026, 5, 16, 9, 0, 0, 0, time.UTC)}, random)
	if err != nil {
		t.Fatal(err)
	}
	add := func(b visit.Body) string {
		t.Helper()
		if err := v.Conclude("Oona", b); err != nil {
			t.Fatal(err)
		}
		return v.Events[len(v.Events)-1].ID
	}
	add(visit.Sample{Label: "1", Habitat: "riffle"})
	for _, d := range []visit.Identification{
		{Taxon: "baetidae", Path: []string{"1a", "2b"}}, {Taxon: "baetidae"}, {Taxon: "perlidae", Path: []string{"1a"}},
	} {
		d.Sample, d.Rank, d.Count, d.Confidence = "1", "family", 1, 0.95
		id := add(d)
		if d.Taxon == "baetidae" {
			add(visit.Amendment{Entry: id, Reason: "seen again", Change: visit.NamedForCertain("heptageniidae", "family")})
		}
	}
	return v
}

// What was confirmed is gone through once, whoever holds the visit, and only where its
// couplets are those of the key in use; all that is left out is told.
func TestEachConfirmed(t *testing.T) {
	whole, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	const mark = "0123456789ab"
	here, there := settled(t, "brook"), settled(t, "river")
	other := settled(t, "creek", "key another")
	unreadable := errors.New("torn")
	item := func(name string, v *visit.Visit, err error) series.Item {
		return series.Item{Name: name, Read: func() (*visit.Visit, error) { return v, err }}
	}
	america, europe := whole.InRegion(whole.RegionNamed("north-america")), whole.InRegion(whole.RegionNamed("north-west-europe"))
	always := func(string) bool { return true }
	refused := func(visit.Confirmed) error { return errors.New("no such couplet") }
	for _, row := range []struct {
		name    string
		items   series.Items
		query   series.ConfirmedQuery
		see     func(visit.Confirmed) error
		visits  int
		animals int
		leftOut []string // what each says
		fails   string
	}{
		{"two visits", series.Items{item("a", here, nil), item("b", there, nil)}, series.ConfirmedQuery{Catalog: america}, nil,
			2, 4, nil, ""},
		{"keyed only", series.Items{item("a", here, nil)}, series.ConfirmedQuery{Catalog: america, Keyed: true}, nil, 1, 1, nil, ""},
		{"held twice", series.Items{item("a", here, nil), item("b", here, nil)}, series.ConfirmedQuery{Catalog: america}, nil,
			2, 2, []string{"b: a is the same visit"}, ""},
		{"named twice", series.Items{item("a", here, nil), item("b", here, nil)},
			series.ConfirmedQuery{Catalog: america, Named: always}, nil, 2, 2, nil, "a and b hold the same visit; name it once"},
		{"another key", series.Items{item("a", other, nil), item("b", here, nil)},
			series.ConfirmedQuery{Catalog: america, Key: mark}, nil, 2, 2, []string{"it was begun with another key"}, ""},
		{"another region", series.Items{item("a", here, nil)}, series.ConfirmedQuery{Catalog: europe}, nil,
			1, 0, []string{"it was begun with another key"}, ""},
		{"refused", series.Items{item("a", here, nil)}, series.ConfirmedQuery{Catalog: america}, refused,
			1, 0, []string{"no such couplet", "no such couplet"}, ""},
		{"unreadable in a folder", series.Items{item("a", nil, unreadable), item("b", here, nil)},
			series.ConfirmedQuery{Catalog: america, PassesOver: always}, nil, 1, 2, []string{"torn"}, ""},
		{"unreadable", series.Items{item("a", nil, unreadable), item("b", here, nil)},
			series.ConfirmedQuery{Catalog: america}, nil, 2, 0, nil, "torn"},
	} {
		see := row.see
		if see == nil {
			see = func(c visit.Confirmed) error {
				if c.Taxon != "heptageniidae" || c.Named != "baetidae" {
					t.Errorf("%s: %+v", row.name, c)
				}
				return nil
			}
		}
		count, err := series.EachConfirmed(row.items, row.query, see)
		if (err == nil) != (row.fails == "") || err != nil && err.Error() != row.fails {
			t.Errorf("%s: %v", row.name, err)
		}
		told := slices.EqualFunc(count.LeftOut, row.leftOut, strings.Contains)
		if !told || count.Visits != row.visits || count.Animals != row.animals || count.Unread != (row.name == "unreadable in a folder") {
			t.Errorf("%s: %+v", row.name, *count)
		}
	}
}

// A name is that of the catalog in use, whichever edition it was recorded by.
func TestConfirmedNamesAreThoseOfToday(t *testing.T) {
	catalog, err := taxa.Load(fstest.MapFS{
		"traits.toml": {Data: []byte("[trait.legs]\nquestion = \"?\"\nlook = \"eye\"\nmisread = 0.1\nsource = \"memory\"\n" +
			"[trait.legs.state.0]\nlabel = \"none\"\n[trait.legs.state.6]\nlabel = \"six\"\n")},
		"taxa.toml": {Data: []byte("[taxon.minnows]\nrank = \"family\"\nscientific = \"Minnows\"\nsource = \"memory\"\n" +
			"was = [\"baetidae\"]\n" +
			"[taxon.flats]\nrank = \"family\"\nscientific = \"Flats\"\nsource = \"memory\"\n" +
			"was = [\"heptageniidae\"]\n")},
	}, "")
	if err != nil {
		t.Fatal(err)
	}
	brook := series.Item{Name: "a", Read: func() (*visit.Visit, error) { return settled(t, "brook"), nil }}
	count, err := series.EachConfirmed(series.Items{brook}, series.ConfirmedQuery{Catalog: catalog}, func(c visit.Confirmed) error {
		if c.Named != "minnows" || c.Taxon != "flats" {
			t.Errorf("named %s, proved to be %s", c.Named, c.Taxon)
		}
		return nil
	})
	if err != nil || count.Animals != 2 {
		t.Error(count, err)
	}
}
