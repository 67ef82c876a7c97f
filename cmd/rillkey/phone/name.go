package phone

import (
	"cmp"
	"fmt"
	"strings"

	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/question"
	"rillkey/cmd/rillkey/record"
	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/units"
	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// startNaming begins to ask about an animal.
func startNaming(p *Phone, _ string, _ Fields) error {
	p.looking = ""
	return p.beginTalk()
}

func (p *Phone) beginTalk() error {
	m, err := p.kit.Model()
	if err != nil {
		return err
	}
	q, err := m.Inquire(key.DefaultOptions())
	if err != nil {
		return err
	}
	p.talk = question.Begin(q, question.Destination{}, p.kit.Atlas)
	p.screen = naming
	return nil
}

// asked acts on the questions and goes on to the name when they are over.
func (p *Phone) asked(act func(t *question.Talk)) error {
	if p.talk == nil {
		p.screen = counting
		return wording.NewError("no animal is being named")
	}
	act(p.talk)
	if p.screen = naming; p.talk.Ended() {
		p.screen = named
	}
	return nil
}

func answer(p *Phone, a string, _ Fields) error {
	return p.asked(func(t *question.Talk) { t.Answer(a) })
}

func hear(p *Phone, _ string, f Fields) error {
	words := strings.TrimSpace(f["words"])
	if words == "" {
		return wording.NewError("type what strikes you first, or choose an answer")
	}
	return p.asked(func(t *question.Talk) { t.Hear(words) })
}

func confirm(p *Phone, _ string, _ Fields) error {
	return p.asked(func(t *question.Talk) { t.Confirm() })
}

func lookAgain(p *Phone, _ string, _ Fields) error {
	return p.asked(func(t *question.Talk) { t.Reopen() })
}

func measure(p *Phone, _ string, f Fields) error {
	mm, err := units.BodyLength(f["length"])
	if err != nil {
		return err
	}
	var refused error
	err = p.asked(func(t *question.Talk) { refused = t.Measure(mm) })
	return cmp.Or(refused, err)
}

func drop(p *Phone, _ string, _ Fields) error {
	p.endTalk()
	p.said = wording.Text("Left without a name; nothing of that animal was noted.")
	return nil
}

// keep notes the animal that was named.
func keep(p *Phone, _ string, f Fields) error {
	if p.talk == nil || !p.talk.Ended() {
		return wording.NewError("no animal was named")
	}
	n, err := units.Animals(f["count"])
	if err != nil {
		return err
	}
	if p.looking != "" {
		return keepLook(p, n, f)
	}
	if err := uncounted(p); err != nil {
		return err
	}
	body := record.Identification(p.talk.Inquiry(), p.at, n, p.talk.Inquiry().Length())
	body.Cell, body.Note = strings.TrimSpace(f["cell"]), strings.TrimSpace(f["note"])
	if err := p.note(body); err != nil {
		return err
	}
	p.said = wording.Sprintf("Noted in sample %s: %d x %s", p.at, n,
		show.NewIdentified(p.talk.Inquiry(), p.talk.Inquiry().Length()).Brief())
	p.endTalk()
	return nil
}

func (p *Phone) endTalk() { p.talk, p.looking, p.screen = nil, "", counting }

func namePage(p *Phone, m *markup) {
	a := p.talk.Now()
	m.el("h1", a.Title)
	m.say(p)
	if a.Said != "" {
		m.el("p", a.Said, "class", "said", "role", "status")
	}
	texts(m, a.Before)
	m.open("section", "class", "leads")
	for i, o := range a.Options {
		lead(p, m, i, o, a.Confirm)
	}
	if a.Confirm {
		m.button("confirm", wording.Text("Note what is ticked"), "main")
	}
	for _, k := range a.Also {
		if k.Answer == key.Unsure {
			m.button("answer:"+k.Answer, wording.Text("Can't tell"), "row")
		}
	}
	m.close("section")
	if a.Words {
		m.open("section")
		m.field("words", wording.Text("Or say what strikes you, in your own words"), "", "text")
		m.button("hear", wording.Text("That is what I see"), "row")
		m.close("section")
	}
	m.open("section")
	for _, k := range a.Also {
		if k.Answer != key.Unsure && k.Answer != "w" {
			m.button("answer:"+k.Answer, capital(k.Short), "row")
		}
	}
	m.button("drop", wording.Text("Leave without a name"), "row")
	m.close("section")
	texts(m, a.After)
}

func texts(m *markup, all []question.Text) {
	for _, t := range all {
		class := "remark"
		if t.Advice {
			class = "advice"
		}
		m.el("p", t.Words, "class", class)
	}
}

func lead(p *Phone, m *markup, i int, o question.Option, ticks bool) {
	m.open("button", "type", "submit", "name", "do", "value", "answer:"+o.Answer, "class", "lead")
	if m.draw == nil || !p.talk.Figure(i).Empty() { // else whoever draws later takes the place away
		m.open("span", "class", "figure", "data-figure", fmt.Sprintf("lead:%d", i))
		m.close("span")
	}
	words := o.Words
	switch {
	case ticks && o.Picked:
		words = wording.Sprintf("☑ %s (taken)", words)
	case ticks:
		words = wording.Sprintf("☐ %s (left out)", words)
	}
	m.el("span", words)
	m.close("button")
}

// resultPage says what the questions came to, the name first.
func resultPage(p *Phone, m *markup) {
	q := p.talk.Inquiry()
	v := show.NewIdentified(q, q.Length())
	m.el("h1", capital(v.Brief()))
	m.say(p)
	if t := v.Drawable(); t != nil {
		m.open("p", "class", "large figure", "data-figure", "taxon:"+t.ID)
		m.close("p")
		m.photograph(t)
	}
	m.open("section")
	m.open("div", "class", "beside")
	m.field("count", wording.Text("How many look the same?"), "1", "number")
	m.field("cell", wording.Text("Which tray cell, if any?"), "", "text")
	m.close("div")
	m.field("note", wording.Text("Anything worth keeping? May stay empty."), "", "text")
	keep := wording.Sprintf("Note it in sample %s", p.at)
	if p.looking != "" {
		keep = wording.Text("Note this second look")
	}
	m.button("keep", keep, "main")
	m.close("section")
	m.open("section")
	if q.Length() == 0 {
		m.field("length", wording.Text("How long is it, in mm? Without tails and feelers."), "", "text")
		m.button("measure", wording.Text("Hold the length against it"), "row")
	}
	m.button("again", wording.Text("Look again at an answer"), "row")
	m.button("drop", wording.Text("Leave it out"), "row")
	m.close("section")
	story(p, m, v.Drawable())
	m.open("section")
	m.el("h2", wording.Text("Why, and what else it could be"))
	lines(m, func(w *strings.Builder) error { return v.Text(w, unfolded) })
	m.close("section")
}

// story is the card of what was named, shut until it is asked for.
func story(p *Phone, m *markup, t *taxa.Taxon) {
	catalog, err := p.kit.Catalog()
	if err != nil || t == nil || catalog.Card(t.ID) == nil {
		return
	}
	m.open("details")
	m.el("summary", wording.Text("What does it do?"), "class", "row")
	lines(m, func(w *strings.Builder) error { return show.Card(w, unfolded, catalog, t, catalog.Card(t.ID)) })
	m.close("details")
}

// figureOf draws what a place on the page asks for: "lead:0", "taxon:baetidae".
func figureOf(p *Phone, what string, size figure.Size) string {
	kind, id, _ := strings.Cut(what, ":")
	switch kind {
	case "taxon":
		return taxonFigure(p, id, size)
	case "practice":
		return practiceFigure(p, id, size)
	}
	var i int
	if _, err := fmt.Sscan(id, &i); err != nil || p.talk == nil || p.talk.Ended() {
		return ""
	}
	if f := p.talk.Figure(i); !f.Empty() {
		return f.SVG(size)
	}
	return ""
}

func taxonFigure(p *Phone, id string, size figure.Size) string {
	atlas := p.kit.Atlas()
	if atlas == nil {
		return ""
	}
	catalog, err := p.kit.Catalog()
	if err != nil {
		return ""
	}
	t := catalog.Taxon(id)
	if t == nil {
		return ""
	}
	if size == small {
		f := atlas.Taxon(t)
		f.Length = taxa.Range{} // a bar too small to read
		return f.SVG(size)
	}
	return atlas.Telling(t).SVG(size)
}
