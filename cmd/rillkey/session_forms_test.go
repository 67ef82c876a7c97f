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

// In every form what is typed after an answer was refused takes its place, at both sizes
// and line by line: beginning, sampling, conditions, naming, correcting, sorting at the
// end, and what an expert said.
func TestARefusedAnswerIsReplacedInEveryForm(t *testing.T) {
	t.Parallel()
	everyWay(t, func(t *testing.T, sit func(string, ...string) *typist, plain []string) {
		dir, first := t.TempDir(), enter
		if plain != nil {
			first = "1" + enter
		}
		p := sit(dir, "visit", "begin", "--visit", "a.visit.toml", "--region", usualRegion, "--cautions-read", "--site", "Ford",
			"--protocol", "riffle-three", "--date", "2026-02-30", "--at", "44.1,-72.9")
		p.ends() // a flag is refused without a question
		p = sit(dir, "visit", "begin", "--visit", "a.visit.toml")
		p.follows([]step{{"In which region?", first}}, plain)
		for _, c := range cautionsRead(t, dir) {
			if p.Reads(c, "Page ") == 1 {
				p.types(enter)
				p.sees(c)
			}
		}
		p.types(enter)
		p.follows([]step{
			{"Were these read to everybody?", "y"}, {"Which place?", "Ford" + enter},
			{"Which day?", "30.2.2026" + enter}, {"is no day", "2026-05-16" + enter}, {"Who takes part?", "Oona, Mags" + enter},
			{"By which protocol?", first}, {"Where is it on the map?", enter}, {"Saved: ", ""},
		}, plain)
		p.ends()
		p = sit(dir, "visit", "sample")
		p.follows([]step{
			{"called?", enter}, {"Where was it taken?", first}, {"How much stream bed", "broad" + enter}, {"is not", "0,37" + enter},
			{"How much of it", "most" + enter}, {"is not a share", "0,25" + enter}, {"How was it taken?", enter}, {"Mags", "2" + enter},
			{"Saved: ", ""},
		}, plain)
		p.ends()
		p = sit(dir, "visit", "conditions")
		p.follows([]step{{"Begun at", "noon" + enter}, {"noon", "9.30" + enter}, {"Ended at", "\x03"}}, plain)
		p.ends()
		p = sit(dir, "identify")
		p.follows(append(crayfish(t), []step{
			{"How long is it", "long" + enter}, {"long", "40" + enter}, {"Add it to the visit?", "y"},
			{"How many look the same?", "x7" + enter}, {"is not a count", "7" + enter}, {"Which sample", enter}, {"tray cell", enter},
			{"Mags", "2" + enter}, {"Saved in a.visit.toml", ""}, {"Another creature?", "n"},
		}...), plain)
		p.ends()
		v, err := visit.Read(filepath.Join(dir, "a.visit.toml"))
		if err != nil {
			t.Fatal(err)
		}
		tally := v.Tally()
		if s := tally.Samples[0]; v.Header.Date != "2026-05-16" || math.Abs(s.Area-0.37) > 1e-9 || s.Fraction != 0.25 {
			t.Errorf("%s, %+v", v.Header.Date, s)
		}
		if r := tally.Records[0]; r.Count != 7 || r.Length != 40 {
			t.Errorf("%+v", r)
		}
		correctedAfterARefusal(t, sit, plain, dir, tally.Records[0].ID)
	})
}

// Who goes back from what follows from an answer is asked for that answer again, and what
// was chosen there stands, in a correction and when a sample is sorted; a sample that there is not is refused where it is typed.
func TestACorrectionGoesBackToWhatItCorrects(t *testing.T) {
	t.Parallel()
	everyWay(t, func(t *testing.T, sit func(string, ...string) *typist, plain []string) {
		dir := t.TempDir()
		begunWithConditions(t, dir, "ph=7.2 with paper strips")
		program(t, dir, statusDone, "visit", "sample", "--habitat", "riffle")
		program(t, dir, statusDone, "visit", "add", "scud", "5")
		const up, below, stands = "\x1b[A", "\x1b[B", enter
		back, first, second, third, above := "\x1b", enter, below+enter, below+below+enter, up+enter
		if plain != nil {
			back, first, second, third, above = "<"+enter, "1"+enter, "2"+enter, "3"+enter, "1"+enter
		}
		p := sit(dir, "visit", "amend")
		p.follows([]step{
			{"Which entry is wrong?", second}, {"pH: what is right?", back}, {"Which entry is wrong?", stands},
			{"pH: what is right?", back}, {"Which entry is wrong?", above},
			{"What is wrong with it?", second}, {"What is right?", back}, {"What is wrong with it?", stands},
			{"What is right?", "3" + enter},
			{"Why?", "two twice" + enter}, {"Who corrects it?", enter}, {"Saved", ""},
		}, plain)
		p.ends()
		p = sit(dir, "visit", "amend")
		p.follows([]step{
			{"Which entry is wrong?", first},
			{"What is wrong with it?", third}, {"What is right?", "9" + enter}, {"here is no sample", "\x03"},
		}, plain)
		p.ends()
		p = sit(dir, "visit", "sorted")
		p.follows([]step{
			{"how far is it sorted?", second}, {"was sorted?", back}, {"how far is it sorted?", above}, {"Saved", ""},
		}, plain)
		p.ends()
		v, err := visit.Read(filepath.Join(dir, "a.visit.toml"))
		if err != nil {
			t.Fatal(err)
		}
		if s := v.Tally().Samples[0]; s.State != visit.Sorted || s.Fraction != 1 {
			t.Errorf("%+v", s)
		}
		if r := v.Tally().Records[0]; r.Count != 3 || v.Tally().Conditions()["ph"].Number != 7.2 {
			t.Errorf("%+v, %+v", r, v.Tally().Conditions())
		}
	})
}

// correctedAfterARefusal corrects the one record, closes the visit and enters what an
// expert said, with a first answer that is refused each time.
func correctedAfterARefusal(t *testing.T, sit func(string, ...string) *typist, plain []string, dir, record string) {
	t.Helper()
	entry, count, part := enter, "\x1b[B"+enter, enter // a part is what was said of it
	if plain != nil {
		entry, count, part = "1"+enter, "2"+enter, "2"+enter
	}
	p := sit(dir, "visit", "amend")
	p.follows([]step{
		{"Which entry is wrong?", entry}, {"What is wrong with it?", count}, {"What is right?", "xx" + enter}, {"xx", "9" + enter},
		{"Why?", "counted again" + enter}, {"Who corrects it?", enter}, {"Saved", ""},
	}, plain)
	p.ends()
	p = sit(dir, "recheck", "expert")
	p.follows([]step{
		{"Which record?", "zzz" + enter}, {"no animals", record + enter}, {"What is it?", "xyzzy" + enter}, {"xyzzy", "crayfish" + enter},
		{"Who determined it?", "Dr Wren" + enter}, {"On which day?", "30.2." + enter}, {"is no day", "2026-06-20" + enter},
		{"specimen kept?", enter}, {"Saved", ""},
	}, plain)
	p.ends()
	p = sit(dir, "visit", "sorted")
	p.follows([]step{
		{"how far is it sorted?", part}, {"was sorted?", "half" + enter}, {"is not a share", "1/4" + enter}, {"Saved", ""},
	}, plain)
	p.ends()
	v, err := visit.Read(filepath.Join(dir, "a.visit.toml"))
	if err != nil {
		t.Fatal(err)
	}
	tally := v.Tally()
	if r := tally.Records[0]; r.Count != 9 || r.ExpertOn != "2026-06-20" {
		t.Errorf("%+v", r)
	}
	if s := tally.Samples[0]; s.State != visit.Sorted || s.Fraction != 0.25 {
		t.Errorf("%+v", s)
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
