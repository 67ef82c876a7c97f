package visit

import (
	"cmp"
	"crypto/sha256"
	"encoding/binary"
	"slices"

	"rillkey/taxa/sorting"
)

// Draw is the order in which chance draws records for a second look: the ids of
// those that were keyed, whatever they were named. It is the same on every machine,
// and nobody can choose it, since it goes by a checksum of the ids. Records entered
// later fall in anywhere.
func (v *Visit) Draw() []string {
	var ids []string
	order := map[string]uint64{}
	for _, e := range v.Events {
		if b, ok := e.Body.(Identification); ok && len(b.Path) > 0 {
			sum := sha256.Sum256([]byte(v.Header.ID + " " + e.ID))
			order[e.ID] = binary.BigEndian.Uint64(sum[:])
			ids = append(ids, e.ID)
		}
	}
	standing := map[string]bool{}
	for _, r := range v.Tally().Records {
		standing[r.ID] = true
	}
	ids = slices.DeleteFunc(ids, func(id string) bool { return !standing[id] })
	sorting.Stable(ids, func(a, b string) int { return cmp.Or(cmp.Compare(order[a], order[b]), cmp.Compare(a, b)) })
	return slices.Compact(ids)
}

// drawn are the records of the draw up to the first that nobody looked at twice or
// corrected: as far as that, chance alone chose.
func drawn(draw []string, known map[string]bool) map[string]bool {
	out := map[string]bool{}
	for _, id := range draw {
		if !known[id] {
			break
		}
		out[id] = true
	}
	return out
}

// NextDrawn is the first record of the draw that nobody looked at twice, and whether
// there is one.
func NextDrawn(v *Visit) (Record, bool) {
	t := v.Tally()
	for _, id := range v.Draw() {
		if r, ok := t.Record(id); ok && len(r.Looks) == 0 {
			return r, true
		}
	}
	return Record{}, false
}
