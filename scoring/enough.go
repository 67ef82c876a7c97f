package scoring

import (
	"slices"

	"rillkey/scoring/scheme"
)

// Enough are the ids of the taxa of the catalog of which a protocol needs no narrower
// name, in the order of the catalog: each scheme of its grade, and the share that it
// watches, puts all of such a taxon in one kind, or counts none of it. The
// figures beside the grade may go by families and are not asked. The error says that there is no such protocol.
func (r *Rules) Enough(protocol string) ([]string, error) {
	p, err := r.Protocol(protocol)
	if err != nil {
		return nil, err
	}
	ids := slices.Clone(p.Schemes)
	if p.Watch != "" {
		ids = append(ids, p.Watch)
	}
	var out []string
	for _, t := range r.catalog.Taxa() {
		if !slices.ContainsFunc(ids, func(id string) bool { return !settled(r.Scheme(id).Place(t.ID)) }) {
			out = append(out, t.ID)
		}
	}
	return out, nil
}

// settled reports whether a place is no question of a narrower name.
func settled(p scheme.Placement) bool { return p.Why == "" || p.Why == scheme.NotScored }
