package phone

// Warm makes ready the part of the page at a place from 0, so that no press waits for
// it, and reports whether there is another: first what a question needs, then the press
// that begins a visit, then what drawings and own words do, a little of both at a time,
// and last all that the first press of each kind makes. What cannot be made says so
// where it is wanted.
func (p *Phone) Warm(part int) (more bool) {
	parts := []func(){
		func() { _, _ = p.kit.Catalog() }, func() { _, _ = p.kit.Rules() }, func() { _, _ = p.kit.Model() }, func() { p.kit.Atlas() },
		func() {
			p.rehearsal = &rehearsal{page: New(p.kit, p.now, p.random), protocol: likelyProtocol(p)}
			p.rehearsal.next()
		},
		func() { p.rehearsal.next() },
	}
	if part >= 0 && part < len(parts) {
		parts[part]()
		return true
	}
	catalog, err := p.kit.Catalog()
	atlas := p.kit.Atlas()
	if err != nil || atlas == nil {
		return false
	}
	drawings, words := atlas.Prepare(part-len(parts)), catalog.Vocabulary().Prepare()
	p.draws = !drawings
	if drawings || words {
		return true
	}
	if more = p.rehearsal.next(); !more {
		p.rehearsal.page = nil
	}
	return more
}

// likelyProtocol is that of the visit, or the one that the form begins with.
func likelyProtocol(p *Phone) string {
	if p.visit != nil {
		return p.visit.Header.Protocol
	}
	if all := followedHere(p); len(all) > 0 {
		return all[0].ID
	}
	return ""
}

// Draws reports whether drawings come at once: [Phone.Warm] is over with what they need.
func (p *Phone) Draws() bool { return p.draws }

// rehearsal is a page that nobody sees, on which each button is pressed before anybody
// presses it: what the first press of it makes is then made, and what shows it.
type rehearsal struct {
	page     *Phone // nil when it is over
	protocol string
	done     int  // presses
	unseen   bool // what came of the last one was not shown yet
}

// drawn stands among the presses of the rehearsal where what is asked is drawn.
var drawn press

var rehearsed = []press{
	{"begin", nil},
	{"more:row-0:1", nil}, {"undo", nil}, {"find", FormValues{"find": "stonefly nymph"}},
	{"name", nil}, drawn, {"hear", FormValues{"words": "six legs, three tails, flat"}}, {"confirm", nil}, drawn,
	{"answer:?", nil}, {"answer:a", nil}, {"answer:?", nil}, {"answer:<", nil}, {"answer:s", nil}, {"keep", FormValues{"count": "1"}},
	{"go:tally", nil}, {"go:grade", nil}, {"go:board", nil}, {"go:hand", nil}, {"go:sample", nil},
	{"practise", FormValues{"learner": "nobody"}}, {"sign:k", nil}, {"sign:a", nil}, {"sign:q", nil},
}

// next presses the next button or shows what came of the last, and reports whether
// there is more.
func (r *rehearsal) next() (more bool) {
	if r.unseen {
		r.page.HTML()
		r.unseen = false
		return r.done < len(rehearsed)
	}
	press := rehearsed[r.done]
	r.done++
	switch press.Do {
	case drawn.Do:
		r.page.Figure("lead:0", true)
		return true
	case "begin":
		press.Fields = FormValues{"site": "-", "people": "-", "read": "yes", "protocol": r.protocol, "habitat": "riffle"}
	}
	r.page.Do(press.Do, press.Fields)
	r.unseen = true
	return true
}
