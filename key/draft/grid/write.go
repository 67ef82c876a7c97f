package grid

import (
	"archive/zip"
	"bufio"
	"encoding/csv"
	"encoding/xml"
	"fmt"
	"io"
	"strings"
)

const (
	xmlHead = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
	// Name spaces and kinds of parts: ECMA-376, part 1, annex A, and part 2.
	bookSpace = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	linkSpace = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	packSpace = "http://schemas.openxmlformats.org/package/2006/"
	bookKind  = "application/vnd.openxmlformats-officedocument.spreadsheetml."
)

// bookParts are the parts of a workbook of one sheet, without the sheet. Its style 1 is text, "@".
var bookParts = [...][2]string{
	{"[Content_Types].xml", `<Types xmlns="` + packSpace + `content-types">` +
		`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
		`<Default Extension="xml" ContentType="application/xml"/>` +
		`<Override PartName="/xl/workbook.xml" ContentType="` + bookKind + `sheet.main+xml"/>` +
		`<Override PartName="/xl/styles.xml" ContentType="` + bookKind + `styles+xml"/>` +
		`<Override PartName="/` + sheetPart + `" ContentType="` + bookKind + `worksheet+xml"/></Types>`},
	{"_rels/.rels", `<Relationships xmlns="` + packSpace + `relationships">` +
		`<Relationship Id="rId1" Type="` + linkSpace + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`},
	{"xl/workbook.xml", `<workbook xmlns="` + bookSpace + `" xmlns:r="` + linkSpace + `">` +
		`<sheets><sheet name="Sheet1" sheetId="1" r:id="rId1"/></sheets></workbook>`},
	{"xl/_rels/workbook.xml.rels", `<Relationships xmlns="` + packSpace + `relationships">` +
		`<Relationship Id="rId1" Type="` + linkSpace + `/worksheet" Target="worksheets/sheet1.xml"/>` +
		`<Relationship Id="rId2" Type="` + linkSpace + `/styles" Target="styles.xml"/></Relationships>`},
	{"xl/styles.xml", `<styleSheet xmlns="` + bookSpace + `"><fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts>` +
		`<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>` +
		`<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>` +
		`<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>` +
		`<cellXfs count="2"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>` +
		`<xf numFmtId="49" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/></cellXfs>` +
		`<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`},
}

const sheetPart = "xl/worksheets/sheet1.xml"

// Write writes a table as a workbook of one sheet, every cell as text, so that no
// spreadsheet makes a date of 2-3.
func Write(w io.Writer, rows [][]string) error {
	z := zip.NewWriter(w)
	for _, part := range bookParts {
		p, err := z.Create(part[0])
		if err == nil {
			_, err = io.WriteString(p, xmlHead+part[1])
		}
		if err != nil {
			return err
		}
	}
	p, err := z.Create(sheetPart)
	if err != nil {
		return err
	}
	b := bufio.NewWriter(p) // whose error Flush gives
	b.WriteString(xmlHead + `<worksheet xmlns="` + bookSpace + `"><sheetData>`)
	for i, row := range rows {
		fmt.Fprintf(b, `<row r="%d">`, i+1)
		for j, text := range row {
			fmt.Fprintf(b, `<c r="%s" s="1" t="inlineStr"><is><t xml:space="preserve">`, Address(i, j))
			if err := xml.EscapeText(b, []byte(escaped(text))); err != nil {
				return err
			}
			b.WriteString(`</t></is></c>`)
		}
		b.WriteString(`</row>`)
	}
	b.WriteString(`</sheetData></worksheet>`)
	if err := b.Flush(); err != nil {
		return err
	}
	return z.Close()
}

// escaped is a text whose characters that XML does not have are written as unescaped reads them.
func escaped(text string) string {
	var b strings.Builder
	for i, r := range text {
		switch {
		case r < ' ' && r != '\t' && r != '\n', r == 0xfffe, r == 0xffff:
			fmt.Fprintf(&b, "_x%04X_", r)
		case r == '_' && len(unescaped(text[i:min(i+len("_x000A_"), len(text))])) < len("_x000A_") && len(text) >= i+len("_x000A_"):
			b.WriteString("_x005F_")
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
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
