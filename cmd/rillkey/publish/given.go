package publish

import (
	"sync"

	"rillkey/scoring/export"
	"rillkey/scoring/visit"
	"rillkey/scoring/wholefile"
)

// givenVisits are visits as they may be given away, without people and words of their own.
// Pages, tables and archives show the same ones: what there is room for stays in memory,
// the entries of the others lie in a file, so that each is read, and its entries replayed,
// once. It is safe for many goroutines.
type givenVisits struct {
	read func(name string) (*visit.Visit, error)
	dir  string // where that file is made

	mu    sync.Mutex // guards what follows
	kept  map[string]*keptVisit
	room  int                    // how many entries more are kept in memory
	spill *wholefile.ScratchFile // nil before the first visit for which there is none
	end   int64                  // of the spill
	full  bool                   // nothing more can be written to it: visits are read again
}

// mostKept bounds the entries that are kept in memory. Each takes some 7 kB of it at its
// largest, with what waits to be swept.
var mostKept = 25_000

type keptVisit struct {
	mu      sync.Mutex   // held by whoever reads it
	visit   *visit.Visit // nil where there was no room
	spilled *visit.Spilled
	offset  int64 // of its text in the spill
	size    int
}

func newGivenVisits(o Options) *givenVisits {
	return &givenVisits{read: o.Visits.Read, dir: o.scratch(), kept: map[string]*keptVisit{}, room: mostKept}
}

// Close removes the file.
func (g *givenVisits) Close() {
	if g.spill != nil {
		g.spill.Close()
	}
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

// keep keeps a visit that [discreet] made, with its tally, in memory or in the file.
func (g *givenVisits) keep(k *keptVisit, v *visit.Visit) {
	v.Tally()
	k.visit, k.spilled = nil, nil
	if g.hasRoom(len(v.Events)) {
		k.visit = v
		return
	}
	spilled, text := visit.Spill(v)
	if at, ok := g.write(text); ok {
		k.spilled, k.offset, k.size = spilled, at, len(text)
	}
}

func (g *givenVisits) hasRoom(entries int) bool {
	g.mu.Lock()
	defer g.mu.Unlock()
	if entries > g.room {
		return false
	}
	g.room -= entries
	return true
}

// write puts a text into the file and says where; false where that cannot be.
func (g *givenVisits) write(text []byte) (at int64, ok bool) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.full {
		return 0, false
	}
	var err error
	if g.spill == nil {
		g.spill, err = wholefile.Scratch(g.dir)
	}
	if err == nil {
		_, err = g.spill.WriteAt(text, g.end)
	}
	if g.full = err != nil; g.full {
		return 0, false
	}
	at, g.end = g.end, g.end+int64(len(text))
	return at, true
}

// back is a visit that was kept; nil where it is to be read again.
func (g *givenVisits) back(k *keptVisit) *visit.Visit {
	if k.visit != nil || k.spilled == nil {
		return k.visit
	}
	text := make([]byte, k.size)
	if _, err := g.spill.ReadAt(text, k.offset); err != nil {
		return nil
	}
	v, err := k.spilled.Visit(text)
	if err != nil {
		return nil
	}
	return v
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

// visitFor is the visit with a name, to the site.
func (g *givenVisits) visitFor(name string, s *site) (*visit.Visit, error) {
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
	v := g.back(k)
	switch {
	case v != nil && (v.Obscured() || !obscured):
		return v, nil
	case v != nil && !export.LabelsNameSite(v):
		return visit.Withhold(v), nil // all else that would tell the place is put in its place
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
