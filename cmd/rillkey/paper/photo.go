package paper

import (
	"encoding/base64"
	"html/template"

	"rillkey/taxa"
)

// photo is a photograph as the template has it; the zero photo is none.
type photo struct {
	Source template.URL
	Of, By string
}

// photoOf is the photograph of an animal, if it has one.
func (p *Page) photoOf(t *taxa.Taxon) photo {
	if t.Photo == nil {
		return photo{}
	}
	data, err := t.Photo.Small()
	if err != nil {
		p.fail(err)
		return photo{}
	}
	return photo{template.URL("data:image/jpeg;base64," + base64.StdEncoding.EncodeToString(data)), t.Name(), t.Photo.By}
}

// photograph puts the photograph of an animal on the page, if it has one.
func (p *Page) photograph(t *taxa.Taxon) {
	if t.Photo != nil {
		p.put("photo", p.photoOf(t))
	}
}
