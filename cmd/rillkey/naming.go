package main

import (
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// taxonNamed is the taxon that a name means to the people of the catalog's region,
// and says so where it was misspelt. One that is only like others is refused.
func (c *console) taxonNamed(catalog *taxa.Catalog, name string) (*taxa.Taxon, error) {
	f := catalog.Find(name)
	if err := notFound(name, f); err != nil {
		return nil, err
	}
	if !f.Exact {
		c.complain(wording.Sprintf("rillkey: %q is taken for %s", plain.Printable(name), show.BothNames(f.Taxon)))
	}
	return f.Taxon, nil
}

// mostMeant is how many taxa are proposed for a name that is not plain.
const mostMeant = 4

// notFound says why a name finds no taxon, and what may be meant; nil where it
// finds one.
func notFound(name string, f taxa.Lookup) error {
	switch {
	case f.Taxon != nil:
		return nil
	case len(f.Similar) == 0:
		return misused("no creature here has a name like %q; try a shorter part of the name", name)
	}
	near := f.Similar[:min(mostMeant, len(f.Similar))]
	meant := make([]string, len(near))
	for i, m := range near {
		meant[i] = show.BothNames(m.Taxon)
	}
	if near[0].Exact {
		return misused("%q is the name of several: %s; give the scientific name, or say --region", name,
			strings.Join(meant, "; "))
	}
	return misused("no creature here is called %q; did you mean %s?", name, strings.Join(meant, ", or "))
}
