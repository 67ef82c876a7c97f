package grid_test

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"fmt"
	"reflect"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"rillkey/key/draft/grid"
)

// written is a workbook whose first sheet is filled.
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

const (
	bookSpace = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	linkSpace = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	packSpace = "http://schemas.openxmlformats.org/package/2006/relationships"
)

// book is a workbook of one sheet as ECMA-376, part 1, has it, of the XML of its sheet and its shared texts.
func book(t testing.TB, sheet, texts string) []byte {
	t.Helper()
	return bookOf(t, sheet, texts)
}

// bookOf is the same with further parts.
func bookOf(t testing.TB, sheet, texts string, further ...[2]string) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, part := range append(further, [][2]string{
		{"[Content_Types].xml", `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`},
		{"_rels/.rels", `<Relationships xmlns="` + packSpace + `">` +
			`<Relationship Id="rId1" Type="` + linkSpace + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`},
		{"xl/workbook.xml", `<workbook xmlns="` + bookSpace + `" xmlns:r="` + linkSpace + `"><sheets>` +
			`<sheet name="Animals" sheetId="1" r:id="rId1"/></sheets></workbook>`},
		{"xl/_rels/workbook.xml.rels", `<Relationships xmlns="` + packSpace + `">` +
			`<Relationship Id="rId1" Type="` + linkSpace + `/worksheet" Target="worksheets/sheet1.xml"/>` +
			`<Relationship Id="rId2" Type="` + linkSpace + `/sharedStrings" Target="sharedStrings.xml"/></Relationships>`},
		{"xl/sharedStrings.xml", `<sst xmlns="` + bookSpace + `" ` + texts + `</sst>`},
		{"xl/worksheets/sheet1.xml", `<worksheet xmlns="` + bookSpace + `">` + sheet + `</worksheet>`},
	}...) {
		w, err := z.Create(part[0])
		if err == nil {
			_, err = w.Write([]byte(part[1]))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Numbers are read as their codes show them (ECMA-376, part 1, 18.8.30 and 18.8.31).
func TestNumbersAreReadAsTheyAreShown(t *testing.T) {
	for _, row := range []struct {
		code  string
		value any
		want  string
	}{
		{"0", 2, "2"},
		{"0", 2.5, "3"},
		{"0.0", 0.25, "0.3"},
		{"0.00", -1.5, "-1.50"},
		{"000", 7, "007"},
		{"#,##0", 1234567, "1,234,567"},
		{"#,##0.00", 1234.5, "1,234.50"},
		{"0%", 0.125, "13%"},
		{"0.0%", 0.125, "12.5%"},
		{`0" mm"`, 12, "12 mm"},
		{"0.00E+00", 1234.5, "1.23E+03"},
		{"0;(0)", -3, "(3)"},
		{"yyyy-mm-dd", 45000, "2023-03-15"},
		{"d.m.yyyy", 45000, "15.3.2023"},
		{"dd/mm/yy", 45000, "15/03/23"},
		{"d-mmm", 45000, "15-Mar"},
		{"mmmm yyyy", 45000, "March 2023"},
		{"h:mm", 0.4375, "10:30"},
		{"h:mm AM/PM", 0.75, "6:00 PM"},
		{"[h]:mm", 1.5, "36:00"},
		{"General", 2.5, "2.5"},
		{"@", "2-3", "2-3"},
	} {
		data := inCode(t, row.code, row.value)
		if got, err := grid.Read(data); err != nil || fmt.Sprint(got) != "[["+row.want+"]]" {
			t.Errorf("%v as %s: %q, %v, want %q", row.value, row.code, got, err, row.want)
		}
	}
}

// inCode is a workbook of one cell whose value is shown by a code.
func inCode(t *testing.T, code string, value any) []byte {
	t.Helper()
	return written(t, func(f *excelize.File, sheet string) error {
		style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
		if err == nil {
			err = f.SetCellStyle(sheet, "A1", "A1", style)
		}
		if err == nil {
			err = f.SetCellValue(sheet, "A1", value)
		}
		return err
	})
}

// Cells of every kind (ECMA-376, part 1, 18.18.11), with and without an address: shared texts and
// those in runs, without how they are spoken; what a formula came to; characters that XML
// does not have (22.9.2.19 there).
func TestCellsOfEveryKind(t *testing.T) {
	const texts = `count="3"><si><t>mayfly</t></si><si><r><t>two </t></r><r><rPr><b/></rPr><t>tails</t></r></si>` +
		`<si><t>a_x000A_b</t><rPh sb="0" eb="1"><t>spoken</t></rPh></si>`
	const merged = `<mergeCells><mergeCell ref="B3:B5"/></mergeCells>`
	got, err := grid.Read(book(t, `<sheetData><row><c t="s"><v>0</v></c><c t="s"><v>1</v></c><c t="s"><v>2</v></c></row>`+
		`<row r="2"><c r="A2" t="inlineStr"><is><t xml:space="preserve"> in line </t></is></c><c r="B2" t="b"><v>1</v></c>`+
		`<c r="D2" t="str"><f>A1</f><v>text</v></c><c r="E2"><f>1+1</f><v>2</v></c><c r="F2" t="e"><v>#N/A</v></c></row>`+
		`<row r="3"><c r="B3"><v>7</v></c></row><row r="5"><c r="A5"><v>8</v></c></row></sheetData>`+merged, texts))
	want := [][]string{{"mayfly", "two tails", "a\nb"}, {" in line ", "TRUE", "", "text", "2", "#N/A"}, {"", "7"}, {"", "7"}, {"8", "7"}}
	if err != nil || !reflect.DeepEqual(normal(got), normal(want)) {
		t.Errorf("%q, %v, want %q", got, err, want)
	}
}

// The first sheet that is shown is read; days count from 1904 where the workbook says so.
func TestWhichSheetAndWhichDays(t *testing.T) {
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
	since1904, code := true, "yyyy-mm-dd"
	data = written(t, func(f *excelize.File, sheet string) error {
		style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
		if err == nil {
			err = f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &since1904})
		}
		if err == nil {
			err = f.SetCellValue(sheet, "A1", 100)
		}
		if err == nil {
			err = f.SetCellStyle(sheet, "A1", "A1", style)
		}
		return err
	})
	if got, err := grid.Read(data); err != nil || fmt.Sprintf("%q", got) != `[["1904-04-10"]]` {
		t.Errorf("%q, %v", got, err)
	}
}

// Workbooks that name much and hold little cost little: what is made for them stays below 400 MB, most
// of it short-lived.
func TestWorkbooksThatNameMuchCostLittle(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	const one = `<sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData>`
	var far, merges strings.Builder
	for row := range 20_000 {
		fmt.Fprintf(&far, `<row r="%d"><c r="A%[1]d"><v>1</v></c><c r="XFD%[1]d"/></row>`, row+1)
		fmt.Fprintf(&merges, `<mergeCell ref="A%d:B%[1]d"/>`, row+1)
	}
	for _, row := range []struct {
		why, sheet, texts string
		want              string // of the sentence, empty where it is read
	}{
		{"far cells without text", `<sheetData>` + far.String() + `</sheetData>`, `count="0">`, ""},
		{"the last row", `<sheetData><row r="1048576"><c r="A1048576"><v>1</v></c></row></sheetData>`, `count="0">`, "larger than"},
		{"the last column", `<sheetData><row r="1"><c r="XFD1"><v>1</v></c></row></sheetData>`, `count="0">`, "larger than"},
		{"a row that there is not", one[:len(one)-len("</sheetData>")] + `<row r="2000000000"/></sheetData>`, `count="0">`, "damaged"},
		{"a row that spans much", `<sheetData><row r="1" spans="1:20000000000"><c r="A1"><v>1</v></c></row></sheetData>`, `count="0">`, ""},
		{"a cell merged over all", one + `<mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>`, `count="0">`, ""},
		{"many merged cells", one + `<mergeCells>` + merges.String() + `</mergeCells>`, `count="0">`, "merged cells"},
		{"many shared texts", one, `count="2000000000"><si><t>a</t></si>`, ""},
		{"elements within each other", strings.Repeat("<a>", 1_000_000), `count="0">`, "damaged"},
		{"a tag without end", `<sheetData><row ` + strings.Repeat(`a="" `, 2_000_000), `count="0">`, "damaged"},
		{"texts beyond all", one, `count="1">` + strings.Repeat("<si/>", 1_100_000), "more than 1000000 texts"},
		{"an entity", `<!DOCTYPE a [<!ENTITY b "c">]><sheetData><row><c><v>&b;</v></c></row></sheetData>`, `count="0">`, "damaged"},
		{"empty cells", one[:len(one)-len("</row></sheetData>")] + strings.Repeat("<c/>", 16_000) + `</row></sheetData>`, `count="0">`, ""},
		{"cells merged over each other", `<sheetData><row r="1"><c><v>1</v></c></row><row r="100001"><c><v>1</v></c></row></sheetData>` +
			`<mergeCells>` +
			strings.Repeat(`<mergeCell ref="A1:A100001"/>`, 9_000) + `</mergeCells>`, `count="0">`, "larger than"},
		{"no end", `<sheetData><row r="1"><c r="A1"><v>1</v></c></row><row r="2">`, `count="0">`, "damaged"},
	} {
		var before, after runtime.MemStats
		data := book(t, row.sheet, row.texts)
		runtime.ReadMemStats(&before)
		begun := time.Now()
		got, err := grid.Read(data)
		runtime.ReadMemStats(&after)
		if (err == nil) != (row.want == "") || err != nil && !strings.Contains(err.Error(), row.want) {
			t.Errorf("%s: %v", row.why, err)
		}
		if err == nil && got[0][0] != "1" {
			t.Errorf("%s: %q", row.why, got[0])
		}
		made := (after.TotalAlloc - before.TotalAlloc) >> 20
		if t.Logf("%s: %d kB, %d MB made, %v", row.why, len(data)>>10, made, time.Since(begun)); made > 400 {
			t.Errorf("%s: %d MB", row.why, made)
		}
	}
}

// A part that says that it is small and unpacks to much is not unpacked.
func TestPartsThatUnpackToMoreThanTheySay(t *testing.T) {
	var packed, b bytes.Buffer
	c, err := flate.NewWriter(&packed, flate.BestSpeed)
	if err != nil {
		t.Fatal(err)
	}
	for range 300 {
		if _, err := c.Write(make([]byte, 1<<20)); err != nil {
			t.Fatal(err)
		}
	}
	z := zip.NewWriter(&b)
	if err := c.Close(); err != nil {
		t.Fatal(err)
	}
	w, err := z.CreateRaw(&zip.FileHeader{Name: "xl/workbook.xml", Method: zip.Deflate, UncompressedSize64: 100,
		CompressedSize64: uint64(packed.Len())})
	if err == nil {
		_, err = w.Write(packed.Bytes())
	}
	if err != nil || z.Close() != nil {
		t.Fatal(err)
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, err = grid.Read(b.Bytes())
	if runtime.ReadMemStats(&after); err == nil || after.TotalAlloc-before.TotalAlloc > 10<<20 {
		t.Errorf("%v, %d MB", err, (after.TotalAlloc-before.TotalAlloc)>>20)
	}
}

// What no spreadsheet program left as .xlsx is told with what to do.
func TestWorkbooksThatCannotBeOpened(t *testing.T) {
	for _, data := range [][]byte{
		[]byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1 and what is locked"),
		zipped(t, "xl/workbook.xml", "<workbook"),
	} {
		if got, err := grid.Read(data); !grid.IsWorkbook(data) || err == nil || !strings.Contains(err.Error(), "save it again") {
			t.Errorf("%.20q: %q, %v", data, got, err)
		}
	}
}

func FuzzXlsx(f *testing.F) {
	f.Add(`<sheetData><row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" s="1"><f>A1</f><v>2</v></c></row></sheetData>`+
		`<mergeCells><mergeCell ref="A1:B2"/></mergeCells>`, `count="1"><si><t>a</t></si>`)
	f.Add(`<sheetData><row><c t="inlineStr"><is><r><t>a</t></r></is></c></row></sheetData>`, `count="0">`)
	f.Fuzz(func(t *testing.T, sheet, texts string) {
		rows, err := grid.Read(book(t, sheet, texts))
		if err != nil && rows != nil {
			t.Error("both")
		}
		for _, r := range rows {
			if len(r) > grid.MaxColumns {
				t.Error(len(r))
			}
		}
	})
}
