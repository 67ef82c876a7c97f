package publish_test

import (
	"maps"
	"os"
	"path/filepath"
	"sync/atomic"
	"testing"

	"rillkey/cmd/rillkey/publish"
	"rillkey/scoring/visit"
	"rillkey/scoring/visit/visittest"
)

// Whatever room there is, each visit is read and replayed once for all pages, tables and
// archives, and these are the same; one whose place another visit obscures is, too, but where
// the label of a sample names the place and another has to stand for it.
func TestEachVisitIsReadAndReplayedOnce(t *testing.T) {
	c := invented(6, 3)
	names := c.names()
	for _, name := range names {
		planted(c[name])
	}
	secret, other := c[names[0]], c[names[1]]
	labelled := c[names[2]]
	secret.Header.Obscured = true
	for _, v := range []*visit.Visit{secret, other, labelled} {
		v.Header.Site = "Old Weir"
	}
	entries := 0
	for i, e := range labelled.Events {
		if s, ok := e.Body.(visit.Sample); ok && s.Label == "Zebulon-net" {
			s.Label = "old-weir-4"
			labelled.Events[i].Body = s
		}
		if id, ok := e.Body.(visit.Identification); ok && id.Sample == "Zebulon-net" {
			id.Sample = "old-weir-4"
			labelled.Events[i].Body = id
		}
	}
	for _, v := range c {
		entries += len(v.Events)
	}
	var first map[string]string
	for _, row := range []struct {
		why  string
		room int
	}{{"room for all", entries}, {"room for a third", entries / 3}, {"room for none", 0}} {
		restore := publish.KeepInMemory(row.room)
		dir := filepath.Join(t.TempDir(), "site")
		o := c.options(dir)
		var read atomic.Int64
		from := o.Visits.Read
		o.Visits.Read = func(name string) (*visit.Visit, error) { read.Add(1); return from(name) }
		run := func(what string, want int64) {
			t.Helper()
			read.Store(0)
			before, _ := visittest.Replays()
			c.publishWith(t, o)
			after, _ := visittest.Replays()
			if read.Load() != want || after-before != want {
				t.Errorf("%s, %s: %d visits read and %d replays, not %d", row.why, what, read.Load(), after-before, want)
			}
		}
		run("all", int64(len(c))+1) // the labelled one as what it says itself, and as the site has it
		made := tree(t, dir)
		if first == nil {
			first = made
		} else if !maps.Equal(first, made) {
			t.Errorf("%s: another site", row.why)
		}
		run("nothing new", 0)
		if err := os.RemoveAll(dir); err != nil {
			t.Fatal(err)
		}
		run("from what is remembered", int64(len(c)))
		if again := tree(t, dir); !maps.Equal(first, again) {
			t.Errorf("%s: made of what was remembered it is another site", row.why)
		}
		left, err := filepath.Glob(filepath.Join(filepath.Dir(dir), ".rillkey*"))
		if err != nil || len(left) > 0 {
			t.Errorf("%s: left behind: %v, %v", row.why, left, err)
		}
		restore()
	}
}
