package phone

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/question"
	"rillkey/cmd/rillkey/record"
	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/units"
	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// startNaming begins to ask about an animal, as far as the visit's protocol counts.
func startNaming(p *Phone, _ string, _ FormValues) error {
	p.looking = ""
	return p.beginTalk(p.kit.enough(p.visit.Header.Protocol))
}

// beginTalk begins to ask; of the taxa that are enough no narrower name is asked for.
func (p *Phone) beginTalk(enough []string) error {
	q, err := inquiry(p, enough)
	if err != nil {
		return err
	}
	p.talk, p.left = question.NewTalk(q, question.Destination{}, p.kit.Atlas), nil
	p.screen = naming
	return nil
}

func inquiry(p *Phone, enough []string) (*key.Inquiry, error) {
	m, err := p.kit.Model()
	if err != nil {
		return nil, err
	}
	o := key.DefaultOptions()
	o.Enough = enough
	return m.Inquire(o)
}

// goCloser goes on to the end of the key with all that was said.
func goCloser(p *Phone, _ string, _ FormValues) error {
	if p.talk == nil || !p.talk.Ended() {
		return wording.NewError("no animal was named")
	}
	q, err := inquiry(p, nil)
	if err != nil {
		return err
	}
	if err := p.talk.Inquiry().Retell(q); err != nil {
		return err
	}
	p.talk = question.NewTalk(q, question.Destination{}, p.kit.Atlas)
	p.said = wording.Text("On to a closer name. What you said is kept.")
	return p.asked(func(*question.Talk) {})
}

// goOn goes on with questions that somebody stopped.
func goOn(p *Phone, _ string, _ FormValues) error {
	return p.asked(func(t *question.Talk) { t.GoOn() })
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

func answer(p *Phone, a string, _ FormValues) error {
	return p.asked(func(t *question.Talk) { t.Answer(a) })
}

func hear(p *Phone, _ string, f FormValues) error {
	words := strings.TrimSpace(f["words"])
	if words == "" {
		return wording.NewError("type what strikes you first, or choose an answer")
	}
	return p.asked(func(t *question.Talk) { t.Hear(words) })
}

func confirm(p *Phone, _ string, _ FormValues) error {
	return p.asked(func(t *question.Talk) { t.Confirm() })
}

func lookAgain(p *Phone, _ string, _ FormValues) error {
	return p.asked(func(t *question.Talk) { t.Reopen() })
}

func measure(p *Phone, _ string, f FormValues) error {
	if p.talk == nil {
		return wording.NewError("no animal is being named")
	}
	mm, err := question.LengthTyped(p.talk.Inquiry().Model().Key().Catalog().Vocabulary(), f["length"])
	if err != nil {
		return err
	}
	var refused error
	err = p.asked(func(t *question.Talk) { refused = t.Measure(mm) })
	return cmp.Or(refused, err)
}

// drop leaves an animal; until another is named, somebody can come back to it.
func drop(p *Phone, _ string, _ FormValues) error {
	if p.talk == nil {
		p.screen = counting
		return wording.NewError("no animal is being named")
	}
	left := &leftTalk{p.talk, p.looking, p.pressed}
	p.endTalk()
	p.left = left
	p.said = wording.Text("Left without a name; nothing of that animal was noted.")
	return nil
}

// leftTalk is an animal that somebody left, perhaps by a slip of the thumb.
type leftTalk struct {
	talk    *question.Talk
	looking string
	pressed []press
}

// comeBack goes on with the animal that was left.
func comeBack(p *Phone, _ string, _ FormValues) error {
	if p.left == nil {
		return wording.NewError("no animal is being named")
	}
	p.talk, p.looking, p.pressed, p.left = p.left.talk, p.left.looking, p.left.pressed, nil
	return p.asked(func(*question.Talk) {})
}

// keep notes the animal that was named.
func keep(p *Phone, _ string, f FormValues) error {
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
	body := record.FromInquiry(p.talk.Inquiry(), p.sample, n, p.talk.Inquiry().Length())
	body.Cell, body.Note = strings.TrimSpace(f["cell"]), strings.TrimSpace(f["note"])
	if err := p.note(body); err != nil {
		return err
	}
	p.said = wording.Sprintf("Noted in sample %s, %s. %s.", p.sample, plain.Count(n, "animal"),
		capital(show.NewIdentified(p.talk.Inquiry(), p.talk.Inquiry().Length()).Brief()))
	p.endTalk()
	return nil
}

func (p *Phone) endTalk() { p.talk, p.looking, p.screen, p.pressed = nil, "", counting, nil }

func namePage(p *Phone, m *writer) {
	a := p.talk.Now()
	m.el("h1", a.Title)
	m.say(p)
	if a.Said != "" {
		m.el("p", a.Said, "class", "said", "role", "status")
	}
	paragraphs(m, a.Before)
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
		if slices.ContainsFunc(a.Also, func(k question.Also) bool { return k.Answer == say }) {
			m.button("answer:"+say, wording.Text("Show me marks to choose from"), "row")
		}
		m.close("section")
	}
	m.open("section")
	for _, k := range a.Also {
		if k.Answer != key.Unsure && k.Answer != say {
			m.button("answer:"+k.Answer, capital(k.Short), "row")
		}
	}
	m.button("drop", wording.Text("Leave without a name"), "row")
	m.close("section")
	paragraphs(m, a.After)
	howToLook(m, &a)
}

// explained is what a button does, its words first.
func explained(k question.Also) string {
	if strings.HasPrefix(k.Long, k.Short) {
		return capital(k.Long)
	}
	return capital(k.Short) + ": " + k.Long
}

// say is the answer that asks for marks to choose from.
const say = "w"

// howToLook is what explains the question, shut until somebody asks for it.
func howToLook(m *writer, a *question.Asked) {
	m.open("details")
	m.el("summary", wording.Text("How to look, and what you can answer"), "class", "row")
	paragraphs(m, a.How)
	for _, k := range a.Also {
		if k.Answer != say {
			m.el("p", explained(k), "class", "remark")
		}
	}
	m.close("details")
	if a.SoFar != "" {
		m.el("p", a.SoFar, "class", "remark")
	}
}

func paragraphs(m *writer, all []question.Paragraph) {
	for _, t := range all {
		class := "remark"
		if t.Advice {
			class = "advice"
		}
		m.el("p", t.Words, "class", class)
	}
}

func lead(p *Phone, m *writer, i int, o question.Choice, ticks bool) {
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
func resultPage(p *Phone, m *writer) {
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
	keep := wording.Sprintf("Note it in sample %s", p.sample)
	if p.looking != "" {
		keep = wording.Text("Note this second look")
	}
	m.button("keep", keep, "main")
	m.close("section")
	m.open("section")
	if p.talk.Stopped() {
		m.button("on", wording.Text("Go on with the questions"), "row")
	}
	if v.Enough {
		m.button("closer", wording.Text("A closer name"), "row")
	}
	if question.CanLookAgain(q) {
		m.button("again", wording.Text("Look again at an answer"), "row")
	}
	m.button("drop", wording.Text("Leave it out"), "row")
	m.close("section")
	story(p, m, v.Drawable())
	m.open("section")
	m.el("h2", wording.Text("Why, and what else it could be"))
	lines(m, func(w *strings.Builder) error {
		return v.TextWith(w, unfolded, wording.Text("\"A closer name\" goes on to its family"))
	})
	m.close("section")
}

// story is the card of what was named, shut until it is asked for.
func story(p *Phone, m *writer, t *taxa.Taxon) {
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
