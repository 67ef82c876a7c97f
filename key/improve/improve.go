// Package improve betters a key with few changes: branches that ask much more of
// people than they need to are drafted anew. Of a branch, whatever the draft
// would ask alike is kept, and everything else in the key, wording, comments and
// numbers, stays as it is.
package improve

import (
	"slices"

	"rillkey/couplets"
	"rillkey/key/draft"
	"rillkey/key/flow"
	"rillkey/taxa"
)

// What is worth a change.
const (
	mostEnds    = 40    // of a branch that is drafted anew
	mostChanges = 8     // branches
	worth       = 0.005 // least gain of a branch, as a share of the cost of the key
	worthEach   = 0.001 // the same for each couplet that its author has to look at
)

// Rewrite is one branch that was drafted anew.
type Rewrite struct {
	Couplet string `json:"couplet"` // where it begins; the number stays
	// Asked and Asks are what that couplet asked before, and asks now.
	Asked string `json:"asked"`
	Asks  string `json:"asks"`
	// New are the numbers of couplets whose wording is generated, Moved of those
	// that keep their wording and lead elsewhere, and Gone of those that are no
	// more.
	New   []string `json:"new"`
	Moved []string `json:"moved"`
	Gone  []string `json:"gone"`
	// Gain is of the cost of the key, as a share. Questions and Effort, of a mean
	// animal, and Lost, of all animals, are what the change saves; some may be
	// below 0.
	Gain      float64 `json:"gain"`
	Questions float64 `json:"questions"`
	Effort    float64 `json:"effort"`
	Lost      float64 `json:"lost"`
}

// each is the gain for each couplet that the author of the key has to look at.
func (c *Rewrite) each() float64 { return c.Gain / float64(len(c.New)+len(c.Moved)) }

// Improved is a key with some branches drafted anew.
type Improved struct {
	Text    []byte
	Sound   *couplets.Sound
	Changes []Rewrite // in the order they were made: most gain for the least work first
}

// Improve improves a key. Data is the text that it was read from. Cost is effort
// plus the model's price of a wrong name times the share of animals that leave
// their path (package flow), by commonness where the key says it.
func Improve(data []byte, s *couplets.Sound, catalog *taxa.Catalog, looking flow.Observer, model draft.Costs) (*Improved, error) {
	out := &Improved{Text: data, Sound: s}
	drafts := map[string]*draft.Draft{}
	made := map[string]bool{}
	for range mostChanges {
		r := newRound(out, catalog, looking, model, drafts, made)
		best := r.best()
		if best == nil {
			break
		}
		out.Text, out.Sound, out.Changes = best.text, best.sound, append(out.Changes, best.change)
		for _, id := range slices.Concat(best.change.New, best.change.Moved) {
			made[id] = true
		}
	}
	return out, nil
}

// round is one look at all branches of a key.
type round struct {
	data    []byte
	sound   *couplets.Sound
	catalog *taxa.Catalog
	looking flow.Observer
	model   draft.Costs
	flow    flow.Flow
	drafts  map[string]*draft.Draft // by the couplet they begin at; nil where there is none
	made    map[string]bool         // couplets that this run has written
}

func newRound(from *Improved, catalog *taxa.Catalog, looking flow.Observer, model draft.Costs,
	drafts map[string]*draft.Draft, made map[string]bool) *round {
	return &round{
		data: from.Text, sound: from.Sound, catalog: catalog, looking: looking, model: model, drafts: drafts, made: made,
		flow: flow.Follow(from.Sound, catalog, from.Sound.Weights(), looking),
	}
}

// priced is a flow as one number.
func (r *round) priced(f flow.Flow) float64 { return f.Effort + r.model.Mistake*f.Lost }

type candidate struct {
	text   []byte
	sound  *couplets.Sound
	change Rewrite
}

// best is the change that gains most for each couplet that the author has to
// look at; nil when none is worth it.
func (r *round) best() *candidate {
	var best *candidate
	for i := range r.sound.Couplets {
		c := r.try(i)
		if c != nil && (best == nil || c.change.each() > best.change.each()) {
			best = c
		}
	}
	return best
}

// try drafts the branch from a couplet on anew; nil where that cannot be, or
// gains too little.
func (r *round) try(place int) *candidate {
	n := r.sound.EndsBeneath(place).Len()
	if n < 3 || n > mostEnds {
		return nil
	}
	b := r.branch(place)
	least := worth * r.priced(r.flow)
	if b == nil || b.cost < 2*least { // hardly a draft halves what a branch costs
		return nil
	}
	d := r.draft(b)
	if d == nil || b.cost-d.Cost*b.animals < least/2 { // the draft's own cost is a little high
		return nil
	}
	var best *candidate
	for _, asGood := range asGoods {
		c, err := r.graft(b, d, asGood)
		if err == nil && c.change.Gain >= worth && c.change.each() >= worthEach && (best == nil || c.change.each() > best.change.each()) {
			best = c
		}
	}
	return best
}

// draft is what is best for a branch; nil where it is not to be had.
func (r *round) draft(b *branch) *draft.Draft {
	d, done := r.drafts[b.ids[0]]
	if done {
		return d
	}
	defer func() { r.drafts[b.ids[0]] = d }()
	var rows []draft.TableRow
	come := r.flow.Couplets[b.place].Come
	for _, end := range b.ends {
		rows = append(rows, draft.TableRow{ID: r.sound.Ends[end].ID, Weight: max(come[end], 1e-9)})
	}
	table, err := draft.FromCatalog(r.catalog, rows, r.model, func(trait, state string) bool { return r.sound.Open(b.place, trait, state) })
	if err != nil {
		return nil
	}
	if d, err = draft.NewQuick(table, r.model.Terms); err != nil || len(d.Inseparable()) > 0 {
		d = nil
	}
	return d
}
