package visit

import (
	"crypto/rand"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// card mounts a small disk of its own.
func card(t *testing.T, size string) string {
	t.Helper()
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size="+size); err != nil {
		t.Skipf("no disk can be mounted here: %v", err)
	}
	t.Cleanup(func() { _ = syscall.Unmount(dir, syscall.MNT_DETACH) })
	return dir
}

// A disk that fills up: the record is refused with a clear message, all before
// it are there, and with some room again work goes on.
func TestFullDisk(t *testing.T) {
	dir := card(t, "64k")
	path := filepath.Join(dir, "v.toml")
	if _, err := Create(path, Header{Site: "Otter Run", Date: "2024-05-31", Begun: noon}, rand.Reader); err != nil {
		t.Fatal(err)
	}
	ballast := filepath.Join(dir, "ballast")
	put(t, ballast, make([]byte, 24<<10))
	save := func(b Body) error {
		_, err := Append(path, time.Now(), "Ada", b, rand.Reader)
		return err
	}
	if err := save(Sample{Label: "1", Habitat: "riffle"}); err != nil {
		t.Fatal(err)
	}
	saved := 1
	var full error
	for full == nil && saved < 1000 {
		if full = save(record(0)); full == nil {
			saved++
		}
		if full != nil {
			full = save(Identification{Sample: "1", Taxon: "baetidae", Count: 1, Note: strings.Repeat("x", 1900)})
		}
	}
	if full == nil || !strings.Contains(full.Error(), "NOT saved: no space left") {
		t.Fatalf("after %d records: %v", saved, full)
	}
	if v := read(t, path); len(v.Events) != saved || len(v.Notices) != 0 {
		t.Errorf("%d events of %d, remarks %v", len(v.Events), saved, v.Notices)
	}
	if _, err := Create(filepath.Join(dir, "other.toml"),
		Header{Site: strings.Repeat("long ", 300), Date: "2024-05-31", Begun: noon}, rand.Reader); err == nil {
		t.Log("there was still room for a header")
	}
	if err := os.Remove(ballast); err != nil {
		t.Fatal(err)
	}
	if err := save(record(0)); err != nil {
		t.Errorf("with room again: %v", err)
	}
	if v := read(t, path); len(v.Events) != saved+1 {
		t.Errorf("%d events of %d", len(v.Events), saved+1)
	}
}

func TestReadOnlyFolder(t *testing.T) {
	dir := card(t, "64k")
	path := filepath.Join(dir, "v.toml")
	if _, err := Create(path, Header{Site: "Otter Run", Date: "2024-05-31", Begun: noon}, rand.Reader); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("tmpfs", dir, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skipf("the disk cannot be made read-only: %v", err)
	}
	_, err := Append(path, noon, "Ada", Sample{Label: "1", Habitat: "riffle"}, rand.Reader)
	if err == nil || !strings.Contains(err.Error(), "read-only") || strings.Contains(err.Error(), "\n") {
		t.Errorf("append: %v", err)
	}
	if _, err := Create(filepath.Join(dir, "w.toml"), Header{Site: "Otter Run", Date: "2024-05-31", Begun: noon},
		rand.Reader); err == nil || !strings.Contains(err.Error(), "read-only") {
		t.Errorf("create: %v", err)
	}
	if err := Creatable(filepath.Join(dir, "w.toml")); err == nil || !strings.Contains(err.Error(), "read-only") {
		t.Errorf("it is not known before that nothing can be begun: %v", err)
	}
	if err := Appendable(path); err == nil || !strings.Contains(err.Error(), "read-only") {
		t.Errorf("it is not known before that nothing can be added: %v", err)
	}
	if v, err := Read(path); err != nil || v.Header.Site != "Otter Run" {
		t.Errorf("reading: %v", err)
	}
}
