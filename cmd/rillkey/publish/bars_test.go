//go:build unix

package publish_test

import (
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"runtime/debug"
	"strconv"
	"syscall"
	"testing"
	"time"

	"rillkey/scoring/visit"
)

// A county of RILLKEY_COUNTY sites with ten years each, as the program meets it: files
// in a folder. 2,000 sites are to take at most 120 s, and one changed visit 3 s, on a
// quiet machine of two processors.
func TestACounty(t *testing.T) {
	sites, err := strconv.Atoi(os.Getenv("RILLKEY_COUNTY"))
	if err != nil {
		t.Skip("RILLKEY_COUNTY says of how many sites; 2000 are the bar")
	}
	c := invented(sites, 10)
	dir := t.TempDir()
	for name, v := range c {
		if err := os.WriteFile(filepath.Join(dir, name), v.Encode(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	o := c.options(filepath.Join(dir, "site"))
	o.Visits.Mark = func(name string) (string, error) { // by the file itself, as for people
		data, err := os.ReadFile(filepath.Join(dir, name))
		sum := sha256.Sum256(data)
		return hex.EncodeToString(sum[:]), err
	}
	o.Visits.Read = func(name string) (*visit.Visit, error) { return visit.Read(filepath.Join(dir, name)) }
	defer debug.SetGCPercent(debug.SetGCPercent(300)) // as the command has it
	run := func(what string, most time.Duration) {
		from := time.Now()
		before := processor(t)
		r := c.publishWith(t, o)
		took := time.Since(from)
		t.Logf("%s: %.1f s, %.1f s of processor time, %d visits, %d files written of %d", what, took.Seconds(),
			(processor(t) - before).Seconds(), r.Visits, r.Written, r.Files)
		if sites <= 2000 && took > most {
			t.Errorf("%s took %v, more than %v", what, took, most)
		}
	}
	run("all", 120*time.Second)
	name := c.names()[len(c)/2]
	v := c[name]
	v.Events[1].Time = v.Events[1].Time.Add(time.Second)
	if err := os.WriteFile(filepath.Join(dir, name), v.Encode(), 0o644); err != nil {
		t.Fatal(err)
	}
	run("one changed visit", 3*time.Second)
}

// processor is how much processor time this process took so far.
func processor(t *testing.T) time.Duration {
	t.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		t.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
