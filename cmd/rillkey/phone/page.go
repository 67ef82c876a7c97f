package phone

import (
	"strconv"
	"strings"

	"rillkey/cmd/rillkey/figure"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Sizes of figures in millimetres, beside a name, in a lead, and alone.
var (
	small = figure.Size{Width: 18, Height: 12}
	large = figure.Size{Width: 60, Height: 40}
)

// HTML is the page as it stands, one form without the frame around it. Figures are
// places to be filled with [Phone.Figure], since drawing all of them before
// anything is seen takes too long on a phone.
func (p *Phone) HTML() string { return p.write(&writer{}) }

// Plain is the page for a browser that runs no script: drawings stand in place, and
// each section is a form of its own that is posted to action.
func (p *Phone) Plain(action string) string {
	p.unscripted = true
	wide := func(what string) string { return p.Figure(what, strings.HasPrefix(what, "lead:") || p.screen == named) }
	return p.write(&writer{action: action, draw: wide, turn: strconv.Itoa(p.turn)})
}

func (p *Phone) write(m *writer) string {
	switch {
	case p.lesson != nil:
		p.screen = practising
	case p.visit == nil:
		p.screen = beginning
	default:
		head(p, m)
	}
	m.open("main")
	body(p, m)
	m.close("main")
	return m.String()
}

func body(p *Phone, m *writer) {
	switch {
	case p.screen == practising && p.lesson != nil:
		practicePage(p, m)
	case p.screen == beginning && p.hosted:
		joinPage(p, m)
	case p.screen == beginning:
		beginPage(p, m)
	case p.screen == naming && p.talk != nil:
		namePage(p, m)
	case p.screen == named && p.talk != nil:
		resultPage(p, m)
	case p.screen == tallying:
		tallyPage(p, m)
	case p.screen == grading:
		gradePage(p, m)
	case p.screen == handing:
		handPage(p, m)
	case p.screen == boarding:
		boardPage(p, m)
	case p.screen == entry:
		entryPage(p, m)
	case p.screen == correcting:
		conditionPage(p, m)
	case p.screen == sampling:
		samplePage(p, m)
	default:
		countPage(p, m)
	}
}

// head says where one is and leads everywhere.
func head(p *Phone, m *writer) {
	m.open("header")
	where := wording.Sprintf("%s, sample %s, %s", p.visit.Header.Site, p.sample, plain.Count(p.animals(""), "animal"))
	if len(p.tally.Samples) == 0 {
		where = wording.Sprintf("%s, no sample yet", p.visit.Header.Site)
	}
	m.el("p", where, "class", "where")
	if p.screen == naming || p.screen == named { // a cold thumb must not lose the answers
		m.close("header")
		return
	}
	m.open("nav", "aria-label", wording.Text("Pages"))
	for _, to := range [][2]string{{counting, wording.Text("Count")}, {sampling, wording.Text("Samples")},
		{tallying, wording.Text("Tally")}, {grading, wording.Text("Grade")}, {boarding, wording.Text("Board")},
		{handing, wording.Text("Give")}} {
		class := "to"
		if to[0] == p.screen {
			class = "to here"
		}
		m.button("go:"+to[0], to[1], class)
	}
	m.close("nav")
	m.close("header")
}

// Figure is the drawing for a place on the page, by its data-figure, as an svg
// element; empty where there is none.
func (p *Phone) Figure(what string, wide bool) string {
	if wide {
		return figureOf(p, what, large)
	}
	return figureOf(p, what, small)
}
