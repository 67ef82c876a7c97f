package grid

import (
	"bytes"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// DecodeText is the text of a CSV file as UTF-8 without a mark at its beginning, and the name
// of the encoding that was found, empty for UTF-8: spreadsheets write UTF-16 with a
// mark, and the encoding of old Windows programs without one.
func DecodeText(data []byte) (text []byte, found string) {
	switch {
	case bytes.HasPrefix(data, []byte("\xff\xfe")), bytes.HasPrefix(data, []byte("\xfe\xff")):
		return decoded(data, unicode.UTF16(unicode.LittleEndian, unicode.ExpectBOM)), "UTF-16"
	case bytes.HasPrefix(data, []byte("\ufeff")):
		data = data[len("\ufeff"):]
	}
	if utf8.Valid(data) || bytes.IndexByte(data, 0) >= 0 {
		return data, ""
	}
	return decoded(data, charmap.Windows1252), "Windows-1252"
}

func decoded(data []byte, from encoding.Encoding) []byte {
	text, err := from.NewDecoder().Bytes(data)
	if err != nil {
		return data // which reading it then tells
	}
	return text
}
