package scoring

import (
	"rillkey/scoring/scheme"
	"rillkey/taxa"
)

// UsualProtocol is the id of the protocol that is followed where neither the region nor
// anybody names one.
const UsualProtocol = "riffle-three"

// ProtocolFor is the protocol that is followed in a region where nobody names one: the
// region's first, else the usual one, else the first there is; nil where there is none. The
// region may be nil. The error says that the one that the region names is not there.
func (r *Rules) ProtocolFor(region *taxa.Region) (*scheme.Protocol, error) {
	if id := region.UsualProtocol(); id != "" {
		return r.Protocol(id)
	}
	all := r.Protocols()
	for _, p := range all {
		if p.ID == UsualProtocol {
			return p, nil
		}
	}
	if len(all) == 0 {
		return nil, nil
	}
	return all[0], nil
}
