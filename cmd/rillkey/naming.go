package main

import (
	"fmt"
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/taxa"
	"rillkey/taxa/plain"
)

// nameRegion is the one whose names people use, which is that of the key they asked
// for. Without one it is empty: a name that means different animals in different
// places is then asked about.
func (l *library) nameRegion(catalog *taxa.Catalog) (string, error) {
	if l.keyFile == "" {
		return "", nil
	}
	sound, err := l.couplets(l.keyFile, catalog)
	if err != nil {
		return "", err
	}
	return sound.ID, nil
}

// taxonMeant is the taxon that a name means to the people of the region.
func (l *library) taxonMeant(catalog *taxa.Catalog, name string) (*taxa.Taxon, error) {
	region, err := l.nameRegion(catalog)
	if err != nil {
		return nil, err
	}
	return l.taxonNamed(catalog, region, name)
}

// taxonNamed is the taxon that a name means in a region, and says so where it was
// misspelt. One that is only like others is refused.
func (l *library) taxonNamed(catalog *taxa.Catalog, region, name string) (*taxa.Taxon, error) {
	f := catalog.Find(name, region)
	if err := notFound(name, f); err != nil {
		return nil, err
	}
	if !f.Exact {
		l.complain(fmt.Sprintf("rillkey: %q is taken for %s", plain.Printable(name), show.BothNames(f.Taxon)))
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
	case len(f.Near) == 0:
		return misused("no creature here has a name like %q; look it up with 'rillkey taxa'", name)
	}
	near := f.Near[:min(mostMeant, len(f.Near))]
	meant := make([]string, len(near))
	for i, m := range near {
		meant[i] = show.BothNames(m.Taxon)
	}
	if near[0].Exact {
		return misused("%q is the name of several: %s; give the scientific name, or --key with the key of your region", name,
			strings.Join(meant, "; "))
	}
	return misused("no creature here is called %q; did you mean %s?", name, strings.Join(meant, ", or "))
}
