package series_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"rillkey/scoring/series"
	"rillkey/scoring/visit"
)

var day = time.Date(2026, 5, 16, 13, 0, 0, 0, time.UTC)

// put writes one invented visit of three samples and some records.
func put(t testing.TB, dir, name, site string, at time.Time, seed int64, records int) string {
	t.Helper()
	v := &visit.Visit{Header: visit.Header{
		ID: fmt.Sprintf("v%d", seed), Site: site, Date: at.Format(time.DateOnly), People: []string{"Oona", "Mägs"},
		Protocol: "riffle-three", Begun: at}}
	add := func(b visit.Body) {
		if err := v.Conclude("Teodor", b); err != nil {
			t.Fatal(err)
		}
	}
	said := visit.Sorted
	if records == 0 {
		said = ""
	}
	for _, l := range []string{"1", "2", "3"} {
		add(visit.Sample{Label: l, Habitat: "riffle", Area: 0.37, Said: said})
	}
	names := []string{"perlidae", "baetidae", "hydropsychidae", "chironomidae-other", "gammaridae", "tipulidae", "oligochaeta", "elmidae"}
	for i := range records {
		add(visit.Identification{Sample: fmt.Sprint(1 + i%3), Taxon: names[(i+int(seed))%len(names)], Rank: "family",
			Count: 1 + i%5, Confidence: 0.9, Path: []string{"1b", "4a"}})
	}
	path := filepath.Join(dir, name+visit.Suffix)
	if err := os.WriteFile(path, v.Encode(), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func list(t testing.TB, dir string) []series.VisitFile {
	t.Helper()
	entries, err := series.ReadFolder(dir, rules(t))
	if err != nil {
		t.Fatal(err)
	}
	return entries
}

func TestList(t *testing.T) {
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "2025"), 0o755); err != nil {
		t.Fatal(err)
	}
	put(t, dir, "b", "Tanyard Brook", day, 1, 8)
	put(t, dir, "2025/a", "Mill Run", day.AddDate(-1, 0, 0), 2, 0)
	if err := os.WriteFile(filepath.Join(dir, "torn"+visit.Suffix), []byte("[visit]\nformat"), 0o644); err != nil {
		t.Fatal(err)
	}
	entries := list(t, dir)
	if len(entries) != 3 || entries[0].State != series.Unreadable || entries[1].File != "2025/a"+visit.Suffix ||
		entries[2].Site != "Tanyard Brook" {
		t.Fatalf("%+v", entries)
	}
	e := entries[2]
	if e.Value == nil || e.Animals == 0 || len(e.Taxa) != 8 || !slices.Contains(e.People, "Teodor") || e.Samples != 3 {
		t.Errorf("%+v", e)
	}
	if e := entries[1]; e.Value != nil || e.Reason == "" {
		t.Errorf("a visit without animals that is not finished has a grade: %+v", e)
	}
	if !strings.Contains(entries[0].Problem, "cut short") {
		t.Errorf("%+v", entries[0])
	}
}

// Names and places of visits stay in their files alone.
func TestAListWritesNothing(t *testing.T) {
	dir, home := t.TempDir(), t.TempDir()
	for _, name := range []string{"HOME", "XDG_CACHE_HOME", "XDG_CONFIG_HOME", "TMPDIR"} {
		t.Setenv(name, home)
	}
	put(t, dir, "a", "Secret Brook", day, 1, 8)
	list(t, dir)
	list(t, dir)
	for _, folder := range []string{dir, home} {
		if entries, _ := os.ReadDir(folder); len(entries) > 1 || folder == home && len(entries) > 0 {
			t.Errorf("in %s there is now %v", folder, entries)
		}
	}
}

func TestAnUnreadableFolderIsToldOfAndStopsNothing(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, "a", "Tanyard Brook", day, 1, 8)
	if err := os.Mkdir(filepath.Join(dir, "shut"), 0); err != nil {
		t.Fatal(err)
	}
	if _, err := os.ReadDir(filepath.Join(dir, "shut")); err == nil {
		t.Skip("this user may read everything")
	}
	if entries := list(t, dir); len(entries) != 2 || entries[0].State != series.Unreadable || entries[1].Site != "Tanyard Brook" {
		t.Errorf("%+v", entries)
	}
}

func TestTwoFilesOfOneVisitAreTold(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, "a", "Tanyard Brook", day, 1, 8)
	put(t, dir, "b (conflict)", "Tanyard Brook", day, 1, 3)
	put(t, dir, "c", "Tanyard Brook", day, 2, 3)
	for _, e := range list(t, dir) {
		want := map[string]string{"b (conflict)" + visit.Suffix: "a" + visit.Suffix}[e.File]
		if e.SameAs != want {
			t.Errorf("%s is the same visit as %q, not %q", e.File, e.SameAs, want)
		}
	}
}

// A visit's file is found by its folder and id, and one that cannot be read is told of.
func TestFilesByVisit(t *testing.T) {
	dir := t.TempDir()
	path := put(t, dir, "a", "Tanyard Brook", day, 1, 3)
	v, err := visit.Read(path)
	if err != nil {
		t.Fatal(err)
	}
	broken := filepath.Join(dir, "b"+visit.Suffix)
	if err := os.WriteFile(broken, []byte("?"), 0o600); err != nil {
		t.Fatal(err)
	}
	var unread []string
	found, err := series.FilesByVisit(dir, func(path string, _ error) { unread = append(unread, path) })
	if err != nil || len(found) != 1 || found[filepath.Join(dir, v.Header.ID)] != path {
		t.Errorf("found %v, %v", found, err)
	}
	if !slices.Equal(unread, []string{broken}) {
		t.Errorf("not read: %v", unread)
	}
}

func TestFind(t *testing.T) {
	entries := []series.VisitFile{
		{File: "a", Site: "Tanyard Brook", Date: "2025-05-01", People: []string{"Oona"}, Taxa: []string{"perlidae"}},
		{File: "b", Site: "Mill Run", Date: "2026-05-01", People: []string{"Mägs"}, Taxa: []string{"baetidae"}},
		{File: "c", State: series.Unreadable},
	}
	for _, tt := range []struct {
		label string
		q     series.Query
		want  string
	}{
		{"everything", series.Query{}, "a b c"},
		{"a misspelt site", series.Query{Site: "tanyrd brook"}, "a"},
		{"a misspelt word of a site", series.Query{Site: "tanyrd"}, "a"},
		{"part of a site", series.Query{Site: "run"}, "b"},
		{"a year", series.Query{FirstDay: "2025", LastDay: "2025"}, "a"},
		{"a month and later", series.Query{FirstDay: "2025-06"}, "b"},
		{"up to a day", series.Query{LastDay: "2026-05-01"}, "a b"},
		{"a person without the accent", series.Query{Person: "mags"}, "b"},
		{"a taxon", series.Query{Taxon: func(_ *series.VisitFile, id string) bool { return id == "perlidae" }}, "a"},
		{"nothing fits", series.Query{Site: "run", LastDay: "2025"}, ""},
	} {
		var got []string
		for _, e := range series.Filter(entries, tt.q) {
			got = append(got, e.File)
		}
		if strings.Join(got, " ") != tt.want {
			t.Errorf("%s: %v", tt.label, got)
		}
	}
}

// BenchmarkList lists 1,000 visits.
func BenchmarkList(b *testing.B) {
	const visits = 1000
	dir := b.TempDir()
	for i := range visits {
		put(b, dir, fmt.Sprint(i), fmt.Sprintf("Brook %d", i%40), day.AddDate(0, 0, i%900), int64(i+1), 20)
	}
	r := rules(b)
	for b.Loop() {
		if entries, err := series.ReadFolder(dir, r); err != nil || len(entries) != visits {
			b.Fatal(err)
		}
	}
}
