package main

import (
	"bytes"
	"crypto/rand"
	"math"
	"strings"
	"testing"
	"time"

	"rillkey/key/keytest"
	"rillkey/key/practice"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
)

// practiseOn runs commands one after another on a day, what is typed to the last.
func practiseOn(t *testing.T, day, typed string, commands ...[]string) (out, complaints string) {
	t.Helper()
	at, err := time.Parse(time.DateOnly, day)
	if err != nil {
		t.Fatal(err)
	}
	for i, args := range commands {
		var o, e bytes.Buffer
		in := ""
		if i == len(commands)-1 {
			in = typed
		}
		status := run(args, world{stdin: strings.NewReader(in), stdout: &o, stderr: &e, now: func() time.Time { return at },
			random: rand.Reader, env: func(string) string { return "" }, width: 80, height: 24})
		if out, complaints = o.String(), e.String(); status != statusDone && i < len(commands)-1 {
			t.Fatalf("%v: %s%s", args, out, complaints)
		}
	}
	return out, complaints
}

// visitWith are the commands of a visit in which one kind was found.
func visitWith(site, date, see string) [][]string {
	file := date + "-" + strings.ReplaceAll(strings.ToLower(site), " ", "-") + ".visit.toml"
	return [][]string{
		{"visit", "begin", "--site", site, "--date", date, "--people", "Ann", "--protocol", "riffle-three", "--cautions-read"},
		{"visit", "sample", "--habitat", "riffle", "--net", "2ft", "--bed", "2ft", "--visit", file},
		{"identify", "--see", see, "--count", "20", "--visit", file},
	}
}

// Practice takes after the visits of the season, here or at one site, of whatever year.
func TestPracticeIsOfTheSeasonOfTheSite(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a while")
	}
	t.Chdir(t.TempDir())
	for _, one := range [][][]string{
		visitWith("Alder Run", "2025-05-10", "ten legs, pincers, 40 mm"), visitWith("Moss Brook", "2024-06-01", "ten legs, pincers, 40 mm"),
		visitWith("Alder Run", "2025-10-10", "ten legs, pincers, 40 mm"),
	} {
		practiseOn(t, "2026-05-16", "", one...)
	}
	for _, one := range []struct{ day, site, says string }{
		{"2026-05-16", "", "in 2 visits at this time of year: Moss Brook and Alder Run."},
		{"2026-05-16", "moss brook", "in 1 visit at this time of year: Moss Brook."},
		{"2026-10-01", "", "in 1 visit at this time of year: Alder Run."},
		{"2026-01-15", "", ""},
	} {
		args := []string{"practice", "--as", "Robin", "--animals", "1", "--seed", "5"}
		if one.site != "" {
			args = append(args, "--site", one.site)
		}
		out, complaints := practiseOn(t, one.day, "q\n", args)
		said := strings.Join(strings.Fields(out), " ")
		if !strings.Contains(said, one.says) || strings.Contains(said, "time of year") != (one.says != "") || complaints != "" {
			t.Errorf("%s %s: %s%s", one.day, one.site, out, complaints)
		}
	}
	_, complaints := practiseOn(t, "2026-01-15", "", []string{"practice", "--as", "Robin", "--site", "Alder Run"})
	if !strings.Contains(complaints, "no visit to \"Alder Run\" at this time of year") {
		t.Error(complaints)
	}
	visits := series.Seasonal(series.FilesIn("."), time.Date(2026, 5, 16, 0, 0, 0, 0, time.UTC), "",
		func(file string, why error) { t.Errorf("%s is passed over: %v", file, why) })
	k := keytest.Model(t).Key()
	common, sum := practice.Common(k, visit.AnimalsByTaxon(visits)), 0.0
	for _, w := range common {
		sum += w
	}
	if math.Abs(sum-1) > 1e-9 || common["astacidea"] < 0.4 {
		t.Errorf("crayfish, half of all by the visits, come %.2f of %.2f", common["astacidea"], sum)
	}
}
