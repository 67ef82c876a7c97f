//go:build unix

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"rillkey/cmd/rillkey/terminal/ttytest"
	"rillkey/key"
	"rillkey/key/keytest"
)

// typist sits at a real pseudo-terminal.
type typist struct {
	*ttytest.Session
	t *testing.T
}

// sit starts the program on a pseudo-terminal of this size, in dir.
func sit(t *testing.T, dir string, rows, cols uint16, args ...string) *typist {
	t.Helper()
	return sitAt(t, "xterm-256color", dir, rows, cols, args...)
}

// sitAt is sit at a terminal of this kind.
func sitAt(t *testing.T, kind, dir string, rows, cols uint16, args ...string) *typist {
	t.Helper()
	cmd := exec.Command("rillkey", args...)
	cmd.Dir, cmd.Env = dir, append(os.Environ(), "TERM="+kind, "NO_COLOR=", "COLORFGBG=")
	return &typist{ttytest.Start(t, cmd, int(cols), int(rows)), t}
}

// sees waits until the screen has shown the words since the last ones waited for.
// Where marks are offered before the first question, nothing of them strikes.
func (p *typist) sees(words string) {
	p.t.Helper()
	either := []string{words}
	if words == "Question 1" {
		either = append(either, "What strikes you?")
	}
	first := p.Reads(either...)
	if first > 0 {
		p.types(enter)
		first = p.Reads(words)
	}
	if first < 0 {
		p.t.Fatalf("never saw %q; since the last: %q", words, ansi.Strip(p.News()))
	}
}

func (p *typist) types(keys string) { p.t.Helper(); p.Send(keys) }

// ends waits for the program and gives its exit status.
func (p *typist) ends() int {
	p.t.Helper()
	status, _ := p.Ends()
	return status
}

const enter = "\r"

// One creature typed in at a terminal joins the visit, and the grade changes.
func TestTypedSessionChangesTheGrade(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	m := keytest.Model(t)
	crayfish := keysTyped(t, m, truthfully(t, m, key.DefaultOptions(), "astacidea", nil).Path())
	for _, size := range []struct{ rows, cols uint16 }{{24, 80}, {20, 40}} {
		dir := t.TempDir()
		program(t, dir, statusDone, "visit", "begin", "--site", "Run", "--date", "2026-05-16", "--protocol", "riffle-three",
			"--cautions-read", "--visit", "a.visit.toml")
		for range 3 {
			program(t, dir, statusDone, "visit", "sample", "--habitat", "riffle", "--area", "4 sq ft")
		}
		program(t, dir, statusDone, "identify", "--observe", "legs=14", "--observe", "flat=tall", "--count", "240")
		program(t, dir, statusDone, "visit", "sorted", "--sample", "3")
		program(t, dir, statusDone, "visit", "sorted", "--sample", "1", "--sample", "2", "--empty")
		before := program(t, dir, statusDone, "grade")

		p := sit(t, dir, size.rows, size.cols, "identify")
		for i, k := range crayfish {
			p.sees(fmt.Sprintf("Question %d", i+1))
			p.types(k)
			if i == 1 {
				p.sees("Question 3")
				p.types("<")
				p.sees("Question 2")
				p.types(k)
			}
		}
		p.sees("How long is it")
		p.types("40" + enter)
		p.sees("crayfish (Astacidea)")
		p.sees("Add it to the visit?")
		p.types(enter)
		p.sees("How many look the same?")
		p.types(enter)
		p.sees("Which sample")
		p.types(enter)
		p.sees("tray cell")
		p.types("B2" + enter)
		p.sees("Who looked?")
		p.types("Ann" + enter)
		p.sees("Saved in a.visit.toml")
		p.sees("Another creature?")
		p.types("n")
		if status := p.ends(); status != statusDone {
			t.Errorf("%dx%d: ends with %d", size.cols, size.rows, status)
		}
		after := program(t, dir, statusDone, "grade")
		if before == after || !strings.Contains(after, "crayfish 1") || strings.Contains(before, "crayfish") {
			t.Errorf("the grade did not change:\n%s\n%s", before, after)
		}
	}
}

// step is what a person waits to see, and then types.
type step struct{ sees, types string }

// interruptAt presses Ctrl-C after these steps, when this is to be seen.
func interruptAt(t *testing.T, dir string, steps []step, sees string) {
	t.Helper()
	p := sit(t, dir, 24, 80, "identify")
	for _, s := range steps {
		p.sees(s.sees)
		p.types(s.types)
	}
	p.sees(sees)
	p.types("\x03")
	if status := p.ends(); status != statusCannotSay {
		t.Errorf("ends with %d", status)
	}
	screen := p.all()
	if strings.LastIndex(screen, "\x1b[?1049h") > strings.LastIndex(screen, "\x1b[?1049l") ||
		strings.LastIndex(screen, "\x1b[?25l") > strings.LastIndex(screen, "\x1b[?25h") {
		t.Error("the terminal is not given back")
	}
}

// Ctrl-C at every place: what was saved stays saved, the alternate screen is
// left and the cursor is shown again.
func TestInterruptAtEveryPlace(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	dir := t.TempDir()
	program(t, dir, statusDone, "visit", "begin", "--site", "Run", "--date", "2026-05-16", "--protocol", "riffle-three",
		"--cautions-read", "--visit", "a.visit.toml")
	program(t, dir, statusDone, "visit", "sample", "--habitat", "riffle")
	file := filepath.Join(dir, "a.visit.toml")
	saved, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var steps []step
	m := keytest.Model(t)
	for i, k := range keysTyped(t, m, truthfully(t, m, key.DefaultOptions(), "astacidea", nil).Path()) {
		steps = append(steps, step{fmt.Sprintf("Question %d", i+1), k})
	}
	steps = append(steps, []step{
		{"How long is it", enter}, {"Add it to the visit?", enter}, {"How many look the same?", enter},
		{"Which sample", enter}, {"tray cell", enter}, {"Who looked?", ""},
	}...)
	t.Run("a creature", func(t *testing.T) {
		for stop := range steps {
			t.Run(steps[stop].sees, func(t *testing.T) {
				t.Parallel()
				interruptAt(t, dir, steps[:stop], steps[stop].sees)
				if now, err := os.ReadFile(file); err != nil || !bytes.Equal(now, saved) {
					t.Errorf("the file changed (%v)", err)
				}
			})
		}
	})
	for _, args := range [][]string{{"visit", "begin", "--visit", "new.toml"}, {"visit", "sample"}, {"visit", "amend"}} {
		if args[1] == "amend" {
			program(t, dir, statusDone, "identify", "--observe", "legs=10", "--observe", "forelegs=pincers")
			if saved, err = os.ReadFile(file); err != nil {
				t.Fatal(err)
			}
		}
		p := sit(t, dir, 24, 80, args...)
		p.sees("Ctrl-C leave")
		p.types("\x03")
		if status := p.ends(); status != statusCannotSay {
			t.Errorf("%v ends with %d", args, status)
		}
		if now, err := os.ReadFile(file); err != nil || !bytes.Equal(now, saved) {
			t.Errorf("%v: the file changed (%v)", args, err)
		}
	}
	if _, err := os.Stat(filepath.Join(dir, "new.toml")); err == nil {
		t.Error("a visit was begun although the person left")
	}
}

// A trial shows on a terminal how far it is, and Ctrl-C leaves it there and then,
// without a table and with the bar taken away.
func TestInterruptedTrial(t *testing.T) {
	t.Parallel()
	p := sit(t, t.TempDir(), 24, 80, "couplets", "trial", "--specimens", "900000", "--method", "confirming")
	p.sees("of 900000 animals (1 of 1, confirming)")
	p.types("\x03")
	if status := p.ends(); status != statusCannotSay {
		t.Errorf("ends with %d", status)
	}
	p.sees("rillkey: left; the trial was not finished")
	if strings.Contains(p.all(), "questions, mean") {
		t.Error("a table of an unfinished trial")
	}
}

// all is what the program wrote until it ended.
func (p *typist) all() string {
	p.t.Helper()
	_, all := p.Ends()
	return all
}

// Drawings are for whoever sees a screen: plain lines, terminals that move no
// cursor and pipes get none.
func TestDrawingsAreForScreens(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	dir := t.TempDir()
	crayfish := []string{"--observe", "legs=10", "--observe", "forelegs=pincers", "--no-save"}
	for _, row := range []struct {
		why, kind string
		args      []string
		drawn     bool
	}{
		{"a name that was found", "xterm", append([]string{"identify"}, crayfish...), true},
		{"a name looked up", "xterm", []string{"taxa", "astacidea"}, true},
		{"two names told apart", "xterm", []string{"taxa", "scud", "--against", "crayfish"}, true},
		{"what settles a name", "xterm", []string{"identify", "--check", "stonefly", "--list"}, true},
		{"--plain", "xterm", append([]string{"identify", "--plain"}, crayfish...), false},
		{"TERM=dumb", "dumb", append([]string{"identify"}, crayfish...), false},
		{"TERM=dumb, a name looked up", "dumb", []string{"taxa", "astacidea"}, false},
		{"--json", "xterm", []string{"taxa", "astacidea", "--json"}, false},
	} {
		p := sitAt(t, row.kind, dir, 24, 80, row.args...)
		if got := strings.ContainsFunc(p.all(), braille); got != row.drawn {
			t.Errorf("%s: drawn %v", row.why, got)
		}
	}
	if out := program(t, dir, statusDone, "taxa", "astacidea"); strings.ContainsFunc(out, braille) {
		t.Error("dots in a pipe")
	}
	p := sit(t, dir, 24, 80, "identify")
	p.sees("Question 1")
	p.sees("v drawings")
	p.types("v")
	p.sees("(1 of ")
	p.types("vqq")
	if !strings.ContainsFunc(p.all(), braille) {
		t.Error("no drawing of the leads")
	}
}

func braille(r rune) bool { return r >= 0x2800 && r <= 0x28ff }
