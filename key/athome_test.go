package key

import (
	"math/rand/v2"
	"testing"
)

// A couplet asked out of its turn speaks of the animals beneath it, so most of
// the belief must lie there: nobody with a stonefly is asked about slugs.
func TestNobodyIsAskedAboutAnimalsFromElsewhere(t *testing.T) {
	m := embedded(t)
	sound := m.Key().Sound()
	r := rand.New(rand.NewPCG(3, 3))
	outOfTurn := 0
	walks := 150
	if testing.Short() {
		walks = 50
	}
	for range walks {
		q, err := m.Inquire(DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		for question := q.Question(); question != nil; question = q.Question() {
			if question.Couplet != nil && question.Phase != Keyed {
				outOfTurn++
				under := map[string]bool{}
				m.key.sound.EndsBeneath(m.key.sound.Place(question.Couplet.ID)).Each(func(i int) { under[sound.Ends[i].ID] = true })
				mass := 0.0
				for _, s := range q.Probabilities() {
					if under[s.Taxon] {
						mass += s.Probability
					}
				}
				if mass < 0.9-1e-9 {
					t.Fatalf("after %v couplet %s is asked, beneath which lies only %.2f of the belief", q.Path(),
						question.Couplet.ID, mass)
				}
			}
			picks := []string{Unsure}
			if c := question.Couplet; c != nil {
				for _, l := range c.Leads {
					picks = append(picks, l.Letter, l.Letter, l.Letter)
				}
			} else {
				for _, s := range question.Trait.States {
					picks = append(picks, s.ID, s.ID, s.ID)
				}
			}
			if err := q.Answer(picks[r.IntN(len(picks))]); err != nil {
				t.Fatal(err)
			}
		}
	}
	if outOfTurn == 0 {
		t.Skip("no couplet was asked out of its turn; the property holds for want of a case")
	}
}
