package phone

import (
	"errors"
	"maps"
	"slices"

	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// File is the visit as a file that every rillkey reads, nil before there is one.
func (p *Phone) File() []byte {
	if p.visit == nil {
		return nil
	}
	return p.visit.Encode()
}

// Begun reports whether there is a visit.
func (p *Phone) Begun() bool { return p.visit != nil }

// FileName is how the file had better be called: several phones give one of the same
// visit.
func (p *Phone) FileName() string {
	if p.visit == nil {
		return "visit.toml"
	}
	return visit.FileName(p.visit.Header.Date, p.visit.Header.Site, p.visit.Obscured(), p.who)
}

// TakeIn unites the page's visit with a file of the same visit, each entry once, or
// begins with it where there is none.
func (p *Phone) TakeIn(data []byte) error {
	other, err := visit.Parse("the file", data)
	if err != nil {
		return err
	}
	if p.visit == nil {
		p.open(other)
		return nil
	}
	before := len(p.visit.Events)
	merged, _, err := visit.Unite([]*visit.Visit{p.visit, other}, false)
	if errors.Is(err, visit.ErrOtherVisit) {
		return wording.Errorf("that file is of another visit, %s on %s; hand this one over first, then begin with that one",
			other.Header.Site,
			other.Header.Date)
	}
	if err != nil {
		return err
	}
	p.queue(newEvents(p.visit, merged))
	p.visit, p.tally = merged, merged.Tally()
	p.said = plain.CountOf(len(merged.Events)-before, "new entry", "new entries") + "."
	return nil
}

// newEvents are the events of a visit that an older copy of it lacks.
func newEvents(old, v *visit.Visit) (out []visit.Event) {
	had := make(map[string]bool, len(old.Events))
	for _, e := range old.Events {
		had[e.ID] = true
	}
	for _, e := range v.Events {
		if !had[e.ID] {
			out = append(out, e)
		}
	}
	return out
}

// open turns to a visit that was kept or handed over.
func (p *Phone) open(v *visit.Visit) {
	p.visit, p.tally, p.seen = v, v.Tally(), map[string]bool{}
	p.screen, p.sample = counting, ""
	if n := len(p.tally.Samples); n > 0 {
		p.sample = p.tally.Samples[n-1].Label
	}
}

// SavedState is what a page keeps beside the visit, so that it goes on where it was.
type SavedState struct {
	Who    string   `json:"who"`
	Sample string   `json:"at"`
	Seen   []string `json:"seen"` // ids of the entries made here

	Table  *Joined `json:"table,omitempty"`
	Naming []press `json:"naming,omitempty"` // what was pressed of an animal that has no name yet
}

// Keep is what goes beside the file.
func (p *Phone) Keep() SavedState {
	seen := make([]string, 0, len(p.seen))
	for id := range p.seen {
		seen = append(seen, id)
	}
	slices.Sort(seen)
	return SavedState{p.who, p.sample, seen, p.joined, p.pressed}
}

// Open goes on with a visit that was kept.
func (p *Phone) Open(file []byte, k SavedState) error {
	v, err := visit.Parse(wording.Text("the visit kept here"), file)
	if err != nil {
		return err
	}
	p.open(v)
	p.who, p.joined = k.Who, k.Table
	for _, id := range k.Seen {
		p.seen[id] = true
	}
	if _, ok := p.tally.Sample(k.Sample); ok {
		p.sample = k.Sample
	}
	for _, one := range k.Naming {
		if p.Do(one.Do, one.Fields); p.wrong {
			p.endTalk() // it was kept by another version of the page
			p.said, p.wrong = "", false
			break
		}
	}
	return nil
}

// handPage is where the visit leaves the page and others come in. The buttons that
// need the browser's help say so by their data.
func handPage(p *Phone, m *writer) {
	m.el("h1", wording.Text("Hand over"))
	m.say(p)
	m.open("section")
	m.el("h2", wording.Text("Who counts here?"))
	if p.joined == nil {
		m.field("who", wording.Text("Name, as it is noted beside each entry"), p.who, "text")
		m.button("who", wording.Text("Note this name from here on"), "row")
	} else {
		tableRows(p, m)
	}
	m.close("section")
	if p.unscripted {
		return
	}
	if p.hosted && p.joined == nil {
		m.open("section")
		m.el("h2", wording.Text("Join the table"))
		joinRows(p, m)
		m.close("section")
	}
	m.open("section", "data-needs", "files")
	m.el("h2", wording.Text("Give the visit away"))
	m.el("p", wording.Text("As a file for the laptop, by message, cable or card: 'rillkey visit merge' unites it with the "+
		"others; with --one-visit where each was begun by itself."))
	if !p.hosted {
		m.el("p", wording.Text("This page was opened from a file, so it joins no table by itself: the page that the table's own "+
			"address gives does. What is counted here reaches the table as this file."))
	}
	m.el("button", wording.Text("Save the visit as a file"), "type", "button", "class", "main", "data-act", "give")
	m.close("section")
	takeRow(m, wording.Text("Take one in"),
		wording.Text("A file of this visit from another phone or the laptop. Each entry counts once, however often it comes."))
	practiceDoor(p, m, wording.Text("Practise meanwhile"))
	m.open("section", "data-needs", "files")
	m.el("h2", wording.Text("Begin another visit"))
	m.el("p", wording.Text("This one is taken off the page. Save it as a file first."))
	m.el("button", wording.Text("Put this visit away"), "type", "button", "class", "row", "data-act", "away")
	m.close("section")
}

// takeRow takes in a file.
func takeRow(m *writer, title, words string) {
	m.open("section", "data-needs", "files")
	m.el("h2", title)
	m.el("p", words)
	m.open("label")
	m.el("span", wording.Text("File"))
	m.open("input", "type", "file", "accept", ".toml", "data-act", "take")
	m.close("label")
	m.close("section")
}

// tableRows say who counts here for a table, and what of it is not there.
func tableRows(p *Phone, m *writer) {
	words := wording.Sprintf("%s counts here for the table. ", p.joined.Name)
	if p.joined.Leader {
		words = wording.Sprintf("%s leads the table from here. ", p.joined.Name)
	}
	m.el("p", words+p.Waiting())
	for _, id := range slices.Sorted(maps.Keys(p.joined.Refused)) {
		m.el("p", wording.Sprintf("Not taken by the table: %s. It is still on this phone; show it to the leader.",
			p.joined.Refused[id]), "class", "advice")
	}
	if !p.unscripted {
		m.el("button", wording.Text("Leave the table"), "type", "button", "class", "row", "data-act", "leave")
	} else {
		m.el("p", wording.Text("What was entered stays. Whoever comes next on this phone joins with the code and their own name."),
			"class", "remark")
		m.button(LeaveTable, wording.Text("Leave the table"), "row")
	}
}

// LeaveTable is the button by which whoever counts on a plain page leaves the table,
// which only the table can do.
const LeaveTable = "leave"

// PutAway takes the visit off the page; what was practised stays.
func (p *Phone) PutAway() {
	hosted, practised := p.hosted, p.practised
	*p = *New(p.kit, p.now, p.random)
	p.hosted, p.practised = hosted, practised
}
