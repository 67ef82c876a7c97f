package main

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"

	"rillkey/scoring"
	"rillkey/scoring/network"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/folder"
)

// book is by what the visits of a network are graded now, with the fingerprint of the
// animals, keys and regions in use; the rules have fingerprints of their own.
func (a *app) book(catalog *taxa.Catalog, rules *scoring.Rules) (network.Book, error) {
	h := sha256.New()
	own, err := a.inUse(catalog.Region())
	if err != nil {
		return network.Book{}, err
	}
	all := []*folder.Folder{own}
	for _, id := range regionNames(catalog) {
		if f, err := builtInFolder(id); err == nil { // one of a folder is in use by itself
			all = append(all, f)
		}
	}
	for _, f := range all {
		mark, err := f.Fingerprint(folder.KeyFile, folder.Taxa, folder.HeadFile)
		if err != nil {
			return network.Book{}, err
		}
		fmt.Fprintln(h, mark)
	}
	return network.Book{Rules: rules, Mark: hex.EncodeToString(h.Sum(nil))[:12], Invaders: invadersIn(catalog)}, nil
}

// invadersIn finds the animals that do not belong in a visit's own region.
func invadersIn(catalog *taxa.Catalog) func(*visit.Visit, []string) []string {
	in := map[string]*taxa.Catalog{}
	for _, r := range catalog.Regions() {
		in[r.ID] = catalog.InRegion(r)
	}
	return func(v *visit.Visit, found []string) (out []string) {
		c := catalog
		if catalog.Region() == nil {
			if r := regionOfVisit(catalog, v.Header); r != nil {
				c = cmp.Or(in[r.ID], catalog)
			}
		}
		for _, id := range found {
			if t := c.Taxon(c.Current(id)); t != nil && t.Invader != nil {
				out = append(out, t.ID)
			}
		}
		slices.Sort(out)
		return slices.Compact(out)
	}
}
