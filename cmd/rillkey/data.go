package main

import (
	"os"
	"path/filepath"

	"rillkey/key"
	"rillkey/taxa"
)

// catalog is the embedded catalog, or that of --taxa.
func (a *app) catalog() (*taxa.Catalog, error) {
	if a.taxaDir == "" {
		return taxa.Embedded()
	}
	return taxa.Load(os.DirFS(a.taxaDir), filepath.ToSlash(a.taxaDir))
}

// key is the embedded key, or that of --key, ready to be walked.
func (a *app) key() (*key.Key, error) {
	catalog, err := a.catalog()
	if err != nil {
		return nil, err
	}
	sound, err := a.couplets(a.keyFile, catalog)
	if err != nil {
		return nil, err
	}
	return key.Compile(sound, catalog), nil
}

// splitPath parts a file's path into its folder and its name.
func splitPath(file string) (dir, name string) {
	dir, name = filepath.Split(file)
	if dir == "" {
		dir = "."
	}
	return dir, name
}
