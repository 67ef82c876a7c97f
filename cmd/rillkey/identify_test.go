package main

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"time"

	"rillkey/couplets"
	"rillkey/taxa"
)

// fields are what 'identify --json' prints as agreed; more may be added, none
// renamed.
var fields = []string{"taxon", "rank", "scientific", "common", "class", "confidence", "path", "also", "doubts", "questions"}

// call runs the program without a terminal and without files.
func call(t *testing.T, args ...string) (status int, stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	status = run(args, world{
		in: strings.NewReader(""), out: &out, err: &errs, width: 80, random: bytes.NewReader(make([]byte, 1<<12)),
		now: func() time.Time { return time.Date(2026, 5, 16, 12, 0, 0, 0, time.UTC) },
		env: func(string) string { return "" },
	})
	return status, out.String(), errs.String()
}

func embedded(t *testing.T) (*couplets.Sound, *taxa.Catalog) {
	t.Helper()
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	sound, err := couplets.Load(couplets.Embedded(), couplets.DefaultName, couplets.DefaultName, catalog)
	if err != nil {
		t.Fatal(err)
	}
	return sound, catalog
}

// Every lead of the key is taken once, on the way to some end point, and every
// end point is reached: the JSON must name it with all that was agreed.
func TestEveryLeadLeadsToItsEnd(t *testing.T) {
	sound, catalog := embedded(t)
	reached := map[string]bool{}
	for _, path := range pathsOverEveryLead(sound) {
		end := path[len(path)-1]
		answers := path[:len(path)-1]
		status, stdout, stderr := call(t, "identify", "--no-save", "--json", "--answers", strings.Join(answers, ","))
		if status != statusDone || stderr != "" {
			t.Fatalf("%v ends with %d: %s", answers, status, stderr)
		}
		var got map[string]any
		if err := json.Unmarshal([]byte(stdout), &got); err != nil {
			t.Fatalf("%v: %v in %s", answers, err, stdout)
		}
		for _, f := range fields {
			if _, ok := got[f]; !ok {
				t.Errorf("%v: no field %q", answers, f)
			}
		}
		taxon := catalog.Taxon(end)
		want := map[string]any{"taxon": end, "rank": taxon.Rank, "scientific": taxon.Scientific, "class": string(taxon.Class), "questions": float64(len(answers))}
		for f, v := range want {
			if got[f] != v {
				t.Errorf("%v: %s is %v, want %v", answers, f, got[f], v)
			}
		}
		if c := got["confidence"].(float64); c <= 0 || c > 1 {
			t.Errorf("%v: confidence %v", answers, c)
		}
		reached[end] = true
	}
	for _, e := range sound.Ends {
		if !reached[e.ID] {
			t.Errorf("no path was walked to %s", e.ID)
		}
	}
	t.Logf("%d end points", len(reached))
}

// pathsOverEveryLead gives paths that together take every lead; the last element
// of each is the taxon it ends in. It knows nothing but the couplets.
func pathsOverEveryLead(sound *couplets.Sound) [][]string {
	to := map[string][]string{sound.Start: {}}
	for queue := []string{sound.Start}; len(queue) > 0; queue = queue[1:] {
		c := sound.Couplet(queue[0])
		for _, l := range c.Leads {
			if _, known := to[l.To]; l.To != "" && !known {
				to[l.To] = append(slices.Clone(to[c.ID]), c.ID+l.Letter)
				queue = append(queue, l.To)
			}
		}
	}
	var paths [][]string
	for i := range sound.Couplets {
		c := &sound.Couplets[i]
		for _, l := range c.Leads {
			path := append(slices.Clone(to[c.ID]), c.ID+l.Letter)
			for l.Taxon == "" {
				next := sound.Couplet(l.To)
				l = next.Leads[0]
				path = append(path, next.ID+l.Letter)
			}
			paths = append(paths, append(path, l.Taxon))
		}
	}
	return paths
}

func TestIdentifyWithoutAnAnswer(t *testing.T) {
	for _, row := range []struct {
		why    string
		args   []string
		status int
		want   string
	}{
		{"what fits several kinds has no name", []string{"--answers", "1a"}, statusCannotSay, "Set aside for a second look"},
		{"what fits nothing says so", []string{"--observe", "legs=0", "--observe", "tails=3", "--observe", "wings=hard"}, statusCannotSay, "Nothing in this key fits all the answers."},
		{"can't tell is an answer", []string{"--answers", "1?"}, statusCannotSay, "Set aside for a second look"},
	} {
		status, stdout, stderr := call(t, append([]string{"identify", "--no-save"}, row.args...)...)
		if status != row.status || !strings.Contains(stdout, row.want) {
			t.Errorf("%s: status %d\n%s%s", row.why, status, stdout, stderr)
		}
	}
}

// A length is held against that of grown animals; only a longer one speaks
// against the name.
func TestLengthIsJudgedOneSidedly(t *testing.T) {
	sound, catalog := embedded(t)
	var perlid *taxa.Taxon
	for _, e := range sound.Ends {
		if e.ID == "perlidae" {
			perlid = e
		}
	}
	if perlid == nil || catalog.Taxon("perlidae") != perlid {
		t.Fatal("no perlidae in the key")
	}
	path := ""
	for _, p := range pathsOverEveryLead(sound) {
		if p[len(p)-1] == "perlidae" {
			path = strings.Join(p[:len(p)-1], ",")
		}
	}
	for _, row := range []struct{ length, want string }{
		{"2", "it may be young"},
		{"20", "fits a grown one"},
		{"200", "the name may be wrong"},
		{"4 in", "the name may be wrong"},
	} {
		_, stdout, _ := call(t, "identify", "--no-save", "--answers", path, "--length", row.length)
		if !strings.Contains(strings.Join(strings.Fields(stdout), " "), row.want) {
			t.Errorf("%s mm: %s", row.length, stdout)
		}
	}
}

func TestDemoShowsBothVisits(t *testing.T) {
	status, stdout, stderr := call(t, "demo")
	if status != statusDone || stderr != "" {
		t.Fatalf("status %d: %s", status, stderr)
	}
	for _, want := range []string{
		"1. A visit with all its samples", "3 taken of 3 required", "by 1a", "2. A visit that the weather cut short",
		"2 taken of 7 required", "no grade", "without being a grade", "says nothing on drinking or swimming", "not scored", "set aside for a second look",
	} {
		if !strings.Contains(strings.Join(strings.Fields(stdout), " "), want) {
			t.Errorf("the demo does not say %q", want)
		}
	}
	again, second, _ := call(t, "demo")
	if again != status || second != stdout {
		t.Error("the demo differs from one showing to the next")
	}
}
