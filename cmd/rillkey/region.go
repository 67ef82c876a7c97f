package main

import (
	"cmp"

	"rillkey/cmd/rillkey/region"
	"rillkey/couplets"
	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// regionHelp tells what --region does.
var regionHelp = wording.Mark("a region, whose names, classes, key and protocols hold: built in, or the `FOLDER` or file of your own " +
	"(else that of the visit, or the present folder's)")

// usualRegion is the region of the usual key.
const usualRegion = "north-america"

// region is the region that names and classes belong to: that of --region, of the
// present folder, of the visit at hand, of --key, or the only one that follows the visit's protocol, as
// older visits do not say theirs. Nil where nobody said.
func (l *library) region(catalog *taxa.Catalog) (*taxa.Region, error) {
	if r, err := l.regionMeant(catalog); r != nil || err != nil {
		return r, err
	}
	switch {
	case l.header.Region != "":
		r := catalog.RegionNamed(l.header.Region)
		if r == nil && !l.regionMissed {
			l.regionMissed = true
			words := wording.Sprintf("rillkey: the visit's region %s is not built in; name its folder or file with --region",
				plain.Quote(l.header.Region))
			if l.taxaDir != "" {
				words = wording.Sprintf("rillkey: the visit's region %s is not that of the animals in %s; names and classes are theirs",
					plain.Quote(l.header.Region), plain.Printable(l.taxaDir))
			}
			l.complain(words)
		}
		return r, nil
	case l.keyFile != "":
		return l.regionOfKey(catalog)
	}
	tellZips(l)
	if l.header.Protocol != "" {
		return taxa.OnlyRegion(catalog.Regions(), l.header.Protocol), nil
	}
	return nil, nil
}

// regionMeant is the region of --region, else that of the present folder, nil where
// there is neither.
func (l *library) regionMeant(catalog *taxa.Catalog) (*taxa.Region, error) {
	f, err := l.folder()
	switch {
	case err != nil:
		return nil, err
	case f != nil:
		return f.Region(catalog)
	case l.regionName == "":
		return nil, nil
	}
	if r := catalog.RegionNamed(l.regionName); r != nil {
		return r, nil
	}
	dir, name := splitPath(l.regionName)
	r, err := taxa.ReadRegion(authored.DirFS(dir), name, l.regionName, catalog)
	if err != nil && plain.IsID(l.regionName) {
		return nil, noSuchRegion(l.regionName, catalog, err)
	}
	return r, fileError(l.regionName, err)
}

func regionNames(catalog *taxa.Catalog) (out []string) {
	for _, r := range catalog.Regions() {
		out = append(out, r.ID)
	}
	return out
}

// regionOfKey is the region in which the key of --key is asked, nil where there is
// none or several.
func (l *library) regionOfKey(catalog *taxa.Catalog) (*taxa.Region, error) {
	id := l.keyFile
	if _, ok := couplets.EmbeddedFile(id); !ok {
		sound, err := l.couplets(l.keyFile, catalog)
		if err != nil {
			return nil, err
		}
		id = sound.ID
	}
	return taxa.OnlyRegionOfKey(catalog.Regions(), id), nil
}

// keyName is the key that is asked: that of --key, else that of the region.
func (l *library) keyName(r *taxa.Region) string {
	if r == nil || l.keyFile != "" || l.ownKey() {
		return l.keyFile
	}
	if _, ok := couplets.EmbeddedFile(r.Key); ok {
		return r.Key
	}
	return ""
}

// worded is the catalog with the class words of the visit's protocol, so that no
// animal is called tolerant in one place and sensitive in another; where the
// protocol has none they are the region's.
func worded(catalog *taxa.Catalog, rules *scoring.Rules, protocol string) *taxa.Catalog {
	title, class, ok := rules.Classes(protocol)
	if !ok {
		return catalog
	}
	return catalog.Classed(title, class)
}

// follow makes a visit the one whose region and protocol words go by.
func (a *app) follow(v *visit.Visit) {
	a.library.header = v.Header
	if f, err := a.library.folder(); f == nil && err == nil && a.regionName == "" {
		wording.Use(region.BuiltInWords(a.library.builtInRegion())) // the present folder's region is not the visit's
	}
}

// followAtHand follows the visit of --visit, else the one unfinished visit, else the
// only one of the present folder. Nothing is said where there is none, or where it
// cannot be read: what comes next says so.
func (a *app) followAtHand() {
	files := namesHere()
	if a.visitFile != "" {
		files = []string{a.visitFile}
	}
	var open, all []*visit.Visit
	for _, file := range files {
		if v, err := a.lookAt(file); err == nil {
			all = append(all, v)
			if !v.Finished() {
				open = append(open, v)
			}
		}
	}
	switch {
	case len(open) == 1:
		a.follow(open[0])
	case len(all) == 1:
		a.follow(all[0])
	}
}

// regionTitle names a region for people.
func regionTitle(r *taxa.Region) string { return plain.Printable(cmp.Or(r.Title, r.ID)) }
