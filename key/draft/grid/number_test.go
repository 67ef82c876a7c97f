package grid_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/xuri/excelize/v2"

	"rillkey/key/draft/grid"
)

// withCodes is a workbook with a row a code and a column a value.
func withCodes(t *testing.T, codes []string, values func(row int) []float64) []byte {
	t.Helper()
	return written(t, func(f *excelize.File, sheet string) error {
		for i, code := range codes {
			style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
			if err != nil {
				return fmt.Errorf("%s: %w", code, err)
			}
			for j, v := range values(i) {
				at := grid.Address(i, j)
				if err := f.SetCellValue(sheet, at, v); err != nil {
					return err
				}
				if err := f.SetCellStyle(sheet, at, at, style); err != nil {
					return err
				}
			}
		}
		return nil
	})
}

// Random codes and numbers are read as a library shows them that people keep for that. Left out is what
// it shows otherwise than ECMA-376 and LibreOffice 7.4 do (TestWhereLibrariesDiffer): halves,
// which it takes for binary fractions; "#" of 0; zeros in sections of their own.
func TestNumbersAreReadAsALibraryShowsThem(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	of := func(texts ...string) string { return texts[random.IntN(len(texts))] }
	var codes []string
	for range 400 {
		codes = append(codes, of("", "", `"n = "`, `\~`, "[$€-407] ", "[Red]")+
			of("0", "0.0", "0.00", "0.000", "#,##0", "#,##0.00", "000", "00.00", "0%", "0.00%", "0.00E+00")+
			of("", "", ` "cm"`, `" mm"`, "_)", ";(0)", `;-0.0" mm"`, ";[Red](0.00)", ";0;;@"))
	}
	numbers := func(int) (out []float64) {
		for range 8 { // the last of six digits is 1, so that nothing is half of a decimal
			n := math.Round(random.Float64()*1e5)*10 + 1
			n /= math.Pow10(random.IntN(8))
			if random.IntN(3) == 0 {
				n = -n
			}
			out = append(out, n)
		}
		return out
	}
	sameAsLibrary(t, codes, numbers)
}

// Days and times are, in the languages that are known too.
func TestDaysAreReadAsALibraryShowsThem(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	of := func(texts ...string) string { return texts[random.IntN(len(texts))] }
	languages := []string{"406", "407", "409", "40A", "40C", "410", "413", "41D", "807", "80C", "1009"}
	var codes []string
	for range 400 {
		code := of("", "", "[$-"+of(languages...)+"]")
		between := of("-", "/", ".", " ", `\ `, ", ", `"the"`)
		for i := range 1 + random.IntN(3) {
			if i > 0 {
				code += between
			}
			code += of("yyyy", "yy", "m", "mm", "mmm", "mmmm", "mmmmm", "d", "dd", "ddd", "dddd")
		}
		codes = append(codes, code+of("", "", " h:mm", " hh:mm", " hh:mm:ss", ` h" o'clock"`)+of("", ";@"))
	}
	for range 30 {
		codes = append(codes, of("h:mm", "hh:mm", "h:mm:ss", "mm:ss", "h:mm AM/PM", "hh:mm:ss AM/PM", "h AM/PM", "[h]:mm",
			"[h]:mm:ss", "[s]"))
	}
	sameAsLibrary(t, codes, func(int) (out []float64) {
		for range 8 {
			out = append(out, float64(61+random.IntN(60_000))+float64(random.IntN(24*60*60))/(24*60*60))
		}
		return out
	})
}

// Where the library differs from LibreOffice 7.4.7 (--convert-to csv, as shown), the latter is followed, which
// is nearer to ECMA-376, part 1, 18.8.31: "#" shows no 0, sections have their numbers, halves of decimals
// go upwards, nothing is shown for the whole of a fraction below 1, and what stands beside "General" is kept.
func TestWhereLibrariesDiffer(t *testing.T) {
	for _, row := range []struct {
		code          string
		value         float64
		want, library string
	}{
		{"0.00", 1.005, "1.01", "1.00"},
		{"0.0E+00", 0.125, "1.3E-01", "1.2E-01"},
		{"0.0#", 0.001, "0.0", "0.00"},
		{"#", 0, "", "0"},
		{"0?", 2.5, "03", "3"},
		{"??0.0?", 123.456, "123.46", "123.5"},
		{"0%;[Red]-0;0;@", 0, "0", "0%"},
		{`General" mm"`, 2.5, "2.5 mm", "2.5"},
		{"General", 1.0 / 3, "0.333333333333333", "0.3333333333"},
		{"# ?/?", 0.25, " 1/4", "0 1/4"},
		{"# ?/?", 123.456, "123 4/9", "123 1/2"},
		{"# ??/??", 123.456, "123 31/68", "123 26/57"},
		{"# ?/?", 99.995, "100    ", "99 1/1"},
		{"[mm]:ss", 0.001, "01:26", "1:26"},
		{"mm:ss.0", 123.456, "56:38.4", "56:38.0"},
	} {
		data := withCodes(t, []string{row.code}, func(int) []float64 { return []float64{row.value} })
		if got, err := grid.Read(data); err != nil || row.want != "" && fmt.Sprintf("%q", got) != fmt.Sprintf("[[%q]]", row.want) ||
			row.want == "" && len(got) > 0 {
			t.Errorf("%v as %s: %q, %v, want %q", row.value, row.code, got, err, row.want)
		}
		f, err := excelize.OpenReader(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		if got, err := f.GetCellValue("Sheet1", "A1"); err != nil || got != row.library {
			t.Errorf("%v as %s: the library shows %q now, %v", row.value, row.code, got, err)
		}
	}
}

// Codes that the library does not know are read as the standard has them (18.8.31): conditions, two
// escapes, a power without a plus, powers of 1000, texts beside texts, days before the leap day
// that 1900 has in spreadsheets (18.17.4.1), and what cannot be shown.
func TestCodesByTheStandard(t *testing.T) {
	for _, row := range []struct {
		code  string
		value any
		want  string
	}{
		{`[<1]"few";[>100]"many";0`, 0.5, "few"},
		{`[<1]"few";[>100]"many";0`, 200, "many"},
		{`[<1]"few";[>100]"many";0`, 7, "7"},
		{`[=1]0" animal";0" animals"`, 1, "1 animal"},
		{`[=1]0" animal";0" animals"`, -2, "-2 animals"},
		{"[<0]0.0;0", -2.5, "2.5"},
		{"0.00E-00", 1234.5, "1.23E03"},
		{"##0.0E+0", 12345, "12.3E+3"},
		{"##0.0E+0", 0, "0.0E+0"},
		{"0.0E+00", 9.96, "1.0E+01"},
		{"0.0,", 12345, "12.3"},
		{`0.0,,"M"`, 12345678, "12.3M"},
		{"000-00-0000", 123456789, "123-45-6789"},
		{"0%%", 0.5, "5000%%"},
		{`#,##0.00_);[Red]\(#,##0.00\)`, -1234.5, "(1,234.50)"},
		{"?/?", 2.5, "5/2"},
		{"# ?/16", 0.25, " 4/16"},
		{`@" mm"`, "12", "12 mm"},
		{`0;-0;;"name "@`, "wing", "name wing"},
		{"0.0", "wing", "wing"},
		{"yyyy-mm-dd", 1, "1900-01-01"},
		{"yyyy-mm-dd", 59, "1900-02-28"},
		{"yyyy-mm-dd", 60, "1900-02-29"},
		{"yyyy-mm-dd", 61, "1900-03-01"},
		{"dddd", 61, "Thursday"},
		{"yyyy-mm-dd", 2958465, "9999-12-31"},
		{"yyyy-mm-dd", 2958466, "2958466"},
		{"yyyy-mm-dd", -1, "-1"},
		{"hh:mm:ss", 0.999999, "00:00:00"},
		{"h:mm", 10.5 / 24, "10:30"},
		{"h:mm a/p", 0.5, "12:00 p"},
		{"h:mm AM/PM", 0, "12:00 AM"},
		{"ss.000", 1.005 / 86400, "01.005"},
		{"0;0;0;0;0", 2, "2"},
		{`"`, 2, ""},
		{`0\`, 2, "2"},
		{"[", 2, ""},
	} {
		data := inCode(t, row.code, row.value)
		got, err := grid.Read(data)
		shown := ""
		if len(got) > 0 {
			shown = got[0][0]
		}
		if err != nil || shown != row.want {
			t.Errorf("%v as %s: %q, %v, want %q", row.value, row.code, shown, err, row.want)
		}
	}
}

// No code, and no number, is too much.
func FuzzNumberCodes(f *testing.F) {
	for _, code := range []string{"0.00;[Red]-0", "[$-407]d. mmm yyyy;@", "# ?/16", "##0.0E+0", "[<1]0;General",
		"[h]:mm:ss.000", `"a`, "[", "_", "????????/????????"} {
		f.Add(code, 1234.5)
		f.Add(code, -1e300)
	}
	f.Fuzz(func(t *testing.T, code string, value float64) {
		var escaped bytes.Buffer
		if err := xml.EscapeText(&escaped, []byte(code)); err != nil {
			t.Fatal(err)
		}
		data := bookOf(t, `<sheetData><row><c s="0"><v>`+strconv.FormatFloat(value, 'g', -1, 64)+`</v></c></row></sheetData>`, `count="0">`,
			[2]string{"xl/styles.xml", `<styleSheet><numFmts><numFmt numFmtId="200" formatCode="` + escaped.String() +
				`"/></numFmts><cellXfs><xf numFmtId="200"/></cellXfs></styleSheet>`})
		if rows, err := grid.Read(data); err != nil || len(rows) > 1 || len(rows) == 1 && len(rows[0][0]) > 32_767 {
			t.Errorf("%.100q, %v", rows, err)
		}
	})
}

func sameAsLibrary(t *testing.T, codes []string, values func(int) []float64) {
	t.Helper()
	data := withCodes(t, codes, values)
	got, err := grid.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	want, err := f.GetRows("Sheet1")
	if err != nil {
		t.Fatal(err)
	}
	for i, code := range codes {
		for j := range want[i] {
			if got[i][j] != want[i][j] {
				raw, _ := f.GetCellValue("Sheet1", grid.Address(i, j), excelize.Options{RawCellValue: true})
				t.Errorf("%s as %s: %q, want %q", raw, code, got[i][j], want[i][j])
			}
		}
	}
}
