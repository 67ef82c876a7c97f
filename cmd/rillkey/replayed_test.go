package main

import (
	"path/filepath"
	"strings"
	"testing"

	"rillkey/scoring/visit/visittest"
)

// Whatever a command says of a visit, it replays the file's events once: all that it
// prints comes of one tally.
func TestACommandReplaysEachFileOnce(t *testing.T) {
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
	} {
		before := visittest.Replays()
		status, _, errs := call(t, strings.Fields(row.args)...)
		if n := visittest.Replays() - before; n != int64(row.visits) || status == statusMisused {
			t.Errorf("rillkey %s: %d replays of %d files, status %d: %s", row.args, n, row.visits, status, errs)
		}
	}
}
