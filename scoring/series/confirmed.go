package series

import (
	"fmt"

	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/folder"
	"rillkey/taxa/wording"
)

// ConfirmedQuery says which animals count whose right name became known.
type ConfirmedQuery struct {
	Catalog *taxa.Catalog // of the key: animals that it does not hold are passed over
	Key     string        // fingerprint of the key; visits that were begun with another are left out
	Keyed   bool          // only animals whose answers are kept

	// PassesOver tells of which items a visit that cannot be read is left out, where
	// others end the reading; nil for none.
	PassesOver func(name string) bool
	// Named tells which items somebody named one by one: the same visit in two of them is
	// a slip. Nil for none.
	Named func(name string) bool
}

// ConfirmedCount is how many animals were gone through, and what was left out.
type ConfirmedCount struct {
	Visits  int      `json:"visits"`
	Animals int      `json:"animals"`  // records whose right name is known
	Drawn   int      `json:"drawn"`    // of them, those that chance drew
	LeftOut []string `json:"left_out"` // what could not be read with this key, and why
	Unread  bool     `json:"-"`        // something that could not be read is left out
}

// SameVisitError says that two items that somebody named are one visit.
type SameVisitError struct{ First, Second string }

func (e *SameVisitError) Error() string {
	return wording.Sprintf("%s and %s hold the same visit; name it once", e.First, e.Second)
}

// EachConfirmed calls see with every record of some visits whose right name is known, its
// names by the ids that they have in the catalog now.
// Paths name couplets by their number, so visits that were begun with another key are left
// out whole, and so is a record that see refuses. Several items may hold one visit, and
// each of its records counts once.
func EachConfirmed(visits Source, q ConfirmedQuery, see func(visit.Confirmed) error) (*ConfirmedCount, error) {
	e := &eachConfirmed{ConfirmedQuery: q, see: see, seen: map[string]string{}, counted: map[[2]string]bool{}}
	e.count.Visits = visits.Len()
	var failed error
	ended := visits.Each(func(i Item) bool {
		failed = e.item(i)
		return failed == nil
	})
	if failed == nil {
		failed = ended
	}
	return &e.count, failed
}

type eachConfirmed struct {
	ConfirmedQuery
	see     func(visit.Confirmed) error
	count   ConfirmedCount
	seen    map[string]string  // visits by id, and their items
	counted map[[2]string]bool // records by visit and id
}

func (e *eachConfirmed) leaveOut(why string) { e.count.LeftOut = append(e.count.LeftOut, why) }

// item goes through one visit; an error ends all.
func (e *eachConfirmed) item(i Item) error {
	v, err := i.Read()
	switch {
	case err != nil && e.PassesOver != nil && e.PassesOver(i.Name):
		e.leaveOut(wording.Reason(err).Error())
		e.count.Unread = true
		e.count.Visits--
		return nil
	case err != nil:
		return err
	}
	before, twice := e.seen[v.Header.ID]
	switch {
	case twice && e.Named != nil && e.Named(i.Name):
		return &SameVisitError{before, i.Name}
	case twice:
		e.leaveOut(wording.Sprintf("%s: %s is the same visit; each of its animals is counted once", i.Name, before))
	default:
		e.seen[v.Header.ID] = i.Name
	}
	if e.otherKey(v) {
		e.leaveOut(wording.Sprintf("%s: it was begun with another key; take that one for it", v.Header.ID))
		return nil
	}
	for _, c := range v.Confirmed() {
		e.record(v, c)
	}
	return nil
}

// otherKey reports whether a visit was begun with another key than the one in use: by the
// fingerprint that it keeps, else by its region.
func (e *eachConfirmed) otherKey(v *visit.Visit) bool {
	if was := folder.Edition(v.Header.Edition).Key(); was != "" {
		return was != e.Key
	}
	r := e.Catalog.Region()
	return r != nil && v.Header.Region != "" && v.Header.Region != r.ID
}

func (e *eachConfirmed) record(v *visit.Visit, c visit.Confirmed) {
	id := [2]string{v.Header.ID, c.Record}
	c.Taxon, c.Named = e.Catalog.Current(c.Taxon), e.Catalog.Current(c.Named)
	if e.Catalog.Taxon(c.Taxon) == nil || e.counted[id] {
		return
	}
	e.counted[id] = true
	if e.Keyed && len(c.Path) == 0 {
		return
	}
	if err := e.see(c); err != nil {
		e.leaveOut(fmt.Sprintf("%s %s: %v", v.Header.ID, c.Record, wording.Reason(err)))
		return
	}
	if e.count.Animals++; c.Drawn {
		e.count.Drawn++
	}
}
