package publish

import (
	"sync"

	"rillkey/scoring/export"
	"rillkey/scoring/visit"
)

// givenVisits are visits as they may be given away, without people and words of their own.
// Pages, tables and archives show the same ones: what there is room for is read, and its
// entries replayed, once. It is safe for many goroutines.
type givenVisits struct {
	read func(name string) (*visit.Visit, error)

	mu   sync.Mutex // guards what follows
	kept map[string]*keptVisit
	room int // how many entries more are kept
}

// mostKept bounds the entries that are kept. Each takes some 7 kB of memory at its largest,
// with what waits to be swept.
const mostKept = 50_000

type keptVisit struct {
	mu    sync.Mutex // held by whoever reads it
	visit *visit.Visit
}

func newGivenVisits(read func(name string) (*visit.Visit, error)) *givenVisits {
	return &givenVisits{read: read, kept: map[string]*keptVisit{}, room: mostKept}
}

func (g *givenVisits) entry(name string) *keptVisit {
	g.mu.Lock()
	defer g.mu.Unlock()
	k := g.kept[name]
	if k == nil {
		k = &keptVisit{}
		g.kept[name] = k
	}
	return k
}

// keep keeps a visit that [discreet] made, if there is room, with its tally.
func (g *givenVisits) keep(k *keptVisit, v *visit.Visit) {
	v.Tally()
	g.mu.Lock()
	defer g.mu.Unlock()
	if n := len(v.Events); n <= g.room {
		g.room -= n
		k.visit = v
	}
}

// discreet is a visit without people and words of their own and, where it obscures its
// site, without its name and exact place.
func discreet(v *visit.Visit) *visit.Visit { return export.Discretion{Wordless: true}.Apply(v) }

// learnt keeps a visit that was read, and gives it as it may be given away.
func (g *givenVisits) learnt(name string, read *visit.Visit) *visit.Visit {
	k, v := g.entry(name), discreet(read)
	k.mu.Lock()
	defer k.mu.Unlock()
	g.keep(k, v)
	return v
}

// of is the visit with a name, to the site.
func (g *givenVisits) of(name string, s *site) (*visit.Visit, error) {
	v, err := g.masked(name, s.obscured)
	if err != nil || !s.obscured {
		return v, err
	}
	v = v.Placed(s.name, s.spot)
	v.File = "the file"
	return v, nil
}

func (g *givenVisits) masked(name string, obscured bool) (*visit.Visit, error) {
	k := g.entry(name)
	k.mu.Lock()
	defer k.mu.Unlock()
	if v := k.visit; v != nil && (v.Obscured() || !obscured) {
		return v, nil
	}
	v, err := g.read(name)
	if err != nil {
		return nil, err
	}
	if obscured {
		v.Obscure()
	}
	v = discreet(v)
	g.keep(k, v)
	return v, nil
}
