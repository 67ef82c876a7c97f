package main

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Whoever names visits alone, as a shell does for *.visit.toml, loses none of them to
// the rates that are learned.
func TestRatesAreNeverLearnedIntoAVisit(t *testing.T) {
	from, _, visit := sources(t, 0o644)
	for _, name := range []string{"one.visit.toml", "of another name.toml"} {
		path := filepath.Join(from, name)
		before, err := os.ReadFile(visit)
		if err = errors.Join(err, os.WriteFile(path, before, 0o644)); err != nil {
			t.Fatal(err)
		}
		for _, more := range [][]string{nil, {"--add"}} {
			status, _, errs := call(t, append([]string{"rates", "learn", path, visit}, more...)...)
			after, err := os.ReadFile(path)
			if err != nil || status == statusDone || string(after) != string(before) || !strings.Contains(errs, name) {
				t.Errorf("%s %v: status %d, %q", name, more, status, errs)
			}
		}
	}
}

// full is where nothing can be written.
type full struct{ io.Writer }

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

// Where standard output takes nothing, the status says whether anything was saved, and
// so does the folder.
func TestStatusAndDiskAgreeWhereOutputIsLost(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "v.visit.toml")
	size := func() int64 {
		info, err := os.Stat(path)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			t.Fatal(err)
		}
		if err != nil {
			return 0
		}
		return info.Size()
	}
	for _, row := range []struct {
		saves bool
		args  string
	}{
		{true, "visit begin --site Brook --date 2026-05-16 --protocol riffle-three --cautions-read"},
		{true, "visit sample --habitat riffle"},
		{false, "visit show"},
		{true, "identify --observe legs=10 --observe forelegs=pincers"},
		{false, "grade --anyway"},
		{true, "visit finish --note done"},
		{false, "visit show --json"},
	} {
		before := size()
		var errs strings.Builder
		status := run(append(strings.Fields(row.args), "--visit", path), world{stdin: strings.NewReader(""), stdout: full{}, stderr: &errs,
			width: 80, random: strings.NewReader(row.args + strings.Repeat("z", 1<<10)), env: func(string) string { return "" },
			now: func() time.Time { return time.Date(2026, 5, 16, 12, 0, 0, 0, time.UTC) }})
		told := status == statusUntold && strings.Contains(errs.String(), "it is saved all the same, so do not do it again")
		if grew := size() > before; grew != row.saves || told != row.saves || !row.saves && status != statusBadData {
			t.Errorf("%s: status %d, saved %v, %q", row.args, status, grew, &errs)
		}
	}
}
