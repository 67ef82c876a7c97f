package scoring

import (
	"cmp"
	"math/rand/v2"
	"slices"
	"strings"

	"rillkey/scoring/account"
	"rillkey/scoring/scheme"
	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// Expected sets the kinds of the main index that were found beside as many kinds
// picked by what is common in the region. By how many kinds were found the effort is
// in it: who takes little finds few, and of few not much is expected.
type Expected struct {
	Kinds  int        `json:"kinds"`  // of the index, that were found
	Groups []Shortage `json:"groups"` // every group of which a kind or more is expected
	Absent []Shortage `json:"absent"` // kinds not found that would more likely be among them than not, the surest first
	Words  string     `json:"words"`
}

// Shortage is a group or a kind of the main index beside what is expected of it.
type Shortage struct {
	Label    string  `json:"label"`
	Found    int     `json:"found"`    // kinds
	Expected float64 `json:"expected"` // mean number of kinds
	P        float64 `json:"p"`        // that chance picks as few, corrected for all that is asked
	Shown    bool    `json:"shown"`    // P is small enough

	raw float64
}

const (
	// fewestExpecting is how many kinds must be found for anything to be expected
	// (common practice: of fewer a list says little).
	fewestExpecting = 5
	picks           = 2000 // ways to pick kinds that are looked at
	beyondChance    = 0.05
)

// expected is nil where nobody knows what is common, the effort is not complete, or
// too few kinds were found.
//
// Kinds are picked one after the other, each by how common it is beside those left
// (successive sampling; as the least of exponential variates, Efraimidis and Spirakis
// 2006, from memory). TestNothingIsMissingByChance measures how often something is
// shown to be missing where nothing is.
func (s grader) expected(e Effort, a *account.Account, found []GroupFound, seed uint64) *Expected {
	weights := s.common(a)
	x := &Expected{Groups: []Shortage{}, Absent: []Shortage{}}
	has := make([]bool, len(s.Kinds))
	for _, g := range found {
		for _, k := range g.Kinds {
			i := slices.IndexFunc(s.Kinds, func(kind scheme.Kind) bool { return kind.ID == k.ID })
			if has[i] = weights[i] > 0; has[i] {
				x.Kinds++
			}
		}
	}
	if !e.Complete || x.Kinds < fewestExpecting {
		return nil
	}
	p := s.pick(weights, x.Kinds, has, seed)
	x.Groups, x.Absent = p.groups(), p.absent()
	likely := 0
	for _, in := range p.shares {
		if in > 0.5 {
			likely++
		}
	}
	correct(pointers(x.Groups, p.isCleanest), 1, ofCleanest)
	others := pointers(x.Groups, func(of *Shortage) bool { return !p.isCleanest(of) })
	correct(others, len(others), (1-ofCleanest)/2)
	correct(pointers(x.Absent, func(*Shortage) bool { return true }), likely, (1-ofCleanest)/2)
	x.Words = x.say()
	return x
}

// Short reports whether anything is missing beyond chance.
func (x *Expected) Short() bool {
	shown := func(s Shortage) bool { return s.Shown }
	return slices.ContainsFunc(x.Groups, shown) || slices.ContainsFunc(x.Absent, shown)
}

// common is how common each kind of the scheme is in the region.
func (s grader) common(a *account.Account) []float64 {
	out := make([]float64, len(s.Kinds))
	ids, weights := a.Commonness()
	for i, id := range ids {
		if p := s.Place(id); p.Why == "" && p.Kind != scheme.None {
			out[p.Kind] += weights[i]
		}
	}
	return out
}

// picked is what many ways to pick so many kinds came to.
type picked struct {
	grader
	has     []bool    // by kind, that it was found
	shares  []float64 // by kind, the share of the ways that picked it
	mean    []float64 // by group, kinds picked
	asFew   []float64 // by group, the share of the ways with as few kinds of it as were found, or fewer
	foundOf []int     // by group
}

func (s grader) pick(weights []float64, number int, has []bool, seed uint64) *picked {
	p := &picked{s, has, make([]float64, len(s.Kinds)), make([]float64, len(s.Groups)), make([]float64, len(s.Groups)),
		make([]int, len(s.Groups))}
	group := make([]int, len(s.Kinds))
	for k, kind := range s.Kinds {
		if _, group[k] = s.Group(kind.Group); has[k] {
			p.foundOf[group[k]]++
		}
	}
	type drawn struct {
		kind    int
		arrival float64
	}
	random, all := rand.New(rand.NewPCG(seed, 3)), make([]drawn, 0, len(weights))
	for range picks {
		all = all[:0]
		for k, w := range weights {
			if w > 0 {
				all = append(all, drawn{k, random.ExpFloat64() / w})
			}
		}
		sorting.Stable(all, func(a, b drawn) int { return cmp.Compare(a.arrival, b.arrival) })
		counts := make([]int, len(s.Groups))
		for _, d := range all[:number] {
			p.shares[d.kind] += 1.0 / picks
			counts[group[d.kind]]++
		}
		for g, n := range counts {
			p.mean[g] += float64(n) / picks
			if n <= p.foundOf[g] {
				p.asFew[g] += 1.0 / picks
			}
		}
	}
	return p
}

func (p *picked) groups() []Shortage {
	out := []Shortage{}
	for g, mean := range p.mean {
		if mean >= 1 && len(p.Groups) > 1 {
			out = append(out, Shortage{Label: p.Groups[g].Label, Found: p.foundOf[g], Expected: mean, raw: atLeast(p.asFew[g])})
		}
	}
	return out
}

func (p *picked) absent() []Shortage {
	out := []Shortage{}
	for k, in := range p.shares {
		if in > 0.5 && !p.has[k] {
			out = append(out, Shortage{Label: p.Kinds[k].Label, Expected: in, raw: atLeast(1 - in)})
		}
	}
	sorting.Stable(out, func(a, b Shortage) int { return cmp.Compare(b.Expected, a.Expected) })
	return out
}

// atLeast is a share of the ways, which is never quite 0: one way more might have it.
func atLeast(share float64) float64 { return min(1, (share*picks+1)/(picks+1)) }

// ofCleanest is the share of the alarms that the cleanest group may cause: its kinds go
// first where a stream is harmed. The other groups and the single kinds share the rest.
const ofCleanest = 0.8

// isCleanest tells that a shortage is of the group that speaks best of a stream: schemes
// begin with it.
func (p *picked) isCleanest(of *Shortage) bool { return of.Label == p.Groups[0].Label }

func pointers(all []Shortage, want func(*Shortage) bool) (out []*Shortage) {
	for i := range all {
		if want(&all[i]) {
			out = append(out, &all[i])
		}
	}
	return out
}

// correct corrects for all that is asked (Holm 1979), also of what was found, which may
// cause a share of the alarms.
func correct(order []*Shortage, asked int, share float64) {
	sorting.Stable(order, func(a, b *Shortage) int { return cmp.Compare(a.raw, b.raw) })
	least := 0.0
	for i, s := range order {
		least = max(least, min(1, s.raw*float64(asked-i)/share))
		s.P, s.Shown = least, least <= beyondChance
	}
}

// say is a sentence or two.
func (x *Expected) say() string {
	var fewer, missing, likely []string
	for _, g := range x.Groups {
		if g.Shown {
			fewer = append(fewer, wording.Sprintf("%d %s, where %.1f are expected (chance does that %s)", g.Found, g.Label,
				g.Expected, often(g.P)))
		}
	}
	for _, k := range x.Absent {
		if k.Shown {
			missing = append(missing, wording.Sprintf("%s (chance does that %s)", k.Label, often(k.P)))
		} else if len(likely) < mostAbsent {
			likely = append(likely, k.Label)
		}
	}
	said := wording.Sprintf("Against %d kinds of the index picked by how common each is in the region, as many as were found, ", x.Kinds)
	switch {
	case len(fewer)+len(missing) > 0:
		if len(missing) > 0 {
			fewer = append(fewer, wording.Sprintf("none of %s", plain.And(missing)))
		}
		said += wording.Sprintf("some are fewer than chance makes them: %s. Season, bed and size of the stream keep animals away "+
			"as well as harm does.", strings.Join(fewer, "; "))
	default:
		said += wording.Text("nothing is missing beyond chance.")
	}
	if len(likely) > 0 {
		said += wording.Sprintf(" Not found, though more likely there than not: %s.", plain.And(likely))
	}
	return said
}

// mostAbsent bounds the kinds that the sentence names although chance may miss them.
const mostAbsent = 5

// often is a chance as people say it.
func often(p float64) string {
	if p < 0.001 {
		return wording.Text("less than once in 1000 times")
	}
	if p < 0.0015 {
		return wording.Text("once in 1000 times")
	}
	return wording.Sprintf("%.0f times in 1000", 1000*p)
}
