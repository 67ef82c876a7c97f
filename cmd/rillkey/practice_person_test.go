package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"time"

	"rillkey/key/practice"
)

func meetingAt(minute int) practice.Meeting {
	return practice.Meeting{At: time.Date(2031, 4, 5, 9, minute, 0, 0, time.UTC), Source: practice.Words, Kind: "perlidae", Sight: "perlidae", Seconds: 2}
}

// personAt is a person's file as a program of its own has it.
func personAt(t *testing.T, path string) *practiser {
	t.Helper()
	p := &practiser{disk: &disk{}, path: path, record: &practice.Record{Person: "Robin"}}
	if err := p.read(); err != nil && !errors.Is(err, fs.ErrNotExist) {
		t.Fatal(err)
	}
	return p
}

// meets has a program add one animal.
func meets(t *testing.T, p *practiser, minute int) {
	t.Helper()
	p.record.Meetings = append(p.record.Meetings, meetingAt(minute))
	if err := p.keep(p.record); err != nil {
		t.Fatal(err)
	}
}

func TestTwoProgramsOfOnePersonLoseNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "robin.practice.toml")
	one := personAt(t, path)
	meets(t, one, 1)
	two := personAt(t, path)
	meets(t, two, 2)
	meets(t, one, 3)
	meets(t, two, 4)
	if n := len(personAt(t, path).record.Meetings); n != 4 {
		t.Errorf("%d of 4 animals are kept", n)
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm()&0o077 != 0 {
		t.Errorf("others may read it: %v, %v", info.Mode(), err)
	}
}

func TestWhoWasForgottenStaysSo(t *testing.T) {
	path := filepath.Join(t.TempDir(), "robin.practice.toml")
	p := personAt(t, path)
	meets(t, p, 1)
	meets(t, p, 2)
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	meets(t, p, 3)
	if n := len(personAt(t, path).record.Meetings); n != 1 {
		t.Errorf("%d animals are kept after all was deleted and one more met", n)
	}
}

func TestWhatIsNotWrittenIsAddedLater(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "gone")
	path := filepath.Join(dir, "robin.practice.toml")
	p := personAt(t, path)
	p.record.Meetings = append(p.record.Meetings, meetingAt(1))
	if err := p.keep(p.record); err == nil {
		t.Fatal("written into a folder that is not there")
	}
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	meets(t, p, 2)
	if n := len(personAt(t, path).record.Meetings); n != 2 {
		t.Errorf("%d of 2 animals are kept", n)
	}
}
