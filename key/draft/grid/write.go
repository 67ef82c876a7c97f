package grid

import (
	"archive/zip"
	"bufio"
	"encoding/csv"
	"encoding/xml"
	"io"
	"strings"
)

const (
	mainSpace = `"http://schemas.openxmlformats.org/spreadsheetml/2006/main"`
	linkSpace = `"http://schemas.openxmlformats.org/officeDocument/2006/relationships`
	packSpace = `"http://schemas.openxmlformats.org/package/2006/`
	sheetType = `application/vnd.openxmlformats-officedocument.spreadsheetml.`
)

// emptyWorkbook are the parts of a workbook of one sheet beside that sheet (ECMA-376,
// part 1, chapter 18, and part 2). Cells of style 1 are text: format 49, "@".
var emptyWorkbook = [][2]string{
	{"[Content_Types].xml", `<Types xmlns=` + packSpace + `content-types">` +
		`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
		`<Override PartName="/xl/workbook.xml" ContentType="` + sheetType + `sheet.main+xml"/>` +
		`<Override PartName="/xl/worksheets/sheet1.xml" ContentType="` + sheetType + `worksheet+xml"/>` +
		`<Override PartName="/xl/styles.xml" ContentType="` + sheetType + `styles+xml"/></Types>`},
	{"_rels/.rels", `<Relationships xmlns=` + packSpace + `relationships">` +
		`<Relationship Id="r1" Type=` + linkSpace + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`},
	{"xl/workbook.xml", `<workbook xmlns=` + mainSpace + ` xmlns:r=` + linkSpace + `">` +
		`<sheets><sheet name="Sheet1" sheetId="1" r:id="r1"/></sheets></workbook>`},
	{"xl/_rels/workbook.xml.rels", `<Relationships xmlns=` + packSpace + `relationships">` +
		`<Relationship Id="r1" Type=` + linkSpace + `/worksheet" Target="worksheets/sheet1.xml"/>` +
		`<Relationship Id="r2" Type=` + linkSpace + `/styles" Target="styles.xml"/></Relationships>`},
	{"xl/styles.xml", `<styleSheet xmlns=` + mainSpace + `><fonts count="1"><font/></fonts>` +
		`<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>` +
		`<borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs>` +
		`<cellXfs count="2"><xf/><xf numFmtId="49" applyNumberFormat="1"/></cellXfs></styleSheet>`},
}

// Write writes a table as a workbook of one sheet, every cell as text, so that no
// spreadsheet makes a date of 2-3. Signs that XML cannot hold become U+FFFD.
func Write(w io.Writer, rows [][]string) error {
	z := zip.NewWriter(w)
	for _, part := range emptyWorkbook {
		p, err := z.Create(part[0])
		if err != nil {
			return err
		}
		if _, err := io.WriteString(p, xml.Header+part[1]); err != nil {
			return err
		}
	}
	p, err := z.Create("xl/worksheets/sheet1.xml")
	if err != nil {
		return err
	}
	b := bufio.NewWriter(p)
	b.WriteString(xml.Header + `<worksheet xmlns=` + mainSpace + `><sheetData>`)
	for i, row := range rows {
		b.WriteString("<row>")
		for j, text := range row {
			if text != "" {
				b.WriteString(`<c r="` + Address(i, j) + `" s="1" t="inlineStr"><is><t xml:space="preserve">`)
				xml.EscapeText(b, []byte(strings.ReplaceAll(text, "_x", "_x005F_x")))
				b.WriteString("</t></is></c>")
			}
		}
		b.WriteString("</row>")
	}
	b.WriteString("</sheetData></worksheet>")
	if err := b.Flush(); err != nil { // as everything before it
		return err
	}
	return z.Close()
}

// WriteCSV writes a table as CSV in UTF-8, with the mark by which spreadsheets know
// that.
func WriteCSV(w io.Writer, rows [][]string) error {
	if _, err := io.WriteString(w, "\ufeff"); err != nil {
		return err
	}
	c := csv.NewWriter(w)
	if err := c.WriteAll(rows); err != nil {
		return err
	}
	c.Flush()
	return c.Error()
}
