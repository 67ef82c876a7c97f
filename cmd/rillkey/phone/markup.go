package phone

import (
	"encoding/base64"
	"html"
	"strings"

	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// markup writes HTML. All text and all values of attributes are escaped;
// drawings are put in later, by whoever shows the page.
type markup struct {
	b strings.Builder

	action string                   // where each section is posted as a form of its own; empty where a script takes the one form around all
	draw   func(what string) string // puts drawings in place; nil where they come later
	turn   string                   // which page this is, as each form says when it is posted
}

// open opens an element with attributes in pairs of name and value.
func (m *markup) open(tag string, attributes ...string) {
	m.b.WriteString("<" + tag)
	for i := 0; i+1 < len(attributes); i += 2 {
		m.b.WriteString(" " + attributes[i] + `="` + html.EscapeString(plain.Printable(attributes[i+1])) + `"`)
	}
	m.b.WriteString(">")
	if m.action != "" && forms[tag] {
		m.b.WriteString(`<form method="post" autocomplete="off" action="` + html.EscapeString(m.action) + `">`)
		if m.turn != "" {
			m.b.WriteString(`<input type="hidden" name="turn" value="` + html.EscapeString(m.turn) + `">`)
		}
	}
	for i := 0; i+1 < len(attributes) && m.draw != nil; i += 2 {
		if attributes[i] == "data-figure" {
			m.b.WriteString(m.draw(attributes[i+1]))
		}
	}
}

// forms are the elements that are a form of their own without a script, so that
// Enter in a line presses the first button beside it.
var forms = map[string]bool{"section": true, "nav": true}

func (m *markup) close(tag string) {
	if m.action != "" && forms[tag] {
		m.b.WriteString("</form>")
	}
	m.b.WriteString("</" + tag + ">")
}

func (m *markup) text(s string) { m.b.WriteString(html.EscapeString(plain.Printable(s))) }

// el is an element with text in it.
func (m *markup) el(tag, text string, attributes ...string) {
	m.open(tag, attributes...)
	m.text(text)
	m.close(tag)
}

// say is what came of the last press: a refusal is called one.
func (m *markup) say(p *Phone) {
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
func (m *markup) photograph(t *taxa.Taxon) {
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
	m.el("figcaption", wording.Sprintf("Photograph: %s", t.Photo.By))
	m.close("figure")
}

// button is a button that does something.
func (m *markup) button(do, words, class string) {
	m.el("button", words, "type", "submit", "name", "do", "value", do, "class", class)
}

// field is a line to type in, with its words above it.
func (m *markup) field(name, words, value, kind string) {
	m.open("label")
	m.el("span", words)
	m.open("input", "name", name, "value", value, "type", kind, "autocomplete", "off", "maxlength", "200")
	m.close("label")
}

func (m *markup) check(name, words string) {
	m.open("label", "class", "check")
	m.open("input", "name", name, "value", "yes", "type", "checkbox")
	m.el("span", words)
	m.close("label")
}

// choose is a list of values with words, one of which is chosen.
func (m *markup) choose(name, words, chosen string, options [][2]string) {
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
