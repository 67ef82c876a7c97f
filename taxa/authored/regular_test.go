//go:build unix

package authored_test

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"rillkey/taxa/authored"
)

// A pipe that nobody writes to, a link to one and a device are refused at once;
// files, links to files and folders are opened.
func TestNothingButFilesIsRead(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	must(os.WriteFile(at("file"), []byte("x"), 0o644))
	must(os.Mkdir(at("folder"), 0o755))
	must(syscall.Mkfifo(at("pipe"), 0o644))
	for link, to := range map[string]string{"to-file": "file", "to-pipe": "pipe", "to-null": "/dev/null", "to-zero": "/dev/zero"} {
		must(os.Symlink(to, at(link)))
	}
	for name, opens := range map[string]bool{
		"file": true, "folder": true, "to-file": true, "pipe": false, "to-pipe": false, "to-null": false, "to-zero": false} {
		done := make(chan error, 2)
		go func() {
			f, err := authored.DirFS(dir).Open(name)
			if err == nil {
				f.Close()
			}
			done <- err
			g, err := authored.OpenFile(at(name), os.O_RDONLY)
			if err == nil {
				g.Close()
			}
			done <- err
		}()
		for range 2 {
			select {
			case err := <-done:
				if (err == nil) != opens || !opens && !errors.Is(err, authored.ErrNotRegular) {
					t.Errorf("%s: %v", name, err)
				}
			case <-time.After(time.Minute):
				t.Fatalf("%s is waited for", name)
			}
		}
	}
	for _, name := range []string{"../file", "/file", "nobody", ""} {
		if f, err := authored.DirFS(dir).Open(name); err == nil {
			f.Close()
			t.Errorf("%q is opened", name)
		}
	}
	if _, err := fs.ReadDir(authored.DirFS(dir), "."); err != nil {
		t.Error(err)
	}
}
