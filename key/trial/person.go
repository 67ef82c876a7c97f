package trial

import (
	"math/rand/v2"
	"slices"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
)

// animal is one specimen in the hands of one person: what it truly is, and what
// is read of every trait. A trait is read once; asked twice, it is told twice.
type animal struct {
	kind  *taxa.Taxon
	reads map[string]*reading // by trait; a trait unknown for the kind has none
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
	traits   []*taxa.Trait
	ends     []*taxa.Taxon
	sums     []float64 // running sums of how common the end points are
	readings [][][]float64
	unsure   float64
	noLens   bool
	misread  func(trait string) float64 // of answers, or nil where readings go wrong
}

func newDraws(s *Setup) *draws {
	v := s.Key.Catalog().Vocabulary()
	d := &draws{traits: v.Traits(), ends: s.Key.Ends(), unsure: s.Unsure, noLens: s.Options.NoLens}
	people := s.People
	if s.Answers {
		rates := people.Misread
		d.misread = func(trait string) float64 { return rates[trait] }
		people = people.LostOnly()
	}
	for _, t := range d.traits {
		d.readings = append(d.readings, people.Readings(t))
	}
	sum := 0.0
	for i := range d.ends {
		if s.Flat {
			sum++
		} else {
			sum += s.Key.Prior()[i]
		}
		d.sums = append(d.sums, sum)
	}
	return d
}

func (d *draws) animal(r *rand.Rand) animal {
	at := r.Float64() * d.sums[len(d.sums)-1]
	i := 0
	for i < len(d.sums)-1 && d.sums[i] <= at {
		i++
	}
	a := animal{d.ends[i], make(map[string]*reading, len(d.traits))}
	for n, t := range d.traits {
		which, wrong, unsure := r.Float64(), r.Float64(), r.Float64()
		shown := a.kind.States(t.ID)
		if shown == nil || unsure < d.unsure || d.noLens && t.Look == taxa.Lens {
			continue
		}
		shares := make([]float64, len(shown))
		for j, w := range shown {
			shares[j] = w.Share
		}
		true_ := t.State(shown[pick(shares, which)].State)
		seen := t.States[pick(d.readings[n][true_], wrong)]
		one := &reading{state: seen.ID}
		if d.misread != nil && r.Float64() < d.misread(t.ID) {
			one.taken = confusions(t, seen, r)
		}
		a.reads[t.ID] = one
	}
	return a
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
