package grid

import (
	"archive/zip"
	"bufio"
	"encoding/csv"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
)

// Write writes a table as a workbook of one sheet, every cell as text, so that no
// spreadsheet makes a date of 2-3.
func Write(w io.Writer, rows [][]string) error {
	z := zip.NewWriter(w)
	for _, p := range workbook {
		part, err := z.Create(p.name)
		if err == nil {
			_, err = io.WriteString(part, xml.Header+p.text)
		}
		if err != nil {
			return err
		}
	}
	part, err := z.Create("xl/worksheets/sheet1.xml")
	if err != nil {
		return err
	}
	sheet := bufio.NewWriter(part)
	sheet.WriteString(xml.Header + `<worksheet xmlns="` + sheetSpace + `"><sheetData>`)
	for i, row := range rows {
		fmt.Fprintf(sheet, `<row r="%d">`, i+1)
		for j, text := range row {
			if text == "" {
				continue
			}
			fmt.Fprintf(sheet, `<c r="%s" s="1" t="inlineStr"><is><t xml:space="preserve">`, Address(i, j))
			if err := xml.EscapeText(sheet, []byte(text)); err != nil {
				return err
			}
			sheet.WriteString(`</t></is></c>`)
		}
		sheet.WriteString(`</row>`)
	}
	sheet.WriteString(`</sheetData></worksheet>`)
	return errors.Join(sheet.Flush(), z.Close())
}

// Name spaces of Office Open XML (ECMA-376).
const (
	sheetSpace = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	linkSpace  = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	packSpace  = "http://schemas.openxmlformats.org/package/2006/"
	partType   = "application/vnd.openxmlformats-officedocument.spreadsheetml."
)

// workbook are the parts of a workbook of one sheet but that sheet. Its second style of cells
// is text: format 49, "@" (ECMA-376, part 1, 18.8.30).
var workbook = []struct{ name, text string }{
	{"[Content_Types].xml", `<Types xmlns="` + packSpace + `content-types">` +
		`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
		`<Override PartName="/xl/workbook.xml" ContentType="` + partType + `sheet.main+xml"/>` +
		`<Override PartName="/xl/worksheets/sheet1.xml" ContentType="` + partType + `worksheet+xml"/>` +
		`<Override PartName="/xl/styles.xml" ContentType="` + partType + `styles+xml"/></Types>`},
	{"_rels/.rels", `<Relationships xmlns="` + packSpace + `relationships">` +
		`<Relationship Id="rId1" Type="` + linkSpace + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`},
	{"xl/workbook.xml", `<workbook xmlns="` + sheetSpace + `" xmlns:r="` + linkSpace + `">` +
		`<sheets><sheet name="Sheet1" sheetId="1" r:id="rId1"/></sheets></workbook>`},
	{"xl/_rels/workbook.xml.rels", `<Relationships xmlns="` + packSpace + `relationships">` +
		`<Relationship Id="rId1" Type="` + linkSpace + `/worksheet" Target="worksheets/sheet1.xml"/>` +
		`<Relationship Id="rId2" Type="` + linkSpace + `/styles" Target="styles.xml"/></Relationships>`},
	{"xl/styles.xml", `<styleSheet xmlns="` + sheetSpace + `"><fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts>` +
		`<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>` +
		`<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>` +
		`<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>` +
		`<cellXfs count="2"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>` +
		`<xf numFmtId="49" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/></cellXfs></styleSheet>`},
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
