//go:build !js

package region

import (
	"io/fs"
	"path"

	"rillkey/couplets"
	"rillkey/scoring"
	"rillkey/taxa"
	"rillkey/taxa/folder"
)

// BuiltInFolder is a region of the program as a folder would hold it: with all animals, its
// own key and protocols, and the schemes that those need. The error is fs.ErrNotExist where
// no region has the id.
func BuiltInFolder(id string) (*folder.Folder, error) {
	catalog, err := taxa.Embedded()
	if err != nil {
		return nil, err
	}
	r := catalog.RegionNamed(id)
	if r == nil {
		return nil, fs.ErrNotExist
	}
	rules, err := scoring.EmbeddedRules(catalog)
	if err != nil {
		return nil, err
	}
	animals, err := fs.Glob(taxa.EmbeddedFiles(), "*.toml")
	if err != nil {
		return nil, err
	}
	parts := []folder.RegionFile{{Name: folder.HeadFile, From: taxa.EmbeddedFiles(), Path: "regions/" + id + ".toml"},
		{Name: folder.KeyFile, From: couplets.Embedded(), Path: r.Key + ".toml"}}
	for _, name := range animals {
		parts = append(parts, folder.RegionFile{Name: path.Join(folder.Taxa, name), From: taxa.EmbeddedFiles(), Path: name})
	}
	for _, id := range r.Protocols {
		parts = append(parts, rulePart(folder.Protocols, id))
	}
	for _, id := range schemesOf(r, rules) {
		parts = append(parts, rulePart(folder.Schemes, id))
	}
	return folder.FromParts(id, parts), nil
}

func rulePart(dir, id string) folder.RegionFile {
	name := path.Join(dir, id+".toml")
	return folder.RegionFile{Name: name, From: scoring.EmbeddedFiles(), Path: name}
}

// schemesOf are the schemes that the region's protocols name, and those that these
// rest on.
func schemesOf(r *taxa.Region, rules *scoring.Rules) (out []string) {
	met := map[string]bool{"": true}
	var add func(ids ...string)
	add = func(ids ...string) {
		for _, id := range ids {
			if met[id] {
				continue
			}
			met[id] = true
			out = append(out, id)
			add(rules.Scheme(id).KindsFrom, rules.Scheme(id).ReadWith)
		}
	}
	for _, id := range r.Protocols {
		if p, err := rules.Protocol(id); err == nil {
			add(p.Schemes...)
			add(p.Beside...)
			add(p.Watch)
		}
	}
	return out
}
