//go:build linux

package publish

import (
	"errors"
	"os"
	"syscall"
	"testing"

	"rillkey/scoring/visit"
	"rillkey/scoring/wholefile"
)

// On a disk that is full, or a folder that nothing can be put in, visits are read again: the
// site is made all the same, and more slowly.
func TestVisitsAreReadAgainWhereTheDiskIsFull(t *testing.T) {
	disk, err := os.OpenFile("/dev/full", os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer disk.Close()
	if _, err := disk.WriteAt([]byte("x"), 0); !errors.Is(err, syscall.ENOSPC) {
		t.Fatalf("this disk is not full: %v", err)
	}
	file := &visit.Visit{File: "a", Events: []visit.Event{{ID: "k3v9m2qb", Body: visit.Sample{Label: "1", Habitat: "riffle"}}}}
	for _, row := range []struct {
		why   string
		dir   string
		spill *wholefile.ScratchFile
		want  int // visits read
	}{
		{"room", t.TempDir(), nil, 0},
		{"a full disk", t.TempDir(), &wholefile.ScratchFile{File: disk}, 2},
		{"no folder", t.TempDir() + "/gone", nil, 2},
	} {
		read := 0
		g := &givenVisits{dir: row.dir, kept: map[string]*keptVisit{}, spill: row.spill,
			read: func(string) (*visit.Visit, error) { read++; return file, nil }}
		g.learnt("a", file)
		for range 2 {
			v, err := g.masked("a", false)
			if err != nil || len(v.Events) != 1 || v.Events[0].Body != file.Events[0].Body {
				t.Errorf("%s: %+v, %v", row.why, v, err)
			}
		}
		if read != row.want {
			t.Errorf("%s: read %d times, not %d", row.why, read, row.want)
		}
		if row.spill == nil {
			g.Close()
		}
	}
}
