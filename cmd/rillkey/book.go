package main

import (
	"rillkey/scoring"
	"rillkey/scoring/network"
	"rillkey/taxa"
	"rillkey/taxa/folder"
)

// book is by what the visits of a network are graded now, with the fingerprint of the
// animals, keys and regions in use; the rules have fingerprints of their own.
func (a *app) book(catalog *taxa.Catalog, rules *scoring.Rules) (network.Book, error) {
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
	mark, err := folder.Fingerprints(all, folder.KeyFile, folder.Taxa, folder.HeadFile)
	return network.Book{Rules: rules, Mark: mark, Invaders: network.InvadersIn(catalog)}, err
}
