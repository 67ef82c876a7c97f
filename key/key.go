package key

import (
	"slices"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/bitset"
)

// Key is a key compiled for walking. It is not changed by walks and may be
// shared.
type Key struct {
	sound   *couplets.Sound
	catalog *taxa.Catalog
	steps   []step // by the place of their couplets
	stops   map[string]bool
	shared  []bitset.Set // end points that share an end
}

// step is a couplet as the walk needs it.
type step struct {
	couplet *couplets.Couplet
	leads   []branch
}

// branch is a lead as the walk needs it.
type branch struct {
	next int // the step it goes to, or -1
	ends bitset.Set
}

// Compile makes a walkable key of a sound one. The catalog must be the one it
// was checked against.
func Compile(sound *couplets.Sound, catalog *taxa.Catalog) *Key {
	k := &Key{sound: sound, catalog: catalog, shared: sound.Shared(), stops: map[string]bool{}}
	for i := range sound.Couplets {
		k.steps = append(k.steps, k.compileStep(&sound.Couplets[i]))
	}
	return k
}

// start is the place of the first couplet asked.
func (k *Key) start() int { return k.sound.Place(k.sound.Start) }

func (k *Key) compileStep(couplet *couplets.Couplet) step {
	if couplet.Stop != "" {
		k.stops[couplet.Stop] = true
	}
	out := step{couplet: couplet}
	for j := range couplet.Leads {
		l := &couplet.Leads[j]
		b := branch{next: -1, ends: k.sound.EndsOf(l)}
		if l.Next != "" {
			b.next = k.sound.Place(l.Next)
		}
		out.leads = append(out.leads, b)
	}
	return out
}

// showing is the set of end points that can show one of the states. An unknown state can
// be any.
func (k *Key) showing(trait string, states []string) bitset.Set {
	set := bitset.New(len(k.sound.Ends))
	for i, t := range k.sound.Ends {
		shown := t.States(trait)
		if shown == nil && len(states) > 0 ||
			slices.ContainsFunc(shown, func(w taxa.Weight) bool { return slices.Contains(states, w.State) }) {
			set.Add(i)
		}
	}
	return set
}

// ID is the id of the key.
func (k *Key) ID() string { return k.sound.ID }

// Title is the title of the key.
func (k *Key) Title() string { return k.sound.Title }

// Catalog is the catalog whose taxa the key ends in.
func (k *Key) Catalog() *taxa.Catalog { return k.catalog }

// Ends are the taxa the key can end in, in the order of the file.
func (k *Key) Ends() []*taxa.Taxon { return k.sound.Ends }

// Sound is the key as it was read and checked; it must not be changed.
func (k *Key) Sound() *couplets.Sound { return k.sound }

// EndsIn reports whether the taxon is one of the end points.
func (k *Key) EndsIn(taxon string) bool {
	return slices.ContainsFunc(k.sound.Ends, func(t *taxa.Taxon) bool { return t.ID == taxon })
}

// Couplets are the couplets in the order of the file.
func (k *Key) Couplets() []couplets.Couplet { return k.sound.Couplets }

// PathsTo gives, for every end point by id, one list of leads ("1a", "4b") that
// ends there: of several, the one found first in file order, with as few leads
// as any.
func (k *Key) PathsTo() map[string][]string {
	type place struct {
		step int
		path []string
	}
	out := map[string][]string{}
	seen := make([]bool, len(k.steps))
	seen[k.start()] = true
	for queue := []place{{k.start(), nil}}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		s := k.steps[at.step]
		for j, b := range s.leads {
			path := append(slices.Clone(at.path), s.couplet.ID+s.couplet.Leads[j].Letter)
			if b.next < 0 {
				b.ends.Each(func(end int) {
					if id := k.sound.Ends[end].ID; out[id] == nil {
						out[id] = path
					}
				})
			} else if !seen[b.next] {
				seen[b.next] = true
				queue = append(queue, place{b.next, path})
			}
		}
	}
	return out
}
