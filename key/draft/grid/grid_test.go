package grid_test

import (
	"archive/zip"
	"bytes"
	"reflect"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"rillkey/key/draft/grid"
)

func TestWhatIsWrittenIsReadBack(t *testing.T) {
	rows := [][]string{{"animal", "tails", "gills"}, {"mayfly", "2-3", "yes"}, {"worm", "0", "none, or hidden"}, nil,
		{"=SUM(1)", "", "007"}}
	var b bytes.Buffer
	if err := grid.Write(&b, rows); err != nil {
		t.Fatal(err)
	}
	got, err := grid.Read(b.Bytes())
	if err != nil || !reflect.DeepEqual(normal(got), normal(rows)) {
		t.Errorf("%q, %v", got, err)
	}
	b.Reset()
	if err := grid.WriteCSV(&b, rows); err != nil || !strings.Contains(b.String(), "\"none, or hidden\"") {
		t.Errorf("%q, %v", b.String(), err)
	}
}

func normal(rows [][]string) (out []string) {
	for _, r := range rows {
		out = append(out, strings.Join(r, "\x00"))
	}
	return out
}

// Of an .xlsx the first sheet that is shown is read, merged cells downwards, dates
// as they are shown.
func TestXlsx(t *testing.T) {
	f := excelize.NewFile()
	defer f.Close()
	for cell, v := range map[string]any{
		"A1": "animal", "B1": "group", "A2": "a", "A3": "b", "B2": "Insects", "C1": "tails", "C2": 2, "C3": 2.5} {
		if err := f.SetCellValue("Sheet1", cell, v); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.MergeCell("Sheet1", "B2", "B3"); err != nil {
		t.Fatal(err)
	}
	if _, err := f.NewSheet("Further"); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	got, err := grid.Read(b.Bytes())
	want := [][]string{{"animal", "group", "tails"}, {"a", "Insects", "2"}, {"b", "Insects", "2.5"}}
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("%q, %v, want %q", got, err, want)
	}
}

// zipped is a ZIP file of one part.
func zipped(t testing.TB, name, text string) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	w, err := z.Create(name)
	if err == nil {
		_, err = w.Write([]byte(text))
	}
	if err != nil || z.Close() != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

const odsHead = `<?xml version="1.0"?><office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
 xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
 xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"><office:body><office:spreadsheet>`

// A content.xml as OpenDocument 1.3 (OASIS, 2021) has it: repeated cells and rows,
// covered cells, notes, spans of text.
func TestOds(t *testing.T) {
	for _, row := range []struct {
		why, table string
		want       [][]string
	}{
		{"cells",
			`<table:table-row><table:table-cell><text:p>a</text:p></table:table-cell><table:table-cell/><table:table-cell>` +
				`<text:p>b <text:span>c</text:span>d</text:p><text:p>e</text:p></table:table-cell></table:table-row>`,
			[][]string{{"a", "", "b cd e"}}},
		{"repeated",
			`<table:table-row table:number-rows-repeated="2"><table:table-cell table:number-columns-repeated="2"><text:p>a</text:p>` +
				`</table:table-cell><table:table-cell table:number-columns-repeated="16382"/></table:table-row>` +
				`<table:table-row table:number-rows-repeated="1048574"><table:table-cell table:number-columns-repeated="16384"/>` +
				`</table:table-row>`,
			[][]string{{"a", "a"}, {"a", "a"}}},
		{"merged downwards",
			`<table:table-row><table:table-cell><text:p>a</text:p></table:table-cell><table:table-cell table:number-rows-spanned="2">` +
				`<text:p>g</text:p></table:table-cell></table:table-row><table:table-row><table:table-cell><text:p>b</text:p>` +
				`</table:table-cell><table:covered-table-cell/></table:table-row><table:table-row><table:table-cell><text:p>c</text:p>` +
				`</table:table-cell><table:table-cell/></table:table-row>`,
			[][]string{{"a", "g"}, {"b", "g"}, {"c"}}},
		{"a note",
			`<table:table-row><table:table-cell><office:annotation><text:p>secret</text:p></office:annotation><text:p>a</text:p>` +
				`</table:table-cell></table:table-row>`,
			[][]string{{"a"}}},
		{"an empty row between",
			`<table:table-row><table:table-cell><text:p>a</text:p></table:table-cell></table:table-row><table:table-row/>` +
				`<table:table-row><table:table-cell><text:p>b</text:p></table:table-cell></table:table-row>`,
			[][]string{{"a"}, nil, {"b"}}},
	} {
		got, err := grid.Read(zipped(t, "content.xml",
			odsHead+`<table:table>`+row.table+`</table:table></office:spreadsheet></office:body></office:document-content>`))
		if err != nil || !reflect.DeepEqual(got, row.want) {
			t.Errorf("%s: %q, %v, want %q", row.why, got, err, row.want)
		}
	}
	for _, bad := range []string{"", "<a>", odsHead,
		odsHead +
			`<table:table><table:table-row table:number-rows-repeated="1000000"><table:table-cell><text:p>a</text:p>` +
			`</table:table-cell></table:table-row></table:table>`} {
		if got, err := grid.Read(zipped(t, "content.xml", bad)); err == nil {
			t.Errorf("%q is read: %q", bad, got)
		}
	}
	if _, err := grid.Read(zipped(t, "word/document.xml", "<a/>")); err == nil {
		t.Error("a document is read")
	}
}

func TestAddresses(t *testing.T) {
	for want, at := range map[string][2]int{"A1": {0, 0}, "Z10": {9, 25}, "AA2": {1, 26}, "ALL1001": {1000, 999}} {
		if got := grid.Address(at[0], at[1]); got != want {
			t.Errorf("%v: %s, want %s", at, got, want)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add(zipped(f, "content.xml", odsHead+"<table:table/>"))
	var b bytes.Buffer
	if err := grid.Write(&b, [][]string{{"a", "b"}, {"c", "2"}}); err != nil {
		f.Fatal(err)
	}
	f.Add(b.Bytes())
	f.Fuzz(func(t *testing.T, data []byte) {
		rows, err := grid.Read(data)
		if err != nil && rows != nil {
			t.Error("both")
		}
	})
}

func FuzzOds(f *testing.F) {
	f.Add(`<table:table><table:table-row><table:table-cell><text:p>a</text:p></table:table-cell></table:table-row></table:table>`)
	f.Fuzz(func(t *testing.T, table string) {
		if rows, err := grid.Read(zipped(t, "content.xml", odsHead+table)); err == nil {
			for _, r := range rows {
				if len(r) > grid.MaxColumns {
					t.Error(len(r))
				}
			}
		}
	})
}
