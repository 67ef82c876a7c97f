package grid

import (
	"archive/zip"
	"encoding/xml"
	"errors"
	"io"
	"path"
	"slices"
	"strconv"
	"strings"

	"rillkey/taxa/pattern"
)

// mostStrings are the most different texts of a workbook.
const mostStrings = 5_000_000

// workbook is an .xlsx file. The names of its parts and elements are those of Office
// Open XML (ECMA-376, part 1, chapter 18), whatever the edition of their namespace. A
// library for it took a third of the time in which the program starts; tests hold this
// reader against that library.
type workbook struct {
	zip     *zip.Reader
	strings []string
	formats []string // by style of a cell
	mac     bool     // days are counted from 1904
}

var errWorkbook = errors.New("the workbook cannot be read; save it again, without a password")

// readXlsx reads the first sheet that is shown.
func readXlsx(z *zip.Reader) ([][]string, error) {
	w := &workbook{zip: z}
	sheet, err := w.open()
	if err != nil {
		return nil, err
	}
	if err := errors.Join(w.readStrings(), w.readStyles()); err != nil {
		return nil, errWorkbook
	}
	r, err := w.part(sheet)
	if err != nil {
		return nil, errWorkbook
	}
	defer r.Close()
	g := &sheetCells{workbook: w}
	if err := g.read(xml.NewDecoder(io.LimitReader(r, maxUnzip))); err != nil {
		return nil, err
	}
	return g.rows, nil
}

// part opens a part; its name has no slash in front.
func (w *workbook) part(name string) (io.ReadCloser, error) {
	i := slices.IndexFunc(w.zip.File, func(f *zip.File) bool { return strings.EqualFold(f.Name, name) })
	if i < 0 {
		return nil, errWorkbook
	}
	return w.zip.File[i].Open()
}

// decode reads a part into what has the tags for it.
func (w *workbook) decode(name string, into any) error {
	r, err := w.part(name)
	if err != nil {
		return err
	}
	defer r.Close()
	return xml.NewDecoder(io.LimitReader(r, maxUnzip)).Decode(into)
}

// open finds the part of the first sheet that is shown.
func (w *workbook) open() (string, error) {
	var book struct {
		About struct {
			Mac string `xml:"date1904,attr"`
		} `xml:"workbookPr"`
		Sheets []struct {
			State string     `xml:"state,attr"`
			Attrs []xml.Attr `xml:",any,attr"`
		} `xml:"sheets>sheet"`
	}
	var links struct {
		All []struct {
			ID     string `xml:"Id,attr"`
			Type   string `xml:"Type,attr"`
			Target string `xml:"Target,attr"`
		} `xml:"Relationship"`
	}
	if w.decode("xl/workbook.xml", &book) != nil || w.decode("xl/_rels/workbook.xml.rels", &links) != nil {
		return "", errWorkbook
	}
	w.mac = book.About.Mac == "1" || book.About.Mac == "true"
	for _, s := range book.Sheets {
		for _, l := range links.All {
			of := slices.ContainsFunc(s.Attrs, func(a xml.Attr) bool { return a.Name.Local == "id" && a.Value == l.ID })
			if of && strings.HasSuffix(l.Type, "/worksheet") && (s.State == "" || s.State == "visible") {
				if inside, absolute := strings.CutPrefix(l.Target, "/"); absolute {
					return inside, nil
				}
				return path.Join("xl", l.Target), nil
			}
		}
	}
	return "", errors.New("the workbook has no sheet")
}

// richText is text in one piece or in several that look unlike; how it is pronounced
// stands elsewhere in it.
type richText struct {
	Text string `xml:"t"`
	Runs []struct {
		Text string `xml:"t"`
	} `xml:"r"`
}

var escaped = pattern.New(`_x[0-9A-Fa-f]{4}_`)

// String is the text, in which a sign that XML cannot hold stands as _x000D_ (ECMA-376,
// part 1, 22.9.2.19).
func (t richText) String() string {
	s := t.Text
	for _, r := range t.Runs {
		s += r.Text
	}
	if !strings.Contains(s, "_x") {
		return s
	}
	return escaped().ReplaceAllStringFunc(s, func(code string) string {
		n, _ := strconv.ParseUint(code[2:6], 16, 16) // the pattern leaves nothing else
		return string(rune(n))
	})
}

func (w *workbook) readStrings() error {
	r, err := w.part("xl/sharedStrings.xml")
	if err != nil {
		return nil // all its texts stand in the cells
	}
	defer r.Close()
	d := xml.NewDecoder(io.LimitReader(r, maxUnzip))
	for {
		e, err := nextElement(d, "si")
		if err != nil || e == nil {
			return err
		}
		var t richText
		if err := d.DecodeElement(&t, e); err != nil {
			return err
		}
		if w.strings = append(w.strings, t.String()); len(w.strings) > mostStrings {
			return errTooLarge
		}
	}
}

// nextElement is the start of the next element of one of the names; nil at the end.
func nextElement(d *xml.Decoder, names ...string) (*xml.StartElement, error) {
	for {
		token, err := d.Token()
		if err == io.EOF {
			return nil, nil
		}
		if err != nil {
			return nil, err
		}
		if e, ok := token.(xml.StartElement); ok && slices.Contains(names, e.Name.Local) {
			return &e, nil
		}
	}
}

func attr(e *xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}
