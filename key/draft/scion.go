package draft

import (
	"bytes"
	"maps"

	"rillkey/taxa"
)

// Scion is a draft to be set into a key, in the place of some of its couplets.
type Scion struct {
	*Draft
	Catalog *taxa.Catalog
	Next    int                  // the first number that the key has not used
	Goes    map[*Node]string     // nodes from which a couplet of the key goes on as it is
	Number  map[*Node]string     // of couplets that are called something; the rest from Next on
	Words   map[*Node]*LeadWords // of couplets that are worded already
}

// Text is the tables of the couplets.
func (s *Scion) Text() []byte {
	w := &writer{Draft: s.Draft, head: Head{Catalog: s.Catalog}, number: maps.Clone(s.Number), goes: s.Goes, words: s.Words}
	maps.Copy(w.number, s.Goes)
	w.numberFrom(s.Next)
	w.couplets()
	return append(bytes.TrimLeft(w.b.Bytes(), "\n"), '\n')
}

// New are the nodes whose couplets have neither a number nor words of the key,
// from the top down.
func (s *Scion) New() []*Node {
	var out []*Node
	s.walk(s.Goes, func(n *Node, _ int) {
		if !n.End() && s.Words[n] == nil {
			out = append(out, n)
		}
	})
	return out
}
