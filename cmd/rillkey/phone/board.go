package phone

import (
	"fmt"

	"rillkey/cmd/rillkey/show"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// boardPage is how the whole visit stands, as far as this page has heard.
func boardPage(p *Phone, m *writer) {
	m.el("h1", wording.Text("Board"))
	m.say(p)
	m.open("section")
	m.el("h2", wording.Text("For you"))
	looksRows(p, m)
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
	tableBoard(p, m)
}

// tableBoard leads to the board of the table itself, from pages that it gave.
func tableBoard(p *Phone, m *writer) {
	if p.joined == nil || !p.hosted && !p.unscripted {
		return
	}
	at, words := "/board", wording.Text("The table's own board: what each phone does now")
	if p.unscripted {
		at += PlainQuery
	}
	if p.joined.Leader {
		words = wording.Text("The table's own board: what each phone does now, and to send one away")
	}
	m.open("section")
	m.el("h2", wording.Text("For everybody to see"))
	m.open("p", "class", "beside")
	m.el("a", words, "href", at, "class", "row")
	m.close("p")
	m.close("section")
}

// PlainQuery stands behind the address of a board to which a plain page led.
const PlainQuery = "?plain=yes"

func writeBoard(m *writer, b *show.Board) {
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

// BoardScreen is what a board has that stands alone.
type BoardScreen struct {
	Fresh  bool     // it is shown anew by itself
	Here   string   // its address
	Anew   string   // that at which it shows itself anew
	Back   string   // that of the page to count on
	Phones []string // those at the table, for the leader; nil for others
	Away   string   // the address to which the name of a phone is posted that is sent away
}

// BoardHTML is a board alone, for a screen that everybody sees.
func BoardHTML(b *show.Board, s BoardScreen) string {
	m := writer{action: s.Away}
	m.open("main")
	m.el("h1", fmt.Sprintf("%s, %s: %s", b.Visit.Site, b.Visit.Date, plain.Count(b.Animals, "animal")))
	m.open("p", "class", "beside")
	if s.Fresh {
		m.el("a", wording.Text("Stop showing it anew every 10 seconds"), "href", s.Here, "class", "row")
	} else {
		m.el("a", wording.Text("Show it anew"), "href", s.Here, "class", "row")
		m.el("a", wording.Text("Anew every 10 seconds"), "href", s.Anew, "class", "row")
	}
	m.el("a", wording.Text("Back to counting"), "href", s.Back, "class", "row")
	m.close("p")
	writeBoard(&m, b)
	if s.Phones != nil {
		m.phones(s.Phones)
	}
	m.close("main")
	return m.String()
}

// phones lists the phones at a table, each with a button to send it away.
func (m *writer) phones(names []string) {
	m.open("section")
	m.el("h2", wording.Text("Phones at the table"))
	for _, name := range names {
		m.button(name, wording.Sprintf("Send away: %s", name), "row")
	}
	m.el("p", wording.Text("What they entered stays. A phone that was sent away can join again with the code."), "class", "remark")
	m.close("section")
}
