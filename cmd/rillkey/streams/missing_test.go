package streams

import (
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/scoring"
	"rillkey/scoring/visit"
)

// Something is told to be missing in no more than 5 of 100 streams in which nothing
// is, whether the kinds common in the region are abundant there too or not. With
// RILLKEY_STREAMS=400 so many streams are drawn of each sort, with RILLKEY_SEED others.
func TestNothingIsMissingByChance(t *testing.T) {
	if testing.Short() {
		t.Skip("it grades hundreds of visits")
	}
	streams, err := strconv.Atoi(os.Getenv("RILLKEY_STREAMS"))
	if err != nil {
		streams = 10
	}
	seed, _ := strconv.ParseUint(os.Getenv("RILLKEY_SEED"), 10, 64)
	for n, row := range []struct {
		why, key, scheme string
		abundant         float64 // how far the common kinds are abundant as well
		lost             float64 // share of the kinds of the better half of the groups that are gone
		animals          int
		least, most      float64
	}{
		{"nothing missing", "north-america", "presence", 0, 0, 120, 0, 0.05},
		{"nothing missing, few animals", "north-america", "presence", 0, 0, 40, 0, 0.05},
		{"nothing missing, common kinds abundant", "north-america", "presence", 0.5, 0, 120, 0, 0.05},
		{"nothing missing, families", "north-west-europe", "bmwp", 0, 0, 120, 0, 0.05},
		{"nothing missing, families, common kinds abundant", "north-west-europe", "bmwp", 0.5, 0, 120, 0, 0.05},
		{"nothing missing, weighted", "north-america", "weighted", 0.5, 0, 120, 0, 0.05},
		{"half of the sensitive kinds lost", "north-america", "presence", 0, 0.5, 120, 0, 1},
		{"all sensitive kinds lost", "north-america", "presence", 0, 1, 120, 0.3, 1},
	} {
		t.Run(row.why, func(t *testing.T) {
			k := key.Compile(keytest.Sound(t, row.key+".toml"))
			r := rules(t, k.Catalog())
			random := rand.New(rand.NewPCG(seed+uint64(n), 6))
			told, of := 0, 0
			for range streams {
				s := newStream(k, random)
				for i, kind := range s.kinds {
					s.share[i] *= math.Pow(commonness(k, kind.ID), row.abundant)
					if p := r.Scheme(row.scheme).Place(kind.ID); p.Why == "" &&
						r.Scheme(row.scheme).Kinds[p.Kind].Group == "sensitive" && random.Float64() < row.lost {
						s.share[i] = 0
					}
				}
				v := tray{}
				for n := range row.animals {
					v.records = append(v.records,
						visit.Record{ID: strconv.Itoa(n),
							Identification: visit.Identification{Sample: strconv.Itoa(1 + n%samples), Count: 1}})
					v.true_ = append(v.true_, s.animal(random))
				}
				a := cell{}.account(k, v.truth())
				a.Visit.Header.Protocol = row.scheme
				g, err := r.Grade(a, scoring.GradeOptions{})
				if err != nil {
					t.Fatal(err)
				}
				if g.Expected == nil {
					continue
				}
				if of++; g.Expected.Short() {
					told++
				}
			}
			share := float64(told) / float64(of)
			t.Logf("something is missing in %.3f±%.3f of %d", share, deviation(share, of), of)
			slack := func(p float64) float64 { return 3 * math.Sqrt(p*(1-p)/float64(of)) }
			if share < row.least-slack(row.least) || share > row.most+slack(row.most) {
				t.Errorf("something is missing in %.3f of %d, want from %v to %v", share, of, row.least, row.most)
			}
		})
	}
}

func commonness(k *key.Key, taxon string) float64 {
	for i, end := range k.Ends() {
		if end.ID == taxon {
			return k.Prior()[i]
		}
	}
	return 0
}
