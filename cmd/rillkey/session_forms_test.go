//go:build unix

package main

import (
	"fmt"
	"math"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"rillkey/scoring/visit"
)

// plainOrNot are the two ways to be asked.
var plainOrNot = [][]string{nil, {"--plain"}}

// A visit begun and sampled at a terminal: every caution comes by before it is
// asked whether they were read, a site that comes in one burst is kept whole, an
// area is taken as people write it, and the names of the beginning are offered.
func TestAVisitTypedAtATerminal(t *testing.T) {
	t.Parallel()
	for _, size := range [][2]uint16{{24, 80}, {20, 40}} {
		for _, plain := range plainOrNot {
			t.Run(fmt.Sprint(size, plain), func(t *testing.T) {
				t.Parallel()
				dir := t.TempDir()
				p := sit(t, dir, size[0], size[1], append([]string{"visit", "begin", "--visit", "a.visit.toml"}, plain...)...)
				first := enter
				if plain != nil {
					first = "1" + enter
				}
				p.follows([]step{{"In which region?", first}}, plain)
				for _, c := range cautionsRead(t, dir) {
					if p.Reads(c, "Page ") == 1 { // it is not on this page, whose end was seen
						p.types(enter)
						p.sees(c)
					}
				}
				p.types(enter)
				protocol := first
				p.follows([]step{
					{"Were these read to everybody?", "y"}, {"Which place?", "left bank by the mill, south end" + enter},
					{"Which day?", enter}, {"Who takes part?", "Oona, Mags" + enter}, {"By which protocol?", protocol},
					{"Where is it on the map?", enter}, {"Saved: ", ""},
				}, plain)
				if status := p.ends(); status != statusDone {
					t.Fatalf("ends with %d", status)
				}
				p = sit(t, dir, size[0], size[1], append([]string{"visit", "sample"}, plain...)...)
				p.follows([]step{
					{"called?", enter}, {"Where was it taken?", protocol}, {"How much stream bed", "2ft x 2ft" + enter},
					{"How much of it", "0,25" + enter}, {"How was it taken?", enter}, {"Mags", "2" + enter}, {"Saved: ", ""},
				}, plain)
				v, err := visit.Read(filepath.Join(dir, "a.visit.toml"))
				if err != nil || v.Header.Site != "left bank by the mill, south end" {
					t.Fatalf("%q, %v", v.Header.Site, err)
				}
				s := v.Tally().Samples[0]
				if math.Abs(s.Area-0.3716) > 1e-4 || s.Fraction != 0.25 || s.Who != "Mags" {
					t.Errorf("%+v", s)
				}
			})
		}
	}
}

// cautionsRead are the cautions of the usual region as the program says them. What this
// process says depends on the tests that run beside this one: they share its language.
func cautionsRead(t *testing.T, dir string) []string {
	t.Helper()
	said := program(t, dir, statusMisused, "visit", "begin", "--region", usualRegion, "--json")
	cautions := numbered.FindAllString(said, -1)
	if len(cautions) < 10 {
		t.Fatalf("there are %d cautions: %s", len(cautions), said)
	}
	for i, c := range cautions {
		cautions[i] = strings.TrimSpace(c)
	}
	return cautions
}

var numbered = regexp.MustCompile(`(?m)^ *\d+\. .*$`)

// follows goes through steps. Line by line every answer is sent off with Enter.
func (p *typist) follows(steps []step, plain []string) {
	p.t.Helper()
	for _, s := range steps {
		if plain != nil && s.types != "" && !strings.HasSuffix(s.types, enter) {
			s.types += enter
		}
		p.sees(s.sees)
		p.types(s.types)
	}
}
