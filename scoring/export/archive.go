package export

import (
	"archive/zip"
	"encoding/csv"
	"encoding/xml"
	"errors"
	"io"
	"strconv"
	"strings"
	"time"

	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// Metadata is what a data set says of itself.
type Metadata struct {
	Title   string
	Group   string    // who gives the data
	Licence string    // on what terms; empty says that none were stated
	Day     time.Time // when it was put together
}

// Spool is a place for bytes that are read once after all were written.
type Spool interface {
	io.Writer
	Rewind() (io.Reader, error) // from the first byte
}

// DarwinCoreArchive writes the visits as a zipped Darwin Core Archive: an Event
// core in which a visit is the parent of its samples, with the extensions
// Occurrence and MeasurementOrFact. A spool keeps each file until its turn, so
// that memory does not grow with the number of visits.
//
// Source of the terms and of meta.xml: Darwin Core and its text guide,
// Biodiversity Information Standards (TDWG).
func DarwinCoreArchive(w io.Writer, visits Visits, k Knowledge, d Discretion, about Metadata, spool func() (Spool, error)) error {
	tables := make([]*table, len(sheets))
	for i, s := range sheets {
		sp, err := spool()
		if err != nil {
			return err
		}
		if tables[i], err = newTable(sp, s); err != nil {
			return err
		}
	}
	var first, last string
	err := each(visits, d, func(v *visit.Visit) error {
		if first == "" || v.Header.Date < first {
			first = v.Header.Date
		}
		last = max(last, v.Header.Date)
		var failed error
		k := k.forVisit(v)
		a := k.Rules.Account(v)
		one := &darwin{k: k, d: d, account: a, grade: k.grade(a), give: func(file string, r row) {
			for _, t := range tables {
				if t.file == file {
					failed = errors.Join(failed, t.write(r))
				}
			}
		}}
		one.rows()
		return failed
	})
	if err != nil {
		return err
	}
	return zipped(w, tables, about, first, last)
}

func zipped(w io.Writer, tables []*table, about Metadata, first, last string) error {
	z := zip.NewWriter(w)
	put := func(name string, from io.Reader) error {
		f, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: about.Day})
		if err == nil {
			_, err = io.Copy(f, from)
		}
		return err
	}
	meta, err := metaXML()
	if err != nil {
		return err
	}
	eml, err := about.eml(first, last)
	if err != nil {
		return err
	}
	if err := errors.Join(put("meta.xml", strings.NewReader(meta)), put("eml.xml", strings.NewReader(eml))); err != nil {
		return err
	}
	for _, t := range tables {
		from, err := t.rewind()
		if err != nil {
			return err
		}
		if err := put(t.file, from); err != nil {
			return err
		}
	}
	return z.Close()
}

// table is a sheet on its way to the archive.
type table struct {
	sheet
	spool Spool
	csv   *csv.Writer
	cells []string
}

func newTable(sp Spool, s sheet) (*table, error) {
	t := &table{sheet: s, spool: sp, csv: csv.NewWriter(sp), cells: make([]string, len(s.terms)+1)}
	return t, t.csv.Write(append([]string{coreID}, s.terms...))
}

func (t *table) write(r row) error {
	t.cells[0] = r[coreID]
	n := 1
	for i, term := range t.terms {
		value, ok := r[term]
		t.cells[i+1] = asText(value)
		if ok {
			n++
		}
	}
	if n != len(r) {
		return wording.Errorf("%s has no column for a value: %v", t.file, r)
	}
	return t.csv.Write(t.cells)
}

func (t *table) rewind() (io.Reader, error) {
	if t.csv.Flush(); t.csv.Error() != nil {
		return nil, t.csv.Error()
	}
	return t.spool.Rewind()
}

const termSpace = "http://rs.tdwg.org/dwc/terms/"

type metaFile struct {
	XMLName    xml.Name
	Encoding   string `xml:"encoding,attr"`
	Fields     string `xml:"fieldsTerminatedBy,attr"`
	Lines      string `xml:"linesTerminatedBy,attr"`
	Enclosed   string `xml:"fieldsEnclosedBy,attr"`
	Headers    int    `xml:"ignoreHeaderLines,attr"`
	RowType    string `xml:"rowType,attr"`
	Location   string `xml:"files>location"`
	ID         *metaID
	FieldTerms []metaField `xml:"field"`
}

type metaID struct {
	XMLName xml.Name
	Index   int `xml:"index,attr"`
}

type metaField struct {
	Index   string `xml:"index,attr,omitempty"`
	Default string `xml:"default,attr,omitempty"`
	Term    string `xml:"term,attr"`
}

// metaXML describes the files by the text guide of Darwin Core.
func metaXML() (string, error) {
	doc := struct {
		XMLName  xml.Name `xml:"archive"`
		Space    string   `xml:"xmlns,attr"`
		Metadata string   `xml:"metadata,attr"`
		Files    []metaFile
	}{Space: "http://rs.tdwg.org/dwc/text/", Metadata: "eml.xml"}
	for i, s := range sheets {
		element, id := "extension", "coreid"
		if i == 0 {
			element, id = "core", "id"
		}
		f := metaFile{
			XMLName: xml.Name{Local: element}, Encoding: "UTF-8", Fields: ",", Lines: `\n`, Enclosed: `"`, Headers: 1,
			RowType: termSpace + s.class, Location: s.file, ID: &metaID{XMLName: xml.Name{Local: id}},
		}
		for j, term := range s.terms {
			f.FieldTerms = append(f.FieldTerms, metaField{Index: strconv.Itoa(j + 1), Term: termSpace + term})
		}
		if value := s.constant["basisOfRecord"]; value != "" {
			f.FieldTerms = append(f.FieldTerms, metaField{Default: value, Term: termSpace + "basisOfRecord"})
		}
		doc.Files = append(doc.Files, f)
	}
	text, err := xml.MarshalIndent(doc, "", "  ")
	return xml.Header + string(text) + "\n", err
}
