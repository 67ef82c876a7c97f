package main

import (
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
)

// Ctrl-C at any moment of an identification, also while nothing is waited for,
// keeps the answers: they are in the file, or in a command that is printed.
func TestCtrlCAtAnyMomentKeepsTheAnswers(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	file := filepath.Join(dir, "a.visit.toml")
	does(t, "", "visit", "begin", "--site", "Alder Run", "--date", "2026-05-16", "--protocol", "riffle-three", "--cautions-read",
		"--visit", file)
	does(t, "", "visit", "sample", "--habitat", "riffle", "--visit", file)
	before, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	m := keytest.Model(t)
	answers := keysTyped(t, m, truthfully(t, m, key.DefaultOptions(), "astacidea", nil).Path())
	typed := "\n" + strings.Join(append(answers, "40", "y", "3", "1", "", "Ann", "n"), "\n") + "\n"
	step := 3
	if testing.Short() {
		step = 9
	} else if os.Getenv("RILLKEY_CI") == "1" {
		step = 1
	}
	named, moment := 0, 0
	for ended := false; !ended; moment += step {
		if err := os.WriteFile(file, before, 0o600); err != nil {
			t.Fatal(err)
		}
		w, _ := offline(typed)
		w.leaving = newLeaving()
		at := &moments{left: moment, then: func() { w.leaving.got(os.Interrupt) }}
		w.stdout, w.stderr = at, at
		status := run([]string{"identify", "--plain", "--visit", file}, w)
		said, come := at.now()
		after, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		ended = !come
		switch {
		case len(after) > len(before):
		case strings.Contains(said, "rillkey identify --visit"):
			if status != statusCannotSay {
				t.Errorf("write %d: it ends with %d", moment, status)
			}
			if strings.Contains(strings.ReplaceAll(said, "\n", " "), "this animal is not saved yet") {
				named++
			}
		case strings.Contains(said, "Question 2"):
			t.Errorf("write %d: the answers are lost:\n%s", moment, said)
		}
	}
	if named < 2 || moment < 20 {
		t.Errorf("%d moments after the name, %d in all", named, moment)
	}
}

// moments is what was written, and does something before so many writes.
type moments struct {
	mu   sync.Mutex
	all  strings.Builder
	left int
	then func()
}

func (m *moments) Write(p []byte) (int, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.left == 0 {
		m.then()
	}
	m.left--
	return m.all.Write(p)
}

// now is what was written so far, and whether its moment has come.
func (m *moments) now() (said string, come bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.all.String(), m.left < 0
}

// Who begins to wait after the signal is told at once.
func TestASignalIsForWhoeverWaitsLaterToo(t *testing.T) {
	t.Parallel()
	l := newLeaving()
	_, stop := l.untilSignal()
	defer stop()
	l.got(os.Interrupt)
	ctx, stopNext := l.untilSignal()
	defer stopNext()
	if ctx.Err() == nil {
		t.Error("who begins to wait after the signal is not told")
	}
}
