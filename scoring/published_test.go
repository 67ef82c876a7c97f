package scoring

import (
	"maps"
	"path/filepath"
	"slices"
	"testing"

	"github.com/BurntSushi/toml"

	"rillkey/scoring/visit"
	"rillkey/taxa"
)

func rules(t testing.TB) *Rules {
	t.Helper()
	cat, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	r, err := EmbeddedRules(cat)
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
}

func readPublished(t *testing.T) map[string]published {
	t.Helper()
	files := map[string]published{}
	for _, pattern := range []string{"presence*.toml", "weighted*.toml"} {
		names, err := filepath.Glob(filepath.Join("..", "testdata", "published", pattern))
		if err != nil || len(names) == 0 {
			t.Fatalf("no files %s: %v", pattern, err)
		}
		for _, name := range names {
			var p published
			md, err := toml.DecodeFile(name, &p)
			if err != nil || len(md.Undecoded()) > 0 || p.Source == "" || p.Status == "" || len(p.Tally)+len(p.Group) == 0 {
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

func TestPublishedTallies(t *testing.T) {
	r := rules(t)
	for file, p := range readPublished(t) {
		s := r.Scheme(p.Scheme)
		for name, want := range p.Tally {
			t.Run(file+"/"+name, func(t *testing.T) {
				animals := 0
				for _, n := range want.Counts {
					animals += n
				}
				got := r.pooled(s, records(want.Counts))
				if v, word := s.number(got.steps), s.rating(got.steps); v != want.Value || word != want.Rating || animals != want.Animals {
					t.Errorf("%d animals, %v %s; want %d, %v %s: %s", animals, v, word, want.Animals, want.Value, want.Rating, want.Reason)
				}
			})
		}
	}
}

// TestPublishedGroups places one animal of every listed taxon by itself.
func TestPublishedGroups(t *testing.T) {
	r := rules(t)
	checked := map[string]bool{}
	for file, p := range readPublished(t) {
		s := r.Scheme(p.Scheme)
		for group, want := range p.Group {
			for _, taxon := range want.Taxa {
				got := r.pooled(s, records(map[string]int{taxon: 1}))
				if len(got.terms) != 1 || got.terms[0].Group != group || got.terms[0].Weight != want.Weight {
					t.Errorf("%s: %s gives %+v, want %s with %v", file, taxon, got.terms, group, want.Weight)
					continue
				}
				checked[p.Scheme+"/"+got.terms[0].Kind] = true
			}
		}
	}
	for _, s := range r.Schemes() {
		for _, k := range s.Kinds {
			if !checked[s.ID+"/"+k.ID] {
				t.Errorf("no published list is compared with the kind %q of %q", k.ID, s.ID)
			}
		}
	}
}
