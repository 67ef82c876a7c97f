package practice

import (
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
	Hurt  bool              // a part of it is lost
}

// Shares of animals in a tray that have lost a part, and that are half grown
// (memory; the rates of the usual people of package trial).
const (
	hurtShare  = 0.1
	youngShare = 0.15
)

// Draw draws an animal of a kind of the course: each trait in one of the states that
// the kind shows, as often as it does, now and then half grown or with a part lost.
func (c *Course) Draw(kind string, r *rand.Rand) Specimen {
	t := c.kinds[c.at[kind]]
	s := Specimen{Kind: kind, Shows: map[string]string{}}
	for _, trait := range c.traits {
		shown, at := t.States(trait.ID), r.Float64()
		for i, w := range shown {
			if at -= w.Share; at < 0 || i == len(shown)-1 {
				s.Shows[trait.ID] = w.State
				break
			}
		}
	}
	c.agree(&s)
	young, hurt := r.Float64() < youngShare, r.Float64() < hurtShare
	if young {
		c.halfGrow(t, &s, r)
	}
	if hurt {
		c.hurt(&s, r)
	}
	return s
}

// wholes are traits without which the rest of a part is not there either.
var wholes = []string{"tails", "gills", "case", "hooks"}

// agree takes away what an animal cannot show beside the rest: the stuff of a case
// that it does not have.
func (c *Course) agree(s *Specimen) {
	for _, whole := range wholes {
		for _, p := range harm.Parts {
			if _, ok := p[whole]; ok && s.Shows[whole] == "none" {
				p.Take(s.Shows, false, c.v)
			}
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
	for i, p := range harm.NotYet {
		if p.In(s.Shows) && (i == 0 && s.Shows["wings"] == "pads" || i > 0 && r.IntN(2) == 0) {
			p.Take(s.Shows, false, c.v)
		}
	}
}

// hurt takes one part from an animal that has one to lose. Legs stay: an animal of which
// nobody can count them teaches nothing.
func (c *Course) hurt(s *Specimen, r *rand.Rand) {
	open := slices.DeleteFunc(slices.Clone(harm.Parts), func(p harm.Part) bool {
		_, legs := p["legs"]
		return legs || !p.In(s.Shows)
	})
	if which := r.Float64(); len(open) > 0 {
		open[int(which*float64(len(open)))].Take(s.Shows, false, c.v)
		s.Hurt = true
	}
}
