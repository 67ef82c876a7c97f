package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rillkey/scoring/visit"
)

// A file that somebody writes to while it is read gives no half-read visit: it is
// read again, and named when it never rests.
func TestAFileThatChangesWhileItIsRead(t *testing.T) {
	file := filepath.Join(t.TempDir(), "a.visit.toml")
	grow := func() {
		f, err := os.OpenFile(file, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o644)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if _, err := f.WriteString("x"); err != nil {
			t.Fatal(err)
		}
	}
	grow()
	for _, tt := range []struct {
		label     string
		busy      int // readings during which the file grows
		readings  int
		complains bool
	}{{"at rest", 0, 1, false}, {"once", 1, 2, false}, {"always", 9, 3, true}} {
		t.Run(tt.label, func(t *testing.T) {
			readings := 0
			_, err := steadily(file, func(string) (*visit.Visit, error) {
				if readings++; readings <= tt.busy {
					grow()
				}
				return &visit.Visit{}, nil
			})
			if readings != tt.readings || (err != nil) != tt.complains || err != nil && !strings.Contains(err.Error(), "keeps changing") {
				t.Errorf("%d readings, %v", readings, err)
			}
		})
	}
}
