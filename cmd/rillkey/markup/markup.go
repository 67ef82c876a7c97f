// Package markup writes HTML and SVG: elements, their attributes, and the words in
// them. It is the one place where what people wrote is made fit for the pages of
// phones and for drawings: nothing that is handed in as a value or as words can be
// read as a tag, an attribute or a control character. Pages that no phone has to
// load are written by html/template.
//
// Begin with [Writer].
package markup

import (
	"html"
	"strings"

	"rillkey/taxa/plain"
)

// Writer writes one element after another. The zero Writer has written nothing.
// Names of elements and attributes are the program's own and written as they are.
type Writer struct{ b strings.Builder }

// Open opens an element with attributes in pairs of name and value.
func (w *Writer) Open(tag string, attributes ...string) {
	w.begin(tag, attributes)
	w.b.WriteByte('>')
}

// Close closes the element that was opened last.
func (w *Writer) Close(tag string) { w.b.WriteString("</" + tag + ">") }

// Text writes words.
func (w *Writer) Text(s string) { w.b.WriteString(escaped(s)) }

// Element writes an element with words in it.
func (w *Writer) Element(tag, words string, attributes ...string) {
	w.Open(tag, attributes...)
	w.Text(words)
	w.Close(tag)
}

// Empty writes an element of SVG that has nothing in it.
func (w *Writer) Empty(tag string, attributes ...string) {
	w.begin(tag, attributes)
	w.b.WriteString("/>")
}

// Add puts in what another Writer has written.
func (w *Writer) Add(written string) { w.b.WriteString(written) }

// String is what was written.
func (w *Writer) String() string { return w.b.String() }

func (w *Writer) begin(tag string, attributes []string) {
	w.b.WriteString("<" + tag)
	for i := 0; i+1 < len(attributes); i += 2 {
		w.b.WriteString(" " + attributes[i] + `="`)
		w.b.WriteString(escaped(attributes[i+1]))
		w.b.WriteByte('"')
	}
}

// escaped is text as words or as the value of an attribute. Most values are numbers
// and lengths, which one look shows to be harmless.
func escaped(s string) string {
	for i := range len(s) {
		if c := s[i]; c < ' ' || c > '~' || c == '&' || c == '<' || c == '>' || c == '"' || c == '\'' {
			return html.EscapeString(plain.Printable(s))
		}
	}
	return s
}
