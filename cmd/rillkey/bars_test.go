package main

import (
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"rillkey/scoring/visit"
	"rillkey/scoring/visit/visittest"
	"rillkey/taxa"
)

// The commands that go through all records of a visit take two seconds at most on the
// largest visits there are. What is measured is processor time, on two cores four
// seconds at most, since the clock also counts what others do on the machine.
func TestTheLargestVisitsAreGoneThroughInTwoSeconds(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	var ids []string
	for _, t := range catalog.Taxa() {
		ids = append(ids, t.ID)
	}
	for _, large := range []struct {
		of    string
		visit *visit.Visit
	}{
		{"5000 records", visittest.MixedRecords("riffle-three", ids, 5000)},
		{"200 set aside, each of 184 possibilities", visittest.AllSetAside("riffle-three", ids, 200, 184)},
	} {
		file := filepath.Join(t.TempDir(), "v.visit.toml")
		if err := large.visit.WriteNew(file, 0o644); err != nil {
			t.Fatal(err)
		}
		for _, command := range []string{"recheck", "print labels", "print report"} {
			t.Run(large.of+", "+command, func(t *testing.T) {
				t.Parallel()
				cmd := exec.Command("rillkey", append(strings.Fields(command), "--visit", file)...)
				out, err := cmd.Output()
				if err != nil || len(out) == 0 {
					t.Fatalf("%d bytes, %v", len(out), err)
				}
				took := cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
				t.Logf("%v of processor time", took.Round(time.Millisecond))
				if took > 4*time.Second {
					t.Errorf("it took %v of processor time", took)
				}
			})
		}
	}
}
