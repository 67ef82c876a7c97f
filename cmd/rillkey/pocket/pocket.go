// Package pocket makes the page for phones: one HTML file that holds the program
// itself, as WebAssembly, and needs nothing from outside.
package pocket

import (
	"bytes"
	"compress/gzip"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html"
	"io"
	"strings"
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

// Pack packs a program that was built for browsers.
func Pack(wasm []byte, runner string) (Program, error) {
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return Program{}, err
	}
	if _, err := w.Write(wasm); err != nil {
		return Program{}, err
	}
	if err := w.Close(); err != nil {
		return Program{}, err
	}
	return Program{b.Bytes(), runner}, nil
}

// Write writes the page for the built-in key with the id.
func Write(w io.Writer, p Program, key string) error {
	page := strings.NewReplacer("/*STYLE*/", style, "/*GO*/", inScript(p.Runner), "/*KEY*/", html.EscapeString(key), "/*SCRIPT*/", inScript(script),
		"/*PROGRAM*/", base64.StdEncoding.EncodeToString(p.Packed)).Replace(frame)
	if _, err := io.WriteString(w, page); err != nil {
		return fmt.Errorf("the page cannot be written: %w", err)
	}
	return nil
}

// inScript keeps the end of a script out of its text.
func inScript(s string) string { return strings.ReplaceAll(s, "</", `<\/`) }
