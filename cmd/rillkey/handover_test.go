//go:build unix

package main

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"rillkey/scoring"
	"rillkey/scoring/handover/outside"
)

// The demo's visits, exported and loaded into real databases, give there what
// grade gives here, also where it is withheld. Their protocols ask for the
// presence index; the Family Biotic Index is compared where a protocol asks for
// it (package handover compares both on visits of its own).
func TestDemoVisitsInDatabases(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	kept := filepath.Join(dir, "kept")
	if status, _, stderr := call(t, "demo", "--keep", kept); status != statusDone {
		t.Fatal(stderr)
	}
	files, err := filepath.Glob(filepath.Join(kept, "*.toml"))
	if err != nil || len(files) < 2 {
		t.Fatal(files, err)
	}
	script := filepath.Join(dir, "all.sql")
	if status, _, stderr := call(t, append([]string{"export", "--as", "sql", "--to", script}, files...)...); status != statusDone {
		t.Fatal(stderr)
	}
	text, err := os.ReadFile(script)
	if err != nil {
		t.Fatal(err)
	}
	for name, start := range map[string]func(*testing.T) outside.Database{"SQLite": outside.SQLite, "PostgreSQL": outside.Postgres} {
		t.Run(name, func(t *testing.T) {
			db := start(t)
			for _, file := range files {
				g := gradeOf(t, file)
				compareIndex(t, db, string(text), g, "presence", "presence_index")
				compareIndex(t, db, string(text), g, "fbi", "family_biotic_index")
			}
		})
	}
}

func gradeOf(t *testing.T, file string) scoring.Grade {
	t.Helper()
	_, stdout, stderr := call(t, "grade", "--json", "--visit", file)
	var g scoring.Grade
	if err := json.Unmarshal([]byte(stdout), &g); err != nil {
		t.Fatal(err, stderr)
	}
	return g
}

// compareIndex holds a database's value against the grade's. An index that the
// visit's protocol does not use has no value to compare.
func compareIndex(t *testing.T, db outside.Database, script string, g scoring.Grade, index, view string) {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(db(script, "SELECT visit, value FROM "+view+" WHERE visit = '"+g.Visit.ID+"'"))).ReadAll()
	if err != nil || len(rows) != 1 {
		t.Fatalf("%s of %s: %v, %v", view, g.Visit.ID, rows, err)
	}
	for _, i := range g.Indices {
		if i.ID != index {
			continue
		}
		if i.Withheld {
			if rows[0][1] != "" {
				t.Errorf("%s of %s is withheld, but %s in the database", index, g.Visit.Site, rows[0][1])
			}
			continue
		}
		if v, err := strconv.ParseFloat(rows[0][1], 64); err != nil || math.Abs(v-*i.Value) > 1e-9 {
			t.Errorf("%s of %s is %v, but %q in the database", index, g.Visit.Site, *i.Value, rows[0][1])
		}
	}
}
