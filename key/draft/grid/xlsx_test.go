package grid_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"rillkey/key/draft/grid"
)

// written is a workbook of one sheet, made by the library that only tests use.
func written(t *testing.T, fill func(f *excelize.File, sheet string) error) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	var b bytes.Buffer
	if err := fill(f, "Sheet1"); err != nil {
		t.Fatal(err)
	}
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// shownByTheLibrary is what that library reads, without what is empty at the ends.
func shownByTheLibrary(t *testing.T, data []byte) [][]string {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := f.GetRows(f.GetSheetName(0))
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// Numbers look as a well-kept library shows them (excelize), for the codes that tables of
// animals have.
func TestNumbersLookAsALibraryShowsThem(t *testing.T) {
	r := rand.New(rand.NewPCG(20, 26))
	codes := []string{"0", "0.0", "0.00", "#,##0", "#,##0.00", "0%", "0.0%", `0" mm"`, `0.0\ "g"`, "000", "0.00;-0.0",
		"0;(0)", "yyyy-mm-dd", "d.m.yyyy", "dd/mm/yy", "d-mmm", "mmm-yy", "mmmm yyyy", "dddd d", "h:mm", "hh:mm:ss", "h:mm AM/PM",
		"m/d/yy h:mm", "mm:ss", "[h]:mm"}
	data := written(t, func(f *excelize.File, sheet string) error {
		for row := range 40 {
			for column, code := range codes {
				x := math.Round(r.Float64()*1e7) / 100
				switch row % 4 {
				case 1:
					x = float64(r.IntN(60_000)) + 61
				case 2:
					x = math.Round(r.Float64()*1e4) / 1e4
				}
				if strings.ContainsAny(code, "dy") {
					x += 61 // before, the library counts days from one that there was not
				}
				style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
				if err != nil {
					return err
				}
				cell := grid.Address(row, column)
				if err := f.SetCellValue(sheet, cell, x); err != nil {
					return err
				}
				if err := f.SetCellStyle(sheet, cell, cell, style); err != nil {
					return err
				}
			}
		}
		return nil
	})
	got, err := grid.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	for i, row := range shownByTheLibrary(t, data) {
		for j, want := range row {
			if strings.TrimSpace(want) != got[i][j] {
				t.Errorf("%s: %q, the library has %q", codes[j], got[i][j], want)
			}
		}
	}
}

// A place that a # stands for is left out where it holds nothing (ECMA-376, part 1, 18.8.31;
// the library shows a nought there).
func TestPlacesWithoutAnythingAreLeftOut(t *testing.T) {
	code := "0.0##"
	for x, want := range map[float64]string{1.25: "1.25", 1.2: "1.2", 1: "1.0", 1.23456: "1.235", -0.5: "-0.5"} {
		data := written(t, func(f *excelize.File, sheet string) error {
			style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
			return errors.Join(err, f.SetCellValue(sheet, "A1", x), f.SetCellStyle(sheet, "A1", "A1", style))
		})
		if got, err := grid.Read(data); err != nil || got[0][0] != want {
			t.Errorf("%v: %q, not %q, %v", x, got, want, err)
		}
	}
}

// Texts, numbers, truths and errors are what the library reads.
func TestCellsAreWhatALibraryReads(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	values := []any{"mayfly", "2-3", " spaces ", "two\nlines", "quote \" & <b>", "ß ü 漢 \U0001F41B", "_x0041_", 2, 2.5, -3, 0.1 + 0.2,
		1e-4, 123456789.25, true, false, nil}
	for range 20 {
		data := written(t, func(f *excelize.File, sheet string) error {
			for n := range 60 {
				if err := f.SetCellValue(sheet, grid.Address(r.IntN(30), r.IntN(30)), values[(n+r.IntN(3))%len(values)]); err != nil {
					return err
				}
			}
			return f.SetSheetRow(sheet, "AF31", &[]any{"last"})
		})
		got, err := grid.Read(data)
		if err != nil {
			t.Fatal(err)
		}
		want := shownByTheLibrary(t, data)
		if !reflect.DeepEqual(normal(got), normal(want)) {
			t.Errorf("%q\nthe library has\n%q", got, want)
		}
	}
}

// What is written is a workbook to the library, every cell a text.
func TestALibraryReadsWhatIsWritten(t *testing.T) {
	rows := [][]string{{"animal", "tails", ""}, {"mayfly", "2-3", "a & <b> \"c\""}, nil, {"", "=SUM(1)", " 007 "}}
	var b bytes.Buffer
	if err := grid.Write(&b, rows); err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(bytes.NewReader(b.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for i, row := range rows {
		for j, want := range row {
			at := grid.Address(i, j)
			got, err := f.GetCellValue("Sheet1", at)
			if err != nil || got != want {
				t.Errorf("%s: %q, not %q, %v", at, got, want, err)
			}
			style, err := f.GetCellStyle("Sheet1", at)
			if want == "" || err != nil {
				continue
			}
			if s, err := f.GetStyle(style); err != nil || s.NumFmt != 49 {
				t.Errorf("%s is no text: %v, %v", at, s, err)
			}
		}
	}
}

// The first sheet that is shown is read, whatever its part is called; days count from 1904
// where the workbook says so; a sheet beyond bounds is refused.
func TestWorkbooksOfEverySort(t *testing.T) {
	data := written(t, func(f *excelize.File, sheet string) error {
		for _, name := range []string{"Second", "Third"} {
			if _, err := f.NewSheet(name); err != nil {
				return err
			}
			if err := f.SetCellValue(name, "B2", name); err != nil {
				return err
			}
		}
		f.SetActiveSheet(1)
		return f.SetSheetVisible(sheet, false)
	})
	if got, err := grid.Read(data); err != nil || fmt.Sprintf("%q", got) != `[[] ["" "Second"]]` {
		t.Errorf("%q, %v", got, err)
	}
	since1904 := true
	data = written(t, func(f *excelize.File, sheet string) error {
		if err := f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &since1904}); err != nil {
			return err
		}
		code := "yyyy-mm-dd"
		style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
		if err != nil {
			return err
		}
		if err := f.SetCellValue(sheet, "A1", 1); err != nil {
			return err
		}
		return f.SetCellStyle(sheet, "A1", "A1", style)
	})
	if got, err := grid.Read(data); err != nil || fmt.Sprintf("%q", got) != `[["1904-01-02"]]` {
		t.Errorf("%q, %v", got, err)
	}
	for _, at := range []string{"ALN1", "A100002"} {
		data = written(t, func(f *excelize.File, sheet string) error { return f.SetCellValue(sheet, at, "far") })
		if got, err := grid.Read(data); err == nil {
			t.Errorf("%s: %q", at, got)
		}
	}
}
