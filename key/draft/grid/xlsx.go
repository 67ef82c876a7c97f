package grid

import (
	"archive/zip"
	"encoding/xml"
	"io"
	"path"
	"strconv"
	"strings"

	"rillkey/taxa/wording"
)

// The most that is read of a workbook's parts; spreadsheet programs write no more of styles.
const (
	maxMerged = 10_000    // merged cells
	maxTexts  = 1_000_000 // shared texts
	maxStyles = 100_000   // styles, and codes of numbers
	maxSheets = 10_000    // sheets, and relations
)

// workbook is what the parts of an .xlsx say beside its sheets. Names of elements and attributes are
// those of ECMA-376, part 1; they are the same in its strict and its transitional form, whose
// name spaces differ.
type workbook struct {
	parts    map[string]*zip.File // by name, in lower case
	from1904 bool
	texts    []string // that cells share
	styles   []int    // by style of a cell, which code of numbers it has
	codes    map[int]string
	read     map[int]numberCode // codes that were read
}

// readXlsx reads the first sheet that is shown.
func readXlsx(z *zip.Reader) ([][]string, error) {
	b := &workbook{parts: map[string]*zip.File{}, codes: map[int]string{}, read: map[int]numberCode{}}
	for _, f := range z.File {
		b.parts[partName(f.Name)] = f
	}
	sheets, err := b.sheets()
	if err != nil {
		return nil, errNoWorkbook()
	}
	relations, err := b.relations()
	if err != nil {
		return nil, errNoWorkbook()
	}
	sheet := ""
	for _, id := range sheets {
		if r := relations[id]; r.kind == "worksheet" {
			sheet = r.part
			break
		}
	}
	if sheet == "" {
		return nil, wording.NewError("the workbook has no sheet")
	}
	if b.parts[sheet] == nil {
		return nil, wording.NewError("the sheet cannot be read; save it again")
	}
	styles, texts := "xl/styles.xml", "xl/sharedstrings.xml"
	for _, r := range relations {
		switch r.kind {
		case "styles":
			styles = r.part
		case "sharedStrings":
			texts = r.part
		}
	}
	if err := b.readStyles(styles); err != nil {
		return nil, errNoWorkbook()
	}
	if err := b.readTexts(texts); err != nil {
		return nil, err
	}
	return b.readSheet(sheet)
}

// partName is a name by which a part is found: they differ by more than case nowhere, and some
// programs write \ for /.
func partName(name string) string {
	return strings.ToLower(strings.TrimPrefix(path.Clean("/"+strings.ReplaceAll(name, `\`, "/")), "/"))
}

// eachElement calls do for the elements of a part that are reached by these names; a part that there is not
// has none.
func (b *workbook) eachElement(part string, do func(x *xmlReader, e xml.StartElement) error, names ...string) error {
	f := b.parts[part]
	if f == nil {
		return nil
	}
	r, err := f.Open()
	if err != nil {
		return errDamaged
	}
	defer r.Close()
	x := newXMLReader(io.LimitReader(r, int64(min(f.UncompressedSize64, maxUnzip))))
	return x.path(names, func(e xml.StartElement) error { return do(x, e) })
}

// sheets are the relations of the sheets that are shown, in their order.
func (b *workbook) sheets() (ids []string, err error) {
	const part = "xl/workbook.xml"
	err = b.eachElement(part, func(x *xmlReader, e xml.StartElement) error {
		switch e.Name.Local {
		case "workbookPr":
			b.from1904 = isTrue(attribute(e, "date1904"))
		case "sheets":
			return x.path([]string{"sheet"}, func(e xml.StartElement) error {
				if state := attribute(e, "state"); state != "" && state != "visible" || len(ids) == maxSheets {
					return nil
				}
				for _, a := range e.Attr {
					if a.Name.Local == "id" && a.Name.Space != "" {
						ids = append(ids, a.Value)
					}
				}
				return nil
			})
		}
		return nil
	}, "workbook", "*")
	return ids, err
}

func isTrue(value string) bool { return value == "1" || value == "true" }

// relation is what a part of the workbook is, and its name.
type relation struct{ kind, part string }

func (b *workbook) relations() (map[string]relation, error) {
	out := map[string]relation{}
	err := b.eachElement("xl/_rels/workbook.xml.rels", func(_ *xmlReader, e xml.StartElement) error {
		if len(out) < maxSheets && attribute(e, "TargetMode") != "External" {
			target := attribute(e, "Target")
			if !strings.HasPrefix(target, "/") {
				target = "xl/" + target
			}
			out[attribute(e, "Id")] = relation{path.Base(attribute(e, "Type")), partName(target)}
		}
		return nil
	}, "Relationships", "Relationship")
	return out, err
}

// readStyles reads which code of numbers each style has, and the codes that are not built in.
func (b *workbook) readStyles(part string) error {
	return b.eachElement(part, func(x *xmlReader, e xml.StartElement) error {
		switch e.Name.Local {
		case "numFmts":
			return x.path([]string{"numFmt"}, func(e xml.StartElement) error {
				id, err := strconv.Atoi(attribute(e, "numFmtId"))
				if err == nil && len(b.codes) < maxStyles {
					b.codes[id] = attribute(e, "formatCode")
				}
				return nil
			})
		case "cellXfs":
			return x.path([]string{"xf"}, func(e xml.StartElement) error {
				id, err := strconv.Atoi(attribute(e, "numFmtId"))
				if err != nil {
					id = 0
				}
				if len(b.styles) < maxStyles {
					b.styles = append(b.styles, id)
				}
				return nil
			})
		}
		return nil
	}, "styleSheet", "*")
}

// code is how the numbers of a style are shown.
func (b *workbook) code(style int) numberCode {
	if style < 0 || style >= len(b.styles) {
		return numberCode{}
	}
	id := b.styles[style]
	code, ok := b.read[id]
	if !ok {
		text, own := b.codes[id]
		if !own {
			text = builtInCode(id)
		}
		code = readNumberCode(text)
		b.read[id] = code
	}
	return code
}

func (b *workbook) readTexts(part string) error {
	return b.eachElement(part, func(x *xmlReader, _ xml.StartElement) error {
		if len(b.texts) == maxTexts {
			return wording.Errorf("the workbook has more than %d texts; save the sheet alone", maxTexts)
		}
		text, err := richText(x)
		b.texts = append(b.texts, text)
		return err
	}, "sst", "si")
}

// richText is the text of the element that was begun last, or of its runs, without how it is spoken.
func richText(x *xmlReader) (text string, err error) {
	add := func() error {
		t, err := x.chars()
		if err == nil && len(text) < maxText {
			text += t
		}
		return err
	}
	err = x.each(func(e xml.StartElement) error {
		switch e.Name.Local {
		case "t":
			return add()
		case "r":
			return x.path([]string{"t"}, func(xml.StartElement) error { return add() })
		}
		return nil
	})
	return unescaped(text), err
}

// unescaped is a text with the characters that XML does not have: _x000A_ (22.9.2.19, ST_Xstring).
func unescaped(text string) string {
	var b strings.Builder
	for {
		at := strings.Index(text, "_x")
		if at < 0 || len(text) < at+len("_x000A_") {
			break
		}
		n, err := strconv.ParseUint(text[at+2:at+6], 16, 16)
		if err != nil || text[at+6] != '_' {
			b.WriteString(text[:at+1])
			text = text[at+1:]
			continue
		}
		b.WriteString(text[:at])
		b.WriteRune(rune(n))
		text = text[at+7:]
	}
	if b.Len() == 0 {
		return text
	}
	return b.String() + text
}
