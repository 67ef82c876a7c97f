package paper

import (
	"encoding/base64"
	"html/template"

	"rillkey/taxa"
)

// photo is a photograph as the template has it; the zero photo is none.
type photo struct {
	Source          template.URL
	Subject, Credit string
}

// photoOf is the photograph of an animal, if it has one.
func (p *Page) photoOf(t *taxa.Taxon) photo {
	if t.Photo == nil {
		return photo{}
	}
	return p.shot(t.Photo, t.Name())
}

// shot is a photograph of what is named.
func (p *Page) shot(of *taxa.Photo, name string) photo {
	data, err := of.Small()
	if err != nil {
		p.fail(err)
		return photo{}
	}
	return photo{template.URL("data:image/jpeg;base64," + base64.StdEncoding.EncodeToString(data)), name, of.Credit}
}

// Photograph puts a photograph on the page, with what it is of as it is to be called.
func (p *Page) Photograph(of *taxa.Photo, name string) { p.put("photo", p.shot(of, name)) }

// photograph puts the photograph of an animal on the page, if it has one.
func (p *Page) photograph(t *taxa.Taxon) {
	if t.Photo != nil {
		p.put("photo", p.photoOf(t))
	}
}
