package learned_test

import (
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/key/learned"
	"rillkey/taxa"
)

// people read animals with an error of their own; nothing of the belief is in
// them. A trait is read once: first a part may be lost, then the reading may go
// wrong, to what the state is mistaken for or to any other.
type people struct {
	random *rand.Rand
	times  float64 // how many times as often as the vocabulary says they misread
	lost   float64
	ends   []*taxa.Taxon
	common []float64
	traits []*taxa.Trait
}

func (p people) animal() (*taxa.Taxon, map[string]string) {
	at, i := p.random.Float64(), 0
	for ; i < len(p.ends)-1 && at >= p.common[i]; i++ {
		at -= p.common[i]
	}
	read := map[string]string{}
	for _, t := range p.traits {
		shown := p.ends[i].States(t.ID)
		if shown == nil {
			continue
		}
		state, at := shown[len(shown)-1].State, p.random.Float64()
		for _, w := range shown {
			if at < w.Share {
				state = w.State
				break
			}
			at -= w.Share
		}
		read[t.ID] = p.read(t, state)
	}
	return p.ends[i], read
}

func (p people) read(t *taxa.Trait, state string) string {
	s := t.States[t.State(state)]
	if len(s.LostAs) > 0 && p.random.Float64() < p.lost {
		s = t.States[t.State(s.LostAs[p.random.IntN(len(s.LostAs))])]
	}
	if p.random.Float64() >= min(0.5, t.Misread*p.times) {
		return s.ID
	}
	other := slices.Clone(s.MistakenFor)
	if len(other) == 0 {
		other = slices.DeleteFunc(t.StateIDs(), func(id string) bool { return id == s.ID || t.States[t.State(id)].Striking })
	}
	if len(other) == 0 {
		return s.ID
	}
	return other[p.random.IntN(len(other))]
}

// says is the answer to a question.
func says(q *key.Question, read map[string]string) string {
	holds := func(c couplets.Condition) bool { return slices.Contains(c.States, read[c.Trait]) }
	if q.Trait != nil {
		if s := read[q.Trait.ID]; slices.Contains(q.States(), s) {
			return s
		}
		return key.Unsure
	}
	for _, l := range q.Couplet.Leads {
		if !slices.ContainsFunc(l.Conditions, func(c couplets.Condition) bool { return !holds(c) }) {
			return l.Letter
		}
	}
	return key.Unsure
}

// keyed is an animal named with a model.
func keyed(t testing.TB, m *key.Model, read map[string]string) *key.Inquiry {
	q, err := m.Inquire(key.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	for now := q.Question(); now != nil; now = q.Question() {
		if err := q.Answer(says(now, read)); err != nil {
			t.Fatal(err)
		}
	}
	return q
}

// score is what names to an end point came to.
type score struct{ named, right, claimed, all float64 }

func (s *score) add(v key.Verdict, kind *taxa.Taxon) {
	s.all++
	switch {
	case v.Level == key.ToKind:
		s.named++
		s.claimed += v.Probability
		if v.Taxon == kind.ID {
			s.right++
		}
	case v.Level == key.ToSet:
		s.named++
		s.claimed += v.SetProbability
		if slices.Contains(v.Set, kind.ID) {
			s.right++
		}
	}
}

func (s score) gap() float64   { return (s.claimed - s.right) / max(1, s.named) }
func (s score) wrong() float64 { return (s.named - s.right) / max(1, s.all) }

// Groups that misread more or less often than the vocabulary says learn it from
// looks that chance draws. RILLKEY_GROUPS says how many groups are made of each
// sort, each with 400 animals to be judged by, RILLKEY_SEED which. The bars, less two
// standard errors: where people misread twice as often, 20 looks bring the gap between
// what names claim and are to 0.01; and no looks make wrong names more by a tenth.
func TestRandomLooksTeachTheGroupsFactor(t *testing.T) {
	groups, _ := strconv.Atoi(os.Getenv("RILLKEY_GROUPS"))
	if groups == 0 {
		t.Skip("set RILLKEY_GROUPS=20 to measure; it takes minutes")
	}
	seed, _ := strconv.ParseUint(os.Getenv("RILLKEY_SEED"), 10, 64)
	k := keytest.Key(t)
	base := key.FileRates(k.Catalog().Vocabulary())
	before, err := k.Model(base)
	if err != nil {
		t.Fatal(err)
	}
	for _, times := range []float64{1, 2, 0.5} {
		var none score
		for _, looks := range []int{0, 20, 100} {
			var total score
			factor := 0.0
			for g := range groups {
				p := people{rand.New(rand.NewPCG(seed+uint64(g), 9)), times, base.Lost, k.Ends(), k.Prior(),
					k.Catalog().Vocabulary().Traits()}
				m, c := before, &learned.Counts{}
				for range looks {
					kind, read := p.animal()
					c = c.Add(keyed(t, before, read).Given(), kind, k.Catalog().Vocabulary(), true)
				}
				factor += c.Group() / float64(groups)
				if looks > 0 {
					if m, err = k.Model(c.Rates(base)); err != nil {
						t.Fatal(err)
					}
				}
				p.random = rand.New(rand.NewPCG(seed+uint64(g), 10)) // the same animals for all
				for range 400 {
					kind, read := p.animal()
					total.add(keyed(t, m, read).Verdict(), kind)
				}
			}
			t.Logf("misreading %.1f times as often, %3d looks: factor %.2f; gap %+.4f; wrong %.2f %%, named %.1f %%", times,
				looks, factor, total.gap(), 100*total.wrong(), 100*total.named/total.all)
			if looks == 0 {
				none = total
			}
			right, wrong := total.right/total.named, total.wrong()
			if times == 2 && looks == 20 && math.Abs(total.gap()) > 0.01+2*math.Sqrt(right*(1-right)/total.named) {
				t.Errorf("20 looks leave a gap of %+.4f", total.gap())
			}
			if wrong > 1.1*none.wrong()+2*math.Sqrt(wrong*(1-wrong)/total.all) {
				t.Errorf("%d looks make %.4f of the names wrong, none %.4f", looks, wrong, none.wrong())
			}
		}
	}
}
