package improve

import (
	"slices"
	"strconv"
)

// branch is the couplets from one on down, which nothing else leads into.
type branch struct {
	place   int
	ids     []string // of its couplets, the first one first
	ends    []int    // beneath it
	animals float64  // that come to it, of all
	cost    float64  // of what it asks of them
}

// branch is nil where leads from elsewhere lead into it.
func (r *round) branch(place int) *branch {
	b := &branch{place: place, ids: r.idsBelow(r.sound.Couplets[place].ID)}
	r.sound.EndsBeneath(place).Each(func(end int) { b.ends = append(b.ends, end) })
	b.animals = r.flow.Couplets[place].Asked
	b.cost = r.costOf(b.ids)
	for i := range r.sound.Couplets {
		c := &r.sound.Couplets[i]
		if slices.Contains(b.ids, c.ID) {
			continue
		}
		for _, l := range c.Leads {
			if l.Next != "" && slices.Contains(b.ids[1:], l.Next) {
				return nil
			}
		}
	}
	return b
}

// idsBelow is the couplets from one on down.
func (r *round) idsBelow(id string) []string {
	ids := []string{id}
	for i := 0; i < len(ids); i++ {
		for _, l := range r.sound.Couplet(ids[i]).Leads {
			if l.Next != "" && !slices.Contains(ids, l.Next) {
				ids = append(ids, l.Next)
			}
		}
	}
	return ids
}

// costOf is what some couplets cost all animals.
func (r *round) costOf(ids []string) float64 {
	sum := 0.0
	for _, id := range ids {
		c := r.flow.Couplets[r.sound.Place(id)]
		sum += c.Asked*c.Effort + r.model.Mistake*c.Lost
	}
	return sum
}

// next is the first number above all that the key uses.
func (r *round) next() int {
	most := 0
	for i := range r.sound.Couplets {
		most = max(most, number(r.sound.Couplets[i].ID))
	}
	return most + 1
}

// number is a couplet's id as a number; 0 where it is none.
func number(id string) int {
	n, err := strconv.Atoi(id)
	if err != nil {
		return 0
	}
	return n
}
