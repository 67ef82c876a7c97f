package publish_test

import (
	"os"
	"path/filepath"
	"strconv"
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
	mark := o.From.Mark
	o.From.Mark = func(name string) (string, error) { // the file itself is read, as for people
		if _, err := os.ReadFile(filepath.Join(dir, name)); err != nil {
			return "", err
		}
		return mark(name)
	}
	o.From.Read = func(name string) (*visit.Visit, error) { return visit.Read(filepath.Join(dir, name)) }
	run := func(what string, most time.Duration) {
		from := time.Now()
		r := c.publishWith(t, o)
		took := time.Since(from)
		t.Logf("%s: %.1f s, %d visits, %d files written of %d", what, took.Seconds(), r.Visits, r.Written, r.Files)
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
