package wholefile_test

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"rillkey/scoring/wholefile"
)

func saying(text string) func(io.Writer) error {
	return func(w io.Writer) error { _, err := io.WriteString(w, text); return err }
}

func names(t *testing.T, dir string) (out []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

func contents(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// Of many that want one name at once, one gets it, and its text stays.
func TestNothingIsReplaced(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a")
	oneOfTwentyWins(t, path, wholefile.New)
	folder := func(func(string) (io.WriteCloser, error)) error { return nil }
	for _, taken := range []string{"folder", "file", "link"} {
		path := filepath.Join(dir, taken)
		switch taken {
		case "folder":
			_ = os.Mkdir(path, 0o777)
		case "file":
			_ = os.WriteFile(path, nil, 0o666)
		case "link":
			_ = os.Symlink("nowhere", path)
		}
		if err := wholefile.New(path, wholefile.SharedMode, saying("x")); !errors.Is(err, fs.ErrExist) {
			t.Errorf("a file over a %s: %v", taken, err)
		}
		if err := wholefile.NewFolder(path, wholefile.SharedMode, folder); !errors.Is(err, fs.ErrExist) {
			t.Errorf("a folder over a %s: %v", taken, err)
		}
	}
}

func TestAFailureLeavesNothing(t *testing.T) {
	dir := t.TempDir()
	old := filepath.Join(dir, "old")
	if err := os.WriteFile(old, []byte("old"), 0o666); err != nil {
		t.Fatal(err)
	}
	full := errors.New("full")
	half := func(w io.Writer) error { _, _ = io.WriteString(w, "half"); return full }
	halfFolder := func(create func(string) (io.WriteCloser, error)) error {
		f, err := create("one")
		return errors.Join(half(f), f.Close(), err)
	}
	for what, err := range map[string]error{
		"New":       wholefile.New(filepath.Join(dir, "new"), wholefile.SharedMode, half),
		"Replace":   wholefile.Replace(old, wholefile.SharedMode, half),
		"NewFolder": wholefile.NewFolder(filepath.Join(dir, "folder"), wholefile.SharedMode, halfFolder),
	} {
		if !errors.Is(err, full) {
			t.Errorf("%s: %v", what, err)
		}
	}
	if got := names(t, dir); !slices.Equal(got, []string{"old"}) || contents(t, old) != "old" {
		t.Errorf("%q is there", got)
	}
	if err := wholefile.New(filepath.Join(dir, "none", "x"), wholefile.SharedMode, saying("")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("in a folder that is not there: %v", err)
	}
}

// Of several files all are there, or none: also where a name is taken late.
func TestSeveralFilesAreThereTogetherOrNotAtAll(t *testing.T) {
	dir := t.TempDir()
	full := errors.New("full")
	three := func(scratch string) (err error) {
		for _, name := range []string{"a", "b", "c"} {
			err = errors.Join(err, wholefile.New(filepath.Join(scratch, name), wholefile.SharedMode, saying("new "+name)))
		}
		return err
	}
	if err := wholefile.NewFiles(dir, func(scratch string) error { return errors.Join(three(scratch), full) }); !errors.Is(
		err, full) || len(names(t, dir)) > 0 {
		t.Errorf("a failure: %v, %q is there", err, names(t, dir))
	}
	if err := os.WriteFile(filepath.Join(dir, "b"), []byte("old"), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := wholefile.NewFiles(dir, three); !errors.Is(err, fs.ErrExist) || len(names(t, dir)) != 1 ||
		contents(t, filepath.Join(dir, "b")) != "old" {
		t.Errorf("a name that is taken: %v, %q is there", err, names(t, dir))
	}
	if err := os.Remove(filepath.Join(dir, "b")); err != nil {
		t.Fatal(err)
	}
	if err := wholefile.NewFiles(dir, three); err != nil || !slices.Equal(names(t, dir), []string{"a", "b", "c"}) ||
		contents(t, filepath.Join(dir, "c")) != "new c" {
		t.Errorf("all: %v, %q is there", err, names(t, dir))
	}
}

func TestWhatIsReplacedKeepsItsMode(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a")
	for _, mode := range []fs.FileMode{0o600, 0o644, 0o666} {
		if err := errors.Join(os.WriteFile(path, nil, 0o600), os.Chmod(path, mode)); err != nil {
			t.Fatal(err)
		}
		if err := wholefile.Replace(path, wholefile.SharedMode, saying("new")); err != nil {
			t.Fatal(err)
		}
		if info, err := os.Stat(path); err != nil || info.Mode() != mode || contents(t, path) != "new" {
			t.Errorf("%v became %v, %v", mode, info.Mode(), err)
		}
	}
}

// What killed programs left is swept after a day; what only looks like it stays.
func TestLeftoversAreSweptByAge(t *testing.T) {
	dir := t.TempDir()
	for name, age := range map[string]time.Duration{
		".rillkey-12.tmp": 25 * time.Hour, "rillkey-7.tmp": 25 * time.Hour, ".rillkey-13.tmp": 23 * time.Hour,
		"rillkey-pdf-1": 99 * time.Hour, ".rillkey-mine.tmp": 99 * time.Hour, "rillkey-7.tmp.toml": 99 * time.Hour,
	} {
		path, then := filepath.Join(dir, name), time.Now().Add(-age)
		if err := errors.Join(os.Mkdir(path, 0o777), os.WriteFile(filepath.Join(path, "in it"), nil, 0o666),
			os.Chtimes(path, then, then)); err != nil {
			t.Fatal(err)
		}
	}
	if err := wholefile.New(filepath.Join(dir, "new"), wholefile.SharedMode, saying("")); err != nil {
		t.Fatal(err)
	}
	want := []string{".rillkey-13.tmp", ".rillkey-mine.tmp", "new", "rillkey-7.tmp.toml", "rillkey-pdf-1"}
	if got := names(t, dir); !slices.Equal(got, want) {
		t.Errorf("left: %q", got)
	}
}

func TestScratchGoesAwayAndAFolderForOthersStays(t *testing.T) {
	dir := t.TempDir()
	f, err := wholefile.Scratch(dir)
	if err != nil {
		t.Fatal(err)
	}
	_, remove, err := wholefile.ScratchFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	left, err := wholefile.LeaveFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	if got := names(t, dir); len(got) != 2 && runtime.GOOS != "windows" {
		t.Errorf("a program that is killed now leaves more than two folders: %q", got)
	}
	if _, err := f.WriteAt([]byte("kept"), 1<<20); err != nil {
		t.Error(err)
	}
	back := make([]byte, 4)
	if _, err := f.ReadAt(back, 1<<20); err != nil || string(back) != "kept" {
		t.Errorf("the file without a name gives %q, %v", back, err)
	}
	remove()
	if err := f.Close(); err != nil {
		t.Error(err)
	}
	if got := names(t, dir); !slices.Equal(got, []string{filepath.Base(left)}) {
		t.Errorf("%q is there, not only %s", got, left)
	}
}

// A card that knows no hard links keeps a name by an empty file. A program that is
// killed then leaves it, with the claim to that name: it is taken over, by one of many,
// and no other empty file is.
func TestAnEmptyFileThatAKilledProgramLeftIsTakenOver(t *testing.T) {
	for _, card := range []string{"simple", "usual"} {
		t.Run(card, func(t *testing.T) {
			if card == "simple" {
				defer wholefile.OnASimpleCard()()
			}
			for _, row := range []struct {
				why     string
				claimed string        // the name that the claim beside it is for
				later   time.Duration // that it was made after the claim
				free    bool
			}{
				{"left by a killed program", "a", time.Second, true},
				{"by the clock of a card", "a", -time.Second, true},
				{"made by somebody else", "", 0, false},
				{"beside the claim to another name", "b", time.Second, false},
				{"made hours after", "a", 3 * time.Hour, false},
				{"made before", "a", -time.Minute, false},
			} {
				dir := t.TempDir()
				path := filepath.Join(dir, "a")
				if err := os.WriteFile(path, nil, 0o600); err != nil {
					t.Fatal(err)
				}
				if row.claimed != "" {
					claim(t, dir, row.claimed, time.Now().Add(-row.later))
				}
				if wholefile.LeftEmpty(path) != row.free || wholefile.NameTaken(path) == row.free {
					t.Errorf("%s: left %v, taken %v", row.why, wholefile.LeftEmpty(path), wholefile.NameTaken(path))
				}
				err := wholefile.New(path, wholefile.SharedMode, saying("whole"))
				if row.free && (err != nil || contents(t, path) != "whole") || !row.free && !errors.Is(err, fs.ErrExist) {
					t.Errorf("%s: %v", row.why, err)
				}
			}
			for _, name := range []string{"words", "link"} {
				dir := t.TempDir()
				path := filepath.Join(dir, name)
				if err := errors.Join(os.Symlink("elsewhere", filepath.Join(dir, "link")),
					os.WriteFile(filepath.Join(dir, "elsewhere"), nil, 0o600),
					os.WriteFile(filepath.Join(dir, "words"), []byte("words"), 0o600)); err != nil {
					t.Fatal(err)
				}
				claim(t, dir, name, time.Now())
				if err := wholefile.New(path, wholefile.SharedMode, saying("x")); !errors.Is(err, fs.ErrExist) {
					t.Errorf("over %s: %v", name, err)
				}
			}
		})
	}
}

// claim leaves the claim to a name in a folder, as a killed program does.
func claim(t *testing.T, dir, name string, when time.Time) {
	t.Helper()
	path := filepath.Join(dir, ".rillkey-7"+wholefile.ClaimEnd(name))
	if err := errors.Join(os.WriteFile(path, []byte("half"), 0o600), os.Chtimes(path, when, when)); err != nil {
		t.Fatal(err)
	}
}

// Of many that want the name that a killed program left, or a free one, one gets it.
func TestOneOfManyGetsANameOnASimpleCard(t *testing.T) {
	defer wholefile.OnASimpleCard()()
	dir := t.TempDir()
	path := filepath.Join(dir, "a")
	oneOfTwentyWins(t, path, wholefile.New)
	if err := errors.Join(os.Remove(path), os.WriteFile(path, nil, 0o600)); err != nil {
		t.Fatal(err)
	}
	claim(t, dir, "a", time.Now())
	oneOfTwentyWins(t, path, wholefile.New)
}

// The empty file goes with its claim, and no other.
func TestAnEmptyFileIsSweptWithItsClaim(t *testing.T) {
	dir := t.TempDir()
	then := time.Now().Add(-25 * time.Hour)
	for _, name := range []string{"a", "b"} {
		path := filepath.Join(dir, name)
		if err := errors.Join(os.WriteFile(path, nil, 0o600), os.Chtimes(path, then, then)); err != nil {
			t.Fatal(err)
		}
	}
	claim(t, dir, "a", then)
	if err := wholefile.New(filepath.Join(dir, "new"), wholefile.SharedMode, saying("")); err != nil {
		t.Fatal(err)
	}
	if got := names(t, dir); !slices.Equal(got, []string{"b", "new"}) {
		t.Errorf("left: %q", got)
	}
}

// oneOfTwentyWins has twenty create the same file at once, the only one of its folder
// but for a claim: one does, whole, and the others are told that it is there.
func oneOfTwentyWins(t *testing.T, path string, create func(string, fs.FileMode, func(io.Writer) error) error) {
	t.Helper()
	var running sync.WaitGroup
	errs := make([]error, 20)
	for i := range errs {
		running.Go(func() { errs[i] = create(path, wholefile.SharedMode, saying(fmt.Sprint(i))) })
	}
	running.Wait()
	won := slices.Index(errs, nil)
	for i, err := range errs {
		if i != won && !errors.Is(err, fs.ErrExist) {
			t.Errorf("%d: %v", i, err)
		}
	}
	there := slices.DeleteFunc(names(t, filepath.Dir(path)), func(name string) bool { return strings.HasPrefix(name, ".rillkey-7-") })
	if won < 0 || contents(t, path) != fmt.Sprint(won) || len(there) != 1 {
		t.Errorf("%d won: %q", won, there)
	}
}
