package main

import (
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"rillkey/cmd/rillkey/region"
	"rillkey/couplets"
	"rillkey/key"
	"rillkey/scoring"
	"rillkey/scoring/account"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/folder"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// library is the key, the taxa and the schemes that the flags name.
type library struct {
	*console
	keyFile, taxaDir, rulesDir string // empty for what is built in
	regionName                 string // of --region

	header       visit.Header // of the visit that words go by; empty where there is none
	regionMissed bool         // somebody was told that its region is not known
	home         *region.OpenRegion
	zipped       *[]string        // the regions' ZIP files of the present folder, once looked for
	zipsTold     bool             // somebody was told that there are several
	told         []folder.Edition // editions of visits that somebody was told of
}

// catalog is the catalog as the region and the visit's protocol have it.
func (l *library) catalog() (*taxa.Catalog, error) {
	if l.header.Protocol == "" {
		return l.regionalCatalog()
	}
	catalog, _, err := l.catalogAndRules()
	return catalog, err
}

// regionalCatalog is the catalog with the names and classes of the region.
func (l *library) regionalCatalog() (*taxa.Catalog, error) {
	catalog, err := l.wholeCatalog()
	if err != nil {
		return nil, err
	}
	r, err := l.region(catalog)
	if err != nil {
		return nil, err
	}
	l.tellEdition(r)
	return catalog.InRegion(r), nil
}

// wholeCatalog is the embedded catalog, that of --taxa or of the region's folder, of
// no region.
func (l *library) wholeCatalog() (*taxa.Catalog, error) {
	if l.taxaDir == "" {
		f, err := l.folder()
		switch {
		case err != nil:
			return nil, err
		case f != nil:
			return f.Animals()
		}
		return taxa.Embedded()
	}
	return taxa.Load(authored.DirFS(l.taxaDir), filepath.ToSlash(l.taxaDir))
}

// rules are the embedded schemes and protocols, or those of --rules or of the
// region's folder, for the animals
// that the keys are for.
func (l *library) rules(catalog *taxa.Catalog) (*scoring.Rules, error) {
	rules, err := l.someRules(catalog)
	if err != nil {
		return nil, err
	}
	return rules.JudgedAmong(l.faunas(catalog)...), nil
}

func (l *library) someRules(catalog *taxa.Catalog) (*scoring.Rules, error) {
	if l.rulesDir == "" {
		f, err := l.folder()
		switch {
		case err != nil:
			return nil, err
		case f != nil:
			return f.Rules(catalog)
		}
		return scoring.EmbeddedRules(catalog)
	}
	return scoring.LoadRules(authored.DirFS(l.rulesDir), l.rulesDir, catalog)
}

// faunas are those of the key in use and of the keys that are built in, as far as
// they can be read: a visit's animals can be graded without any. Each is read when it is
// asked for.
func (l *library) faunas(catalog *taxa.Catalog) (out []func() *account.Fauna) {
	own := l.keyName(catalog.Region())
	others := slices.DeleteFunc(couplets.EmbeddedNames(), func(name string) bool { return name == own })
	for _, name := range append([]string{own}, others...) {
		out = append(out, sync.OnceValue(func() *account.Fauna {
			sound, err := l.couplets(name, catalog)
			if err != nil {
				return nil
			}
			return account.NewFauna(catalog, key.Compile(sound, catalog).Commonness())
		}))
	}
	return out
}

// catalogAndRules are the catalog and the rules that go by it.
func (l *library) catalogAndRules() (*taxa.Catalog, *scoring.Rules, error) {
	catalog, err := l.regionalCatalog()
	if err != nil {
		return nil, nil, err
	}
	rules, err := l.rules(catalog)
	if err != nil {
		return nil, nil, err
	}
	return worded(catalog, rules, l.header.Protocol), rules, nil
}

// key is the key of the region, or that of --key, ready to be walked.
func (l *library) key() (*key.Key, error) {
	sound, catalog, err := l.sound()
	if err != nil {
		return nil, err
	}
	return key.Compile(sound, catalog), nil
}

// sound is the key of the region, or that of --key, and the catalog it was read for.
func (l *library) sound() (*couplets.Sound, *taxa.Catalog, error) {
	catalog, err := l.catalog()
	if err != nil {
		return nil, nil, err
	}
	if catalog.Region() == nil && (l.keyFile == "" || l.keyFile == kindsKey) { // nobody said: it is the usual one
		catalog = catalog.InRegion(catalog.RegionNamed(usualRegion))
	}
	sound, err := l.couplets(l.keyName(catalog.Region()), catalog)
	return sound, catalog, err
}

// noKey adds the names of the built-in keys where a name without an ending was
// found neither among them nor as a file.
func noKey(name string, err error) error {
	if !errors.Is(err, fs.ErrNotExist) || !plain.IsID(name) {
		return err
	}
	return wording.Errorf("%s is neither a file nor a built-in key (those are %s)", plain.Quote(name),
		strings.Join(couplets.EmbeddedNames(), ", "))
}

// splitPath parts a file's path into its folder and its name.
func splitPath(file string) (dir, name string) {
	dir, name = filepath.Split(file)
	if dir == "" {
		dir = "."
	}
	return dir, name
}
