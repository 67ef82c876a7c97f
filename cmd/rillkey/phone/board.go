package phone

import (
	"fmt"

	"rillkey/cmd/rillkey/show"
)

// boardPage is how the whole visit stands, as far as this page has heard.
func (p *Phone) boardPage(m *markup) {
	m.el("h1", "Board")
	m.say(p)
	m.open("section")
	m.el("h2", "For you")
	p.looksRows(m)
	m.close("section")
	catalog, err := p.kit.Catalog()
	if err != nil {
		m.el("p", err.Error())
		return
	}
	rules, err := p.kit.Rules()
	if err != nil {
		m.el("p", err.Error())
		return
	}
	writeBoard(m, show.NewBoard(rules, catalog, p.visit, p.now()))
}

func writeBoard(m *markup, b *show.Board) {
	for _, part := range b.Parts() {
		m.open("section")
		m.el("h2", part.Title)
		m.open("ul")
		for _, line := range part.Lines {
			m.el("li", line)
		}
		m.close("ul")
		m.close("section")
	}
}

// BoardHTML is a board alone, for a screen that everybody sees.
func BoardHTML(b *show.Board) string {
	var m markup
	m.open("main")
	m.el("h1", fmt.Sprintf("%s, %s: %s", b.Visit.Site, b.Visit.Date, show.Animals(b.Animals)))
	writeBoard(&m, b)
	m.close("main")
	return m.b.String()
}

// PhonesHTML lists the phones at a table, each with a button to send it away.
func PhonesHTML(action string, names []string) string {
	m := markup{action: action}
	m.open("section")
	m.el("h2", "Phones at the table")
	for _, name := range names {
		m.button(name, "Send away: "+name, "row")
	}
	m.el("p", "What they entered stays. A phone that was sent away can join again with the code.", "class", "remark")
	m.close("section")
	return m.b.String()
}
