// Package improve betters a key with few changes: branches that ask much more of
// people than they need to are drafted anew, and everything else, wording,
// comments and numbers, stays as it is.
package improve

import (
	"cmp"
	"slices"
	"strconv"

	"rillkey/couplets"
	"rillkey/key/draft"
	"rillkey/key/flow"
	"rillkey/key/trim"
	"rillkey/taxa"
)

// What is worth a change.
const (
	mostEnds  = 14   // of a branch that is drafted anew
	mostTries = 6    // branches drafted for a comparison
	mostTimes = 2    // branches
	worth     = 0.01 // least gain of a branch, as a share of the cost of the key
)

// Change is one branch that was drafted anew.
type Change struct {
	Couplet string   `json:"couplet"` // where it begins; the number stays
	Gone    []string `json:"gone"`    // couplets that were replaced, that one among them
	Gain    float64  `json:"gain"`    // of the cost of the key, as a share
}

// Improved is a key with some branches drafted anew.
type Improved struct {
	Text    []byte
	Sound   *couplets.Sound
	Changes []Change
}

// Key improves a key. Data is the text that it was read from. Cost is effort
// plus the model's price of a wrong name times the share of animals that leave
// their path (package flow), by commonness where the key says it.
func Key(data []byte, s *couplets.Sound, catalog *taxa.Catalog, looking flow.Model, model draft.Model) (*Improved, error) {
	out := &Improved{Text: data, Sound: s}
	for range mostTimes {
		r := &round{data: out.Text, sound: out.Sound, catalog: catalog, looking: looking, model: model}
		best := r.best()
		if best == nil {
			break
		}
		out.Text, out.Sound, out.Changes = best.text, best.sound, append(out.Changes, best.change)
	}
	return out, nil
}

type round struct {
	data    []byte
	sound   *couplets.Sound
	catalog *taxa.Catalog
	looking flow.Model
	model   draft.Model
}

type candidate struct {
	text   []byte
	sound  *couplets.Sound
	change Change
}

// best is the change that gains most for each couplet it replaces; nil when none
// is worth it.
func (r *round) best() *candidate {
	var all []*candidate
	f := flow.Through(r.sound, r.catalog, r.sound.Commonness, r.looking)
	before := f.Effort + r.model.Mistake*f.Lost
	for _, i := range r.dearest(f) {
		if r.within(i, f) < 2*worth*before { // no draft halves what a branch costs
			break
		}
		if c := r.try(i, before); c != nil && c.change.Gain >= worth {
			all = append(all, c)
		}
	}
	if len(all) == 0 {
		return nil
	}
	return slices.MaxFunc(all, func(a, b *candidate) int {
		return cmp.Compare(a.change.Gain/float64(len(a.change.Gone)), b.change.Gain/float64(len(b.change.Gone)))
	})
}

func (r *round) cost(s *couplets.Sound) float64 {
	f := flow.Through(s, r.catalog, s.Commonness, r.looking)
	return f.Effort + r.model.Mistake*f.Lost
}

// dearest are the branches of a fit size that cost most, the dearest first.
func (r *round) dearest(f flow.Flow) []int {
	var out []int
	for i := range r.sound.Couplets {
		if n := r.sound.Beneath(i).Len(); n >= 3 && n <= mostEnds {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(r.within(b, f), r.within(a, f)) })
	return out[:min(len(out), mostTries)]
}

// within is what the couplets from one on down cost all animals.
func (r *round) within(place int, f flow.Flow) float64 {
	ids, _ := r.branch(place)
	sum := 0.0
	for _, id := range ids {
		c := f.Couplets[r.sound.Place(id)]
		sum += c.Asked*c.Effort + r.model.Mistake*c.Lost
	}
	return sum
}

// try drafts one branch anew; nil where it is no branch of its own, or where the
// result would not be sound.
func (r *round) try(place int, before float64) *candidate {
	ids, own := r.branch(place)
	if !own {
		return nil
	}
	var rows []draft.Taxon
	r.sound.Beneath(place).Each(func(end int) {
		id := r.sound.Ends[end].ID
		rows = append(rows, draft.Taxon{ID: id, Weight: max(r.sound.Commonness[id], 1e-9)})
	})
	if len(r.sound.Commonness) == 0 {
		for i := range rows {
			rows[i].Weight = 1
		}
	}
	table, err := draft.FromCatalog(r.catalog, rows, r.model, func(trait, state string) bool { return r.sound.Open(place, trait, state) })
	if err != nil {
		return nil
	}
	d, err := draft.Sketch(table, r.model.Mistake)
	if err != nil || len(d.Inseparable()) > 0 {
		return nil
	}
	text, err := trim.Replace(r.data, r.sound, ids, d.Branch(ids[0], r.next(), r.catalog))
	if err != nil {
		return nil
	}
	s, err := couplets.LoadText(text, "the improved key", r.catalog)
	if err != nil {
		return nil
	}
	return &candidate{text, s, Change{ids[0], ids, (before - r.cost(s)) / before}}
}

// branch is the couplets from one on down, and whether nothing else leads into
// them.
func (r *round) branch(place int) ([]string, bool) {
	in := map[string]bool{r.sound.Couplets[place].ID: true}
	ids := []string{r.sound.Couplets[place].ID}
	for i := 0; i < len(ids); i++ {
		for _, l := range r.sound.Couplet(ids[i]).Leads {
			if l.To != "" && !in[l.To] {
				in[l.To] = true
				ids = append(ids, l.To)
			}
		}
	}
	for i := range r.sound.Couplets {
		for _, l := range r.sound.Couplets[i].Leads {
			if !in[r.sound.Couplets[i].ID] && in[l.To] && l.To != ids[0] {
				return nil, false
			}
		}
	}
	return ids, true
}

// next is the first number above all that the key uses.
func (r *round) next() int {
	most := 0
	for i := range r.sound.Couplets {
		if n, err := strconv.Atoi(r.sound.Couplets[i].ID); err == nil {
			most = max(most, n)
		}
	}
	return most + 1
}
