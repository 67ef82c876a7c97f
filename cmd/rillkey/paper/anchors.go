package paper

import (
	"html/template"

	"rillkey/cmd/rillkey/show"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// functions are what templates can call.
func functions() template.FuncMap {
	return template.FuncMap{
		"animalAnchor":  taxonAnchor,
		"classWord":     show.ClassWord,
		"language":      wording.Language,
		"coupletAnchor": func(id string) string { return "couplet-" + id },
		"leadAnchor":    leadAnchor,
		"sign":          sign,
	}
}

// The anchors of leads and taxa. An id is made of lower-case letters, digits and
// hyphens, so that a full stop parts it from a letter.
func leadAnchor(label string) string {
	id, letter := label[:len(label)-1], label[len(label)-1:]
	return "lead-" + id + "." + letter
}

func taxonAnchor(id string) string { return "animal-" + id }

// signs are small marks of the classes, so that a class is seen at a glance
// without colour; its word stands beside it.
func signs() map[taxa.Class]template.HTML {
	return map[taxa.Class]template.HTML{
		taxa.Sensitive:         `<circle cx="5" cy="5" r="4" fill="#111"/>`,
		taxa.SomewhatSensitive: `<circle cx="5" cy="5" r="4" fill="none"/><path d="M5 1A4 4 0 0 0 5 9Z" fill="#111"/>`,
		taxa.Tolerant:          `<circle cx="5" cy="5" r="4" fill="none"/>`,
		taxa.NotScored:         `<path d="M1 5H9"/>`,
	}
}

func sign(c taxa.Class) template.HTML {
	if s := signs()[c]; s != "" {
		return s
	}
	return `<path d="M1 5H3M5 5H6M8 5H9"/>`
}
