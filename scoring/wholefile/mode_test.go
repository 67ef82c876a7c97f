//go:build !windows

package wholefile_test

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"rillkey/scoring/wholefile"
)

// The mode is that of the least shared source, less what the umask takes.
func TestTheUmaskAndTheModesOfSourcesHold(t *testing.T) {
	for _, row := range []struct {
		why          string
		umask        int
		sources      []fs.FileMode
		file, folder fs.FileMode
	}{
		{"nothing private", 0o022, nil, 0o644, 0o755},
		{"a private umask", 0o077, []fs.FileMode{0o644}, 0o600, 0o700},
		{"a group's umask", 0o002, nil, 0o664, 0o775},
		{"a private source", 0o022, []fs.FileMode{0o644, 0o600}, 0o600, 0o700},
		{"a source for the group", 0o022, []fs.FileMode{0o640}, 0o640, 0o750},
		{"a source that nobody may change", 0o022, []fs.FileMode{0o444}, 0o644, 0o755},
	} {
		t.Run(row.why, func(t *testing.T) {
			dir := t.TempDir()
			sources := []string{filepath.Join(dir, "none")}
			for i, mode := range row.sources {
				path := filepath.Join(dir, string(rune('a'+i)))
				if err := errors.Join(os.WriteFile(path, nil, 0o600), os.Chmod(path, mode)); err != nil {
					t.Fatal(err)
				}
				sources = append(sources, path)
			}
			file, folder := filepath.Join(dir, "new"), filepath.Join(dir, "folder")
			before := syscall.Umask(row.umask)
			err := errors.Join(
				wholefile.New(file, wholefile.ModeOf(sources...), saying("")),
				wholefile.NewFolder(folder, wholefile.ModeOf(sources...), func(create func(string) (io.WriteCloser, error)) error {
					f, err := create("in it")
					return errors.Join(err, f.Close())
				}))
			syscall.Umask(before)
			if err != nil {
				t.Fatal(err)
			}
			for path, want := range map[string]fs.FileMode{file: row.file, folder: row.folder, filepath.Join(folder, "in it"): row.file} {
				if info, err := os.Stat(path); err != nil || info.Mode().Perm() != want {
					t.Errorf("%s has %v, want %v", filepath.Base(path), info.Mode().Perm(), want)
				}
			}
		})
	}
}
