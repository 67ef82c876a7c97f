package export

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rillkey/scoring/visit"
)

func TestACellThatASpreadsheetWouldRunIsAText(t *testing.T) {
	for _, row := range []struct{ why, cell, want string }{
		{"nothing", "", ""},
		{"words", "two nets = one sample", "two nets = one sample"},
		{"a formula", "=1+1", "'=1+1"},
		{"one that runs a program", "=cmd|' /C calc'!A0", "'=cmd|' /C calc'!A0"},
		{"plus", "+1+1", "'+1+1"},
		{"minus", "-1+1", "'-1+1"},
		{"a function", "@SUM(A1)", "'@SUM(A1)"},
		{"after a tab", "\t=1", "'\t'=1"},
		{"a carriage return", "\r=1", "'\r=1"},
		{"full width", "＝1+1", "'＝1+1"},
		{"a list in words", "- under stones", "'- under stones"},
		{"a number is no formula", "-72.98", "-72.98"},
		{"one that is a text already", "'=1", "''=1"},
		{"a mark alone", "'tis shallow", "'tis shallow"},
		{"behind another separator", "wet;=1;-2;ok", "wet;'=1;'-2;ok"},
		{"all marks and separators", "''=;'", "'''=;'"},
	} {
		if got := asText(row.cell); got != row.want || asWritten(got) != row.cell {
			t.Errorf("%s: %q became %q, want %q; back it is %q", row.why, row.cell, got, row.want, asWritten(got))
		}
	}
}

// Whatever the cell: it comes back, and wherever a spreadsheet may part it, no
// part of it begins a formula.
func FuzzCellsComeBack(f *testing.F) {
	for _, s := range []string{"=1+1", "''=;'", ";\t;=", "'", "-3", "a;'＝"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, cell string) {
		text := asText(cell)
		if back := asWritten(text); back != cell {
			t.Fatalf("%q became %q and came back as %q", cell, text, back)
		}
		if cell == text {
			return // a number, or harmless by what follows for every cell
		}
		for _, part := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(separators, r) }) {
			for _, start := range []string{"=", "+", "-", "@", "\r", "＝"} {
				if strings.HasPrefix(part, start) {
					t.Fatalf("%q became %q, of which %q is a formula", cell, text, part)
				}
			}
		}
	})
}

// Every text of a visit is hostile; no table and no file of the archive holds a
// cell that begins a formula, and the visit comes back to the last byte.
func TestTablesAreSafeInASpreadsheetAndComeBack(t *testing.T) {
	evil := "=cmd|' /C calc'!A0"
	v := scenes(t)[4]
	v.Header.Site, v.Header.People = "@SUM(A1)", []string{"-2+3", "+1"}
	for i := range v.Events {
		v.Events[i].Who = "-2+3"
		switch b := v.Events[i].Body.(type) {
		case visit.Sample:
			b.Effort = evil
			v.Events[i].Body = b
		case visit.Identification:
			b.Note, b.Cell = evil, "=A1"
			v.Events[i].Body = b
		case visit.Amendment:
			b.Reason = "- counted; =1+1"
			v.Events[i].Body = b
		}
	}
	path := filepath.Join(t.TempDir(), "evil.visit.toml")
	if err := v.WriteNew(path, 0o600); err != nil {
		t.Fatal(err)
	}
	v, err := visit.Read(path)
	if err != nil {
		t.Fatal(err)
	}
	dir := tables(t, []*visit.Visit{v}, open)
	texts := map[string]string{}
	for _, name := range []string{VisitsFile, EventsFile, RecordsFile} {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		texts[name] = string(data)
	}
	for name, text := range openArchive(t, []*visit.Visit{v}, open).files {
		if filepath.Ext(name) == ".csv" {
			texts[name] = text
		}
	}
	marked := 0
	for name, text := range texts {
		rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range rows {
			for _, cell := range row {
				if strings.HasPrefix(cell, "'") {
					marked++
				}
				if strings.ContainsAny(cell[:min(1, len(cell))], "=+@") || strings.HasPrefix(cell, "-") && strings.ContainsAny(cell, "+ ") {
					t.Errorf("%s: %q is a formula", name, cell)
				}
			}
		}
	}
	back, err := readTables(t, dir)
	if err != nil || len(back) != 1 || string(back[0].Encode()) != string(v.Encode()) {
		t.Errorf("it came back otherwise: %v", err)
	}
	if marked < 20 {
		t.Errorf("only %d cells are marked as texts", marked)
	}
}
