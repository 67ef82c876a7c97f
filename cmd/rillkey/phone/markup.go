package phone

import (
	"encoding/base64"

	"rillkey/cmd/rillkey/markup"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// writer writes a page; drawings are put in later, by whoever shows it.
type writer struct {
	markup.Writer

	action string                   // where each section is posted as a form of its own; empty where a script takes the one form around all
	draw   func(what string) string // puts drawings in place; nil where they come later
	turn   string                   // which page this is, as each form says when it is posted
}

// open opens an element with attributes in pairs of name and value.
func (m *writer) open(tag string, attributes ...string) {
	m.Open(tag, attributes...)
	if m.action != "" && forms[tag] {
		m.Open("form", "method", "post", "autocomplete", "off", "action", m.action)
		if m.turn != "" {
			m.Open("input", "type", "hidden", "name", "turn", "value", m.turn)
		}
	}
	for i := 0; i+1 < len(attributes) && m.draw != nil; i += 2 {
		if attributes[i] == "data-figure" {
			m.Add(m.draw(attributes[i+1]))
		}
	}
}

// forms are the elements that are a form of their own without a script, so that
// Enter in a line presses the first button beside it.
var forms = map[string]bool{"section": true, "nav": true}

func (m *writer) close(tag string) {
	if m.action != "" && forms[tag] {
		m.Close("form")
	}
	m.Close(tag)
}

// el is an element with text in it.
func (m *writer) el(tag, text string, attributes ...string) {
	m.open(tag, attributes...)
	m.Text(text)
	m.close(tag)
}

// say is what came of the last press: a refusal is called one.
func (m *writer) say(p *Phone) {
	if p.said == "" {
		return
	}
	class, text := "said", plain.Capital(p.said)
	if p.wrong {
		class, text = "said wrong", wording.Sprintf("Not done: %s", p.said)
	}
	m.el("p", text, "class", class, "role", "status")
}

// photograph is that of an animal, if its region has one, with who took it.
func (m *writer) photograph(t *taxa.Taxon) {
	if t.Photo == nil {
		return
	}
	data, err := t.Photo.Small()
	if err != nil {
		return // the drawing is there
	}
	m.open("figure", "class", "photo")
	m.open("img", "src", "data:image/jpeg;base64,"+base64.StdEncoding.EncodeToString(data),
		"alt", wording.Sprintf("Photograph of %s", t.Name()))
	m.el("figcaption", wording.Sprintf("Photograph: %s", t.Photo.Credit))
	m.close("figure")
}

// button is a button that does something.
func (m *writer) button(do, words, class string) {
	m.el("button", words, "type", "submit", "name", "do", "value", do, "class", class)
}

// field is a line to type in, with its words above it.
func (m *writer) field(name, words, value, kind string) {
	m.open("label")
	m.el("span", words)
	m.open("input", "name", name, "value", value, "type", kind, "autocomplete", "off", "maxlength", "200")
	m.close("label")
}

func (m *writer) check(name, words string) {
	m.open("label", "class", "check")
	m.open("input", "name", name, "value", "yes", "type", "checkbox")
	m.el("span", words)
	m.close("label")
}

// choose is a list of values with words, one of which is chosen.
func (m *writer) choose(name, words, chosen string, options [][2]string) {
	m.open("label")
	m.el("span", words)
	m.open("select", "name", name)
	for _, o := range options {
		if o[0] == chosen {
			m.el("option", wording.Text(o[1]), "value", o[0], "selected", "selected")
			continue
		}
		m.el("option", wording.Text(o[1]), "value", o[0])
	}
	m.close("select")
	m.close("label")
}
