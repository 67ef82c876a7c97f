package visit

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

// failing is a file on a disk that fills up or breaks.
type failing struct {
	log
	write    func([]byte) (int, error)
	sync     error
	truncate error
}

func (f failing) Write(p []byte) (int, error) {
	if f.write != nil {
		return f.write(p)
	}
	return f.log.Write(p)
}

func (f failing) Sync() error { return errors.Join(f.sync, f.log.Sync()) }

func (f failing) Truncate(n int64) error {
	if f.truncate != nil {
		return f.truncate
	}
	return f.log.Truncate(n)
}

func TestDiskFailure(t *testing.T) {
	broken := errors.New("input/output error")
	half := func(f log) func([]byte) (int, error) {
		return func(p []byte) (int, error) {
			n, _ := f.Write(p[:len(p)/2])
			return n, broken
		}
	}
	device := func(t *testing.T) func([]byte) (int, error) {
		full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
		if err != nil {
			t.Skip("no device that is always full here")
		}
		t.Cleanup(func() { full.Close() })
		return full.Write
	}
	tests := []struct {
		label    string
		fail     func(*testing.T, log) failing
		restored bool
		says     string
	}{
		{"half of it written", func(_ *testing.T, f log) failing { return failing{log: f, write: half(f)} }, true,
			"NOT saved: input/output error"},
		{"full disk", func(t *testing.T, f log) failing { return failing{log: f, write: device(t)} }, true, "NOT saved: no space left"},
		{"not synced", func(_ *testing.T, f log) failing { return failing{log: f, sync: broken} }, true, "NOT saved"},
		{"half written and stuck", func(_ *testing.T,
			f log) failing {
			return failing{log: f, write: half(f), truncate: broken}
		}, false, "could not be put back"},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			path := begin(t)
			add(t, path).add(Sample{Label: "1", Habitat: "riffle"})
			before, _ := os.ReadFile(path)
			d := disk{func(p string) (log, func(), error) {
				f, unlock, err := openFile(p)
				return tt.fail(t, f), unlock, err
			}, openBeside}
			_, err := d.append(path, noon, "Ada", Sample{Label: "2", Habitat: "riffle"}, someRandom())
			if err == nil || !strings.Contains(err.Error(), tt.says) {
				t.Fatalf("got %v, want %q", err, tt.says)
			}
			after, _ := os.ReadFile(path)
			if tt.restored != (string(after) == string(before)) {
				t.Errorf("the file is now\n%s", after)
			}
			if v := read(t, path); len(v.Events) != 1 {
				t.Errorf("%d events", len(v.Events))
			}
			if _, err := Append(path, noon, "Ada", Sample{Label: "3", Habitat: "riffle"}, bytes.NewReader([]byte("whatever"))); err != nil {
				t.Errorf("the next record: %v", err)
			}
		})
	}
}

// unsynced is a disk that spares the wait for the medium. What is written can
// be read at once all the same, so only a power cut could tell.
var unsynced = disk{
	func(path string) (log, func(), error) {
		f, unlock, err := openFile(path)
		return hasty{f}, unlock, err
	},
	func(path string) (aside, error) {
		f, err := openBeside(path)
		return hastyAside{f}, err
	},
}

type hasty struct{ log }

func (hasty) Sync() error { return nil }

type hastyAside struct{ aside }

func (hastyAside) Sync() error { return nil }

type failingAside struct{ aside }

func (failingAside) Sync() error { return errors.New("input/output error") }

func TestTornEndThatIsNotSyncedIsNotCutOff(t *testing.T) {
	path := begin(t)
	data, _ := os.ReadFile(path)
	put(t, path, append(data, "\n[[event]]\nid"...))
	d := disk{openFile, func(path string) (aside, error) {
		f, err := openBeside(path)
		return failingAside{f}, err
	}}
	if _, err := d.append(path, noon, "", Sample{Label: "1", Habitat: "riffle"}, someRandom()); err == nil ||
		!strings.Contains(err.Error(), "cannot be set aside") {
		t.Errorf("got %v", err)
	}
	if after, _ := os.ReadFile(path); !bytes.HasSuffix(after, []byte("\nid")) {
		t.Error("the torn end is gone")
	}
}

func TestTornEndThatCannotBeSetAside(t *testing.T) {
	path := begin(t)
	data, _ := os.ReadFile(path)
	put(t, path, append(data, "\n[[event]]\nid"...))
	d := disk{openFile, func(string) (aside, error) { return nil, errors.New("no room") }}
	if _, err := d.append(path, noon, "", Sample{Label: "1", Habitat: "riffle"}, someRandom()); err == nil {
		t.Error("the torn end was thrown away")
	}
	if after, _ := os.ReadFile(path); !bytes.HasSuffix(after, []byte("\nid")) {
		t.Error("the torn end is gone")
	}
}

// What is set aside goes into a file of its own: whatever lies at its name
// beforehand, a link or a file of somebody else, is neither followed nor added
// to.
func TestTornEndNeverGoesIntoAForeignFile(t *testing.T) {
	for label, occupy := range map[string]func(t *testing.T, at, foreign string) error{
		"a link":         func(_ *testing.T, at, foreign string) error { return os.Symlink(foreign, at) },
		"a hard link":    func(_ *testing.T, at, foreign string) error { return os.Link(foreign, at) },
		"a lost link":    func(_ *testing.T, at, _ string) error { return os.Symlink(at+".nowhere", at) },
		"another file":   func(_ *testing.T, at, _ string) error { return os.WriteFile(at, []byte("mine\n"), 0o644) },
		"another folder": func(_ *testing.T, at, _ string) error { return os.Mkdir(at, 0o755) },
	} {
		t.Run(label, func(t *testing.T) {
			path := begin(t)
			data, _ := os.ReadFile(path)
			put(t, path, append(data, "\n[[event]]\ntouch pwned\n"...))
			foreign := filepath.Join(t.TempDir(), "profile")
			put(t, foreign, []byte("alias ll=ls\n"))
			if err := occupy(t, path+".torn", foreign); err != nil {
				t.Skip(err)
			}
			before, _ := os.ReadFile(path + ".torn")
			s, err := Append(path, noon, "", Sample{Label: "1", Habitat: "riffle"}, someRandom())
			if err != nil || len(s.Notices) != 1 || !strings.Contains(s.Notices[0].Text, ".torn-2") {
				t.Fatalf("%v, said %v", err, s.Notices)
			}
			after, _ := os.ReadFile(path + ".torn")
			mine, _ := os.ReadFile(foreign)
			if string(mine) != "alias ll=ls\n" || !bytes.Equal(before, after) {
				t.Errorf("what was there is now %q and %q", mine, after)
			}
			if _, err := os.Lstat(path + ".torn.nowhere"); err == nil {
				t.Error("a file was made where a lost link points")
			}
			if aside, _ := os.ReadFile(path + ".torn-2"); !bytes.Contains(aside, []byte("touch pwned")) {
				t.Errorf("set aside: %q", aside)
			}
		})
	}
}

// TestTwoProgramsAtOnce lets several processes, each with several goroutines,
// append to one file.
func TestTwoProgramsAtOnce(t *testing.T) {
	const each, programs = 20, 3
	if path := os.Getenv("VISIT_TEST_APPEND"); path != "" {
		together(t, path, each)
		return
	}
	path := begin(t)
	add(t, path).add(Sample{Label: "1", Habitat: "riffle"})
	var running sync.WaitGroup
	for range programs {
		running.Go(func() {
			cmd := exec.Command(os.Args[0], "-test.run=^TestTwoProgramsAtOnce$")
			cmd.Env = append(os.Environ(), "VISIT_TEST_APPEND="+path)
			if out, err := cmd.CombinedOutput(); err != nil {
				t.Errorf("%v: %s", err, out)
			}
		})
	}
	running.Wait()
	v := read(t, path)
	if got := len(v.Tally().Records); got != programs*each || len(v.Notices) != 0 {
		t.Errorf("%d records of %d, remarks %v", got, programs*each, v.Notices)
	}
}

// together draws the same ids in every goroutine and program, so that only
// the lock and reading the file again keep them apart.
func together(t *testing.T, path string, n int) {
	var running sync.WaitGroup
	for range 4 {
		running.Go(func() {
			random := someRandom()
			for range n / 4 {
				if _, err := Append(path, noon, "Ada", Identification{Sample: "1", Taxon: "baetidae", Count: 1}, random); err != nil {
					t.Error(err)
				}
			}
		})
	}
	running.Wait()
}
