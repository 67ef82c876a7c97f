package scoring

import (
	"math"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"

	"rillkey/taxa"
)

// TestPublishedRatios compares with the filled-in survey sheets, to the decimals
// that they print.
func TestPublishedRatios(t *testing.T) {
	var sheets struct {
		Source, Status string
		Survey         map[string]struct {
			Reason string
			Counts map[string]int
			Value  map[string]string
		}
	}
	if _, err := toml.DecodeFile(filepath.Join("..", "testdata", "published", "beside-survey-sheets.toml"),
		&sheets); err != nil || len(sheets.Survey) != 2 {
		t.Fatal(err, len(sheets.Survey))
	}
	r := rules(t)
	for name, survey := range sheets.Survey {
		for scheme, printed := range survey.Value {
			s := r.grader(scheme)
			got := s.Number(s.sum(s.sort(s.rows(r, records(survey.Counts)))).value.Steps())
			want, err := strconv.ParseFloat(printed, 64)
			_, decimals, _ := strings.Cut(printed, ".")
			// Both are rounded, the sheet to its decimals and the value to one.
			if slack := math.Pow10(-len(decimals))/2 + 0.05; err != nil || math.Abs(got-want) > slack+1e-9 {
				t.Errorf("%s: %s is %v, the sheet says %s", name, scheme, got, printed)
			}
		}
	}
}

// TestBesideByHand has every sum in its reason.
func TestBesideByHand(t *testing.T) {
	counts := map[string]int{"heptageniidae": 40, "perlidae": 20, "hydropsychidae": 20, "simuliidae": 15, "oligochaeta": 5}
	tests := []struct {
		scheme, reason string
		value          float64
	}{
		{"percent-ept", "80 of 100", 80},
		{"percent-dominant", "40 mayflies of 100", 40},
		{"percent-sensitive", "mayfly 40, stonefly 20, caddisfly 20", 80},
		{"percent-somewhat-sensitive", "none of 100", 0},
		{"percent-tolerant", "black fly 15, worm 5", 20},
		{"percent-scrapers", "heptageniidae 40", 40},
		{"percent-predators", "perlidae 20", 20},
		{"percent-filterers", "hydropsychidae 20, simuliidae 15", 35},
		{"percent-gatherers", "oligochaeta 5", 5},
		{"percent-shredders", "none of 100", 0},
		{"taxon-richness", "four families and the worms", 5},
		{"ept-families", "three", 3},
		{"simpson", "1 - (0.16 + 0.04 + 0.04 + 0.0225 + 0.0025) = 0.735", 0.735},
		{"shannon", "0.366516 + 2 x 0.321888 + 0.284568 + 0.149787 = 1.444647", 1.445},
		{"pielou", "1.444647 / ln 5 = 1.444647 / 1.609438 = 0.897610", 0.898},
		{"rarefied", "100 of 100 animals are all of them", 5},
	}
	r := rules(t)
	for _, tt := range tests {
		s := r.grader(tt.scheme)
		if got := s.Number(s.sum(s.sort(s.rows(r, records(counts)))).value.Steps()); got != tt.value {
			t.Errorf("%s is %v, want %v: %s", tt.scheme, got, tt.value, tt.reason)
		}
	}
}

func TestNoValueHasItsReason(t *testing.T) {
	y := newTray("riffle-families").sample("1", "riffle", 0).animals("1", "baetidae", 12)
	reasons := map[string]string{}
	for _, i := range y.grade(t).Further {
		if i.Withheld != (i.Value == nil) {
			t.Errorf("%+v", i)
		}
		reasons[i.ID] = i.Reason
	}
	for id, want := range map[string]string{"rarefied": "fewer were counted", "pielou": "two kinds", "shannon": "", "taxon-richness": ""} {
		if got, ok := reasons[id]; !ok || !strings.Contains(got, want) || (want == "") != (got == "") {
			t.Errorf("%s: %q", id, got)
		}
	}
}

// TestWaysOfFeedingAgree holds the ways of feeding against what the catalog says
// of each taxon, where that names a single way. Both are from memory, of two
// people.
func TestWaysOfFeedingAgree(t *testing.T) {
	cat, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	ways := map[string]string{"hunts": "predators", "scrapes algae": "scrapers", "shreds leaves": "shredders",
		"gathers fine bits": "gatherers", "filters water": "filterers", "hunts and sucks": "predators"}
	r, compared := rules(t), 0
	for _, x := range cat.Taxa() {
		way, single := ways[x.Feeding]
		standing, err := r.Standing("percent-shredders", x.ID)
		if err != nil {
			t.Fatal(err)
		}
		if single && standing.Kind != "" {
			compared++
			if standing.Group != way {
				t.Errorf("%s %s, but counts among the %s", x.ID, x.Feeding, standing.Group)
			}
		}
	}
	if compared < 40 {
		t.Errorf("only %d taxa were compared", compared)
	}
}

// TestKindsOfTheCatalog: every family the catalog has is a kind, unlisted.
func TestKindsOfTheCatalog(t *testing.T) {
	cat, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	r := rules(t)
	for _, x := range cat.Taxa() {
		if x.Rank != "family" {
			continue
		}
		all, _ := r.Standing("taxon-richness", x.ID)
		ept, _ := r.Standing("ept-families", x.ID)
		of := cat.IsUnder(x.ID, "ephemeroptera") || cat.IsUnder(x.ID, "plecoptera") || cat.IsUnder(x.ID, "trichoptera")
		if all.Kind != x.ID || (ept.Kind == x.ID) != of {
			t.Errorf("%s: %+v, %+v", x.ID, all, ept)
		}
	}
}
