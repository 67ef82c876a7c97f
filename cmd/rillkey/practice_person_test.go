package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"rillkey/cmd/rillkey/lesson"
	"rillkey/key/practice"
)

func meetingAt(minute int) practice.Meeting {
	return practice.Meeting{Time: time.Date(2031, 4, 5, 9, minute, 0, 0, time.UTC), Source: practice.WordsSource, Kind: "perlidae",
		Sight: "perlidae", Seconds: 2}
}

// personAt is a person's file as a program of its own has it.
func personAt(t *testing.T, path string) *practiser {
	t.Helper()
	p := &practiser{disk: &disk{}, path: path, record: &practice.PersonRecord{Person: "Robin"}}
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

// Nor do two that begin before there is a file; and a file that somebody of nearly the
// same name has got meanwhile is left alone.
func TestTwoFirstSittingsAtOnceLoseNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "robin.practice.toml")
	one, two, other := personAt(t, path), personAt(t, path), personAt(t, path)
	meets(t, one, 1)
	meets(t, two, 2)
	meets(t, one, 3)
	other.record = &practice.PersonRecord{Person: "robin", Meetings: []practice.Meeting{meetingAt(4)}}
	for range 2 {
		if err := other.keep(other.record); err == nil || !strings.Contains(err.Error(), "another name") {
			t.Errorf("the file of Robin was taken for that of robin: %v", err)
		}
	}
	if r := personAt(t, path).record; r.Person != "Robin" || len(r.Meetings) != 3 {
		t.Errorf("of %s %d of 3 animals are kept", r.Person, len(r.Meetings))
	}
}

// A person's file may come from a stranger: what it says was made of it is deleted only
// if it is a file of rates.
func TestForgettingDeletesNothingButRates(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	diary := filepath.Join(t.TempDir(), "diary.txt")
	if err := os.WriteFile(diary, []byte("dear diary"), 0o600); err != nil {
		t.Fatal(err)
	}
	p := personAt(t, "robin.practice.toml")
	p.record.MadeFile(practice.NewMade(diary, []byte("dear diary")))
	meets(t, p, 1)
	private(t, dir)
	out, complaints, status := spoken("practice", "forget", "Robin")
	if status != statusDone || !strings.Contains(out, "Left alone, since it holds no rates:") {
		t.Error(status, out, complaints)
	}
	if _, err := os.Stat(diary); err != nil {
		t.Error("a file that is nobody's rates was deleted")
	}
}

// The page for drawings takes no name that another program took meanwhile.
func TestDrawingsReplaceNothing(t *testing.T) {
	page := filepath.Join(t.TempDir(), "animals.html")
	var d disk
	show := d.drawingsIn(page)
	if err := os.WriteFile(page, []byte("somebody's"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := show([]lesson.Picture{{}}); err == nil {
		t.Error("a file that was made meanwhile is replaced")
	}
	if text, err := os.ReadFile(page); string(text) != "somebody's" {
		t.Errorf("it holds %.20q (%v)", text, err)
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

// One command deletes all that practice wrote of a person: the disk holds their name
// nowhere afterwards, and what is somebody else's is untouched.
func TestWhatWasForgottenIsNowhereOnTheDisk(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	for _, name := range []string{"Zebulon", "Kim"} {
		p := &practiser{disk: &disk{}, path: practice.FileStem(name) + practiceSuffix, record: &practice.PersonRecord{Person: name}}
		m := meetingAt(1)
		m.Source, m.Walked, m.Named = practice.DrawingSource, true, []string{"perlidae"}
		m.Readings = []practice.Reading{{Trait: "tails", Is: "2", Fit: []string{"2"}, Given: []string{"3"}, Blame: 1}}
		p.record.Meetings = append(p.record.Meetings, m)
		if err := p.keep(p.record); err != nil {
			t.Fatal(err)
		}
		if out, complaints, status := spoken("practice", "rates", name+".rates.toml", "--as", name); status != statusDone {
			t.Fatal(out, complaints)
		}
		text, err := os.ReadFile(p.path)
		if err == nil {
			err = os.WriteFile(map[string]string{"Zebulon": ".rillkey-12.tmp", "Kim": ".rillkey-13.tmp"}[name], text, 0o600)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	private(t, dir)
	before := onDisk(t, dir, "kim")
	if out, complaints, status := spoken("practice", "forget", "Zebulon"); status != statusDone {
		t.Fatal(out, complaints)
	}
	if left := onDisk(t, dir, "zebulon"); len(left) > 0 {
		t.Errorf("kept after all: %v", left)
	}
	if after := onDisk(t, dir, "kim"); len(after) != len(before) || len(after) != 3 {
		t.Errorf("of Kim there were %v, and there are %v", before, after)
	}
}

// onDisk are the files whose name or text has a word, in whatever letters.
func onDisk(t *testing.T, dir, word string) (out []string) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		if strings.Contains(strings.ToLower(e.Name()+string(text)), word) {
			out = append(out, path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// private checks that nobody else may read any file of a folder.
func private(t *testing.T, dir string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if info, err := e.Info(); err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("%s has the mode %v: %v", e.Name(), info.Mode(), err)
		}
	}
}

// Of a record that was only added to, what is in the file is not made into text again;
// the file is the same as if it were.
func TestWhatIsAddedToARecordStandsAsIfAllWereWritten(t *testing.T) {
	p := personAt(t, filepath.Join(t.TempDir(), "robin.practice.toml"))
	for minute := range 4 {
		meets(t, p, minute)
		if minute == 2 {
			p.record.BeginTest(practice.OnSight, 3, meetingAt(minute).Time)
		}
		if text, err := os.ReadFile(p.path); err != nil || minute != 2 && string(text) != string(p.record.TOML()) {
			t.Errorf("after %d: %v\n%s", minute+1, err, text)
		}
	}
}
