// Package astray finds where people lost animals on a key: the couplets at which
// the lead that was taken does not lead to what the animal later proved to be.
//
// Begin with [Confusion], [CoupletFate] and [Losses].
package astray

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/bitset"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Losses is what is known of each couplet of one key. The zero value is not ready;
// see [New].
type Losses struct {
	model    *key.Model
	sound    *couplets.Sound
	couplets map[string]*CoupletFate
	// OnPaper is how many of those that [Losses.AddConfirmed] counted had no answers.
	OnPaper int
}

// CoupletFate is what became of the animals that came to a couplet and belonged there.
type CoupletFate struct {
	ID string
	// Came counts the animals, Unsure those of them of which nobody could tell, Lost
	// those whose lead leads away from what they are.
	Came, Unsure, Lost int
	Ways               []Confusion // of those lost, the most frequent first
}

// Confusion is one kind of animal that was led one way in the place of another.
type Confusion struct {
	Taxon   string   // what the animals proved to be
	Taken   string   // the lead that was taken, such as "4b"
	Right   []string // the leads that lead to the animal
	Animals int
}

// New counts nothing yet.
func New(m *key.Model) *Losses {
	return &Losses{model: m, sound: m.Key().Sound(), couplets: map[string]*CoupletFate{}}
}

// Add counts one animal: what was answered, as a record keeps it, and what it
// proved to be. An animal that was lost says nothing of the couplets further down.
// It is an error if the answers do not fit the key.
func (c *Losses) Add(answers []string, right *taxa.Taxon) error {
	q, err := c.model.Inquire(key.DefaultOptions())
	for _, answer := range answers {
		if err == nil {
			err = q.Say(answer)
		}
	}
	if err != nil {
		return err
	}
	fits := c.ends(right)
	for _, step := range q.Leads() {
		couplet, letter := c.parse(step)
		if couplet == nil || !c.sound.EndsBeneath(c.sound.Place(couplet.ID)).Meets(fits) {
			continue
		}
		if !c.step(couplet, letter, right, fits) {
			return nil
		}
	}
	return nil
}

// AddConfirmed counts one animal by its answers or, where none are kept, by what it was named:
// the id of a taxon. It is an error if the answers do not fit the key, or nothing has the id.
func (c *Losses) AddConfirmed(answers []string, named string, right *taxa.Taxon) error {
	if len(answers) > 0 {
		return c.Add(answers, right)
	}
	t := c.model.Key().Catalog().Taxon(named)
	if t == nil {
		return wording.Errorf("nothing here is called %s", plain.Quote(named))
	}
	c.AddNamed(t, right)
	c.OnPaper++
	return nil
}

// AddNamed counts one animal of which nothing is kept but what it was named with the
// key on paper, and what it proved to be: it went the way of its name as far as only one
// lead of each couplet goes there, and was lost where that lead leads away from what it is.
func (c *Losses) AddNamed(named, right *taxa.Taxon) {
	took, fits := c.ends(named), c.ends(right)
	for at := c.sound.Couplet(c.sound.Start); at != nil; {
		var taken *couplets.Lead
		for i := range at.Leads {
			if l := &at.Leads[i]; c.sound.EndsOf(l).Meets(took) {
				if taken != nil {
					return // which of them was taken nobody knows
				}
				taken = l
			}
		}
		if taken == nil || !c.sound.EndsBeneath(c.sound.Place(at.ID)).Meets(fits) || !c.step(at, taken.Letter, right, fits) {
			return
		}
		at = c.sound.Couplet(taken.Next)
	}
}

// step counts one answer, and reports whether the animal is still on its way.
func (c *Losses) step(couplet *couplets.Couplet, letter string, right *taxa.Taxon, fits bitset.Set) bool {
	at := c.couplets[couplet.ID]
	if at == nil {
		at = &CoupletFate{ID: couplet.ID}
		c.couplets[couplet.ID] = at
	}
	at.Came++
	if letter == key.Unsure {
		at.Unsure++
		return true
	}
	var leads []string
	for i := range couplet.Leads {
		if l := &couplet.Leads[i]; c.sound.EndsOf(l).Meets(fits) {
			leads = append(leads, couplet.ID+l.Letter)
		}
	}
	taken := couplet.ID + letter
	if slices.Contains(leads, taken) {
		return true
	}
	at.Lost++
	for i := range at.Ways {
		if w := &at.Ways[i]; w.Taxon == right.ID && w.Taken == taken {
			w.Animals++
			return false
		}
	}
	at.Ways = append(at.Ways, Confusion{right.ID, taken, leads, 1})
	return false
}

// ends are the end points that an animal of a taxon may come to: the taxon, what is
// beneath it, and what it is beneath.
func (c *Losses) ends(right *taxa.Taxon) bitset.Set {
	catalog := c.model.Key().Catalog()
	set := bitset.New(len(c.sound.Ends))
	for i, end := range c.sound.Ends {
		if catalog.IsUnder(end.ID, right.ID) || catalog.IsUnder(right.ID, end.ID) {
			set.Add(i)
		}
	}
	return set
}

// parse gives the couplet and the letter of a step of a path.
func (c *Losses) parse(step string) (*couplets.Couplet, string) {
	if step == "" {
		return nil, ""
	}
	cut := len(step) - 1
	if letter := step[cut:]; letter == key.Unsure || strings.Contains(couplets.Letters, letter) {
		return c.sound.Couplet(step[:cut]), letter
	}
	return nil, ""
}

// Couplets are those that lost any animal, those first that lost most, and of these
// those that lost the greater share.
func (c *Losses) Couplets() []CoupletFate {
	var out []CoupletFate
	for _, id := range slices.Sorted(maps.Keys(c.couplets)) {
		at := *c.couplets[id]
		if at.Lost == 0 {
			continue
		}
		at.Ways = slices.Clone(at.Ways)
		slices.SortStableFunc(at.Ways, func(x, y Confusion) int {
			return cmp.Or(cmp.Compare(y.Animals, x.Animals), cmp.Compare(x.Taxon, y.Taxon), cmp.Compare(x.Taken, y.Taken))
		})
		out = append(out, at)
	}
	slices.SortStableFunc(out, func(x, y CoupletFate) int {
		return cmp.Or(cmp.Compare(y.Lost, x.Lost), cmp.Compare(x.Came, y.Came), cmp.Compare(c.sound.Place(x.ID), c.sound.Place(y.ID)))
	})
	return out
}
