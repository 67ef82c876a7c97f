package main

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"

	"rillkey/scoring"
	"rillkey/scoring/network"
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
	return network.Book{Rules: rules, Mark: hex.EncodeToString(h.Sum(nil))[:12], Invaders: network.InvadersIn(catalog)}, nil
}
