package practice

import "rillkey/taxa"

// Called is the kind of the course that a name means: what the catalog takes it for, or
// the only kind beneath that, or the kind that is called just so where a group goes by
// the name of one of its kinds too, or the one that what the name means belongs to. It is
// nil where the name means several kinds, or none.
func (c *Course) Called(name string) *taxa.Taxon {
	found := c.key.Catalog().Meant(name)
	if found.Taxon != nil && c.Common(found.Taxon.ID) > 0 {
		return found.Taxon
	}
	for _, k := range c.kinds {
		if taxa.EqualNames(k.Name(), name) {
			return k
		}
	}
	if found.Taxon == nil {
		return nil
	}
	if below := c.KindsUnder(found.Taxon, found.Stage); len(below) == 1 {
		return below[0]
	}
	for _, above := range c.key.Catalog().Ancestors(found.Taxon.ID) {
		if c.Common(above.ID) > 0 {
			return above
		}
	}
	return nil
}

// KindsUnder are the kinds of the course beneath a taxon, in the order of the key: those of a
// stage of life, where it is not empty.
func (c *Course) KindsUnder(t *taxa.Taxon, stage string) (out []*taxa.Taxon) {
	for _, k := range c.kinds {
		if c.key.Catalog().IsUnder(k.ID, t.ID) && (stage == "" || k.Stage == "" || k.Stage == stage) {
			out = append(out, k)
		}
	}
	return out
}
