package key

import (
	"fmt"
	"slices"
	"strings"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/bitset"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Unsure is what stands in a path for "can't tell": "4?".
const Unsure = "?"

// Walk is one walk through a key, for one creature. It is not safe for use by
// several goroutines at once.
type Walk struct {
	key     *Key
	now     state
	history []state
}

// state is all that an answer changes. States are never altered once made, so
// that going back is exact.
type state struct {
	pending  []int      // steps still to be asked, the next one last
	reached  bitset.Set // end points that a lead has gone to
	standing bitset.Set // end points that the answers leave possible
	path     []string
	seen     []seen
	asked    int
	stopped  bool
}

// seen is a trait that was looked at, with the states it may have and the answer
// it was first seen through, which is empty for an observation.
type seen struct {
	trait  string
	states []string
	answer string
}

// Walk starts a walk at the first couplet.
func (k *Key) Walk() *Walk {
	n := len(k.sound.Ends)
	return &Walk{key: k, now: state{pending: []int{k.start()}, reached: bitset.New(n), standing: bitset.Full(n)}}
}

// Couplet is the couplet to be answered next, or nil when the walk has ended.
func (w *Walk) Couplet() *couplets.Couplet {
	if w.Ended() {
		return nil
	}
	return w.key.steps[w.now.top()].couplet
}

// Ended reports whether there is nothing more to ask.
func (w *Walk) Ended() bool { return w.now.stopped || len(w.now.pending) == 0 }

// Path is the answers given and those that followed from them, as "1b" or "4?".
func (w *Walk) Path() []string { return slices.Clone(w.now.path) }

// Possible are the taxa that the answers so far leave, in the order of the key.
func (w *Walk) Possible() []*taxa.Taxon {
	var out []*taxa.Taxon
	w.possible().Each(func(i int) { out = append(out, w.key.sound.Ends[i]) })
	return out
}

func (w *Walk) possible() bitset.Set {
	set := w.now.reached.Clone()
	for _, i := range w.now.pending {
		set.Or(w.key.sound.EndsBeneath(i))
	}
	set.And(w.now.standing)
	return set
}

// narrower is the smallest group, at a rank worth naming, that holds all that
// is possible; nil when there is none yet.
func (w *Walk) narrower() *taxa.Taxon { return w.key.name(w.Possible()) }

// Take answers the present couplet with the lead of this letter.
func (w *Walk) Take(letter string) error {
	couplet := w.Couplet()
	if couplet == nil {
		return wording.Errorf("the walk has already ended at %s", w.where())
	}
	j := slices.IndexFunc(couplet.Leads, func(l couplets.Lead) bool { return l.Letter == letter })
	if j < 0 {
		return wording.Errorf("couplet %s has no lead %s; its leads are %s", couplet.ID, plain.Quote(letter), leadList(couplet))
	}
	next := w.next(couplet.ID + letter)
	next.pending = next.pending[:len(next.pending)-1]
	for _, cond := range couplet.Leads[j].Conditions {
		next.note(w.key, seen{cond.Trait, cond.States, couplet.ID + letter})
	}
	next.arrive(w.key.steps[w.now.top()].leads[j])
	w.settle(&next)
	w.push(next)
	return nil
}

// CantTell answers the present couplet with all its leads: it excludes nothing.
func (w *Walk) CantTell() error {
	couplet := w.Couplet()
	if couplet == nil {
		return wording.Errorf("the walk has already ended at %s", w.where())
	}
	next := w.next(couplet.ID + Unsure)
	leads := w.key.steps[w.now.top()].leads
	next.pending = next.pending[:len(next.pending)-1]
	for j := len(leads) - 1; j >= 0; j-- {
		next.arrive(leads[j])
	}
	w.settle(&next)
	w.push(next)
	return nil
}

// Answer takes one answer as written in a path: "1b" or "4?". The number must
// be that of the present couplet.
func (w *Walk) Answer(answer string) error {
	couplet := w.Couplet()
	if couplet == nil {
		return wording.Errorf("there is nothing left to answer with %s: the walk has already ended at %s", plain.Quote(answer), w.where())
	}
	letter, ok := strings.CutPrefix(answer, couplet.ID)
	if !ok || letter == "" {
		return wording.Errorf("%s does not answer couplet %s, which is asked here; say %s or %s%s", plain.Quote(answer),
			couplet.ID, leadList(couplet), couplet.ID, Unsure)
	}
	if letter == Unsure {
		return w.CantTell()
	}
	return w.Take(letter)
}

// Observe notes that the creature shows one of these states of the trait,
// wherever the key may ask for it. What follows from it is taken at once.
func (w *Walk) Observe(trait string, states ...string) error {
	if problem, hint := w.key.catalog.Vocabulary().Unknown(trait, states...); problem != "" {
		return fmt.Errorf("%s (%s)", problem, hint)
	}
	if len(states) == 0 {
		return wording.Errorf("no state of %s was given", plain.Quote(trait))
	}
	next := w.now.copy()
	next.note(w.key, seen{trait, slices.Clone(states), ""})
	w.settle(&next)
	w.push(next)
	return nil
}

// stop ends the walk where it stands.
func (w *Walk) stop() {
	next := w.now.copy()
	next.stopped = true
	w.push(next)
}

// Back undoes the last answer, observation or stop, and reports whether there
// was one.
func (w *Walk) Back() bool {
	if len(w.history) == 0 {
		return false
	}
	w.now = w.history[len(w.history)-1]
	w.history = w.history[:len(w.history)-1]
	return true
}

func (w *Walk) push(next state) {
	w.history = append(w.history, w.now)
	w.now = next
}

// next is a copy of the present state with one more answer in its path.
func (w *Walk) next(answer string) state {
	n := w.now.copy()
	n.path = append(n.path, answer)
	n.asked++
	return n
}

// settle passes over whatever needs no question: couplets beneath which nothing
// is left standing, and couplets that only one lead leads on from. A lead is
// closed when nothing beneath it is left or when its trait was seen otherwise.
func (w *Walk) settle(s *state) {
	for len(s.pending) > 0 {
		i := s.top()
		alive := -1
		for j, b := range w.key.steps[i].leads {
			if !b.ends.Meets(s.standing) || !s.admits(w.key.steps[i].couplet.Leads[j]) {
				continue
			}
			if alive >= 0 {
				return
			}
			alive = j
		}
		if alive < 0 {
			s.pending = s.pending[:len(s.pending)-1]
			continue
		}
		couplet := w.key.steps[i].couplet
		s.path = append(s.path, couplet.ID+couplet.Leads[alive].Letter)
		s.pending = s.pending[:len(s.pending)-1]
		s.arrive(w.key.steps[i].leads[alive])
	}
}

func (w *Walk) where() string {
	if t := w.narrower(); t != nil {
		return t.Name()
	}
	return wording.Text("a set of possibilities")
}

func leadList(c *couplets.Couplet) string {
	names := make([]string, len(c.Leads))
	for i, l := range c.Leads {
		names[i] = c.ID + l.Letter
	}
	return strings.Join(names, ", ")
}

func (s *state) top() int { return s.pending[len(s.pending)-1] }

func (s *state) copy() state {
	c := *s
	c.pending, c.path, c.seen = slices.Clone(s.pending), slices.Clone(s.path), slices.Clone(s.seen)
	c.reached, c.standing = s.reached.Clone(), s.standing.Clone()
	return c
}

// arrive goes where a lead goes.
func (s *state) arrive(b branch) {
	if b.next < 0 {
		s.reached.Or(b.ends)
	} else if !slices.Contains(s.pending, b.next) {
		s.pending = append(s.pending, b.next)
	}
}

// admits reports whether what was seen leaves room for the lead.
func (s *state) admits(l couplets.Lead) bool {
	for _, cond := range l.Conditions {
		i := slices.IndexFunc(s.seen, func(o seen) bool { return o.trait == cond.Trait })
		if i >= 0 && !slices.ContainsFunc(s.seen[i].states, func(o string) bool { return slices.Contains(cond.States, o) }) {
			return false
		}
	}
	return true
}

// note keeps what was seen of a trait. Seen twice, only what both allow is left.
func (s *state) note(k *Key, o seen) {
	s.standing.And(k.showing(o.trait, o.states))
	i := slices.IndexFunc(s.seen, func(before seen) bool { return before.trait == o.trait })
	if i < 0 {
		s.seen = append(s.seen, o)
		return
	}
	before := s.seen[i]
	both := slices.DeleteFunc(slices.Clone(before.states), func(id string) bool { return !slices.Contains(o.states, id) })
	s.seen[i] = seen{o.trait, both, before.answer}
}
