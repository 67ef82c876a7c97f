//go:build unix

package main

import (
	"fmt"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/scoring/visit"
)

// crayfish are the steps that name one, as typed on a screen.
func crayfish(t *testing.T) []step {
	t.Helper()
	m := keytest.Model(t)
	var steps []step
	for i, k := range keysTyped(t, m, truthfully(t, m, key.DefaultOptions(), "astacidea", nil).Path()) {
		steps = append(steps, step{fmt.Sprintf("Question %d", i+1), k})
	}
	return steps
}

// everyWay runs a test at both sizes of terminal, on screens and line by line.
func everyWay(t *testing.T, run func(t *testing.T, sit func(dir string, args ...string) *typist, plain []string)) {
	for _, size := range [][2]uint16{{24, 80}, {20, 40}} {
		if testing.Short() && size[1] == 40 {
			continue
		}
		for _, plain := range plainOrNot {
			if testing.Short() && plain != nil {
				continue
			}
			t.Run(fmt.Sprint(size, plain), func(t *testing.T) {
				t.Parallel()
				run(t, func(dir string, args ...string) *typist {
					return sit(t, dir, size[0], size[1], append(args, plain...)...)
				}, plain)
			})
		}
	}
}

// Without a sample the sample comes before the first question; the questions say
// where the animal goes; a count typed over the 1 that stands there is the count.
func TestTheSampleComesBeforeTheQuestions(t *testing.T) {
	t.Parallel()
	everyWay(t, func(t *testing.T, sit func(string, ...string) *typist, plain []string) {
		dir, file := begun(t)
		p := sit(dir, "identify")
		habitat := enter
		if plain != nil {
			habitat = "riffle" + enter
		}
		p.follows([]step{
			{"Alder Run has no sample yet", ""}, {"called?", enter}, {"Where was it taken?", habitat}, {"How much stream bed", enter},
			{"How much of it", enter}, {"How was it taken?", enter}, {"Who took it?", enter}, {"Alder Run, sample 1, 0 animals", ""},
		}, plain)
		p.follows(append(crayfish(t), []step{
			{"How long is it", enter}, {"Add it to the visit?", "y"}, {"How many look the same?", "7" + enter},
			{"Which sample", enter}, {"tray cell", enter}, {"Bo", "2" + enter}, {"Saved in a.visit.toml", ""}, {"Another creature?", "y"},
			{"Alder Run, sample 1, 7 animals", ""}, {"Question 1", "q"},
		}...), plain)
		if plain == nil {
			p.types("q")
		}
		if status := p.ends(); status != statusCannotSay {
			t.Errorf("ends with %d", status)
		}
		v, err := visit.Read(file)
		if err != nil {
			t.Fatal(err)
		}
		if r := v.Tally().Records[0]; r.Count != 7 || r.Who != "Bo" || r.Taxon != "astacidea" {
			t.Errorf("%+v", r)
		}
	})
}

// A finished visit is opened again before the first question, or stays as it is
// and every question says that nothing is saved.
func TestAFinishedVisitIsSaidFirst(t *testing.T) {
	t.Parallel()
	everyWay(t, func(t *testing.T, sit func(string, ...string) *typist, plain []string) {
		dir, file := begun(t)
		program(t, dir, statusDone, "visit", "sample", "--habitat", "riffle")
		program(t, dir, statusDone, "visit", "finish")
		p := sit(dir, "identify")
		p.follows([]step{{"Open it again?", "n"}, {"Nothing is saved: the visit is finished", ""}, {"Question 1", "q"}}, plain)
		if plain == nil {
			p.types("q")
		}
		p.ends()
		p = sit(dir, "visit", "sample")
		p.follows([]step{{"Open it again?", "n"}, {"the visit stays finished", ""}}, plain)
		if status := p.ends(); status != statusCannotSay {
			t.Errorf("ends with %d", status)
		}
		p = sit(dir, "identify")
		p.follows([]step{{"Open it again?", "y"}, {"is open again", ""}, {"Alder Run, sample 1, 0 animals", "\x03"}}, plain)
		p.ends()
		if v, err := visit.Read(file); err != nil || v.Tally().Finished {
			t.Errorf("still finished (%v)", err)
		}
	})
}

// In a folder without a visit every question says so, and the end does.
func TestAFolderWithoutAVisitIsSaidFirst(t *testing.T) {
	t.Parallel()
	everyWay(t, func(t *testing.T, sit func(string, ...string) *typist, plain []string) {
		p := sit(t.TempDir(), "identify")
		p.sees("Nothing is saved: there is no visit in")
		p.follows(append(crayfish(t), step{"How long is it", enter}, step{"Not saved: there is no visit in this folder", ""},
			step{"Anything more on this animal?", enter}), plain)
		if status := p.ends(); status != statusDone {
			t.Errorf("ends with %d", status)
		}
	})
}

// What cannot be written is said before anything is asked, and so is a file that
// is not there.
func TestNothingIsAskedThatCannotBeSaved(t *testing.T) {
	t.Parallel()
	everyWay(t, func(t *testing.T, sit func(string, ...string) *typist, plain []string) {
		dir, _ := begun(t)
		for _, args := range [][]string{
			{"identify", "--visit", "gone.visit.toml"}, {"identify", "--visit", "."},
			{"visit", "sample", "--visit", "gone.visit.toml"}, {"visit", "amend", "--visit", "gone.visit.toml"},
			{"visit", "begin", "--visit", "a.visit.toml"}, {"visit", "begin", "--visit", "nowhere/a.visit.toml"},
		} {
			p := sit(dir, args...)
			if status := p.ends(); status != statusBadData && status != statusMisused {
				t.Errorf("%v ends with %d", args, status)
			}
			if said := p.all(); strings.Contains(said, "?") || !strings.Contains(said, "rillkey: ") {
				t.Errorf("%v asks:\n%s", args, said)
			}
		}
	})
}

// Typing in a sheet begins with the sample where there is none.
func TestASheetBeginsWithItsSample(t *testing.T) {
	t.Parallel()
	everyWay(t, func(t *testing.T, sit func(string, ...string) *typist, plain []string) {
		dir, _ := begun(t)
		habitat := enter
		if plain != nil {
			habitat = "riffle" + enter
		}
		p := sit(dir, "visit", "enter")
		p.follows([]step{
			{"Alder Run has no sample yet", ""}, {"called?", enter}, {"Where was it taken?", habitat}, {"How much stream bed", enter},
			{"How much of it", enter}, {"How was it taken?", enter}, {"Who took it?", enter}, {"Type the count of each row", "." + enter},
		}, plain)
		p.ends()
	})
}

// Ctrl-C in a sheet keeps what was typed, and says so.
func TestLeavingASheetSaysThatItIsSaved(t *testing.T) {
	t.Parallel()
	everyWay(t, func(t *testing.T, sit func(string, ...string) *typist, plain []string) {
		dir, file := begun(t)
		program(t, dir, statusDone, "visit", "sample", "--habitat", "riffle")
		p := sit(dir, "visit", "enter")
		p.follows([]step{{"1 of 26", "4" + enter}, {"2 of 26", "\x03"}, {"All of it is saved.", ""}}, nil)
		if status := p.ends(); status != statusCannotSay {
			t.Errorf("ends with %d", status)
		}
		v, err := visit.Read(file)
		if err != nil || len(v.Tally().Records) != 1 || v.Tally().Records[0].Count != 4 {
			t.Errorf("%+v, %v", v.Tally().Records, err)
		}
	})
}

// Of several unfinished visits one is chosen before the first question.
func TestSeveralVisitsAreAskedAboutFirst(t *testing.T) {
	t.Parallel()
	everyWay(t, func(t *testing.T, sit func(string, ...string) *typist, plain []string) {
		dir, _ := begun(t)
		program(t, dir, statusDone, "visit", "begin", "--site", "Mill Brook", "--date", "2026-05-16", "--protocol", "riffle-three",
			"--cautions-read", "--visit", "b.visit.toml")
		program(t, dir, statusDone, "visit", "sample", "--habitat", "riffle", "--visit", "b.visit.toml")
		second := "\x1b[B" + enter
		if plain != nil {
			second = "2" + enter
		}
		p := sit(dir, "identify")
		p.follows([]step{{"Which visit does it belong to?", second}, {"Mill Brook, sample 1, 0 animals", "\x03"}}, plain)
		p.ends()
	})
}

var again = regexp.MustCompile(`(?m)^rillkey identify .*--answers.*$`)

// Going away after a name keeps the answers: what is printed saves the animal
// when it is typed.
func TestLeavingAfterANameKeepsTheAnswers(t *testing.T) {
	t.Parallel()
	after := []step{{"Add it to the visit?", "y"}, {"How many look the same?", enter}, {"Which sample", ""}}
	everyWay(t, func(t *testing.T, sit func(string, ...string) *typist, plain []string) {
		for stop := range after {
			if testing.Short() && stop%2 > 0 {
				continue
			}
			dir, file := begun(t)
			program(t, dir, statusDone, "visit", "sample", "--habitat", "riffle")
			p := sit(dir, "identify", "--cell", "B 2")
			p.follows(append(append(crayfish(t), step{"How long is it", "40" + enter}), after[:stop]...), plain)
			p.sees(after[stop].sees)
			p.types("\x03")
			p.sees("this animal is not saved yet")
			if status := p.ends(); status != statusCannotSay {
				t.Errorf("ends with %d", status)
			}
			retyped(t, p, dir, file)
		}
	})
}

// Ctrl-C in the middle of the questions loses no answer: the command that is printed
// asks on where the person left.
func TestLeavingInTheMiddleKeepsTheAnswers(t *testing.T) {
	t.Parallel()
	everyWay(t, func(t *testing.T, sit func(string, ...string) *typist, plain []string) {
		dir, _ := begun(t)
		program(t, dir, statusDone, "visit", "sample", "--habitat", "riffle")
		all, half := crayfish(t), len(crayfish(t))/2
		p := sit(dir, "identify", "--cell", "B2")
		p.follows(all[:half], plain)
		p.sees(all[half].sees)
		p.types("\x03")
		p.sees("To go on from here:")
		if status := p.ends(); status != statusCannotSay {
			t.Errorf("ends with %d", status)
		}
		command := strings.Fields(again.FindString(strings.ReplaceAll(p.all(), "\r", "")))
		if len(command) == 0 {
			t.Fatalf("no command:\n%s", p.all())
		}
		p = sit(dir, command[1:]...)
		p.follows(append(all[half:], step{"How long is it", enter}), plain)
		p.sees("Add it to the visit?")
		p.types("\x03")
		p.sees("this animal is not saved yet")
	})
}

// retyped types the command that the program printed, and looks at the record.
func retyped(t *testing.T, p *typist, dir, file string) {
	t.Helper()
	command := strings.TrimSpace(again.FindString(strings.ReplaceAll(p.all(), "\r", "")))
	cmd := exec.Command("sh", "-c", command)
	cmd.Dir = dir
	if out, err := cmd.CombinedOutput(); err != nil || command == "" {
		t.Fatalf("%q: %v\n%s", command, err, out)
	}
	v, err := visit.Read(file)
	if err != nil || len(v.Tally().Records) != 1 {
		t.Fatalf("%d records, %v", len(v.Tally().Records), err)
	}
	if r := v.Tally().Records[0]; r.Taxon != "astacidea" || r.Cell != "B 2" || r.Length != 40 {
		t.Errorf("%+v", r)
	}
}

// Where saving fails at the end nothing that was answered is lost: it can be
// tried once more, and else the command is printed.
func TestAnAnimalThatCannotBeSavedIsNotLost(t *testing.T) {
	t.Parallel()
	everyWay(t, func(t *testing.T, sit func(string, ...string) *typist, plain []string) {
		dir, file := begun(t)
		program(t, dir, statusDone, "visit", "sample", "--habitat", "riffle")
		p := sit(dir, "identify")
		p.follows(append(crayfish(t), []step{
			{"How long is it", "40" + enter}, {"Add it to the visit?", "y"}, {"How many look the same?", "3" + enter},
			{"Which sample", enter}, {"tray cell", "B 2" + enter}, {"Who looked?", ""},
		}...), plain)
		if err := os.Rename(file, file+".gone"); err != nil {
			t.Fatal(err)
		}
		p.types("Ann" + enter)
		p.follows([]step{
			{"there is no such visit file", ""}, {"Try to save it once more?", "y"},
			{"there is no such visit file", ""}, {"Try to save it once more?", "n"},
			{"it could not be written; this animal is not saved yet", ""},
		}, plain)
		if status := p.ends(); status != statusBadData {
			t.Errorf("ends with %d", status)
		}
		if err := os.Rename(file+".gone", file); err != nil {
			t.Fatal(err)
		}
		retyped(t, p, dir, file)
		v, err := visit.Read(file)
		if err != nil {
			t.Fatal(err)
		}
		if r := v.Tally().Records[0]; r.Count != 3 || r.Who != "Ann" || r.Sample != "1" {
			t.Errorf("%+v", r)
		}
	})
}
