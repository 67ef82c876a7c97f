//go:build unix

package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"
	"github.com/creack/pty"
)

// typist sits at a real pseudo-terminal.
type typist struct {
	t    *testing.T
	tty  *os.File
	done chan error
	cmd  *exec.Cmd
	mu   sync.Mutex
	seen bytes.Buffer
	read int // how much of seen was waited for already
}

// sit starts the program on a pseudo-terminal of this size, in dir.
func sit(t *testing.T, dir string, rows, cols uint16, args ...string) *typist {
	t.Helper()
	path, err := exec.LookPath("rillkey")
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(path, args...)
	cmd.Dir, cmd.Env = dir, append(os.Environ(), "TERM=xterm-256color", "NO_COLOR=")
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: rows, Cols: cols})
	if err != nil {
		t.Fatal(err)
	}
	p := &typist{t: t, tty: tty, cmd: cmd, done: make(chan error, 1)}
	go func() {
		buf := make([]byte, 4096)
		for {
			n, err := tty.Read(buf)
			p.mu.Lock()
			p.seen.Write(buf[:n])
			p.mu.Unlock()
			if err != nil {
				p.done <- cmd.Wait()
				return
			}
		}
	}()
	t.Cleanup(func() { tty.Close() })
	return p
}

// sees waits until the screen has shown the words since the last ones waited for.
func (p *typist) sees(words string) {
	p.t.Helper()
	for range 200 {
		p.mu.Lock()
		news := p.seen.String()[p.read:]
		shows := func(n int) bool {
			return strings.Contains(strings.Join(strings.Fields(ansi.Strip(news[:n])), " "), words)
		}
		found := shows(len(news))
		if found {
			p.read += sort.Search(len(news), shows)
		}
		p.mu.Unlock()
		if found {
			return
		}
		time.Sleep(25 * time.Millisecond)
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.t.Fatalf("never saw %q; since the last: %q", words, ansi.Strip(p.seen.String()[p.read:]))
}

func (p *typist) types(keys string) {
	p.t.Helper()
	if _, err := p.tty.WriteString(keys); err != nil {
		p.t.Fatal(err)
	}
}

// ends waits for the program and gives its exit status.
func (p *typist) ends() int {
	p.t.Helper()
	select {
	case <-p.done:
		return p.cmd.ProcessState.ExitCode()
	case <-time.After(10 * time.Second):
		p.cmd.Process.Kill()
		p.t.Fatal("the program does not end")
		return -1
	}
}

func program(t *testing.T, dir string, want int, args ...string) string {
	t.Helper()
	cmd := exec.Command("rillkey", args...)
	cmd.Dir = dir
	out, _ := cmd.CombinedOutput()
	if got := cmd.ProcessState.ExitCode(); got != want {
		t.Fatalf("%v ends with %d: %s", args, got, out)
	}
	return string(out)
}

const enter = "\r"

// One creature typed in at a terminal joins the visit, and the grade changes.
func TestTypedSessionChangesTheGrade(t *testing.T) {
	for _, size := range []struct{ rows, cols uint16 }{{24, 80}, {20, 40}} {
		dir := t.TempDir()
		program(t, dir, statusDone, "visit", "begin", "--site", "Run", "--date", "2026-05-16", "--protocol", "riffle-three", "--cautions-read", "--visit", "a.visit.toml")
		for range 3 {
			program(t, dir, statusDone, "visit", "sample", "--habitat", "riffle", "--area", "4 sq ft")
		}
		program(t, dir, statusDone, "identify", "--observe", "legs=14", "--observe", "flat=tall")
		before := program(t, dir, statusDone, "grade")

		p := sit(t, dir, size.rows, size.cols, "identify")
		p.sees("Six legs or not")
		p.types("b")
		p.sees("couplet")
		p.types("<")
		p.sees("Six legs or not")
		p.types("b")
		p.sees("couplet")
		p.types("a")
		p.sees("couplet")
		p.types("b")
		p.sees("couplet")
		p.types("a")
		p.sees("crayfish")
		p.sees("How long is it")
		p.types("40" + enter)
		p.sees("fits a grown one")
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

// Ctrl-C at every place: what was saved stays saved, the alternate screen is
// left and the cursor is shown again.
func TestInterruptAtEveryPlace(t *testing.T) {
	dir := t.TempDir()
	program(t, dir, statusDone, "visit", "begin", "--site", "Run", "--date", "2026-05-16", "--protocol", "riffle-three", "--cautions-read", "--visit", "a.visit.toml")
	program(t, dir, statusDone, "visit", "sample", "--habitat", "riffle")
	file := filepath.Join(dir, "a.visit.toml")
	saved, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	steps := []struct{ sees, types string }{
		{"Six legs or not", "b"}, {"couplet", "a"}, {"couplet", "b"}, {"couplet", "a"},
		{"How long is it", enter}, {"Add it to the visit?", enter}, {"How many look the same?", enter},
		{"Which sample", enter}, {"tray cell", enter}, {"Who looked?", ""},
	}
	for stop := range steps {
		p := sit(t, dir, 24, 80, "identify")
		for _, s := range steps[:stop] {
			p.sees(s.sees)
			p.types(s.types)
		}
		p.sees(steps[stop].sees)
		p.types("\x03")
		if status := p.ends(); status != statusCannotSay {
			t.Errorf("at %q: ends with %d", steps[stop].sees, status)
		}
		screen := p.seen.String()
		if strings.LastIndex(screen, "\x1b[?1049h") > strings.LastIndex(screen, "\x1b[?1049l") || strings.LastIndex(screen, "\x1b[?25l") > strings.LastIndex(screen, "\x1b[?25h") {
			t.Errorf("at %q: the terminal is not given back", steps[stop].sees)
		}
		if now, err := os.ReadFile(file); err != nil || !bytes.Equal(now, saved) {
			t.Errorf("at %q: the file changed (%v)", steps[stop].sees, err)
		}
	}
	for _, args := range [][]string{{"visit", "begin", "--visit", "new.toml"}, {"visit", "sample"}, {"visit", "amend"}} {
		if args[1] == "amend" {
			program(t, dir, statusDone, "identify", "--observe", "legs=10")
			if saved, err = os.ReadFile(file); err != nil {
				t.Fatal(err)
			}
		}
		p := sit(t, dir, 24, 80, args...)
		p.sees("?")
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
