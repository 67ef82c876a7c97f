package practice

import (
	"cmp"
	"maps"
	"math"
	"slices"
	"time"

	"rillkey/taxa/sorting"
)

// pause lies between animals of two sittings, at least.
const pause = time.Hour

// Tried is what somebody did with animals of one source.
type Tried struct {
	Source  SpecimenSource `json:"source"`
	Animals int            `json:"animals"` // outside tests
	Right   int            `json:"right"`
	Looked  int            `json:"readings"`
	Wrong   int            `json:"misread"` // of the readings
}

// Progress is where one person stands at a moment.
type Progress struct {
	Person      string
	Animals     int // outside tests
	Sittings    int // of these
	Tested      int // animals in tests
	First, Last time.Time
	Days        int     // on which animals were met, with a night between
	Error       float64 // expected share of wrong names in a tally, 0 to 1
	// Kept is the share of a tally's animals, 0 to 1, that are of kinds named rightly on
	// two days and the last time, in sittings, as drawings or real animals, from no list.
	Kept    float64
	Wanting []string // ids of some kinds that are not kept, those that weigh most first
	// Real are the real animals met in sittings, RealWrong those not rightly named among
	// the last Lines.Real of them.
	Real, RealWrong int
	Ready           Ready
	Lines           Readiness // by which they are called ready
	Tried           []Tried   // of each source that was tried
	Misreads        []Misreading
	Mixed           []MixedUp // the kinds taken for each other most often in practice, the most often first
	Tests           []Tested  // in the order taken
}

// MixedUp is two kinds, and how often the one was called the other.
type MixedUp struct {
	Kind, TakenFor string
	Times          int
	People         int // 1 for one person
}

// ProgressOf is where the person of a record stands.
func ProgressOf(r *PersonRecord, c *Course, at time.Time) Progress {
	l := r.Learner(c)
	s := Progress{Person: r.Person, Error: l.Error(at), Misreads: l.Misreads(at, 5), Mixed: mixed([]*PersonRecord{r}),
		Tests: r.Tested()}
	s.Animals, s.Sittings, s.Tested = r.Met()
	for _, source := range Sources {
		if t := r.tried(source); t.Animals > 0 {
			s.Tried = append(s.Tried, t)
		}
	}
	if n := len(r.Meetings); n > 0 {
		s.First, s.Last = r.Meetings[0].Time, r.Meetings[n-1].Time
	}
	s.Lines = c.ready
	s.Kept, s.Wanting = r.kept(c)
	s.Real, s.RealWrong = r.real(s.Lines.Real)
	if day := r.dayOf(); len(day) > 0 {
		s.Days = day[len(day)-1]
	}
	s.Ready = s.Lines.ready(&s)
	return s
}

// tried is what the person did with animals of a source, outside tests.
func (r *PersonRecord) tried(source SpecimenSource) Tried {
	t, blamed := Tried{Source: source}, 0.0
	for i := range r.Meetings {
		m := &r.Meetings[i]
		if m.Test != "" || m.Source != source {
			continue
		}
		if t.Animals++; m.Right() {
			t.Right++
		}
		t.Looked += len(m.Readings)
		for _, reading := range m.Readings {
			blamed += reading.Blame
		}
	}
	t.Wrong = int(math.Round(blamed))
	return t
}

// begins reports whether a meeting outside tests is the first of its sitting.
func (r *PersonRecord) begins(i int) bool {
	m := &r.Meetings[i]
	return i == 0 || m.Begins || r.Meetings[i-1].Test != "" || m.Time.Sub(r.Meetings[i-1].Time) > pause
}

// Met is how many animals the person met in sittings, in how many of these, and how many
// in tests.
func (r *PersonRecord) Met() (animals, sittings, tested int) {
	animals, sittings = r.practised(0)
	return animals, sittings, len(r.Meetings) - animals
}

// SinceTest is how many animals the person met in sittings after the last animal of a
// test, and in how many sittings.
func (r *PersonRecord) SinceTest() (animals, sittings int) {
	from := len(r.Meetings)
	for from > 0 && r.Meetings[from-1].Test == "" {
		from--
	}
	return r.practised(from)
}

// practised is how many animals were met in sittings from a meeting on, and in how many.
func (r *PersonRecord) practised(from int) (animals, sittings int) {
	for i := from; i < len(r.Meetings); i++ {
		if r.Meetings[i].Test == "" {
			if animals++; r.begins(i) {
				sittings++
			}
		}
	}
	return animals, sittings
}

// mixed are the kinds that people took for each other in practice.
func mixed(all []*PersonRecord) []MixedUp {
	type pair struct{ kind, takenFor string }
	times, people := map[pair]int{}, map[pair]int{}
	for _, r := range all {
		own := map[pair]bool{}
		for i := range r.Meetings {
			m := &r.Meetings[i]
			as := m.takenFor()
			if as == "" || m.Right() || m.Test != "" { // tests keep what they ask
				continue
			}
			p := pair{m.Kind, as}
			if times[p]++; !own[p] {
				own[p] = true
				people[p]++
			}
		}
	}
	var out []MixedUp
	for p, n := range times {
		out = append(out, MixedUp{p.kind, p.takenFor, n, people[p]})
	}
	sorting.Stable(out, func(a, b MixedUp) int {
		return cmp.Or(b.People-a.People, b.Times-a.Times, cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.TakenFor, b.TakenFor))
	})
	return out[:min(len(out), 8)]
}

// GroupProgress is several people together, for whoever leads them.
type GroupProgress struct {
	People []Progress // the readiest first
	Traits []GroupTrait
	Mixed  []MixedUp
}

// GroupTrait is how often a group misread a trait, in drawings and real animals.
type GroupTrait struct {
	Trait                 string
	Looked, Wrong, People int // people who misread it
}

// GroupOf is where the people of records stand together.
func GroupOf(all []*PersonRecord, c *Course, at time.Time) GroupProgress {
	g := GroupProgress{Mixed: mixed(all)}
	traits := map[string]*GroupTrait{}
	for _, r := range all {
		g.People = append(g.People, ProgressOf(r, c, at))
		wrong := map[string]bool{}
		for i := range r.Meetings {
			for _, reading := range r.Meetings[i].Readings {
				t := traits[reading.Trait]
				if t == nil {
					t = &GroupTrait{Trait: reading.Trait}
					traits[reading.Trait] = t
				}
				if t.Looked++; reading.Blame >= 0.5 {
					t.Wrong++
					wrong[reading.Trait] = true
				}
			}
		}
		for trait := range wrong {
			traits[trait].People++
		}
	}
	for _, trait := range slices.Sorted(maps.Keys(traits)) {
		if t := traits[trait]; t.Wrong > 0 {
			g.Traits = append(g.Traits, *t)
		}
	}
	sorting.Stable(g.Traits, func(a, b GroupTrait) int { return cmp.Or(b.People-a.People, b.Wrong-a.Wrong) })
	g.Traits = g.Traits[:min(len(g.Traits), 10)]
	sorting.Stable(g.People, func(a, b Progress) int {
		return cmp.Or(rank(a.Ready)-rank(b.Ready), cmp.Compare(a.Error, b.Error))
	})
	return g
}

// rank puts those of whom nothing can be said last.
func rank(r Ready) int {
	return slices.Index([]Ready{ReadyAlone, ReadyByTwos, ReadyNotYet, ReadyTooFew}, r)
}
