//go:build unix

package network

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"time"

	"rillkey/scoring"
	"rillkey/scoring/export"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/scoring/visit/visittest"
	"rillkey/taxa"
)

// book grades by the rules inside the program.
func book(t testing.TB) Book {
	t.Helper()
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	rules, err := scoring.EmbeddedRules(catalog)
	if err != nil {
		t.Fatal(err)
	}
	return Book{Rules: rules, Mark: "0"}
}

// nextEdition is the book with one text of a file of the rules changed.
func nextEdition(t *testing.T, file, old, now string) Book {
	t.Helper()
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if err := os.CopyFS(dir, scoring.EmbeddedFiles()); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, file)
	text, err := os.ReadFile(path)
	if err != nil || !strings.Contains(string(text), old) {
		t.Fatalf("%s holds no %q: %v", file, old, err)
	}
	if err := os.WriteFile(path, []byte(strings.Replace(string(text), old, now, 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	rules, err := scoring.LoadRules(os.DirFS(dir), "", catalog)
	if err != nil {
		t.Fatal(err)
	}
	return Book{Rules: rules, Mark: "0"}
}

// asked is what a list says of visits that a query wants.
func (s *served) asked(user string, b Book, q series.Query) []series.VisitFile {
	s.t.Helper()
	db := s.open(user)
	defer db.Close()
	all, _, err := db.Listed(s.t.Context(), b, q)
	if err != nil {
		s.t.Fatal(err)
	}
	var out []series.VisitFile
	for _, g := range all {
		out = append(out, g.VisitFile)
	}
	return series.Filter(out, q)
}

// comparable leaves out what is not kept of an entry, and who sees which name of it.
func comparable(all []series.VisitFile) (out []string) {
	for _, e := range all {
		out = append(out, fmt.Sprint(e.ID, e.State, e.Site, e.Date, e.People, e.Protocol, e.Region, e.Samples, e.Animals,
			e.Taxa, e.Index, e.Rating, e.RatingRange, e.Reason, e.Remarks))
		if e.Value != nil {
			out = append(out, fmt.Sprint(*e.Value))
		}
	}
	return out
}

// A kept grade says what a grade worked out now says, and only what came or what a changed
// scheme touches is graded again.
func onlyWhatIsTouchedIsGradedAgain(s *served) {
	t := s.t
	group, ann := s.open("mill-brook"), s.open("ann")
	defer group.Close()
	defer ann.Close()
	visits := map[string]*visit.Visit{}
	for n := range 20 {
		v := invented(t, n)
		if n%4 == 0 {
			h := v.Written()
			h.Protocol = "riffle-families"
			v = v.Recast(h, v.Events)
		}
		visits[fmt.Sprint(n)] = v
	}
	sends(t, group, visits)
	b := book(t)
	regraded := func(b Book, want int) {
		t.Helper()
		if n, err := ann.Regrade(t.Context(), b, nil); err != nil || n != want {
			t.Errorf("%d visits are graded, not %d: %v", n, want, err)
		}
	}
	live := s.asked("ann", b, series.Query{})
	regraded(b, 20)
	regraded(b, 0)
	if kept := s.asked("ann", b, series.Query{}); !reflect.DeepEqual(comparable(kept), comparable(live)) {
		t.Errorf("kept is\n%v\nnot\n%v", comparable(kept), comparable(live))
	}
	for _, q := range []series.Query{{Site: "brok 3"}, {FirstDay: "2026-05"}, {LastDay: "2026-05-12"},
		{Site: "4", FirstDay: "2026", LastDay: "2026-05-14"}, {Person: "oona"}, {Site: "nowhere"}} {
		want := series.Filter(live, q)
		if got := s.asked("mill-brook", b, q); !reflect.DeepEqual(comparable(got), comparable(want)) {
			t.Errorf("%+v gives %d, not %d", q, len(got), len(want))
		}
	}
	later := visits["3"]
	if _, err := later.Add(noon.Add(5*time.Hour), "Oona", visit.Finish{}, strings.NewReader(strings.Repeat("finishes", 9))); err != nil {
		t.Fatal(err)
	}
	sends(t, group, map[string]*visit.Visit{"3": later})
	if got := s.asked("ann", b, series.Query{}); countFinished(got) != 1 {
		t.Errorf("%d visits are finished before the grades are kept", countFinished(got))
	}
	regraded(b, 1)
	if got := s.asked("ann", b, series.Query{}); countFinished(got) != 1 || len(got) != 20 {
		t.Errorf("%d of %d visits are finished", countFinished(got), len(got))
	}
	next := nextEdition(t, "schemes/fbi.toml", "[scheme]", "[scheme]") // the same text is the same edition
	regraded(next, 0)
	next = nextEdition(t, "schemes/fbi.toml", "[scheme]", "# Next year\n[scheme]")
	changes, err := ann.WouldChange(t.Context(), next, nil)
	if err != nil || changes.Graded != 5 || changes.Same != 5 {
		t.Errorf("the scheme would change %+v, %v", changes, err)
	}
	regraded(next, 5)
	if n, err := group.Regrade(t.Context(), nextEdition(t, "schemes/presence.toml", "[scheme]", "# All\n[scheme]"),
		nil); err == nil || !strings.Contains(err.Error(), "may not do that") {
		t.Errorf("a group keeps %d grades: %v", n, err)
	}
}

func countFinished(all []series.VisitFile) (n int) {
	for _, e := range all {
		if e.State == series.Finished {
			n++
		}
	}
	return n
}

// A reader sees no person, and of a place that any visit obscures neither the name nor the
// exact place, at once when that visit is sent.
func readersSeeNoPersonAndNoObscuredPlace(s *served) {
	t := s.t
	group, ann := s.open("mill-brook"), s.open("ann")
	defer group.Close()
	defer ann.Close()
	placed := func(n int, obscured bool) *visit.Visit {
		v := invented(t, n)
		h := v.Written()
		h.Site, h.Spot, h.Obscured = "Otter Pool", &visit.Spot{Latitude: 51.23456, Longitude: -2.34567, Uncertainty: 5}, obscured
		return v.Recast(h, v.Events)
	}
	sends(t, group, map[string]*visit.Visit{"a": placed(1, false)})
	if _, err := ann.Regrade(t.Context(), book(t), nil); err != nil {
		t.Fatal(err)
	}
	if got := s.asked("rob", book(t), series.Query{}); len(got) != 1 || got[0].Site != "Otter Pool" ||
		got[0].Spot.Latitude != 51.23456 || got[0].People != nil {
		t.Fatalf("a reader sees %+v", got)
	}
	sends(t, group, map[string]*visit.Visit{"b": placed(2, true)})
	for _, e := range s.asked("rob", book(t), series.Query{}) {
		if e.Site != "" || e.Spot.Latitude != 51.2 || e.Spot.Longitude != -2.3 || !e.Obscured {
			t.Errorf("a reader sees %+v at %+v", e, e.Spot)
		}
	}
	if got := s.asked("rob", book(t), series.Query{Site: "Otter Pool"}); len(got) != 0 {
		t.Error("a reader finds an obscured site by its name")
	}
}

// All indices of random visits are the same by the files and by the database, and so is what is
// exported of them as SQL, to the byte: a thousand with RILLKEY_NETWORK_VISITS=1000.
func theSameNumbers(s *served) {
	t := s.t
	many := 15
	if n, err := strconv.Atoi(os.Getenv("RILLKEY_NETWORK_VISITS")); err == nil {
		many = n
	}
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	b := book(t)
	var names []string
	for _, taxon := range catalog.Taxa() {
		names = append(names, taxon.ID)
	}
	protocols := b.Rules.Protocols()
	visits, byID := map[string]*visit.Visit{}, map[string]*visit.Visit{}
	for n := range many {
		v := visittest.MixedRecords(protocols[n%len(protocols)].ID, names, 5+n%40)
		h := v.Written()
		h.ID, h.Site = fmt.Sprintf("visit%04d", n), fmt.Sprintf("Brook %d", n%9)
		v = v.Recast(h, v.Events)
		visits[h.ID], byID[h.ID] = v, v
	}
	db := s.open("mill-brook")
	defer db.Close()
	if r := sends(t, db, visits); len(r.Refused) > 0 {
		t.Fatalf("%+v", r.Refused[0])
	}
	keys, err := db.Keys(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	knows := export.Knowledge{Catalog: catalog, Rules: b.Rules}
	compared, indices := 0, 0
	err = db.Source(t.Context(), keys).Each(func(i series.Item) bool {
		v, err := i.Read()
		if err != nil {
			t.Fatal(err)
		}
		was := byID[v.Header.ID]
		grades, texts := make([]string, 2), make([]string, 2)
		for at, one := range []*visit.Visit{was, v} {
			g, err := b.Rules.Grade(b.Rules.Account(one), scoring.GradeOptions{Anyway: true})
			if err != nil {
				t.Fatal(err)
			}
			indices += len(g.Indices)
			text, _ := json.Marshal(g)
			var sql strings.Builder
			alone := func(yield func(*visit.Visit, error) bool) { yield(one, nil) }
			if err := export.SQL(&sql, alone, knows, export.Discretion{People: true, Places: true},
				export.Metadata{Title: "t", Day: noon}); err != nil {
				t.Fatal(err)
			}
			grades[at], texts[at] = strings.ReplaceAll(string(text), v.File, ""), sql.String()
		}
		if grades[0] != grades[1] || texts[0] != texts[1] {
			t.Errorf("%s: the database gives\n%s\nnot\n%s", i.Name, grades[1], grades[0])
		}
		compared++
		return true
	})
	if err != nil || compared != many {
		t.Errorf("%d compared, %v", compared, err)
	}
	t.Logf("%d visits, %d indices", compared, indices/2)
}
