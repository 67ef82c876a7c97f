package practice

import (
	"maps"
	"math/rand/v2"
	"slices"

	"rillkey/key/harm"
	"rillkey/taxa"
)

// Specimen is one animal to be met.
type Specimen struct {
	Kind  string            // id of the kind that it is
	Shows map[string]string // one state for each trait that can be seen of it
	Young bool              // half grown
	Lacks []string          // of a young one, the traits of what it does not have yet
	Hurt  bool              // a part of it is lost
	Lost  string            // of a hurt one, the trait of the part that it lost
	Whole map[string]string // and what it would show with it
}

// Shares of animals in a tray that have lost a part, and that are half grown
// (memory; the rates of the usual people of package trial).
const (
	hurtShare  = 0.1
	youngShare = 0.15
)

// Draw draws an animal of a kind of the course: each trait in one of the states that
// the kind shows, as often as it does, now and then half grown or with a part lost. What
// hangs on a part is there with the part alone.
func (c *Course) Draw(kind string, r *rand.Rand) Specimen {
	t := c.kinds[c.kindPlace[kind]]
	s := Specimen{Kind: kind, Shows: map[string]string{}}
	for _, trait := range c.traits {
		c.show(t, trait, &s, r.Float64(), r.Float64())
	}
	Build(t, s.Shows)
	c.agree(&s)
	young, hurt := r.Float64() < youngShare, r.Float64() < hurtShare
	if young {
		c.halfGrow(t, &s, r)
	}
	if hurt {
		c.hurt(&s, r)
	}
	c.hang(&s)
	c.hide(&s)
	return s
}

// hide leaves out what cannot be seen of an animal beside the rest, as it sits in its
// case.
func (c *Course) hide(s *Specimen) {
	for _, t := range c.traits {
		if t.HiddenIf.Holds(s.Shows) {
			delete(s.Shows, t.ID)
		}
	}
}

// hang takes away what hangs on a part that an animal has not, or has lost.
func (c *Course) hang(s *Specimen) {
	for _, t := range c.traits {
		if on := t.OnlyIf; on != nil && s.Shows[t.ID] != "" {
			if whole, known := s.Shows[on.Trait]; known && !slices.Contains(on.States, whole) {
				s.Shows[t.ID] = absent
			}
		}
	}
}

// Typical is an animal of a kind of the course as it usually is: each trait in the state
// that most of the kind show.
func (c *Course) Typical(kind string) Specimen {
	t := c.kinds[c.kindPlace[kind]]
	s := Specimen{Kind: kind, Shows: map[string]string{}}
	for _, trait := range c.traits {
		if shown := t.States(trait.ID); len(shown) > 0 {
			s.Shows[trait.ID] = taxa.Usual(shown)
		}
	}
	Build(t, s.Shows)
	c.agree(&s)
	c.hang(&s)
	c.hide(&s)
	return s
}

// show gives an animal a state of a trait, the whole that the trait hangs on first; at
// and wholeAt, from 0 to 1, choose among the states of the two.
func (c *Course) show(t *taxa.Taxon, trait *taxa.Trait, s *Specimen, at, wholeAt float64) {
	shown := t.States(trait.ID)
	if s.Shows[trait.ID] != "" || len(shown) == 0 {
		return
	}
	if on := trait.OnlyIf; on != nil {
		c.show(t, c.traits[c.place[on.Trait]], s, wholeAt, at)
		switch whole, known := s.Shows[on.Trait]; {
		case known && !slices.Contains(on.States, whole):
			s.Shows[trait.ID] = absent
			return
		case known:
			shown = present(shown)
		}
	}
	s.Shows[trait.ID] = pick(shown, at)
}

// absent is the state of a part that is not there.
const absent = "none"

// present are the states of a part that is there, if any are known.
func present(shown []taxa.Weight) []taxa.Weight {
	if there := slices.DeleteFunc(slices.Clone(shown), func(w taxa.Weight) bool { return w.State == absent }); len(there) > 0 {
		return there
	}
	return shown
}

// pick is the state at a place from 0 to 1 among states by their shares.
func pick(shown []taxa.Weight, at float64) string {
	total := 0.0
	for _, w := range shown {
		total += w.Share
	}
	at *= total
	for _, w := range shown {
		if at -= w.Share; at < 0 {
			return w.State
		}
	}
	return shown[len(shown)-1].State
}

// wholes are traits without which the rest of a part is not there either.
var wholes = []string{"tails", "gills", "case", "hooks"}

// agree takes away what an animal cannot show beside the rest: the stuff of a case
// that it does not have, tails beside broad plates, which beginners take for tails,
// lids that its gills are not, soft skin or a narrow back under hard wing covers, and
// skating below the surface.
func (c *Course) agree(s *Specimen) {
	if s.Shows["hind"] == "plates" && s.Shows["tails"] != "" {
		s.Shows["tails"] = absent
	}
	switch form, known := s.Shows["gill-form"]; {
	case form == "lids":
		s.Shows["gills"] = "back"
	case known && s.Shows["lids"] != "":
		s.Shows["lids"] = absent
	}
	for _, n := range []struct{ trait, state, other, old, new string }{
		{"wings", "hard", "skin", "soft", "hard"}, {"wings", "hard", "skin", "part", "hard"}, {"wings", "hard", "flat", "tall", "round"},
		{"move", "skate", "surface", "under", "top"},
	} {
		if s.Shows[n.trait] == n.state && s.Shows[n.other] == n.old {
			s.Shows[n.other] = n.new
		}
	}
	for _, whole := range wholes {
		for _, p := range harm.LostParts {
			if _, ok := p[whole]; ok && s.Shows[whole] == absent {
				p.Take(s.Shows, false, c.v)
			}
		}
	}
}

// Build builds the four-sided case of an animal as its kind does: of plants, and of laths
// laid across where the kind lays any; squares set edge to edge are another kind's (common
// practice). It leaves what shows no such case as it is.
func Build(kind *taxa.Taxon, shows map[string]string) {
	if shows["case-shape"] != "square" {
		return
	}
	for _, w := range []struct{ trait, state string }{{"case-stuff", "plant"}, {"case-lay", "across"}} {
		if slices.ContainsFunc(kind.States(w.trait), func(has taxa.Weight) bool { return has.State == w.state && has.Share > 0 }) {
			shows[w.trait] = w.state
		}
	}
}

// halfGrow makes an animal a half-grown one, if it is not of a kind that is only met
// grown.
func (c *Course) halfGrow(t *taxa.Taxon, s *Specimen, r *rand.Rand) {
	if t.Stage == "adult" || s.Shows["pupa"] != "" && s.Shows["pupa"] != "no" && s.Shows["pupa"] != "none" {
		return
	}
	s.Young = true
	for i, p := range harm.HalfGrown {
		if p.Shown(s.Shows) && (i == 0 && s.Shows["wings"] == "pads" || i > 0 && r.IntN(2) == 0) {
			before := maps.Clone(s.Shows)
			p.Take(s.Shows, false, c.v)
			for _, t := range c.traits {
				if s.Shows[t.ID] != before[t.ID] {
					s.Lacks = append(s.Lacks, t.ID)
				}
			}
		}
	}
}

// Lacking reports whether a trait is of a part that the animal has lost, or that it does
// not have yet: what it shows of it is not what its kind does.
func (s *Specimen) Lacking(trait string) bool {
	if slices.Contains(s.Lacks, trait) {
		return true
	}
	for _, p := range harm.LostParts {
		_, lost := p[s.Lost]
		if _, of := p[trait]; s.Hurt && lost && of {
			return true
		}
	}
	return false
}

// hurt takes one part from an animal that has one to lose. Legs stay: an animal of which
// nobody can count them teaches nothing.
func (c *Course) hurt(s *Specimen, r *rand.Rand) {
	open := slices.DeleteFunc(slices.Clone(harm.LostParts), func(p harm.Loss) bool {
		_, legs := p["legs"]
		return legs || !p.Shown(s.Shows)
	})
	if which := r.Float64(); len(open) > 0 {
		lost := open[int(which*float64(len(open)))]
		s.Whole, s.Hurt = maps.Clone(s.Shows), true
		lost.Take(s.Shows, false, c.v)
		for _, t := range c.traits {
			if left, of := lost[t.ID]; of && s.Lost == "" && s.Whole[t.ID] != "" && s.Whole[t.ID] != left {
				s.Lost = t.ID
			}
		}
	}
}
