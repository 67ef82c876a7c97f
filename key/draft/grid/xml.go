package grid

import (
	"encoding/xml"
	"io"
	"strings"
)

const (
	maxToken = 1 << 20 // bytes of a tag, or of the text between two
	maxDepth = 256     // elements within each other
)

// xmlReader reads XML of which no tag is longer and no element deeper than those of a
// spreadsheet are.
type xmlReader struct {
	*xml.Decoder
	source *io.LimitedReader
	depth  int
}

func newXMLReader(r io.Reader) *xmlReader {
	source := &io.LimitedReader{R: r}
	return &xmlReader{Decoder: xml.NewDecoder(source), source: source}
}

// Token is the next token; the error of what is no XML is errDamaged.
func (x *xmlReader) Token() (xml.Token, error) {
	x.source.N = maxToken
	token, err := x.Decoder.Token()
	switch {
	case err == io.EOF:
		return nil, err
	case err != nil:
		return nil, errDamaged
	}
	switch token.(type) {
	case xml.StartElement:
		if x.depth++; x.depth > maxDepth {
			return nil, errDamaged
		}
	case xml.EndElement:
		x.depth--
	}
	return token, nil
}

// Skip passes over what is left of the element that was begun last.
func (x *xmlReader) Skip() error { return x.ascend(x.depth - 1) }

func (x *xmlReader) ascend(depth int) error {
	for x.depth > depth {
		if _, err := x.Token(); err != nil {
			return err
		}
	}
	return nil
}

// each calls do for every element directly in the one that was begun last, or for the outermost one.
// What do does not read of an element is passed over.
func (x *xmlReader) each(do func(e xml.StartElement) error) error {
	within := x.depth
	for {
		token, err := x.Token()
		if err == io.EOF && within == 0 {
			return nil
		}
		if err != nil {
			return errDamaged
		}
		switch e := token.(type) {
		case xml.StartElement:
			if err := do(e); err != nil {
				return err
			}
			if err := x.ascend(within); err != nil {
				return errDamaged
			}
		case xml.EndElement:
			return nil
		}
	}
}

// path calls do for every element that is reached from the one that was begun last by these names,
// of which "*" is any.
func (x *xmlReader) path(names []string, do func(e xml.StartElement) error) error {
	return x.each(func(e xml.StartElement) error {
		switch {
		case e.Name.Local != names[0] && names[0] != "*":
			return nil
		case len(names) == 1:
			return do(e)
		}
		return x.path(names[1:], do)
	})
}

// chars is the text of the element that was begun last, without that of elements in it.
func (x *xmlReader) chars() (string, error) {
	within, text := x.depth, ""
	for {
		token, err := x.Token()
		if err != nil {
			return "", errDamaged
		}
		switch t := token.(type) {
		case xml.CharData:
			if x.depth == within && len(text) < maxText {
				text += string(t[:min(len(t), maxText)])
			}
		case xml.EndElement:
			if x.depth < within {
				return text, nil
			}
		}
	}
}

// attribute is the value of an attribute without a name space, empty where there is none.
func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return strings.TrimSpace(a.Value)
		}
	}
	return ""
}
