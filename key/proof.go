package key

import (
	"cmp"
	"math"
	"slices"

	"rillkey/taxa"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// Feature is a trait with the states of it that a supposed taxon can show, and
// how probable the taxon is once this feature and all before it were seen.
type Feature struct {
	Trait       *taxa.Trait
	States      []string // in the order of the vocabulary
	Probability float64
}

// Proof is a short list of features that would settle that an animal is of the
// taxon: when all of them are seen to hold, every single end point that it could
// be mistaken for is so much less likely than the taxon that, with even chances
// before, it would be left with at most one less o.Required. Settled is false when
// all features together do not reach that. The list is built from the features
// that do most for their effort (Gower and Payne 1975 weigh tests so), and none
// is kept that the others make needless; there may be a shorter one.
func (m *Model) Proof(taxon string, o Options) (features []Feature, settled bool, err error) {
	s, err := m.supposed(taxon)
	if err != nil {
		return nil, false, err
	}
	if !(o.Required > 0.5 && o.Required < 1) {
		return nil, false, wording.Errorf("the required probability is %v; it must lie above 0.5 and below 1", o.Required)
	}
	p := m.newProof(s, o)
	for p.score(p.traits) < 1 && p.grow() {
	}
	settled = p.score(p.traits) >= 1
	if settled {
		p.prune()
	}
	return p.features(), settled, nil
}

// proof is a proof as it grows.
type proof struct {
	model    *Model
	supposed *supposed
	opts     Options
	prior    []float64
	need     float64                  // logarithm of the odds to be reached against every rival
	expect   []uint64                 // by trait, the states that the supposed taxon can show
	rows     [][]float64              // by trait, the likelihood of those by end point
	odd      [2][]byLooker[[]float64] // by trait, how many times that by each of the people; then where it is known to be there
	traits   []int
}

func (m *Model) newProof(s *supposed, o Options) *proof {
	p := &proof{model: m, supposed: s, opts: o, prior: m.guess(s, float64(s.rivals()))[:len(m.ends)], need: logit(o.Required)}
	for n := range m.traits {
		states := p.expected(n)
		row := make([]float64, len(m.ends))
		for i := range row {
			row[i] = m.table.Likelihood(n, states, i)
		}
		p.expect, p.rows = append(p.expect, states), append(p.rows, row)
		p.addOdd(n, states)
	}
	return p
}

// addOdd notes of a trait what is expected by each of the people.
func (p *proof) addOdd(trait int, states uint64) {
	m := p.model
	if m.odd == nil {
		return
	}
	usual := timesOddOf(m, trait, states, false)
	there := usual
	if m.hangsOn(trait) != nil {
		there = timesOddOf(m, trait, states, true)
	}
	p.odd[0], p.odd[1] = append(p.odd[0], usual), append(p.odd[1], there)
}

// timesOdd is how many times as likely as by the vocabulary alone what is expected is in
// an end point.
func (p *proof) timesOdd(seen []uint64, traits []int, end int) float64 {
	if p.model.odd == nil {
		return 1
	}
	sum := 0.0
	for l, people := range lookers {
		times := people.share
		for _, n := range traits {
			if seen[n] != 0 {
				h, at := p.model.hangsOn(n), 0
				if h != nil && h.affirmed(seen[h.whole]) {
					at = 1
				}
				times *= p.odd[at][n][l][end]
			}
		}
		sum += times
	}
	counts := oddCounts(known(seen))
	return 1 - counts + counts*sum
}

// expected are the states that end points of the supposed taxon can show.
func (p *proof) expected(trait int) uint64 {
	states := uint64(0)
	for i, in := range p.supposed.ends[:len(p.prior)] {
		for s, share := range p.model.traits[trait].truth[i] {
			if in && share > 0 {
				states |= 1 << s
			}
		}
	}
	return states
}

// likelihoods are, by end point, the chances that these traits are all read as
// expected, and the mean of them within the supposed taxon.
func (p *proof) likelihoods(traits []int) (ends []float64, within float64) {
	ends = make([]float64, len(p.prior))
	seen := make([]uint64, len(p.expect))
	for _, n := range traits {
		seen[n] = p.expect[n]
	}
	p.model.dropAbsent(seen)
	there := p.model.givenTheWhole(nil, seen)
	weight := 0.0
	for i := range ends {
		ends[i] = 1
		if there != nil {
			ends[i] = math.Exp(there[i])
		}
		for _, n := range traits {
			if seen[n] != 0 {
				ends[i] *= p.rows[n][i]
			}
		}
		ends[i] *= p.timesOdd(seen, traits, i)
		if p.supposed.ends[i] {
			within += p.prior[i] * ends[i]
			weight += p.prior[i]
		}
	}
	return ends, within / weight
}

// score is how far the traits go towards the proof: the logarithm of the odds
// against each rival as a share of what is needed, at most 1, averaged.
func (p *proof) score(traits []int) float64 {
	ends, within := p.likelihoods(traits)
	sum, rivals := 0.0, 0
	for i, l := range ends {
		if !p.supposed.ends[i] {
			sum += min(1, math.Log(within/l)/p.need)
			rivals++
		}
	}
	return sum / float64(rivals)
}

// grow adds the feature that does most for its effort, if one does anything.
func (p *proof) grow() bool {
	before := p.score(p.traits)
	found, most := -1, 1e-6
	for n, t := range p.model.traits {
		if slices.Contains(p.traits, n) || p.opts.NoLens && t.Look == taxa.Lens {
			continue
		}
		worth := (p.score(append(p.traits, n)) - before) / p.opts.Effort.forLook(t.Look)
		if worth > most {
			found, most = n, worth
		}
	}
	if found < 0 {
		return false
	}
	p.traits = append(p.traits, found)
	return true
}

// prune drops features that are not needed, those with most effort first.
func (p *proof) prune() {
	order := slices.Clone(p.traits)
	sorting.Stable(order, func(a, b int) int {
		return cmp.Compare(p.opts.Effort.forLook(p.model.traits[b].Look), p.opts.Effort.forLook(p.model.traits[a].Look))
	})
	for _, n := range order {
		without := slices.DeleteFunc(slices.Clone(p.traits), func(t int) bool { return t == n })
		if p.score(without) >= 1 {
			p.traits = without
		}
	}
}

func (p *proof) features() []Feature {
	var out []Feature
	for k, n := range p.traits {
		t := p.model.traits[n]
		f := Feature{Trait: t.Trait}
		states := p.expect[n]
		for s := range t.States {
			if states&(1<<s) != 0 {
				f.States = append(f.States, t.States[s].ID)
			}
		}
		ends, _ := p.likelihoods(p.traits[:k+1])
		in, all := 0.0, 0.0
		for i, l := range ends {
			all += p.prior[i] * l
			if p.supposed.ends[i] {
				in += p.prior[i] * l
			}
		}
		f.Probability = in / all
		out = append(out, f)
	}
	return out
}

func logit(p float64) float64 { return math.Log(p / (1 - p)) }
