//go:build unix

package main

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"rillkey/key/keytest"
	"rillkey/scoring"
	"rillkey/scoring/export/exporttest"
	"rillkey/scoring/visit"
)

// The demo's visits, exported and loaded into real databases, give there what
// gradeVisit gives here: the presence index by their own protocols and the Family
// Biotic Index by one that asks for it, also where they are withheld.
func TestDemoVisitsInDatabases(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
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
	for name, start := range map[string]func(*testing.T) exporttest.Database{"SQLite": exporttest.SQLite,
		"PostgreSQL": exporttest.Postgres} {
		t.Run(name, func(t *testing.T) {
			db := start(t)
			for _, file := range files {
				own, other := gradeOf(t, file, ""), gradeOf(t, file, "riffle-families")
				compareIndex(t, db, string(text), own, "presence", "presence_index", own.Effort.Complete)
				compareIndex(t, db, string(text), other, "fbi", "family_biotic_index", own.Effort.Complete)
			}
		})
	}
}

// gradeOf grades a visit, by another protocol than its own where one is named.
func gradeOf(t *testing.T, file, protocol string) *scoring.Grade {
	t.Helper()
	v, err := visit.Read(file)
	if err != nil {
		t.Fatal(err)
	}
	if protocol != "" {
		v.Header.Protocol = protocol
	}
	rules, err := scoring.EmbeddedRules(keytest.Model(t).Key().Catalog())
	if err != nil {
		t.Fatal(err)
	}
	g, err := rules.Grade(rules.Account(v), scoring.GradeOptions{})
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// compareIndex holds a database's value against the grade's. Without the effort
// that the visit's own protocol asks for there must be none.
func compareIndex(t *testing.T, db exporttest.Database, script string, g *scoring.Grade, index, view string, complete bool) {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(db(script, "SELECT visit, value FROM "+view+" WHERE visit = '"+g.Visit.ID+"'"))).ReadAll()
	if err != nil || len(rows) != 1 {
		t.Fatalf("%s of %s: %v, %v", view, g.Visit.ID, rows, err)
	}
	at := slices.IndexFunc(g.Indices, func(i scoring.Index) bool { return i.ID == index })
	if at < 0 {
		t.Fatalf("%s is not graded by %s", g.Visit.Site, index)
	}
	if i := g.Indices[at]; i.Withheld || !complete {
		if rows[0][1] != "" {
			t.Errorf("%s of %s has not been earned, but is %s in the database", index, g.Visit.Site, rows[0][1])
		}
	} else if v, err := strconv.ParseFloat(rows[0][1], 64); err != nil || math.Abs(v-*i.Value) > 1e-9 {
		t.Errorf("%s of %s is %v, but %q in the database", index, g.Visit.Site, *i.Value, rows[0][1])
	}
}
