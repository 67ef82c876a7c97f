// Package grid reads the cells of spreadsheets as text: of workbooks (.xlsx, .ods),
// and the text of CSV files in whatever encoding it was saved.
package grid

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"

	"rillkey/taxa/wording"
)

// The largest workbook that is read.
const (
	maxRows    = 100_001
	MaxColumns = 1_001
	maxCells   = 40_000_000
	maxText    = 32_767    // bytes of one cell, as spreadsheets have it
	maxUnzip   = 128 << 20 // bytes of all parts
)

// errTooLarge is what is said of a sheet beyond all bounds.
func errTooLarge() error {
	return wording.Errorf("the sheet is larger than %d rows by %d columns; delete what is no table", maxRows-1, MaxColumns-1)
}

// errNoWorkbook is what is said of a workbook that is there and cannot be opened.
func errNoWorkbook() error {
	return wording.NewError("the workbook cannot be read; save it again as .xlsx or .ods, without a password")
}

// Compound files (as MS-CFB has them) are what workbooks with a password are put into, and
// those of old spreadsheet programs.
const compound = "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"

// IsWorkbook reports whether these are the bytes of a workbook, and no text.
func IsWorkbook(data []byte) bool {
	return bytes.HasPrefix(data, []byte("PK\x03\x04")) || bytes.HasPrefix(data, []byte(compound))
}

// Read gives the cells of the first sheet of a workbook, by row, as the spreadsheet
// program shows them; what ends a row or the sheet without text is left out. A cell
// merged down a column is repeated in every row; merged across, it stands in the first.
func Read(data []byte) ([][]string, error) {
	if bytes.HasPrefix(data, []byte(compound)) {
		return nil, errNoWorkbook()
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, wording.NewError("the workbook is damaged; save it again")
	}
	sum := uint64(0)
	for _, f := range z.File {
		if sum += f.UncompressedSize64; sum > maxUnzip || f.UncompressedSize64 > maxUnzip {
			return nil, wording.Errorf("the workbook unpacks to more than %d MB; save the sheet alone", maxUnzip>>20)
		}
	}
	for _, f := range z.File {
		switch f.Name {
		case "xl/workbook.xml":
			return readXlsx(z)
		case "content.xml":
			r, err := f.Open()
			if err != nil {
				return nil, wording.NewError("the workbook is damaged; save it again")
			}
			defer r.Close()
			return readOds(io.LimitReader(r, maxUnzip))
		}
	}
	return nil, wording.NewError("this is a zipped file, and no workbook; is it the right file?")
}

// Address is the name of a cell, both numbers counted from 0: "A1".
func Address(row, column int) string {
	name := ""
	for n := column + 1; n > 0; n = (n - 1) / 26 {
		name = string(rune('A'+(n-1)%26)) + name
	}
	return fmt.Sprintf("%s%d", name, row+1)
}
