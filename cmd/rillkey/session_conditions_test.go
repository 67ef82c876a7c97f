//go:build unix

package main

import (
	"fmt"
	"strings"
	"testing"

	"rillkey/scoring/visit"
)

// sizes are those of a terminal, rows before columns.
var sizes = [][2]uint16{{24, 80}, {20, 40}}

// A condition is corrected by hand as an animal is: chosen among what can be wrong, typed
// over, with a reason, in the form and line by line.
func TestAConditionIsCorrectedAtATerminal(t *testing.T) {
	t.Parallel()
	for _, size := range sizes {
		for _, plain := range plainOrNot {
			t.Run(fmt.Sprint(size, plain), func(t *testing.T) {
				t.Parallel()
				dir := t.TempDir()
				begunWithConditions(t, dir, "ph=7.2 with paper strips", "sky=clear")
				first, second := enter, "\x1b[B"+enter
				if plain != nil {
					first, second = "1"+enter, "2"+enter
				}
				correct := func(which, field, right string) {
					t.Helper()
					p := sit(t, dir, size[0], size[1], append([]string{"visit", "amend"}, plain...)...)
					p.follows([]step{{"Which entry is wrong?", which}, {field, right}, {"Why?", "looked again" + enter},
						{"Who corrects it?", enter}, {"Saved: ", ""}}, plain)
					if status := p.ends(); status != statusDone {
						t.Fatalf("ends with %d", status)
					}
				}
				correct(second, "pH: what is right?", "7.6"+enter)
				correct(first, "Sky: what is right?", second)
				v, err := visit.Read(dir + "/a.visit.toml")
				if err != nil {
					t.Fatal(err)
				}
				noted := v.Tally().Conditions()
				if got := noted["ph"]; got.Number != 7.6 || got.Instrument != "paper strips" {
					t.Errorf("pH is %+v", got)
				}
				if got := noted["sky"].Text; got == "clear" || got == "" {
					t.Errorf("the sky is %q", got)
				}
			})
		}
	}
}

// Who leaves in the middle is told once what is saved and what is not.
func TestLeavingConditionsInTheMiddle(t *testing.T) {
	t.Parallel()
	const ctrlC = "\x03"
	for _, row := range []struct {
		begun, says, not string
	}{
		{"09:30", "left; this part is not saved, what was answered before it is", "nothing was saved"},
		{"", "left; nothing was saved by this step", "answered before"},
	} {
		for _, plain := range plainOrNot {
			t.Run(fmt.Sprint(row.begun, plain), func(t *testing.T) {
				t.Parallel()
				dir := t.TempDir()
				begunWithConditions(t, dir, "sky=clear", "rain=none", "since-high-water=9", "since-dry=9", "air-temperature=9")
				p := sit(t, dir, 24, 80, append([]string{"visit", "conditions"}, plain...)...)
				p.follows([]step{{"Begun at", row.begun + enter}, {"Ended at", enter}, {"Water level", ""}}, plain)
				p.types(ctrlC)
				status, all := p.Ends()
				said := strings.Join(strings.Fields(all), " ")
				if status != statusCannotSay || !strings.Contains(said, row.says) || strings.Contains(said, row.not) {
					t.Errorf("ends with %d: %s", status, said)
				}
			})
		}
	}
}

// begunWithConditions is a visit in a folder with some conditions noted.
func begunWithConditions(t *testing.T, dir string, set ...string) {
	t.Helper()
	program(t, dir, statusDone, "visit", "begin", "--site", "Mill", "--date", "2026-05-16", "--protocol", "riffle-three", "--people",
		"Oona, Mags", "--cautions-read", "--visit", "a.visit.toml")
	args := []string{"visit", "conditions"}
	for _, one := range set {
		args = append(args, "--set", one)
	}
	program(t, dir, statusDone, args...)
}
