//go:build unix

package network_test

import (
	"net/url"
	"os"
	"path/filepath"
	"testing"

	"rillkey/scoring/network"
)

// The first place that names a file is the one that counts, and it is for its owner alone.
func TestCheckPasswordFile(t *testing.T) {
	dir := t.TempDir()
	file := func(name string, mode os.FileMode) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, nil, mode); err != nil {
			t.Fatal(err)
		}
		if err := os.Chmod(path, mode); err != nil { // whatever the umask
			t.Fatal(err)
		}
		return path
	}
	own, group, others := file("own", 0o600), file("group", 0o640), file(".pgpass", 0o604)
	const address = "postgres://ann@host/streams"
	named := func(file string) string { return address + "?passfile=" + url.QueryEscape(file) }
	for _, row := range []struct {
		why, address, variable, home string
		refused                      bool
	}{
		{"none", address, "", "", false},
		{"its owner's", address, own, "", false},
		{"its group's", address, group, "", true},
		{"everybody's, in the home folder", address, "", dir, true},
		{"the variable stands above the home folder", address, own, dir, false},
		{"the address stands above the variable", named(group), own, "", true},
		{"so it does where it is safe", named(own), others, dir, false},
		{"a folder", address, dir, "", true},
		{"one that is not there", address, filepath.Join(dir, "gone"), dir, false},
	} {
		err := network.CheckPasswordFile(row.address, func(name string) string {
			return map[string]string{"PGPASSFILE": row.variable, "HOME": row.home}[name]
		})
		if (err != nil) != row.refused {
			t.Errorf("%s: %v", row.why, err)
		}
	}
}

func TestCheckParts(t *testing.T) {
	for n, ok := range map[int]bool{-1: false, 0: true, 256: true, 257: false} {
		if err := network.CheckParts(n); (err == nil) != ok {
			t.Errorf("%d: %v", n, err)
		}
	}
	if _, err := network.Migrate(t.Context(), nil, nil, 257); err == nil {
		t.Error("the tables are parted into 257")
	}
}
