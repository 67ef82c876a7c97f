// Package show turns results into what people and scripts read: the same value
// as text and as JSON. It computes nothing about streams and prints nowhere but
// to the writer it is given; every text from a file goes through [plain.Printable].
//
// Begin with [Identified], [TallyJSON] and [VisitsJSON].
package show

import (
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// escaped is a JSON document in which no control character stands as it is: those
// within texts, as a file's name may have them, stand as their numbers.
func escaped(document string) string {
	if !plain.HasControl(strings.ReplaceAll(document, "\n", "")) {
		return document
	}
	return plain.WithoutControls(document, func(r rune) string {
		if r == '\n' {
			return "\n"
		}
		return fmt.Sprintf("\\u%04x", r)
	})
}

// page writes lines no wider than its width.
type page struct {
	w     io.Writer
	width int
	err   error
}

func newPage(w io.Writer, width int) *page { return &page{w: w, width: max(20, width)} }

func (p *page) line(s string) {
	if p.err == nil {
		_, p.err = io.WriteString(p.w, strings.TrimRight(s, " ")+"\n")
	}
}

// text writes a paragraph in the language in use, its first line after indent
// blanks, the others after hang.
func (p *page) text(indent, hang int, format string, args ...any) {
	words := plain.Printable(wording.Sprintf(format, args...))
	lines := fold(words, p.width-1-max(indent, hang))
	before, command := plain.CommandAtEnd(words)
	if strings.HasSuffix(lines[len(lines)-1], command) {
		command = "" // it is whole as it is
	} else {
		lines = fold(before, p.width-1-max(indent, hang))
	}
	for i, l := range lines {
		in := hang
		if i == 0 {
			in = indent
		}
		p.line(strings.Repeat(" ", in) + l)
	}
	if command != "" {
		p.line(strings.Repeat(" ", hang) + command) // in one piece, to be copied
	}
}

// Say writes one remark to a person.
func Say(w io.Writer, width int, format string, args ...any) error {
	p := newPage(w, width)
	p.text(0, 2, format, args...)
	return p.err
}

const (
	labelWidth = 13
	narrow     = 60 // columns under which a label has a line of its own
)

// item writes a labelled paragraph.
func (p *page) item(label, format string, args ...any) {
	label = wording.Text(label)
	if p.width < narrow {
		if label != "" {
			p.text(0, 0, "%s:", label)
		}
		p.text(2, 2, format, args...)
		return
	}
	if utf8.RuneCountInString(label) >= labelWidth { // a long name has a line of its own
		p.text(2, 4, "%s:", label)
		label = ""
	}
	for i, l := range fold(plain.Printable(wording.Sprintf(format, args...)), p.width-3-labelWidth) {
		if i > 0 {
			label = ""
		}
		p.line(fmt.Sprintf("  %-*s%s", labelWidth, label, l))
	}
}

// LengthWords gives a length in millimetres and inches: "12 mm (0.5 in)".
func LengthWords(mm float64) string {
	return wording.Sprintf("%s mm (%s in)", wording.Number(mm), inches(mm))
}

// LengthRange gives a range in millimetres and inches.
func LengthRange(r taxa.Range) string {
	return wording.Sprintf("%s to %s mm (%s to %s in)", wording.Number(r.Min), wording.Number(r.Max), inches(r.Min), inches(r.Max))
}

const mmPerInch = 25.4

func inches(mm float64) string {
	in := mm / mmPerInch
	if in < 1 {
		return strconv.FormatFloat(in, 'f', 2, 64)
	}
	return strconv.FormatFloat(in, 'f', 1, 64)
}

// BothNames is a taxon's names: the plain one first, the scientific one beside it.
func BothNames(t *taxa.Taxon) string {
	switch {
	case t.Name() == t.Scientific:
		return t.Scientific
	case strings.Contains(t.Scientific, "("):
		return t.Name() + ", " + t.Scientific
	}
	return t.Name() + " (" + t.Scientific + ")"
}

// Either is the names of taxa of which an animal is one: "worm or crane fly".
func Either(catalog *taxa.Catalog, ids []string) string {
	names := make([]string, len(ids))
	for i, id := range ids {
		names[i] = BothNames(catalog.Taxon(id))
	}
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return wording.Sprintf("%s or %s", strings.Join(names[:last], ", "), names[last])
}

// ClassWord is the class as a word; "open" where no single class holds.
func ClassWord(c taxa.Class) string {
	if c == "" {
		return wording.Text("open")
	}
	return wording.Text(string(c))
}
