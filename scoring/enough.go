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
	ids, err := r.graded(protocol)
	if err != nil {
		return nil, err
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
func settled(p scheme.Placement) bool { return p.Why == "" || p.Why == scheme.WhyNotScored }

// Suffice reports whether names of these taxa are all that a protocol asks for: no
// scheme of its grade counts some animals of one otherwise than others. The error says
// that there is no such protocol.
func (r *Rules) Suffice(protocol string, taxa []string) (bool, error) {
	ids, err := r.graded(protocol)
	if err != nil {
		return false, err
	}
	return !slices.ContainsFunc(taxa, func(t string) bool {
		return slices.ContainsFunc(ids, func(id string) bool { return r.Scheme(id).Place(t).Why == scheme.WhyAmbiguous })
	}), nil
}

// graded are the ids of the schemes of a protocol's grade, and of the share that it
// watches.
func (r *Rules) graded(protocol string) ([]string, error) {
	p, err := r.Protocol(protocol)
	if err != nil {
		return nil, err
	}
	ids := slices.Clone(p.Schemes)
	if p.Watch != "" {
		ids = append(ids, p.Watch)
	}
	return ids, nil
}
