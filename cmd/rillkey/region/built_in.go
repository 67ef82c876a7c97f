//go:build !js

package region

import (
	"io/fs"
	"path"

	"rillkey/couplets"
	"rillkey/scoring"
	"rillkey/taxa"
	"rillkey/taxa/authored"
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
	schemes, err := schemesOf(r)
	if err != nil {
		return nil, err
	}
	animals, err := fs.Glob(taxa.EmbeddedFiles(), "*.toml")
	if err != nil {
		return nil, err
	}
	parts := []folder.RegionFile{{Name: folder.HeadFile, FS: taxa.EmbeddedFiles(), Path: "regions/" + id + ".toml"},
		{Name: folder.KeyFile, FS: couplets.Embedded(), Path: r.Key + ".toml"}}
	for _, name := range animals {
		parts = append(parts, folder.RegionFile{Name: path.Join(folder.Taxa, name), FS: taxa.EmbeddedFiles(), Path: name})
	}
	for _, id := range r.Protocols {
		parts = append(parts, rulePart(folder.Protocols, id))
	}
	for _, id := range schemes {
		parts = append(parts, rulePart(folder.Schemes, id))
	}
	return folder.FromParts(id, parts), nil
}

func rulePart(dir, id string) folder.RegionFile {
	name := path.Join(dir, id+".toml")
	return folder.RegionFile{Name: name, FS: scoring.EmbeddedFiles(), Path: name}
}

// schemesOf are the schemes that the region's protocols name, and those that these rest on.
// Their files say so: who asks which files there are need not read them as rules, which takes
// ten times as long.
func schemesOf(r *taxa.Region) (out []string, err error) {
	met := map[string]bool{}
	var add func(ids []string)
	add = func(ids []string) {
		for _, id := range ids {
			if met[id] || err != nil {
				continue
			}
			met[id] = true
			out = append(out, id)
			add(named(&err, folder.Schemes, id, "scheme", "kinds_from", "read_with"))
		}
	}
	for _, id := range r.Protocols {
		add(named(&err, folder.Protocols, id, "protocol", "schemes", "beside", "watch"))
	}
	return out, err
}

// named are the ids that fields of a built-in rule's table name.
func named(failed *error, dir, id, table string, fields ...string) (ids []string) {
	part := rulePart(dir, id)
	top, err := authored.ReadTable(part.FS, part.Path, part.Name, &authored.Report{})
	if err != nil {
		*failed = err
		return nil
	}
	if top == nil || !top.IsTable(table) {
		return nil
	}
	for _, field := range fields {
		ids = append(ids, top.Sub(table).Strs(field)...)
	}
	return ids
}
