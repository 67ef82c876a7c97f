package learnertest

import (
	"math"
	"slices"

	"rillkey/couplets"
	"rillkey/taxa"
)

// ReadTrait is one trait as it was read at a couplet.
type ReadTrait struct {
	Couplet    string
	Trait, Is  string
	Fit, Given []string // the states of the right answer, and of the one given
}

// Reply is what a person made of an animal.
type Reply struct {
	Sight  string   // the end point named at once, or empty
	Named  []string // what the walk came to
	Walked bool
	Reads  []ReadTrait
}

// Meet shows the person an animal; nothing is told of it yet.
func (p *Person) Meet(kind string, shows map[string]string, v *taxa.Vocabulary) Reply {
	i := p.kindIndex(kind)
	right, wrong := p.kinds[i].sight(p.habit.Eager)
	switch u := p.random.Float64(); {
	case u < right:
		return Reply{Sight: kind}
	case u < right+wrong:
		return Reply{Sight: p.sound.Ends[p.kinds[i].lookalike].ID}
	}
	return p.walk(shows, v)
}

func (p *Person) kindIndex(kind string) int {
	return slices.IndexFunc(p.sound.Ends, func(t *taxa.Taxon) bool { return t.ID == kind })
}

// walk goes through the key, reading every couplet anew.
func (p *Person) walk(shows map[string]string, v *taxa.Vocabulary) Reply {
	out := Reply{Walked: true}
	for at := &p.sound.Couplets[p.sound.TopDown()[0]]; at != nil; {
		read := map[string]string{}
		for _, l := range at.Leads {
			for _, c := range l.Conditions {
				if is, ok := shows[c.Trait]; ok && read[c.Trait] == "" {
					read[c.Trait] = p.see(v.Trait(c.Trait), is)
				}
			}
		}
		took := best(at, read)
		for _, c := range took.Conditions {
			if !answerable(at, shows) {
				break
			}
			if is, ok := shows[c.Trait]; ok && !slices.ContainsFunc(out.Reads, func(r ReadTrait) bool { return r.Trait == c.Trait }) {
				out.Reads = append(out.Reads, ReadTrait{at.ID, c.Trait, is, holding(at, c.Trait, is), c.States})
			}
		}
		if took.Next == "" {
			out.Named = took.Taxa
			return out
		}
		at = p.sound.Couplet(took.Next)
	}
	return out
}

// see reads a state.
func (p *Person) see(t *taxa.Trait, is string) string {
	h := p.rates[t.ID][t.State(is)]
	if p.random.Float64() >= h.now {
		return is
	}
	u := p.random.Float64()
	for j, share := range h.misread {
		if u -= share; u < 0 {
			return t.States[j].ID
		}
	}
	return is
}

// best is the lead that most of what was read fits.
func best(c *couplets.Couplet, read map[string]string) *couplets.Lead {
	out, most := &c.Leads[0], -1.0
	for i := range c.Leads {
		fits := 0.0
		for _, cond := range c.Leads[i].Conditions {
			if slices.Contains(cond.States, read[cond.Trait]) {
				fits++
			}
		}
		if n := len(c.Leads[i].Conditions); n > 0 {
			fits /= float64(n)
		}
		if fits > most+1e-9 {
			out, most = &c.Leads[i], fits
		}
	}
	return out
}

// answerable reports whether any lead is true of an animal.
func answerable(c *couplets.Couplet, shows map[string]string) bool {
	return slices.ContainsFunc(c.Leads, func(l couplets.Lead) bool {
		return !slices.ContainsFunc(l.Conditions,
			func(cond couplets.Condition) bool { return !slices.Contains(cond.States, shows[cond.Trait]) })
	})
}

func holding(c *couplets.Couplet, trait, is string) []string {
	for _, l := range c.Leads {
		for _, cond := range l.Conditions {
			if cond.Trait == trait && slices.Contains(cond.States, is) {
				return cond.States
			}
		}
	}
	return []string{is}
}

// Learn tells the person what the animal was and which of their readings were wrong.
func (p *Person) Learn(kind string, r Reply, v *taxa.Vocabulary) {
	for _, one := range r.Reads {
		h := &p.rates[one.Trait][v.Trait(one.Trait).State(one.Is)]
		part := p.habit.Reading
		if slices.Contains(one.Given, one.Is) {
			part /= 4
		}
		h.now = max(h.first*0.15, h.now*(1-part))
	}
	i := p.kindIndex(kind)
	k := &p.kinds[i]
	gain, apart := p.habit.Sight, p.habit.Apart
	if slices.Contains(p.last, k.lookalike) {
		gain, apart = min(0.9, gain*1.3), min(0.9, apart*2)
	}
	k.strength += gain * (1 - k.strength)
	k.confused *= 1 - apart
	for j := range p.kinds { // who sees the other of a pair sees the difference too
		if p.kinds[j].lookalike == i && slices.Contains(p.last, j) {
			p.kinds[j].confused *= 1 - apart/2
		}
	}
	if !k.metToday && k.met > 0 {
		k.halfLife *= p.habit.Lasting
	}
	k.met, k.metToday = k.met+1, true
	if p.last = append(p.last, i); len(p.last) > 2 {
		p.last = p.last[1:]
	}
}

// Rest lets some days pass.
func (p *Person) Rest(days float64) {
	p.last = nil
	for i := range p.kinds {
		k := &p.kinds[i]
		left := math.Exp2(-days / k.halfLife)
		if p.habit.Power {
			left = 1 / (1 + days/k.halfLife)
		}
		k.strength *= left
		k.confused = k.confused0 + (k.confused-k.confused0)*math.Exp2(-days/(4*k.halfLife))
		k.metToday = false
	}
	for _, states := range p.rates {
		for i := range states {
			h := &states[i]
			h.now = h.first + (h.now-h.first)*math.Exp2(-days/30)
		}
	}
}

// Clone is the person as they are, to ask what would be.
func (p *Person) Clone() *Person {
	out := *p
	out.kinds = slices.Clone(p.kinds)
	out.rates = map[string][]habitual{}
	for t, states := range p.rates {
		out.rates[t] = slices.Clone(states)
	}
	return &out
}
