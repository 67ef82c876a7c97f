package trial

import (
	"math/rand/v2"
	"slices"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
)

// animal is one specimen in the hands of one person: what it truly is, what it
// shows, and what is read of every trait. A trait is read once; asked twice, it is
// told twice.
type animal struct {
	kind     *taxa.Taxon       // nil for what no catalog holds
	stranger bool              // the key does not lead to it
	is       map[string]string // by trait, the state that can be seen; none where it is unknown or nobody could tell
	expected map[string]string // by trait, what the person sees instead, expecting another animal
	reads    map[string]*reading
}

// reading is how one trait is seen. One that will be misread at the first
// question about it, whatever that is, has the states it may be taken for, those
// most likely first.
type reading struct {
	state string
	taken []string
}

// draws makes animals from the trait table.
type draws struct {
	catalog    *taxa.Catalog
	vocabulary *taxa.Vocabulary
	traits     []*taxa.Trait
	ends       []*taxa.Taxon
	strangers  []*taxa.Taxon
	chimeras   float64
	sums       []float64        // running sums of how common the end points are
	readings   [2][][][]float64 // of people as they are, by trait, and of the careless
	hardship   Hardship
	unsure     float64
	seed       uint64
	noLens     bool
	misread    func(trait string) float64 // of answers, or nil where readings go wrong
}

func newDraws(s *Setup) *draws {
	catalog := s.Key.Catalog()
	d := &draws{
		catalog: catalog, vocabulary: catalog.Vocabulary(), traits: catalog.Vocabulary().Asked(), ends: s.Key.Ends(),
		hardship: s.Hardship, unsure: max(s.Unsure, s.Hardship.Unsure), seed: s.Seed, noLens: s.Options.NoLens,
	}
	people, usual := s.People, 1.0
	if s.Answers {
		rates := people.Misread
		d.misread = func(trait string) float64 { return rates[trait] }
		people = people.LostOnly()
	}
	if s.Hardship.Careless > 0 {
		usual = carefulTimes
	}
	d.readings = [2][][][]float64{readingsBy(d.traits, people, usual), readingsBy(d.traits, people, carelessTimes)}
	if d.chimeras = chimeras; s.only != nil {
		d.strangers, d.chimeras = s.only, 0
	} else if s.Hardship.Strangers > 0 {
		d.strangers = strangers(s.Key)
	}
	sum := 0.0
	for i := range d.ends {
		if s.Flat || s.EachKind {
			sum++
		} else {
			sum += s.Key.Prior()[i]
		}
		d.sums = append(d.sums, sum)
	}
	return d
}

// animal draws a specimen and its person: from r what the belief knows, from h the
// hardship.
func (d *draws) animal(r, h *rand.Rand) animal {
	at := r.Float64() * d.sums[len(d.sums)-1]
	i := 0
	for i < len(d.sums)-1 && d.sums[i] <= at {
		i++
	}
	a := animal{kind: d.ends[i], is: make(map[string]string, len(d.traits)), expected: map[string]string{},
		reads: make(map[string]*reading, len(d.traits))}
	shows := a.kind.States
	if h.Float64() < d.hardship.Strangers && len(d.strangers) > 0 {
		shows = d.stranger(&a, h)
	}
	for _, t := range d.traits {
		d.show(&a, t, shows(t.ID), r.Float64())
	}
	careless := d.suffer(&a, h)
	for n, t := range d.traits {
		d.see(&a, n, t, careless, r)
	}
	return a
}

// show draws what an animal shows of a trait.
func (d *draws) show(a *animal, t *taxa.Trait, shown []taxa.Weight, which float64) {
	if shown == nil {
		return
	}
	shares := make([]float64, len(shown))
	for j, w := range shown {
		shares[j] = w.Share
	}
	a.is[t.ID] = shown[pick(shares, which)].State
	if other := d.wrongCell(a.kind, t, shown); other != "" {
		a.is[t.ID] = other
	}
}

// suffer lets the hardship befall an animal and its person: 1 for a careless one.
func (d *draws) suffer(a *animal, h *rand.Rand) (careless int) {
	if h.Float64() < d.hardship.Young {
		d.unripe(a, h)
	}
	if h.Float64() < d.hardship.Damaged {
		d.wound(a, h)
	}
	if h.Float64() < d.hardship.Expecting {
		d.expect(a, h)
	}
	if h.Float64() < d.hardship.Careless {
		careless = 1
	}
	return careless
}

// see draws how a trait is read.
func (d *draws) see(a *animal, n int, t *taxa.Trait, careless int, r *rand.Rand) {
	wrong, unsure := r.Float64(), r.Float64()
	is, known := a.is[t.ID]
	if !known || unsure < d.unsure || d.noLens && t.Look == taxa.Lens {
		return
	}
	seen := t.States[pick(d.readings[careless][n][t.State(is)], wrong)]
	if other, expecting := a.expected[t.ID]; expecting {
		seen = t.States[t.State(other)]
	}
	one := &reading{state: seen.ID}
	if d.misread != nil && r.Float64() < d.misread(t.ID) {
		one.taken = confusions(t, seen, r)
	}
	a.reads[t.ID] = one
}

// confusions are all other states in the order in which a person would take the
// animal's for them: those it is mistaken for, then the rest, each in an order
// of chance.
func confusions(t *taxa.Trait, seen taxa.State, r *rand.Rand) []string {
	near := slices.Clone(seen.MistakenFor)
	far := slices.DeleteFunc(t.StateIDs(), func(id string) bool { return id == seen.ID || slices.Contains(near, id) })
	r.Shuffle(len(near), func(i, j int) { near[i], near[j] = near[j], near[i] })
	r.Shuffle(len(far), func(i, j int) { far[i], far[j] = far[j], far[i] })
	return append(near, far...)
}

// pick is the place at which the running sum of shares passes u.
func pick(shares []float64, u float64) int {
	last := 0
	for i, s := range shares {
		if s <= 0 {
			continue
		}
		last = i
		if u < s {
			break
		}
		u -= s
	}
	return last
}

// answer is what the person says to a question: a lead whose conditions all
// hold of what was read, or the state read; else can't tell.
func (a animal) answer(q key.Question) string {
	if q.Trait != nil {
		r := a.reads[q.Trait.ID]
		if r == nil {
			return key.Unsure
		}
		if len(r.taken) > 0 {
			r.state, r.taken = r.taken[0], nil
		}
		if !slices.Contains(q.States(), r.state) {
			return key.Unsure
		}
		return r.state
	}
	return a.lead(q.Couplet)
}

func (a animal) lead(c *couplets.Couplet) string {
	right := a.fitting(c)
	for _, l := range c.Leads {
		for _, cond := range l.Conditions {
			if r := a.reads[cond.Trait]; r != nil && len(r.taken) > 0 {
				a.mislead(c, r, right)
			}
		}
	}
	return a.fitting(c)
}

// mislead makes a reading one that leads to another answer than the right one.
func (a animal) mislead(c *couplets.Couplet, r *reading, right string) {
	seen := r.state
	for _, s := range r.taken {
		r.state = s
		if pick := a.fitting(c); pick != right && pick != key.Unsure {
			r.taken = nil
			return
		}
	}
	r.state = seen
}

func (a animal) fitting(c *couplets.Couplet) string {
	for _, l := range c.Leads {
		if a.holds(l.Conditions) {
			return l.Letter
		}
	}
	return key.Unsure
}

func (a animal) holds(conditions []couplets.Condition) bool {
	for _, c := range conditions {
		if r := a.reads[c.Trait]; r == nil || !slices.Contains(c.States, r.state) {
			return false
		}
	}
	return true
}

// harmful reports whether an answer speaks against the animal's own kind: the
// kind never shows what it stands for.
func (a animal) harmful(conditions []couplets.Condition) bool {
	if a.stranger {
		return false
	}
	for _, c := range conditions {
		shown := a.kind.States(c.Trait)
		possible := shown == nil
		for _, w := range shown {
			possible = possible || slices.Contains(c.States, w.State)
		}
		if !possible {
			return true
		}
	}
	return false
}

// truly reports whether an answer says what the animal shows, as far as anything
// is to be seen.
func (a animal) truly(conditions []couplets.Condition) bool {
	for _, c := range conditions {
		if is, known := a.is[c.Trait]; !known || !slices.Contains(c.States, is) {
			return false
		}
	}
	return len(conditions) > 0
}
