package grid_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"reflect"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"rillkey/key/draft/grid"
)

// Random workbooks are read as the library reads them: texts that are shared and in runs, truth values,
// formulas that came to something, days since 1904, sheets that are hidden, gaps, merged cells.
func TestRandomWorkbooksAreReadAsByALibrary(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for n := range 60 {
		shown := "Sheet1"
		data := written(t, func(f *excelize.File, sheet string) error {
			if random.IntN(3) == 0 {
				since := true
				if err := f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &since}); err != nil {
					return err
				}
			}
			for i := range random.IntN(4) {
				if _, err := f.NewSheet(fmt.Sprintf("Further %d", i)); err != nil {
					return err
				}
			}
			sheets := f.GetSheetList()
			if len(sheets) > 1 && random.IntN(2) == 0 {
				f.SetActiveSheet(1)
				if err := f.SetSheetVisible(sheet, false); err != nil {
					return err
				}
				shown = sheets[1]
			}
			for _, name := range sheets {
				if err := randomCells(f, name, random); err != nil {
					return err
				}
			}
			return nil
		})
		got, err := grid.Read(data)
		want := byLibrary(t, data, shown)
		if err != nil || !reflect.DeepEqual(normal(got), normal(want)) {
			t.Fatalf("workbook %d: %v\n%q, want\n%q", n, err, got, want)
		}
	}
}

func randomCells(f *excelize.File, sheet string, random *rand.Rand) error {
	style, err := f.NewStyle(&excelize.Style{NumFmt: 15})
	if err != nil {
		return err
	}
	texts := [...]string{"mayfly", " <worm> ", "Käfer\nlarva", "a_x0041_b", "007", "2-3", "\"'&", ""}
	for range 1 + random.IntN(60) {
		row, column := random.IntN(30), random.IntN(40)
		at := grid.Address(row, column)
		switch random.IntN(8) {
		case 0:
			err = f.SetCellValue(sheet, at, random.IntN(1000)-300)
		case 1:
			err = f.SetCellValue(sheet, at, float64(random.IntN(100_000)-5000)/1000)
		case 2:
			err = f.SetCellBool(sheet, at, random.IntN(2) == 0)
		case 3:
			if err = f.SetCellValue(sheet, at, 100+random.IntN(50_000)); err == nil {
				err = f.SetCellStyle(sheet, at, at, style)
			}
		case 4:
			err = f.SetCellRichText(sheet, at, []excelize.RichTextRun{
				{Text: "two "}, {Text: "tails", Font: &excelize.Font{Bold: true}}, {Text: " & gills"}})
		case 5:
			if err = f.SetCellValue(sheet, at, "came to this"); err == nil {
				err = f.SetCellFormula(sheet, at, `"came"&" to this"`)
			}
		default:
			err = f.SetCellStr(sheet, at, texts[random.IntN(len(texts))])
		}
		if err != nil {
			return err
		}
	}
	for i := range random.IntN(3) { // apart from each other
		from, to := grid.Address(random.IntN(10), 50+i), grid.Address(10+random.IntN(25), 50+i)
		if err := f.SetCellStr(sheet, from, "merged"); err != nil {
			return err
		}
		if err := f.MergeCell(sheet, from, to); err != nil {
			return err
		}
	}
	return nil
}

// byLibrary are the rows of a sheet, with its merged cells repeated downwards.
func byLibrary(t *testing.T, data []byte, sheet string) [][]string {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := f.GetRows(sheet)
	if err != nil {
		t.Fatal(err)
	}
	merged, err := f.GetMergeCells(sheet)
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range merged {
		column, from, err1 := excelize.CellNameToCoordinates(m.GetStartAxis())
		_, to, err2 := excelize.CellNameToCoordinates(m.GetEndAxis())
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		for row := from; row < min(to, len(rows)); row++ {
			for len(rows[row]) < column {
				rows[row] = append(rows[row], "")
			}
			rows[row][column-1] = m.GetCellValue()
		}
	}
	for i, row := range rows {
		for len(row) > 0 && row[len(row)-1] == "" {
			row = row[:len(row)-1]
		}
		rows[i] = row
	}
	for len(rows) > 0 && len(rows[len(rows)-1]) == 0 {
		rows = rows[:len(rows)-1]
	}
	return rows
}

// What is written is read by the library as it was, every cell as text.
func TestWhatIsWrittenIsReadByALibrary(t *testing.T) {
	rows := [][]string{{"animal", "tails", "gills"}, {"mayfly", "2-3", "=SUM(1)"}, {"<worm> & \"leech\"", " 007 ", "a\nb\tc"},
		{"_x0041_", "\x01\x1b", "Käfer 🪲"}, nil, {"", "", "last"}}
	var b bytes.Buffer
	if err := grid.Write(&b, rows); err != nil {
		t.Fatal(err)
	}
	if got := byLibrary(t, b.Bytes(), "Sheet1"); !reflect.DeepEqual(normal(got), normal(rows)) {
		t.Errorf("the library: %q, want %q", got, rows)
	}
	if got, err := grid.Read(b.Bytes()); err != nil || !reflect.DeepEqual(normal(got), normal(rows)) {
		t.Errorf("%q, %v, want %q", got, err, rows)
	}
	f, err := excelize.OpenReader(&b)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for _, at := range []string{"A1", "B2"} {
		style, err := f.GetCellStyle("Sheet1", at)
		if err != nil {
			t.Fatal(err)
		}
		if s, err := f.GetStyle(style); err != nil || s.NumFmt != 49 {
			t.Errorf("%s: %+v, %v; it is no text", at, s, err)
		}
	}
}

// Workbooks of two spreadsheet programs, saved by LibreOffice 7.4.7 and openpyxl 3.0.9 with the same cells.
func TestWorkbooksOfOtherPrograms(t *testing.T) {
	want := "animal|tails|share|seen|ok\nmayfly|2-3|12.5%|2023-03-15|TRUE\nKäfer & <larva>|0|33.3%|2024-02-29|FALSE\n" +
		"worm\nof two lines||0.0%\n|group|7\n|group|8 mm"
	for _, name := range []string{"libreoffice.xlsx", "openpyxl.xlsx"} {
		data, err := os.ReadFile("testdata/" + name)
		if err != nil {
			t.Fatal(err)
		}
		rows, err := grid.Read(data)
		var lines []string
		for _, r := range rows {
			lines = append(lines, strings.Join(r, "|"))
		}
		if got := strings.Join(lines, "\n"); err != nil || got != want {
			t.Errorf("%s: %v\n%s\nwant\n%s", name, err, got, want)
		}
	}
}
