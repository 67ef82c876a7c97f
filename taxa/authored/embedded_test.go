package authored_test

import (
	"os"
	"path/filepath"
	"testing"

	"rillkey/taxa/authored"
)

// Files embedded in the program are not decoded when it starts: they are here.
func TestEmbeddedFilesAreSound(t *testing.T) {
	for _, pattern := range []string{"../*.toml", "../../couplets/*.toml", "../../taxa/regions/*.toml",
		"../../scoring/schemes/*.toml", "../../scoring/protocols/*.toml", "../../cmd/rillkey/paper/covers/*.toml"} {
		names, err := filepath.Glob(filepath.FromSlash(pattern))
		if err != nil || len(names) == 0 {
			t.Fatalf("%s: no file (%v)", pattern, err)
		}
		for _, name := range names {
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			var report authored.Report
			if authored.Parse(name, data, &report) == nil {
				t.Error(report.Findings())
			}
		}
	}
}
