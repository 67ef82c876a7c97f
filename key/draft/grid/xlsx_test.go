package grid_test

import (
	"bytes"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"rillkey/key/draft/grid"
)

// written is a workbook as the library for them writes it.
func written(t testing.TB, fill func(f *excelize.File) error) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	if err := fill(f); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Numbers are as the spreadsheet shows them, by the library that wrote them too; days
// are as ISO 8601 writes them. 1 March 1900 is day 61, since 29 February is counted
// that never was (ECMA-376, part 1, 18.17.4.1).
func TestCellsAreReadAsTheyAreShown(t *testing.T) {
	for _, row := range []struct {
		why, format string
		value       any
		want        string
	}{
		{"a number", "", 2.5, "2.5"},
		{"a sum that a machine cannot hold", "", 0.1 + 0.2, "0.3"},
		{"a large number", "", 1e14, "100000000000000"},
		{"decimals", "0.00", 2, "2.00"},
		{"thousands", "#,##0", 12, "12"},
		{"per cent", "0%", 0.25, "25%"},
		{"per cent with decimals", "0.0%", 0.255, "25.5%"},
		{"yes", "", true, "TRUE"},
		{"no", "", false, "FALSE"},
		{"text like a number", "", "007", "007"},
		{"text with an end of line and a sign", "", "a\nb & <c>", "a\nb & <c>"},
		{"a day", "d-mmm", time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC), "2026-03-02"},
		{"a day and a time", "yyyy-mm-dd hh:mm", time.Date(2026, 3, 2, 17, 30, 0, 0, time.UTC), "2026-03-02 17:30:00"},
		{"a time", "hh:mm", 0.5, "12:00:00"},
		{"the first day", "dd/mm/yy", 1, "1900-01-01"},
		{"the day behind the one that never was", "dd/mm/yy", 61, "1900-03-01"},
		{"a unit is no time", `0.0" mm"`, 3, "3.0"},
	} {
		data := written(t, func(f *excelize.File) error {
			if row.format != "" {
				style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &row.format})
				if err != nil {
					return err
				}
				if err := f.SetCellStyle("Sheet1", "A1", "A1", style); err != nil {
					return err
				}
			}
			return f.SetCellValue("Sheet1", "A1", row.value)
		})
		got, err := grid.Read(data)
		if err != nil || len(got) != 1 || len(got[0]) != 1 || got[0][0] != row.want {
			t.Errorf("%s: %q, %v, want %q", row.why, got, err, row.want)
		}
	}
}

func TestWhichSheetIsRead(t *testing.T) {
	data := written(t, func(f *excelize.File) error {
		if _, err := f.NewSheet("Shown"); err != nil {
			return err
		}
		words := []excelize.RichTextRun{{Text: "two "}, {Text: "tails", Font: &excelize.Font{Bold: true}}}
		if err := f.SetCellRichText("Shown", "B2", words); err != nil {
			return err
		}
		if err := f.SetCellStr("Sheet1", "A1", "hidden"); err != nil {
			return err
		}
		f.SetActiveSheet(1)
		return f.SetSheetVisible("Sheet1", false)
	})
	got, err := grid.Read(data)
	if want := [][]string{nil, {"", "two tails"}}; err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("%q, %v, want %q", got, err, want)
	}
}

// The library for workbooks reads what is written here, and what it writes is read here
// as it reads it itself.
func TestTheLibraryAgrees(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 31))
	words := []string{"", "", "mayfly", "2-3", "=1+1", "  two  ", "grün & <braun>", "_x000D_", "a\nb", "1e5"}
	for range 20 {
		rows := make([][]string, 1+r.IntN(6))
		for i := range rows {
			rows[i] = make([]string, 1+r.IntN(5))
			for j := range rows[i] {
				rows[i][j] = words[r.IntN(len(words))]
			}
		}
		var ours bytes.Buffer
		if err := grid.Write(&ours, rows); err != nil {
			t.Fatal(err)
		}
		f, err := excelize.OpenReader(&ours)
		if err != nil {
			t.Fatal(err)
		}
		theirs, err := f.GetRows("Sheet1")
		if err != nil || !reflect.DeepEqual(trimmed(theirs), trimmed(rows)) {
			t.Fatalf("written %q, the library reads %q, %v", rows, theirs, err)
		}
		var b bytes.Buffer
		if err := f.Write(&b); err != nil {
			t.Fatal(err)
		}
		f.Close()
		got, err := grid.Read(b.Bytes())
		if err != nil || !reflect.DeepEqual(trimmed(got), trimmed(rows)) {
			t.Fatalf("the library writes %q; read %q, %v", rows, got, err)
		}
	}
}

// trimmed is a table as text, without what is empty at its ends.
func trimmed(rows [][]string) (out []string) {
	for _, r := range rows {
		out = append(out, strings.TrimRight(strings.Join(r, "\x00"), "\x00"))
	}
	for len(out) > 0 && out[len(out)-1] == "" {
		out = out[:len(out)-1]
	}
	return out
}

func TestWorkbooksThatCannotBeRead(t *testing.T) {
	const book = `<workbook><sheets><sheet name="a" xmlns:r="x" r:id="r1"/></sheets></workbook>`
	const links = `<Relationships><Relationship Id="r1" Type="x/worksheet" Target="/xl/s.xml"/></Relationships>`
	for why, sheet := range map[string]string{
		"rows out of order":         `<row r="2"><c><v>1</v></c></row><row r="1"/>`,
		"cells out of order":        `<row><c r="B1"><v>1</v></c><c r="A1"><v>1</v></c></row>`,
		"a cell without an address": `<row><c r="1"><v>1</v></c></row>`,
		"a text that is not there":  `<row><c t="s"><v>7</v></c></row>`,
		"a row far down":            `<row r="1000000"><c><v>1</v></c></row>`,
		"a cell far to the right":   `<row><c r="ZZZ1"><v>1</v></c></row>`,
		"an end in the middle":      `<row><c`,
	} {
		data := zippedParts(t, "xl/workbook.xml", book, "xl/_rels/workbook.xml.rels", links, "xl/s.xml", "<worksheet>"+sheet)
		if got, err := grid.Read(data); err == nil {
			t.Errorf("%s: %q", why, got)
		}
	}
	sound := `<worksheet><row r="3"><c r="B3" s="9"><v>1</v></c><c r="ZZ3" s="1"/></row></worksheet>`
	got, err := grid.Read(zippedParts(t, "xl/workbook.xml", book, "xl/_rels/workbook.xml.rels", links, "xl/s.xml", sound))
	if want := [][]string{nil, nil, {"", "1"}}; err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("%q, %v", got, err)
	}
	if _, err := grid.Read(zippedParts(t, "xl/workbook.xml", book, "xl/_rels/workbook.xml.rels", links)); err == nil {
		t.Error("a workbook without its sheet is read")
	}
}
