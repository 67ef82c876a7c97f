package learned

import (
	"slices"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
)

// expect is how many misreads of each trait would have been noticed in what was
// asked of an animal of this kind, by people who misread as often as the
// vocabulary says. A misread that leads to the same answer, to one that fits, or to
// none at all, is not noticed. A trait is read once, so that of several questions
// about it the one that tells most counts.
func expect(given []key.Given, right *taxa.Taxon, v *taxa.Vocabulary) map[string]float64 {
	out := map[string]float64{}
	for _, g := range given {
		if len(g.Says) == 0 {
			continue
		}
		for trait, p := range noticed(answers(g, v), right, v) {
			out[trait] = max(out[trait], p)
		}
	}
	return out
}

// answers are what could have been said instead: each is what it stands for.
func answers(g key.Given, v *taxa.Vocabulary) (out [][]couplets.Condition) {
	if g.Question.Couplet != nil {
		for _, l := range g.Question.Couplet.Leads {
			out = append(out, l.Conditions)
		}
		return out
	}
	for _, said := range g.Says { // one trait asked, or told by itself
		states := v.Trait(said.Trait).StateIDs()
		if g.Question.Trait != nil {
			states = g.Question.States()
		}
		for _, s := range states {
			out = append(out, []couplets.Condition{{Trait: said.Trait, States: []string{s}}})
		}
	}
	return out
}

// noticed is, by trait, the chance that an answer is one that the kind never shows,
// given that there is an answer: every way to read the traits asked of is gone
// through.
func noticed(answers [][]couplets.Condition, right *taxa.Taxon, v *taxa.Vocabulary) map[string]float64 {
	q := reader{kind: right, v: v, rates: key.FileRates(v), answers: answers, read: map[string]string{}, wrong: map[string]float64{}}
	for _, conditions := range answers {
		for _, c := range conditions {
			if !slices.Contains(q.traits, c.Trait) {
				q.traits = append(q.traits, c.Trait)
			}
		}
	}
	q.goThrough(0, 1)
	for trait := range q.wrong {
		q.wrong[trait] /= q.answered
	}
	return q.wrong
}

// reader goes through all ways to read the traits of a question.
type reader struct {
	kind     *taxa.Taxon
	v        *taxa.Vocabulary
	rates    key.Rates
	answers  [][]couplets.Condition
	traits   []string
	read     map[string]string
	answered float64
	wrong    map[string]float64
}

func (q *reader) goThrough(at int, p float64) {
	if at == len(q.traits) {
		q.note(p)
		return
	}
	trait := q.v.Trait(q.traits[at])
	for i, chance := range q.seen(trait) {
		if chance > 0 {
			q.read[trait.ID] = trait.States[i].ID
			q.goThrough(at+1, p*chance)
		}
	}
}

// seen is how likely each state of a trait is to be read; all are alike where
// nobody knows what the kind shows.
func (q *reader) seen(trait *taxa.Trait) []float64 {
	out := make([]float64, len(trait.States))
	readings := q.rates.Readings(trait)
	shown := q.kind.States(trait.ID)
	if shown == nil {
		for i := range out {
			out[i] = 1 / float64(len(out))
		}
	}
	for _, w := range shown {
		for j, p := range readings[trait.State(w.State)] {
			out[j] += w.Share * p
		}
	}
	return out
}

// note adds one way to read: the first answer that holds is given.
func (q *reader) note(p float64) {
	for _, conditions := range q.answers {
		if slices.ContainsFunc(conditions, func(c couplets.Condition) bool { return !slices.Contains(c.States, q.read[c.Trait]) }) {
			continue
		}
		q.answered += p
		for _, c := range conditions {
			if shown := q.kind.States(c.Trait); shown != nil && misfits(c, fit(q.v.Trait(c.Trait), shown)) {
				q.wrong[c.Trait] += p
			}
		}
		return
	}
}
