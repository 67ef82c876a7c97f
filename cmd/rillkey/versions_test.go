package main

import (
	"bytes"
	"crypto/rand"
	"fmt"
	"maps"
	mrand "math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"rillkey/scoring/visit"
)

// spoken is what a command writes to standard output and to standard error.
func spoken(args ...string) (out, complaints string, status int) {
	var o, e bytes.Buffer
	status = run(args, world{stdin: strings.NewReader(""), stdout: &o, stderr: &e, now: time.Now, random: rand.Reader,
		env: func(string) string { return "" }, width: 80, height: 24})
	return o.String(), e.String(), status
}

// headline is the line of a grade with its word and its value. Chances of doubtful
// names are drawn, and in another order where taxa have other ids.
func headline(grade string) string {
	for line := range strings.Lines(grade) {
		if strings.HasPrefix(line, "Our first index:") {
			return line
		}
	}
	return "no grade at all: " + grade
}

// edited writes a copy of a region's folder with some texts of its files replaced.
func edited(t *testing.T, from, to string, edits map[string][]string) {
	t.Helper()
	if err := os.CopyFS(to, os.DirFS(from)); err != nil {
		t.Fatal(err)
	}
	for name, pairs := range edits {
		file := filepath.Join(to, filepath.FromSlash(name))
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for i := 0; i < len(pairs); i += 2 {
			if !bytes.Contains(text, []byte(pairs[i])) {
				t.Fatalf("%s holds no %q", name, pairs[i])
			}
		}
		if err := os.WriteFile(file, []byte(strings.NewReplacer(pairs...).Replace(string(text))), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if out, complaints, status := spoken("region", "check", to); status != statusDone {
		t.Fatal(out, complaints)
	}
}

// shown is what somebody sees on each animal of the first version.
var shown = map[string][]string{"mayfly": {"legs=6", "tails=3"}, "stonefly": {"legs=6", "tails=2"}, "snail": {"legs=0",
	"shell=coiled"}, "worm": {"legs=0", "shell=none"}}

// keyedVisit begins a visit with a region, and keys animals that chance drew.
func keyedVisit(t *testing.T, region, file string, seed uint64) {
	t.Helper()
	r := mrand.New(mrand.NewPCG(seed, 18))
	do := func(args ...string) {
		if out, complaints, status := spoken(append(args, "--region", region, "--visit", file)...); status != statusDone &&
			status != statusCannotSay {
			t.Fatal(args, out, complaints)
		}
	}
	do("visit", "begin", "--site", "Brook", "--date", "2026-05-16", "--people", "Ann", "--protocol", "first-look", "--cautions-read")
	for n := range 3 {
		do("visit", "sample", "--habitat", "riffle", "--label", fmt.Sprint(n+1))
	}
	animals := slices.Sorted(maps.Keys(shown))
	left := r.IntN(8)
	animals = slices.Delete(animals, min(left, len(animals)), min(left+1, len(animals)))
	for i, animal := range animals {
		args := []string{"identify", "--sample", fmt.Sprint(1 + i%3), "--count", fmt.Sprint(40 + r.IntN(60))}
		for _, see := range shown[animal] {
			args = append(args, "--observe", see)
		}
		do(args...)
	}
	for n := range 3 {
		do("visit", "sorted", "--sample", fmt.Sprint(n+1))
	}
	do("visit", "finish")
}

// A season keyed with the first version of a region and graded with the second has
// the grades that it had, or a line that says what changed.
func TestASeasonIsGradedWithTheNextVersion(t *testing.T) {
	dir := t.TempDir()
	first := filepath.Join(dir, "first")
	if out, complaints, status := spoken("region", "new", first); status != statusDone {
		t.Fatal(out, complaints)
	}
	visits := 3
	if n, err := strconv.Atoi(os.Getenv("RILLKEY_SEASON")); err == nil {
		visits = n
	}
	var files, before []string
	for i := range visits {
		file := filepath.Join(dir, fmt.Sprint(i)+".visit.toml")
		keyedVisit(t, first, file, uint64(i))
		out, complaints, status := spoken("grade", "--region", first, "--visit", file)
		if status != statusDone && status != statusCannotSay {
			t.Fatal(complaints)
		}
		files, before = append(files, file), append(before, out)
	}
	withValue := 0
	for _, out := range before {
		if head := headline(out); !strings.Contains(head, "no grade") {
			withValue++
		}
	}
	if 2*withValue < visits {
		t.Fatalf("only %d of %d visits have a value", withValue, visits)
	}
	if keyed, err := visit.Read(files[0]); err != nil || len(keyed.Tally().Records) == 0 || len(keyed.Tally().Records[0].Path) == 0 {
		t.Fatal("the visits were not keyed", err)
	}
	const renamed = `taxon.snail`
	for _, row := range []struct {
		why   string
		edits map[string][]string
		says  string // where the grade may differ, what it then says
	}{
		{"renumbered", map[string][]string{"key.toml": {`couplet.2`, `couplet.7`, `to     = "2"`, `to     = "7"`}}, ""},
		{"renamed", map[string][]string{
			"taxa/taxa.toml": {"[" + renamed + "]", "[taxon.gastropod]\nwas = [\"snail\"]", "[" + renamed + ".",
				"[taxon.gastropod."},
			"key.toml":                 {`"snail"`, `"gastropod"`, "snail    =", "gastropod ="},
			"region.toml":              {`"snail"`, `"gastropod"`},
			"schemes/first-index.toml": {`["snail"]`, `["gastropod"]`},
		}, ""},
		{"split", map[string][]string{
			"taxa/taxa.toml": {"[taxon.worm]\n",
				"[taxon.earthworm]\nrank = \"group\"\nscientific = \"Lumbricidae\"\nparent = \"worm\"\nsource = \"memory\"\n" +
					"[taxon.leech]\nrank = \"group\"\nscientific = \"Hirudinea\"\nparent = \"worm\"\nsource = \"memory\"\n[taxon.worm]\n"},
			"key.toml":    {`taxon  = "worm"`, `taxon  = ["earthworm", "leech"]`, "worm     = 2", "earthworm = 1\nleech = 1"},
			"region.toml": {`"worm"`, `"earthworm", "leech"`},
		}, ""},
		{"merged", map[string][]string{
			"taxa/taxa.toml": {"[taxon.stonefly]\n", "[taxon.riverfly]\nwas = [\"stonefly\"]\n", "[taxon.stonefly.",
				"[taxon.riverfly.", "mistaken.stonefly", "mistaken.riverfly"},
			"key.toml":    {`"stonefly"`, `"riverfly"`, "stonefly =", "riverfly ="},
			"region.toml": {`"stonefly"`, `"riverfly"`},
			"schemes/first-index.toml": {`["mayfly"]`, `["mayfly", "riverfly"]`,
				"[kind.stonefly]\nlabel = \"stonefly\"\ngroup = \"sensitive\"\ntaxa  = [\"stonefly\"]\n", ""},
		}, "begun with other files than those in use; what differs: "},
	} {
		t.Run(row.why, func(t *testing.T) {
			next := filepath.Join(t.TempDir(), "first")
			edited(t, first, next, row.edits)
			differ := 0
			for i, file := range files {
				out, complaints, _ := spoken("grade", "--region", next, "--visit", file)
				if headline(out) == headline(before[i]) {
					continue
				}
				differ++
				if row.says == "" || !strings.Contains(complaints, row.says) {
					t.Fatalf("before:\n%s\nnow:\n%s\n%s", before[i], out, complaints)
				}
			}
			t.Logf("%d of %d visits are graded otherwise", differ, len(files))
		})
	}
}
