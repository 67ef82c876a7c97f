package scheme

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
)

// Mark tells the rules by which a protocol's main index and the share that it watches are
// worked out from all others: 16 digits, made of the files of the protocol and of the schemes
// that these rest on. It is the same for all protocols that there are not.
func (r *Rulebook) Mark(protocol string) string {
	h := sha256.New()
	if p, err := r.Protocol(protocol); err == nil {
		fmt.Fprintln(h, "protocol", p.ID, p.mark())
		for _, s := range r.restingOn([]string{p.Schemes[0], p.Watch}) {
			fmt.Fprintln(h, "scheme", s.ID, s.mark())
		}
	}
	return hex.EncodeToString(h.Sum(nil))[:16]
}

// restingOn are the schemes with some ids and all that they take something from.
func (r *Rulebook) restingOn(ids []string) (out []*Scheme) {
	for i := 0; i < len(ids); i++ {
		s := r.Scheme(ids[i])
		if s == nil || slices.Contains(out, s) {
			continue
		}
		out = append(out, s)
		ids = append(ids, s.KindsFrom, s.ReadWith)
	}
	return out
}
