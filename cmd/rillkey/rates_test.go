package main

import (
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"rillkey/scoring/visit"
)

// A second look at which somebody else came to a name is the right name, unless
// it was corrected later; one that came to none teaches nothing.
func TestSecondLooksTeach(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	scud := "gammaridae"
	for _, row := range []struct {
		why    string
		bodies []visit.Body
		want   string // of the trait legs, or nothing
	}{
		{"nobody looked twice", nil, ""},
		{"it was right", []visit.Body{visit.SecondLook{Taxon: "gammaridae"}}, "legs: misread 0 of 1;"},
		{"it was wrong", []visit.Body{visit.SecondLook{Taxon: "astacidea"}}, "legs: misread 1 of 1;"},
		{"the second look came to nothing", []visit.Body{visit.SecondLook{Undecided: true}}, ""},
		{"the last look that came to a name counts",
			[]visit.Body{visit.SecondLook{Taxon: "gammaridae"}, visit.SecondLook{Taxon: "astacidea"},
				visit.SecondLook{Undecided: true}}, "legs: misread 1 of 1;"},
		{"a correction counts more than a look",
			[]visit.Body{visit.SecondLook{Taxon: "astacidea"},
				visit.Amendment{Reason: "talked over", Change: visit.Change{Taxon: &scud}}}, "legs: misread 0 of 1;"},
		{"what was withdrawn teaches nothing",
			[]visit.Body{visit.SecondLook{Taxon: "astacidea"}, visit.Amendment{Reason: "twice", Withdrawn: true}}, ""},
	} {
		t.Run(row.why, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, "a.visit.toml")
			random := rand.NewChaCha8([32]byte{1})
			now := time.Date(2026, 5, 16, 12, 0, 0, 0, time.UTC)
			if _, err := visit.Create(path, visit.Header{Site: "X", Date: "2026-05-16", Begun: now}, random); err != nil {
				t.Fatal(err)
			}
			add := func(body visit.Body) string {
				t.Helper()
				saved, err := visit.Append(path, now, "Ann", body, random)
				if err != nil {
					t.Fatal(err)
				}
				return saved.Event.ID
			}
			add(visit.Sample{Label: "1", Habitat: "riffle"})
			id := add(visit.Identification{Sample: "1", Taxon: "gammaridae", Count: 3, Path: []string{"legs=14", "flat=tall", "stop"}})
			for _, body := range row.bodies {
				switch b := body.(type) {
				case visit.SecondLook:
					b.Entry = id
					add(b)
				case visit.Amendment:
					b.Entry = id
					add(b)
				}
			}
			status, stdout, stderr := call(t, "rates", "learn", filepath.Join(dir, "ours.toml"), path)
			if status != statusDone || stderr != "" {
				t.Fatalf("%d: %s", status, stderr)
			}
			if !strings.Contains(stdout, row.want) || strings.Contains(stdout, "legs: ") != (row.want != "") {
				t.Errorf("no %q in\n%s", row.want, stdout)
			}
		})
	}
}
