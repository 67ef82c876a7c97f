package phone

import (
	"cmp"
	"io"
	"slices"
	"time"

	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// Joined is what a page that counts for a table knows of it.
type Joined struct {
	Name   string `json:"name"`   // under which the table takes its entries
	Leader bool   `json:"leader"` // may finish, and amend what others entered
	Cursor string `json:"cursor"` // how far it has read what the table holds

	Pending []string          `json:"pending"` // ids of entries that the table has not said it holds
	Refused map[string]string `json:"refused"` // why it did not take them, by id
}

// JoinAnswer is what a table answers to who joins.
type JoinAnswer struct {
	Joined
	Visit string `json:"visit"` // the header of the visit's file
}

// Handing is what a page sends to its table, as often as it likes.
type Handing struct {
	Cursor  string `json:"cursor"`
	Blocks  string `json:"blocks"`  // entries, as they stand in a visit's file
	Doing   string `json:"doing"`   // what is done on the page now, in a few words
	Waiting int    `json:"waiting"` // entries that are not in Blocks and come later
}

// Receipt is what the table says to it, once all that it kept is on its disk.
type Receipt struct {
	Kept    []string          `json:"kept"` // ids
	Refused map[string]string `json:"refused"`
	Blocks  string            `json:"blocks"` // entries that the page lacks
	Cursor  string            `json:"cursor"`
	Left    int               `json:"left"` // how many more it lacks
}

// MostHanded is how many entries go in one Handing or Answer.
const MostHanded = 500

// Join makes the page one of a table. A page that holds another visit keeps it: it
// has to be handed over first.
func (p *Phone) Join(w JoinAnswer) error {
	v, err := visit.Parse(wording.Text("the table's visit"), []byte(w.Visit))
	if err != nil {
		return err
	}
	switch {
	case p.visit == nil:
		p.open(v)
	case !visit.SameVisit(p.visit.Header, v.Header):
		return wording.Errorf("this page holds another visit, %s on %s; save it as a file and put it away, then join",
			p.visit.Header.Site, p.visit.Header.Date)
	default:
		p.visit.Header = v.Header
	}
	j := w.Joined
	p.joined, p.who = &j, j.Name
	p.queue(p.visit.Events)
	if p.screen == beginning {
		p.screen = counting
	}
	p.said, p.wrong = "", false
	return nil
}

// queue has the table told of those among the events that are for this page to tell:
// also of what was made here under another name, which it refuses, so that it is seen.
func (p *Phone) queue(events []visit.Event) {
	if p.joined == nil {
		return
	}
	for _, e := range events {
		mine := e.Who == p.joined.Name || p.joined.Leader || p.seen[e.ID]
		if mine && !slices.Contains(p.joined.Pending, e.ID) && p.joined.Refused[e.ID] == "" {
			p.joined.Pending = append(p.joined.Pending, e.ID)
		}
	}
}

// Table is what the page knows of its table, and whether it has one.
func (p *Phone) Table() (Joined, bool) {
	if p.joined == nil {
		return Joined{}, false
	}
	return *p.joined, true
}

// Hand is what the table has to be told now.
func (p *Phone) Hand() Handing {
	pending := map[string]bool{}
	for _, id := range p.joined.Pending {
		pending[id] = true
	}
	var events []visit.Event
	for _, e := range p.visit.Events {
		if pending[e.ID] && len(events) < MostHanded {
			events = append(events, e)
		}
	}
	return Handing{p.joined.Cursor, string(visit.Blocks(events)), p.doing(), len(pending) - len(events)}
}

// doing says in a few words what is done on the page.
func (p *Phone) doing() string {
	switch {
	case p.lesson != nil:
		return wording.Text("practises")
	case p.talk != nil && p.looking != "":
		return wording.Text("looks again at an animal")
	case p.talk != nil:
		return wording.Sprintf("names an animal, sample %s", p.sample)
	}
	return wording.Sprintf("counts sample %s", p.sample)
}

// Handed takes the table's answer, and reports whether the visit gained by it.
func (p *Phone) Handed(a Receipt) (gained bool, err error) {
	j := p.joined
	if j == nil {
		return false, wording.NewError("this page has no table")
	}
	news, err := visit.ParseBlocks([]byte(a.Blocks), visit.MaxEvents)
	if err != nil {
		return false, wording.Errorf("the table's answer cannot be read: %w", err)
	}
	there := map[string]bool{}
	for _, id := range a.Kept {
		there[id] = true
	}
	for _, e := range news {
		there[e.ID] = true
	}
	for id, why := range a.Refused {
		there[id] = true
		if j.Refused == nil {
			j.Refused = map[string]string{}
		}
		j.Refused[id] = why
	}
	for _, e := range news {
		delete(j.Refused, e.ID) // it came there by another way
	}
	j.Pending = slices.DeleteFunc(j.Pending, func(id string) bool { return there[id] })
	j.Cursor = a.Cursor
	if gained = p.visit.Unite(news) > 0; gained {
		p.tally = p.visit.Tally()
	}
	p.sample = cmp.Or(p.tally.SampleMeant(p.sample), p.sample)
	return gained, nil
}

// Waiting says how many entries are not at the table yet; empty without a table.
func (p *Phone) Waiting() string {
	switch {
	case p.joined == nil:
		return ""
	case len(p.joined.Refused) > 0:
		return wording.Sprintf("%d not yet at the table; %d not taken by it, see Give.", len(p.joined.Pending), len(p.joined.Refused))
	case len(p.joined.Pending) > 0:
		return wording.Sprintf("%d not yet at the table.", len(p.joined.Pending))
	}
	return wording.Text("All at the table.")
}

// Host makes the page one that a table gave: nothing is counted on it before it
// joins.
func (p *Phone) Host() { p.hosted = true }

// Leave takes the page away from its table; the visit stays on it.
func (p *Phone) Leave() { p.joined = nil }

// Follow turns a page that lives beside the table itself to what the table holds.
func (p *Phone) Follow(v *visit.Visit, j Joined) {
	p.unscripted = true
	if p.visit == nil {
		p.open(v)
	}
	p.visit, p.tally, p.joined, p.who = v, v.Tally(), &j, j.Name
	for _, e := range v.Events {
		if e.Who == j.Name {
			p.seen[e.ID] = true
		}
	}
	p.sample = cmp.Or(p.tally.SampleMeant(p.sample), p.sample)
	if p.screen == beginning {
		p.screen = counting
	}
}

// leads reports whether the page may do what is the leader's; without a table
// everybody may.
func (p *Phone) leads() bool { return p.joined == nil || p.joined.Leader }

// mayAmend reports whether the page may correct somebody's entry.
func (p *Phone) mayAmend(who string) bool { return p.leads() || visit.SamePerson(who, p.joined.Name) }

var errLeader = wording.NewError("only the leader of the table does that")

// Joining is the page of somebody who joins a table by forms alone, with the name as it
// was typed before: what no name can be is refused where it joins.
func Joining(kit *Kit, now func() time.Time, random io.Reader, name string) *Phone {
	p := New(kit, now, random)
	p.Host()
	p.who = name
	return p
}

// joinPage asks for the name and the code of the day.
func joinPage(p *Phone, m *writer) {
	m.el("h1", wording.Text("Join the table"))
	m.say(p)
	m.open("section")
	joinRows(p, m)
	m.close("section")
	m.el("p", wording.Text("The leader joins with the leader's own code, which the laptop shows."), "class", "remark")
}

func joinRows(p *Phone, m *writer) {
	code := wording.Text("The code of the day: scanned already, or ask the leader")
	if m.action != "" { // what stands behind the # of an address reaches no form
		code = wording.Text("The code of the day: ask the leader")
	}
	m.field("name", wording.Text("Your name, as it is noted beside what you count"), p.who, "text")
	m.field("code", code, "", "text")
	m.button("join", wording.Text("Join"), "main")
}
