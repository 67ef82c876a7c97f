package trim

import (
	"rillkey/couplets"
)

// ReplaceCouplets puts text, the tables of new couplets, in the place of some couplets
// of a key; it goes where the first of them stands. The rest stays byte for byte.
func ReplaceCouplets(data []byte, s *couplets.Sound, ids []string, text []byte) ([]byte, error) {
	t := &trimmer{text: string(data), sound: s}
	t.index()
	all := t.parts()
	for i, id := range ids {
		c := s.Couplet(id)
		b, ok := t.own(c.Pos, "couplet."+id, all)
		if !ok {
			return nil, unusual(c.Pos, "couplet "+id)
		}
		if i == 0 {
			t.replace(b.start, b.end, string(text))
		} else {
			t.cut(b.start, b.end)
		}
		for j := range c.Leads {
			if lb, ok := t.own(c.Leads[j].Pos, "couplet."+id+"."+c.Leads[j].Letter, all); ok {
				t.cut(lb.start, lb.end)
			}
		}
	}
	return t.apply(), nil
}
