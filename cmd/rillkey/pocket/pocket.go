// Package pocket makes the page for phones: one HTML file that holds the program
// itself, as WebAssembly, and needs nothing from outside.
package pocket

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"html/template"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"rillkey/taxa/wording"
)

//go:embed page.html
var frame string

//go:embed page.css
var style string

//go:embed page.js
var script string

// Program is what the page runs: the program for browsers, packed with gzip, and
// the script that Go's own distribution gives to run it.
type Program struct {
	Packed []byte
	Runner string
}

// pack packs a program that was built for browsers.
func pack(wasm []byte, runner string) (Program, error) {
	packed, err := Squeeze(wasm)
	return Program{packed, runner}, err
}

// Squeeze packs data with gzip, which browsers unpack.
func Squeeze(data []byte) ([]byte, error) {
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(data); err != nil {
		return nil, err
	}
	err = w.Close()
	return b.Bytes(), err
}

// MostRegion is what a region of one's own may have in bytes, squeezed: a phone holds it twice
// while the page opens.
const MostRegion = 8 << 20

// PhonePage is the page for phones.
type PhonePage struct {
	Program
	Key     string   // id of the built-in key; empty for that of the region
	Region  []byte   // a region of one's own, its parcel squeezed; nil for one that is built in
	Edition []string // what visits are begun with: see visit.Header
	Served  bool     // a table gives it, and who opens it joins the table
}

// Write writes the page.
func (p PhonePage) Write(w io.Writer) error {
	page, err := template.New("page").Parse(wording.Markup(frame))
	if err != nil {
		return wording.Errorf("the page cannot be written: %w", err)
	}
	err = page.Execute(w, map[string]any{"Language": wording.Language(), "Policy": p.Policy(), "Style": template.CSS(style),
		"Runner": template.JS(inScript(p.Runner)), "Settings": template.JS(p.settings()), "Script": template.JS(inScript(script)),
		"Start": template.JS(start), "Bytes": len(p.Packed), "Packed": template.HTML(inText(p.Packed)),
		"RegionBytes": len(p.Region), "Region": template.HTML(inText(p.Region))})
	if err != nil {
		return wording.Errorf("the page cannot be written: %w", err)
	}
	return nil
}

// settings is the script that says what the page is for.
func (p PhonePage) settings() string {
	edition, _ := json.Marshal(append([]string{}, p.Edition...)) // texts are always written
	return fmt.Sprintf("window.rillkeyKey = %s; window.rillkeyServed = %t; window.rillkeyEdition = %s; %s",
		inScript(strconv.Quote(p.Key)), p.Served, edition, inScript(wordsSetting()))
}

// start is the last script of the page.
const start = "rillkeyStart();"

// Policy is the content policy of the page: its own scripts and its own style, by
// their very text, and nothing from elsewhere.
func (p PhonePage) Policy() string {
	var own []string
	for _, text := range []string{inScript(p.Runner), p.settings(), inScript(script), start} {
		own = append(own, Hashed(text))
	}
	pictures := ""
	if p.Region != nil { // which may have photographs
		pictures = "; img-src data:"
	}
	return "default-src 'none'; script-src " + strings.Join(own, " ") + " 'wasm-unsafe-eval'; style-src " + Hashed(style) + pictures +
		"; connect-src 'self'; form-action 'none'; base-uri 'none'"
}

// Hashed is a source of a content policy: this very text.
func Hashed(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// Style is the style of all pages for phones.
func Style() string { return style }

// unkept are the characters that a page drops, reads otherwise or takes for markup, or
// that change where a file goes through a program that has other ends of lines.
const unkept = "\x00\n\r<"

// inText is data as text for a page, seven bits a byte, so that a script reads it in one
// plain loop: a character for seven bits, but for those unkept, which are one of two bytes
// together with the seven bits that follow: U+0100 to U+02FF, letters that combine with nothing.
func inText(data []byte) string {
	text := make([]byte, 0, len(data)/7*8+9)
	held, bits, open := 0, 0, -1
	for _, b := range append(slices.Clone(data), 0, 0) { // whose bits fill up the last character
		held, bits = held<<8&0x7fff|int(b), bits+8
		for ; bits >= 7; bits -= 7 {
			digit := held >> (bits - 7) & 0x7f
			if open >= 0 {
				text, open = utf8.AppendRune(text, rune(0x100+open<<7|digit)), -1
			} else if open = strings.IndexByte(unkept, byte(digit)); open < 0 {
				text = append(text, byte(digit))
			}
		}
	}
	return string(text)
}

// inScript keeps the end of a script out of its text.
func inScript(s string) string { return strings.ReplaceAll(s, "</", `<\/`) }
