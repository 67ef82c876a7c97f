package main

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/scoring"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
)

// library is the key, the taxa and the schemes that the flags name.
type library struct {
	*console
	keyFile, taxaDir, rulesDir string // empty for what is built in
}

// catalog is the embedded catalog, or that of --taxa.
func (l *library) catalog() (*taxa.Catalog, error) {
	if l.taxaDir == "" {
		return taxa.Embedded()
	}
	return taxa.Load(authored.DirFS(l.taxaDir), filepath.ToSlash(l.taxaDir))
}

// rules are the embedded schemes and protocols, or those of --rules.
func (l *library) rules(catalog *taxa.Catalog) (*scoring.Rules, error) {
	if l.rulesDir == "" {
		return scoring.EmbeddedRules(catalog)
	}
	return scoring.LoadRules(authored.DirFS(l.rulesDir), l.rulesDir, catalog)
}

// catalogAndRules are the catalog and the rules that go by it.
func (l *library) catalogAndRules() (*taxa.Catalog, *scoring.Rules, error) {
	catalog, err := l.catalog()
	if err != nil {
		return nil, nil, err
	}
	rules, err := l.rules(catalog)
	return catalog, rules, err
}

// key is the embedded key, or that of --key, ready to be walked.
func (l *library) key() (*key.Key, error) {
	catalog, err := l.catalog()
	if err != nil {
		return nil, err
	}
	sound, err := l.couplets(l.keyFile, catalog)
	if err != nil {
		return nil, err
	}
	return key.Compile(sound, catalog), nil
}

// builtIn is the file inside the program of the key with the name; that of the
// usual key when the name is empty. Built-in keys are named without an ending, a
// file of one's own with it: should both be there, "./" before the name or the
// ending asks for the file.
func builtIn(name string) (file string, ok bool) {
	if name == "" {
		return couplets.DefaultName, true
	}
	return name + ".toml", slices.Contains(builtInNames(), name)
}

// builtInNames are the names of the keys inside the program, sorted.
func builtInNames() []string {
	files, err := fs.Glob(couplets.Embedded(), "*.toml")
	if err != nil {
		return nil // the pattern is sound
	}
	for i, f := range files {
		files[i] = strings.TrimSuffix(f, ".toml")
	}
	return files
}

// noKey adds the names of the built-in keys where a name without an ending was
// found neither among them nor as a file.
func noKey(name string, err error) error {
	if !errors.Is(err, fs.ErrNotExist) || !plain.IsID(name) {
		return err
	}
	return fmt.Errorf("%s is neither a file nor a built-in key (those are %s)", plain.Quote(name), strings.Join(builtInNames(), ", "))
}

// splitPath parts a file's path into its folder and its name.
func splitPath(file string) (dir, name string) {
	dir, name = filepath.Split(file)
	if dir == "" {
		dir = "."
	}
	return dir, name
}
