// Package trial tries a key on simulated people: it draws animals from the trait
// table, lets people who misread them answer the questions, and counts how often
// the name comes out right, how many questions that took, and how far the
// probabilities can be trusted.
//
// Begin with [Setup], [Method] and [Results].
//
// People and animals are drawn from the table that the belief uses as well. The
// trial therefore says what the key and its method make of such people; it does
// not say whether real animals are as the table has them. [Hardship] is what the
// belief does not know: people of whom some are careless or see what they expect,
// animals that are young or hurt, cells of the table that are wrong, and strangers.
//
// [DescribedAnimals] is another trial: described animals, read out by somebody who knows
// their words and nothing of the table.
//
// Specimen number n is drawn from the seed and n alone, so a trial can be
// replayed and does not depend on the number of workers, and all methods meet
// the same animals, read the same way.
package trial

import (
	"context"
	"encoding/binary"
	"math/rand/v2"
	"slices"
	"sync"
	"sync/atomic"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// Method is a way of asking.
type Method string

// The methods.
const (
	PlainMethod      Method = "plain"      // the printed key and nothing else
	ConfirmingMethod Method = "confirming" // the author's order, then questions that confirm
	ShortestMethod   Method = "shortest"   // always the question that tells most
)

// Methods are all methods, the simplest first.
var Methods = []Method{PlainMethod, ConfirmingMethod, ShortestMethod}

// Setup is one trial. Key, People, Model and Options must be set.
type Setup struct {
	Key       *key.Key
	People    key.Rates // how often these people truly go wrong
	Model     key.Rates // how often the belief takes them to
	Options   key.Options
	Method    Method
	Specimens int // at least 1
	// Answers makes every misread one that changes the answer: at the first
	// question about the trait the person takes another lead, by a state that the
	// animal's is mistaken for, or where none of those leads elsewhere by any
	// other. Else it is readings that go wrong, and many of those change nothing.
	Answers  bool
	Flat     bool    // every end point equally often, however common, which the belief is told
	EachKind bool    // every end point equally often, while the belief takes them to be as common as the key says
	Unsure   float64 // share of traits that people can't tell, 0 to 1; of this and the hardship's the larger holds
	Hardship Hardship
	Seed     uint64
	Workers  int // at least 1
	// only are the strangers to draw from, for tests; nil for all.
	only []*taxa.Taxon
	// Progress, if set, is told now and then how many specimens are done. It is
	// called from several goroutines at once.
	Progress func(done int)
}

// Run runs a trial. It fails when the setup is wrong or the context ends.
func Run(ctx context.Context, s Setup) (*Results, error) {
	if s.Specimens < 1 || s.Workers < 1 {
		return nil, wording.Errorf("a trial needs at least one specimen and one worker, not %d and %d", s.Specimens, s.Workers)
	}
	ask, err := s.asker()
	if err != nil {
		return nil, err
	}
	d := newDraws(&s)
	outcomes := make([]outcome, s.Specimens)
	each(ctx, s.Workers, s.Specimens, func(i int) {
		outcomes[i] = ask(d.animal(generator(s.Seed, i, ofTheTable), generator(s.Seed, i, ofHardship)))
	}, func(done int) {
		if s.Progress != nil && (done%100 == 0 || done == s.Specimens) {
			s.Progress(done)
		}
	})
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return s.report(outcomes), nil
}

// each does n things, numbered from 0, with so many workers, until the context ends; after
// each of them it tells how many are done.
func each(ctx context.Context, workers, n int, do, tell func(int)) {
	var next, done atomic.Int64
	var wait sync.WaitGroup
	for range workers {
		wait.Go(func() {
			for i := int(next.Add(1)) - 1; i < n && ctx.Err() == nil; i = int(next.Add(1)) - 1 {
				do(i)
				tell(int(done.Add(1)))
			}
		})
	}
	wait.Wait()
}

// What is drawn for a specimen, each from a stream of its own, so that hardship
// changes neither the animal nor what else is misread.
const (
	ofTheTable = iota
	ofHardship
)

func generator(seed uint64, specimen, what int) *rand.Rand {
	var bytes [32]byte
	binary.LittleEndian.PutUint64(bytes[:], seed)
	binary.LittleEndian.PutUint64(bytes[8:], uint64(specimen))
	binary.LittleEndian.PutUint64(bytes[16:], uint64(what))
	return rand.New(rand.NewChaCha8(bytes))
}

// outcome is how one specimen fared.
type outcome struct {
	kind      *taxa.Taxon // nil for what no catalog holds
	stranger  bool
	named     string // the taxon that was named, or empty
	end       bool   // whether an end point was named, or a set of them that the key cannot part
	right     bool   // whether it is that, or of that set
	instead   string // what it was named wrongly, of a set the likeliest
	class     taxa.Class
	likeliest string
	likely    float64
	rival     string // the second likeliest, or empty
	questions int
	harmful   int     // answers that spoke against the animal's own kind
	first     string  // the couplet or trait of the first of them
	blamed    bool    // whether the answer most suspect was harmful
	claimed   float64 // the probability of the name
	accused   bool    // whether an answer that was true was called more likely misread than not
}

func (s *Setup) asker() (func(animal) outcome, error) {
	if s.Method == PlainMethod {
		return s.plain, nil
	}
	o := s.Options
	switch s.Method {
	case ConfirmingMethod:
		o.Order = key.AuthorsOrder
	case ShortestMethod:
		o.Order = key.Shortest
	default:
		return nil, wording.Errorf("there is no method %q; it is one of %v", s.Method, Methods)
	}
	build := s.Key.Model
	if s.Flat {
		build = s.Key.FlatModel
	}
	m, err := build(s.Model)
	if err != nil {
		return nil, err
	}
	if _, err := m.Inquire(o); err != nil {
		return nil, err
	}
	return func(a animal) outcome { return inquire(m, o, a) }, nil
}

// plain walks the printed key.
func (s *Setup) plain(a animal) outcome {
	w := s.Key.Walk()
	out := outcome{kind: a.kind, stranger: a.stranger}
	for c := w.Couplet(); c != nil; c = w.Couplet() {
		pick := a.lead(c)
		for _, l := range c.Leads {
			if l.Letter == pick {
				out.note(a.harmful(l.Conditions), c.ID)
			}
		}
		_ = w.Answer(c.ID + pick) // a lead of the couplet asked
	}
	r := w.Result()
	out.named, out.class, out.questions = r.Taxon, r.Class, r.Questions
	out.end = len(r.Possible) == 1 || r.Set
	if out.right = out.end && a.kind != nil && slices.Contains(r.Possible, a.kind.ID); out.end && !out.right {
		out.instead = r.Possible[0]
	}
	out.claimed = r.Confidence
	if len(r.Possible) == 1 {
		out.likeliest, out.likely = r.Taxon, r.Confidence
	}
	doubts := r.Doubts
	out.blamed = len(doubts) > 0 && a.harmful([]couplets.Condition{{Trait: doubts[0].Trait, States: doubts[0].States}})
	return out
}

func (o *outcome) note(harmful bool, question string) {
	if !harmful {
		return
	}
	o.harmful++
	if o.first == "" {
		o.first = question
	}
}

func inquire(m *key.Model, o key.Options, a animal) outcome {
	q, _ := m.Inquire(o) // the options have been tried
	out, told := outcome{kind: a.kind, stranger: a.stranger}, accusing(q)
	for now := q.Question(); now != nil; now = q.Question() {
		pick := a.answer(*now)
		out.note(a.harmful(now.Says(pick)), now.ID())
		_ = q.Answer(pick) // an answer to the question asked
		out.accuse(told.last(), a)
	}
	out.accuse(told.atTheEnd(), a)
	v := q.Verdict()
	out.named, out.end, out.class, out.questions = v.Taxon, v.Level == key.ToKind || v.Level == key.ToSet, v.Class, v.Questions
	out.right = a.kind != nil && (v.Level == key.ToKind && v.Taxon == a.kind.ID || slices.Contains(v.Set, a.kind.ID))
	if v.Level == key.ToKind && !out.right && a.kind != nil && m.Key().Catalog().IsUnder(a.kind.ID, v.Taxon) {
		out.end = false // a right group that other animals end in: a Dicranota is a crane fly
	}
	out.claimed = v.Probability
	if out.instead = v.Taxon; v.Level == key.ToSet {
		out.instead, out.claimed = v.Likeliest, v.SetProbability
	}
	out.likeliest, out.likely = v.Likeliest, v.LikeliestProbability
	if len(v.Rivals) > 0 {
		out.rival = v.Rivals[0].Taxon
	}
	if suspects := q.Suspects(); len(suspects) > 0 {
		given := q.Given()[suspects[0].Given]
		out.blamed = a.harmful(given.Says)
	}
	return out
}

// accuse notes whether an answer that was called misread is true.
func (o *outcome) accuse(g *key.Given, a animal) {
	o.accused = o.accused || g != nil && a.truly(g.Says)
}
