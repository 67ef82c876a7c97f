package main

import (
	"crypto/rand"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"rillkey/scoring/visit"
	"rillkey/scoring/visit/visittest"
)

// Whatever a command says of a visit, it replays the file's events once: all that it
// prints comes of one tally.
func TestACommandReplaysEachFileOnce(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Chdir(t.TempDir())
	if status, _, errs := call(t, "demo", "--plain", "--keep", "visits"); status != statusDone {
		t.Fatalf("status %d: %s", status, errs)
	}
	files, err := filepath.Glob("visits/*.visit.toml")
	if err != nil || len(files) < 2 {
		t.Fatalf("%q, %v", files, err)
	}
	for _, row := range []struct {
		visits int
		args   string
	}{
		{1, "grade " + files[0] + " --details --charts"},
		{1, "grade " + files[0] + " --json"},
		{1, "recheck agreement --visit " + files[0]},
		{1, "recheck --visit " + files[0]},
		{1, "print report --visit " + files[0] + " --to report.html"},
		{len(files), "grade visits --charts"},
		{len(files), "visit list visits"},
		{len(files), "export visits --as csv --to tables"},
		{len(files), "export visits --as sql --to visits.sql"},
		{len(files), "export visits --as darwin-core --to visits.zip"},
		{1, "visit show --visit " + files[0]},
		{1, "visit show --visit " + files[0] + " --json"},
		{1, "visit amend --visit " + files[0]},
		{1, "visit sorted --visit " + files[0]},
		{1, "print labels --visit " + files[0] + " --to labels.html"},
		{1, "print sheet --visit " + files[0] + " --to sheet.html"},
		{1, "table --board --visit " + files[0]},
		{len(files), "rates learn ours.rates.toml " + strings.Join(files, " ")},
		{1, "couplets failures " + files[0]},
		{len(files), "couplets failures " + strings.Join(files, " ")},
		{len(files), "grade visits --json"},
		{len(files), "grade " + strings.Join(files, " ")},
		{len(files), "visit list visits --json"},
		{len(files), "visit list visits --taxon mayfly"},
		{len(files), "recheck visits"},
		{1, "recheck draw --visit " + files[0]},
		{len(files), "export visits --as rows --to rows.csv"},
		{1, "export " + files[0] + " --as csv --with-people --to one"},
		{len(files), "publish visits --to public"},
		{0, "publish visits --to public"},
		{len(files), "print report " + files[0] + " --history visits --to history.html"},
		{1, "print report " + files[0] + " --for landowner --to landowner.html"},
		{0, "visit salvage " + files[0]},
		{0, "taxa midge --visit " + files[0]},
		{0, "couplets show --visit " + files[0]},
	} {
		replaysAre(t, row.visits, row.args)
	}
	// Nor is the visit read to be found, and then again. (A report is of another visit, one
	// without names.)
	alone, err := filepath.Abs(files[0])
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	data, err := os.ReadFile(alone)
	if err == nil {
		err = os.WriteFile(filepath.Base(alone), data, 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
	for _, args := range []string{"grade", "grade --charts", "recheck", "visit show", "visit amend", "visit sorted", "table --board",
		"grade --json", "grade .", "recheck agreement", "visit show --json", "visit list", "print report --to report.html",
		"export --as csv --to tables", "export --as rows --to rows.csv",
		"export --as darwin-core --to visit.zip", "publish --to public", "table --board --json"} {
		replaysAre(t, 1, args)
	}
	// What adds to a visit has one tally too; whether the entry fits is asked of the file as it
	// is when it is written, which makes no tally.
	random := &counting{}
	for _, row := range []struct {
		tallies int
		args    string
	}{
		{1, "visit reopen"},
		{1, "visit sample --habitat riffle"},
		{1, "visit add mayfly 3 --who Ada"},
		{1, "visit add mayfly 2 --who Ada"},
		{1, "visit conditions --set smell=none"},
		{1, "visit amend --set smell=fishy --reason misread"},
		{1, "visit amend --site Ford --reason moved"},
		{1, "visit amend --date 2026-05-17 --reason misread"}, // the header as corrected is part of a tally
		{1, "visit conditions --set water-temperature=9.5 --who Ada"},
		{1, "visit undo --who Ada"},
		{1, "visit finish"},
		{1, "visit reopen"},
		{1, "visit finish --who Ada"},
		{1, "visit reopen"},
		{1, "visit finish --json"},
	} {
		replaysAdding(t, random, row.tallies, row.args)
	}
	// Of a visit that names a reference the report has one tally, too, though what it gives away
	// does not name that.
	t.Chdir(t.TempDir())
	for _, args := range []string{
		"visit begin --site Works --reference Ford --cautions-read --region north-america " +
			"--date 2026-05-16 --people Ann --protocol riffle-three",
		"visit sample --label 1 --habitat riffle --area 0.37 --fraction 1 --effort kicked --who Ann"} {
		if status, _, errs := call(t, strings.Fields(args)...); status != statusDone {
			t.Fatalf("%s: status %d: %s", args, status, errs)
		}
	}
	replaysAre(t, 1, "print report --history . --to beside.html")
}

// replaysAre runs a command, which must replay so many visits and add nothing.
func replaysAre(t *testing.T, visits int, args string) {
	t.Helper()
	status, judged := replaysOf(t, &counting{}, visits, args)
	if judged != 0 || status == statusMisused {
		t.Errorf("rillkey %s: %d entries judged, status %d", args, judged, status)
	}
}

// replaysAdding runs a command that adds one entry to one visit, from so many tallies of it.
func replaysAdding(t *testing.T, random io.Reader, tallies int, args string) {
	t.Helper()
	status, judged := replaysOf(t, random, tallies, args)
	if judged != 1 || status != statusDone {
		t.Errorf("rillkey %s: %d entries judged, status %d", args, judged, status)
	}
}

func replaysOf(t *testing.T, random io.Reader, tallies int, args string) (status int, judged int64) {
	t.Helper()
	before, judgedBefore := visittest.Replays()
	status, _, errs := callDrawing(t, random, strings.Fields(args)...)
	after, judgedAfter := visittest.Replays()
	if after-before != int64(tallies) {
		t.Errorf("rillkey %s: %d tallies, not %d, status %d: %s", args, after-before, tallies, status, errs)
	}
	return status, judgedAfter - judgedBefore
}

// What was read to find a visit is not taken for what its file holds since.
func TestAVisitThatGrewIsReadAnew(t *testing.T) {
	v, err := visit.Begin(visit.Header{Site: "Brook", Date: "2026-05-16", People: []string{"Oona"}, Protocol: "riffle-three",
		Begun: time.Date(2026, 5, 16, 9, 0, 0, 0, time.UTC)}, rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "brook.visit.toml")
	if err := v.WriteNew(file, 0o644); err != nil {
		t.Fatal(err)
	}
	var vf visitFolder
	for n := range 3 {
		first, err := vf.lookAt(file)
		if err != nil || len(first.Events) != n {
			t.Fatalf("%d entries, not %d: %v", len(first.Events), n, err)
		}
		if again, _ := vf.lookAt(file); again != first {
			t.Error("an unchanged file was read twice")
		}
		if err := v.Conclude("Oona", visit.Sample{Label: fmt.Sprint(n + 1), Habitat: "riffle"}); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, v.Encode(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Remove(file); err != nil {
		t.Fatal(err)
	}
	if _, err := vf.lookAt(file); err == nil {
		t.Error("a file that is gone was read")
	}
}
