package trial

import (
	"slices"

	"rillkey/key"
	"rillkey/key/trial/described"
	"rillkey/taxa"
)

// Naming says how the name of a described animal came out.
type Naming string

// How a name comes out. The words allow the narrowest taxon, at order or below,
// to which their states leave at least 0.9 by the table, if all are taken as true
// and all end points of the key as equally common; where that does not hold the
// animal, they allow what the animal is.
const (
	Narrow  Naming = "narrow"  // right, and as narrow as the words allow, or what the animal is
	Broader Naming = "broader" // right, but not as narrow
	Wrong   Naming = "wrong"   // it does not hold the animal
	NoName  Naming = "none"    // no name was given
)

// Told is how one described animal fared.
type Told struct {
	ID          string                `json:"id"`
	Kind        described.AccountKind `json:"kind"`
	Odd         bool                  `json:"odd"`
	Key         string                `json:"key"`
	Taxa        []string              `json:"taxa"`    // what it is; none for what the catalog does not hold
	Named       []string              `json:"named"`   // the name given, of a set all of it
	Allowed     string                `json:"allowed"` // the narrowest taxon that the words allow
	Naming      Naming                `json:"naming"`
	Exact       bool                  `json:"exact"`   // whether the name is what the animal is, or within it, or as close as the key leads
	Class       taxa.Class            `json:"class"`   // as given
	Leaning     taxa.Class            `json:"leaning"` // called likely, where none is given
	True        taxa.Class            `json:"true_class"`
	Likeliest   string                `json:"likeliest"`
	Probability float64               `json:"probability"` // of the likeliest
	Questions   int                   `json:"questions"`
	Lists       int                   `json:"lists"` // of marks that were offered to be ticked
	CantTells   int                   `json:"cant_tells"`
	Accused     bool                  `json:"accused"` // a true answer was called more likely misread than not
	Path        []string              `json:"path"`
}

// classRight reports whether the class given is the animal's.
func (t *Told) classRight() bool { return t.True != "" && t.Class == t.True }

// leansRight reports whether the class given, or called likely, is the animal's.
func (t *Told) leansRight() bool { return t.classRight() || t.True != "" && t.Leaning == t.True }

// leansWrong reports whether a class was called likely that counts in an index and is
// not the animal's.
func (t *Told) leansWrong() bool { return t.isWrong(t.Leaning) }

// ClassWrong reports whether a class was given that counts in an index and is not
// the animal's.
func (t *Told) ClassWrong() bool { return t.isWrong(t.Class) }

func (t *Told) isWrong(class taxa.Class) bool {
	return class != "" && class != taxa.NotScored && class != t.True && (t.True != "" || len(t.Taxa) == 0)
}

// aside reports whether neither name nor class was given.
func (t *Told) aside() bool { return t.Naming == NoName && t.Class == "" }

// Totals is how described animals fared together.
type Totals struct {
	Animals    int     `json:"animals"`
	Narrow     int     `json:"narrow"`
	Exact      int     `json:"exact"` // of the narrow ones
	Broader    int     `json:"broader"`
	Wrong      int     `json:"wrong"`
	None       int     `json:"none"`
	Classed    int     `json:"classed"` // animals that have a class
	ClassRight int     `json:"class_right"`
	ClassWrong int     `json:"class_wrong"`
	LeansRight int     `json:"leans_right"` // the right class was given or called likely
	LeansWrong int     `json:"leans_wrong"` // a wrong one was called likely
	Aside      int     `json:"aside"`       // neither name nor class
	Accused    int     `json:"accused"`
	Questions  float64 `json:"questions"`  // mean
	Lists      float64 `json:"lists"`      // mean, of marks that were offered to be ticked
	CantTells  float64 `json:"cant_tells"` // mean
}

// Sum tallies those for which of holds.
func Sum(all []Told, of func(*Told) bool) Totals {
	var s Totals
	for i := range all {
		if of(&all[i]) {
			s.add(&all[i])
		}
	}
	if s.Animals > 0 {
		s.Questions /= float64(s.Animals)
		s.Lists /= float64(s.Animals)
		s.CantTells /= float64(s.Animals)
	}
	return s
}

func (s *Totals) add(t *Told) {
	count := func(n *int, is bool) {
		if is {
			*n++
		}
	}
	s.Animals++
	count(&s.Narrow, t.Naming == Narrow)
	count(&s.Exact, t.Exact)
	count(&s.Broader, t.Naming == Broader)
	count(&s.Wrong, t.Naming == Wrong)
	count(&s.None, t.Naming == NoName)
	count(&s.Classed, t.True != "")
	count(&s.ClassRight, t.classRight())
	count(&s.ClassWrong, t.ClassWrong())
	count(&s.LeansRight, t.leansRight())
	count(&s.LeansWrong, t.leansWrong())
	count(&s.Aside, t.aside())
	count(&s.Accused, t.Accused)
	s.Questions += float64(t.Questions)
	s.Lists += float64(t.Lists)
	s.CantTells += float64(t.CantTells)
}

// judge holds the name against the animal.
func (t *Told) judge(k *key.Key, allowed *taxa.Taxon) {
	catalog := k.Catalog()
	within := func(id string) bool {
		return slices.ContainsFunc(t.Taxa, func(is string) bool { return catalog.IsUnder(id, is) })
	}
	holds := func(id string) bool {
		return slices.ContainsFunc(t.Taxa, func(is string) bool { return catalog.IsUnder(is, id) })
	}
	if allowed != nil {
		t.Allowed = allowed.ID
	}
	closest := func(id string) bool { // the key leads no closer to what the animal is
		return k.EndsIn(id) && holds(id) && !slices.ContainsFunc(k.Ends(), func(end *taxa.Taxon) bool {
			return end.ID != id && catalog.IsUnder(end.ID, id) && holds(end.ID)
		})
	}
	t.Exact = slices.ContainsFunc(t.Named, within) || slices.ContainsFunc(t.Named, closest)
	switch {
	case len(t.Named) == 0:
		t.Naming = NoName
	case t.Exact || len(t.Named) > 1 && slices.ContainsFunc(t.Named, holds):
		t.Naming = Narrow
	case !slices.ContainsFunc(t.Named, holds):
		t.Naming = Wrong
	case allowed != nil && holds(allowed.ID) && catalog.IsUnder(t.Named[0], allowed.ID):
		t.Naming = Narrow
	default:
		t.Naming = Broader
	}
}

const (
	// leftAtLeast is the share that the words must leave to what they allow.
	leftAtLeast = 0.9
	// gapInTable is the chance that a kind shows what the table does not give it.
	gapInTable = 0.01
)

// allowed is the narrowest taxon, at order or below, to which the states leave
// enough, nil where there is none.
func allowed(k *key.Key, a *described.Animal) *taxa.Taxon {
	p := left(k, a)
	var best *taxa.Taxon
	fewest := len(p) + 1
	consider := func(t *taxa.Taxon) {
		mass, n := 0.0, 0
		for i, end := range k.Ends() {
			if k.Catalog().IsUnder(end.ID, t.ID) {
				mass, n = mass+p[i], n+1
			}
		}
		if mass >= leftAtLeast && n < fewest {
			best, fewest = t, n
		}
	}
	for _, end := range k.Ends() {
		consider(end)
		for _, up := range k.Catalog().Ancestors(end.ID) {
			if slices.Index(taxa.Ranks, up.Rank) >= slices.Index(taxa.Ranks, "order") {
				consider(up)
			}
		}
	}
	return best
}

// left is the probability of each end point by the table, if what the words say
// is all true and all are equally common. Of what is unknown for an end point it
// is taken to be as the others are on the average.
func left(k *key.Key, a *described.Animal) []float64 {
	out := make([]float64, len(k.Ends()))
	for i := range out {
		out[i] = 1
	}
	for _, said := range a.Shows {
		fits := make([]float64, len(out))
		mean, known := 0.0, 0.0
		for i, end := range k.Ends() {
			shown := end.States(said.Trait)
			for _, w := range shown {
				if slices.Contains(said.States, w.State) {
					fits[i] += w.Share
				}
			}
			fits[i] = max(fits[i], gapInTable)
			if shown != nil {
				mean, known = mean+fits[i], known+1
			}
		}
		for i, end := range k.Ends() {
			if end.States(said.Trait) == nil {
				fits[i] = mean / max(known, 1)
			}
			out[i] *= fits[i]
		}
	}
	sum := 0.0
	for _, p := range out {
		sum += p
	}
	for i := range out {
		out[i] /= sum
	}
	return out
}
