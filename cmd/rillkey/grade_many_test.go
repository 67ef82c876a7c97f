package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

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

// The line says how far the work is, at most ten times a second, and goes away.
func TestProgress(t *testing.T) {
	var out bytes.Buffer
	now := time.Unix(0, 0)
	p := progress{out: &out, total: 200, on: true, now: func() time.Time { return now }}
	for n := 1; n <= 200; n++ {
		now = now.Add(10 * time.Millisecond)
		p.step(n)
	}
	if lines := strings.Count(out.String(), "of 200 visits"); lines < 15 || lines > 20 || !strings.Contains(out.String(), "[#") {
		t.Errorf("%d changes: %q", lines, out.String())
	}
	p.clear()
	if !strings.HasSuffix(out.String(), " \r") {
		t.Errorf("%q", out.String())
	}
	var none bytes.Buffer
	off := progress{out: &none, total: 2, now: p.now}
	off.step(1)
	off.clear()
	if none.Len() > 0 {
		t.Errorf("%q", none.String())
	}
}
