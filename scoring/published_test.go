package scoring

import (
	"cmp"
	"maps"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/BurntSushi/toml"

	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// embeddedRules are read once for all tests; nothing changes them.
var embeddedRules = sync.OnceValues(func() (*Rules, error) {
	cat, err := taxa.Embedded()
	if err != nil {
		return nil, err
	}
	return EmbeddedRules(cat)
})

func rules(t testing.TB) *Rules {
	t.Helper()
	r, err := embeddedRules()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// published is one file of checks against a publication.
type published struct {
	Source, Status, Scheme string
	Tally                  map[string]struct {
		Reason, Rating string
		Value          float64
		Animals        int
		Counts         map[string]int
	}
	Group map[string]struct {
		Weight float64
		Taxa   []string
	}
	Edge map[string]string // ratings by value, as printed
	list
}

// list is a published list of values.
type list struct {
	Value      map[string]int64  // by published name
	Every      string            // status of the values
	StatusOf   map[string]string `toml:"status_of"` // where it is another
	Now, Older map[string]string // current and older names, by published name
	Together   [][]string        // names that count once
}

func readPublished(t *testing.T) map[string]published {
	t.Helper()
	files := map[string]published{}
	for _, pattern := range []string{"presence*.toml", "weighted*.toml", "fbi*.toml", "bmwp*.toml", "aspt*.toml"} {
		names, err := filepath.Glob(filepath.Join("..", "testdata", "published", pattern))
		if err != nil || len(names) == 0 {
			t.Fatalf("no files %s: %v", pattern, err)
		}
		for _, name := range names {
			var p published
			md, err := toml.DecodeFile(name, &p)
			if err != nil || len(md.Undecoded()) > 0 || p.Source == "" || p.Status == "" || len(p.Tally)+len(p.Group)+len(p.Value) == 0 {
				t.Fatalf("%s: %v, unread %v", name, err, md.Undecoded())
			}
			files[filepath.Base(name)] = p
		}
	}
	return files
}

func records(counts map[string]int) (list []visit.Record) {
	for _, taxon := range slices.Sorted(maps.Keys(counts)) {
		list = append(list, visit.Record{ID: taxon, Identification: visit.Identification{Sample: "1", Taxon: taxon, Count: counts[taxon]}})
	}
	return list
}

// TestPublishedTallies checks the sums, with the floors of words off: a tally of
// a few animals has its value and its band, whether the word may be said or not.
func TestPublishedTallies(t *testing.T) {
	r := rules(t)
	for file, p := range readPublished(t) {
		s := r.grader(p.Scheme)
		for name, want := range p.Tally {
			t.Run(file+"/"+name, func(t *testing.T) {
				animals := 0
				for _, n := range want.Counts {
					animals += n
				}
				steps := s.sum(s.sort(s.rows(r, records(want.Counts)))).value.Steps()
				if v, word := s.Number(steps), asPrinted(s.Band(steps)); v != want.Value || word != want.Rating || animals != want.Animals {
					t.Errorf("%d animals, %v %s; want %d, %v %s: %s", animals, v, word, want.Animals, want.Value, want.Rating, want.Reason)
				}
			})
		}
	}
}

// A whole visit with a published tally has the published value, and the published word
// or none, with the reason: no floor puts another in its place.
func TestFloorsNeverChangeAPublishedWordSilently(t *testing.T) {
	r := rules(t)
	graded, withheld := 0, 0
	for file, p := range readPublished(t) {
		for _, protocol := range r.Protocols() {
			if protocol.Schemes[0] != p.Scheme || protocol.Combine == scheme.Best {
				continue
			}
			for name, want := range p.Tally {
				y := newTray(protocol.ID)
				for _, n := range protocol.Needs {
					for range n.Samples {
						y.sample(strconv.Itoa(len(y.v.Events)+1), n.Habitat, n.Area)
					}
				}
				for taxon, n := range want.Counts {
					y.sure("1", taxon, n)
				}
				i := y.gradeWith(t, GradeOptions{Plain: true}).Indices[0] // the headline alone is looked at
				graded++
				if i.Withheld {
					withheld++
				}
				if *i.Value != want.Value || i.Withheld == (i.Reason == "") || !i.Withheld && i.Rating != want.Rating {
					t.Errorf("%s, %s, %s: %v %q (%s), want %v %s", file, name, protocol.ID, *i.Value, i.Rating, i.Reason,
						want.Value, want.Rating)
				}
			}
		}
	}
	if graded == 0 || withheld == graded {
		t.Errorf("%d published tallies graded, %d of them without a word", graded, withheld)
	}
}

// TestPublishedEdges rates the values on both sides of every cut point, and
// finds no band without them.
func TestPublishedEdges(t *testing.T) {
	r := rules(t)
	for file, p := range readPublished(t) {
		if p.Edge == nil {
			continue
		}
		s := r.grader(p.Scheme)
		met := map[int64]bool{}
		for printed, want := range p.Edge {
			steps := stepsOf(t, s, printed)
			met[steps] = true
			if got := asPrinted(s.Band(steps)); got != want {
				t.Errorf("%s: %s is %s, want %s", file, printed, got, want)
			}
		}
		steps := func(value float64) int64 { return int64(math.Round(value * float64(s.One()))) }
		for _, z := range s.Zones() {
			if !met[steps(z.Lowest)] || !math.IsInf(z.Highest, 1) && !met[steps(z.Highest)] {
				t.Errorf("%s: an edge of the band %s is not checked", file, z.Rating)
			}
		}
	}
}

// asPrinted is the word in the publication.
func asPrinted(b scheme.Band) string { return cmp.Or(b.ListedAs, b.Rating) }

// stepsOf finds the whole number of steps that prints so, without fractions.
func stepsOf(t *testing.T, s grader, printed string) int64 {
	t.Helper()
	for steps := range int64(1100) {
		if s.Text(steps) == printed {
			return steps
		}
	}
	t.Fatalf("%q is no value of %s", printed, s.ID)
	return 0
}

// TestPublishedGroups places one animal of every listed taxon by itself, and
// looks up every published value.
func TestPublishedGroups(t *testing.T) {
	r := rules(t)
	checked := map[string]bool{}
	for file, p := range readPublished(t) {
		s := r.grader(p.Scheme)
		for group, want := range p.Group {
			for _, taxon := range want.Taxa {
				got := s.sum(s.sort(s.rows(r, records(map[string]int{taxon: 1}))))
				if len(got.terms) != 1 || got.terms[0].Group != group || got.terms[0].Weight != want.Weight {
					t.Errorf("%s: %s gives %+v, want %s with %v", file, taxon, got.terms, group, want.Weight)
					continue
				}
				checked[p.Scheme+"/"+got.terms[0].Kind] = true
			}
		}
		for name := range p.Value {
			if kind := p.check(t, r, s, file, name); kind != nil {
				checked[p.Scheme+"/"+kind.ID] = true
			}
		}
	}
	for _, s := range r.Schemes() {
		if s.KindsAt != "" || s.Form == "percent" && s.Source == "memory" {
			continue // no list was published: every family of the catalog, and ways of feeding
		}
		for _, k := range s.Kinds {
			if !checked[s.ID+"/"+k.ID] && !checked[s.KindsFrom+"/"+k.ID] && s.KindsFrom != "taxon-richness" {
				t.Errorf("no published list is compared with the kind %q of %q", k.ID, s.ID)
			}
		}
	}
}

// check compares the kind that a published name has in the scheme with the
// list, whether the catalog knows the name or not.
func (l *list) check(t *testing.T, r *Rules, s grader, file, name string) *scheme.Kind {
	now := name
	if l.Now[name] != "" {
		now = l.Now[name]
	}
	k := kindNamed(r, s, now)
	if k == nil {
		t.Errorf("%s: %s has no kind", file, name)
		return nil
	}
	status := l.Every
	if l.StatusOf[name] != "" {
		status = l.StatusOf[name]
	}
	if got, ok := s.Weight(k.Group); !ok || got != float64(l.Value[name]) || k.Status != status {
		t.Errorf("%s: %s is worth %v (%s), want %d (%s)", file, name, got, k.Status, l.Value[name], status)
	}
	if renamed := l.Now[name] != "" || l.Older[name] != ""; renamed != (k.ListedAs != "") || renamed && k.ListedAs != name &&
		k.ListedAs != l.Older[name] {
		t.Errorf("%s: %s is now %s, and the scheme says it was listed as %q", file, name, now, k.ListedAs)
	}
	for _, names := range l.Together {
		for _, other := range names {
			if same := kindNamed(r, s, other) == k; same != slices.Contains(names, name) {
				t.Errorf("%s: %s and %s must count once together, and nothing else with them", file, name, other)
			}
		}
	}
	return k
}

// taxonCalled is the id of the first taxon with the id, the scientific or, after
// those, an older name; empty where there is none.
func taxonCalled(r *Rules, name string) (id string) {
	for _, t := range r.catalog.Taxa() {
		switch {
		case strings.EqualFold(t.ID, name) || strings.EqualFold(t.Scientific, name):
			return t.ID
		case id == "" && slices.ContainsFunc(t.Synonyms, func(older string) bool { return strings.EqualFold(older, name) }):
			id = t.ID
		}
	}
	return id
}

func kindNamed(r *Rules, s grader, name string) *scheme.Kind {
	k := slices.IndexFunc(s.Kinds, func(k scheme.Kind) bool {
		return slices.ContainsFunc(k.Absent, func(absent string) bool { return strings.EqualFold(absent, name) })
	})
	absent := k >= 0
	if id := taxonCalled(r, name); !absent && id != "" {
		k = s.Nearest(id)
	} else if !absent {
		k = -1
	}
	if k < 0 {
		return nil
	}
	return &s.Kinds[k]
}

// Families that BMWP lists under another's name have its value and count once with it:
// common practice.
func TestFamiliesThatAreLumpedHaveAValue(t *testing.T) {
	r := rules(t)
	s := r.grader("bmwp")
	for _, want := range []struct {
		taxon, with string
		value       string
	}{{"bithyniidae", "hydrobiidae", "3"}, {"hydraenidae", "hydrophilidae", "5"}} {
		k, with := kindNamed(r, s, want.taxon), kindNamed(r, s, want.with)
		if k == nil || k != with || k.Status != "common practice" {
			t.Fatalf("%s is %+v, %s %+v", want.taxon, k, want.with, with)
		}
		got := s.sum(s.sort(s.rows(r, records(map[string]int{want.taxon: 1, want.with: 2}))))
		if text := s.Text(got.value.Steps()); text != want.value {
			t.Errorf("%s with %s has %s, not %s", want.taxon, want.with, text, want.value)
		}
	}
}

// TestStatusesAreNoStrongerThanTheirSources: a page that quotes a form, a nature
// centre's list and values whose regional column nobody noted are weak sources,
// and bands made for another index are inferred.
func TestStatusesAreNoStrongerThanTheirSources(t *testing.T) {
	r := rules(t)
	for _, want := range []struct{ scheme, status, bands string }{
		{"presence", "confirmed", "confirmed, weak source"},
		{"presence-virginia", "confirmed, weak source", "confirmed, weak source"},
		{"fbi-modified", "corroborated", "inferred"}, // most of its values are those of fbi
	} {
		s := r.grader(want.scheme)
		if s.Status != want.status || s.BandSource == "" {
			t.Errorf("%s is %s, its bands are from %q", s.ID, s.Status, s.BandSource)
		}
		for _, b := range s.Bands {
			if b.Status != want.bands {
				t.Errorf("%s: the edges of %s are %s, want %s", s.ID, b.Rating, b.Status, want.bands)
			}
		}
	}
}
