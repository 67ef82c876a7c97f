package practice

import "rillkey/taxa"

// Called is the kind of the course that a name means: what the catalog takes it for, or
// the only kind beneath that, or the kind that is called just so where a group goes by
// the name of one of its kinds too. It is nil where the name means several kinds, or none.
func (c *Course) Called(name string) *taxa.Taxon {
	found := c.key.Catalog().Find(name).Taxon
	if found != nil && c.Common(found.ID) > 0 {
		return found
	}
	for _, k := range c.kinds {
		if taxa.SameName(k.Name(), name) {
			return k
		}
	}
	if found != nil {
		if below := c.Under(found); len(below) == 1 {
			return below[0]
		}
	}
	return nil
}

// Under are the kinds of the course beneath a taxon, in the order of the key.
func (c *Course) Under(t *taxa.Taxon) (out []*taxa.Taxon) {
	for _, k := range c.kinds {
		if c.key.Catalog().IsUnder(k.ID, t.ID) {
			out = append(out, k)
		}
	}
	return out
}
