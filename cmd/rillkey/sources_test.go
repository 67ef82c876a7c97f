package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"testing/fstest"
)

// demoKept are the files that the demo keeps; it is played once for all that start from them.
func demoKept(t *testing.T) fs.FS {
	t.Helper()
	demoOnce.Do(func() {
		dir := t.TempDir()
		runIn(t, "demo", "--plain", "--keep", dir)
		demoFiles = fstest.MapFS{}
		for _, path := range everythingIn(t, dir)[1:] {
			data, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			demoFiles[filepath.Base(path)] = &fstest.MapFile{Data: data}
		}
	})
	return demoFiles
}

var (
	demoOnce  sync.Once
	demoFiles fstest.MapFS
)

// sources makes the files that the writings start from, of the mode, and a folder
// for what is made.
func sources(t *testing.T, mode fs.FileMode) (from, to, visit string) {
	t.Helper()
	dir := t.TempDir()
	from, to = filepath.Join(dir, "from"), filepath.Join(dir, "to")
	if err := os.CopyFS(from, demoKept(t)); err != nil {
		t.Fatal(err)
	}
	visits, err := filepath.Glob(filepath.Join(from, "*.visit.toml"))
	if err != nil || len(visits) == 0 {
		t.Fatal("the demo keeps no visit")
	}
	copied, err := os.ReadFile(visits[0])
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		"copy-1.toml": string(copied),
		"copy-2.toml": string(copied),
		"animals.csv": "taxon,legs,shell\nbeetle,6,no\nsnail,0,yes\nworm,0,no\n",
		"region.toml": "[region]\ntitle = \"Here\"\nsource = \"memory\"\ntaxa = [\"beetle\", \"snail\"]\n",
	} {
		if err := os.WriteFile(filepath.Join(from, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	files, err := filepath.Glob(filepath.Join(from, "*"))
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		if err := os.Chmod(file, mode); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.MkdirAll(filepath.Join(to, "in"), 0o777); err != nil {
		t.Fatal(err)
	}
	return from, to, visits[0]
}

// everythingIn are the paths in a folder.
func everythingIn(t *testing.T, dir string) (out []string) {
	t.Helper()
	_ = filepath.WalkDir(dir, func(path string, _ os.DirEntry, err error) error {
		if err == nil {
			out = append(out, path)
		}
		return nil
	})
	return out
}
