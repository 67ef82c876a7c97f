//go:build !js

package region

import (
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"

	"rillkey/couplets"
	"rillkey/couplets/rules"
	"rillkey/scoring"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/authored/merge"
	"rillkey/taxa/folder"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// BuiltInIDs are the ids of the regions that are built in.
func BuiltInIDs() (ids []string) {
	catalog, err := taxa.Embedded()
	if err != nil {
		return nil
	}
	for _, r := range catalog.Regions() {
		ids = append(ids, r.ID)
	}
	return ids
}

// CheckedRegion is what a check of a region has found.
type CheckedRegion struct {
	// KeyFile is the key that was checked, empty where the region brings none; counts are
	// 0 where it has errors.
	KeyFile          string
	Couplets, Ends   int
	Errors, Warnings authored.Findings
	Note             string // what was not checked, and why
}

// regionCheck is a check of a region at work.
type regionCheck struct {
	*CheckedRegion
	folder  *OpenRegion
	catalog *taxa.Catalog
	region  *taxa.Region
	head    func() *authored.Table // of region.toml, for places in it; nil where it cannot be read
}

// Check finds everything that is wrong with a region, what others rest on first.
func (f *OpenRegion) Check() *CheckedRegion {
	c := &regionCheck{CheckedRegion: &CheckedRegion{}, folder: f}
	c.head = sync.OnceValue(c.readHead)
	var err error
	if c.misnamed(); !c.hasAnimals() {
		err = authored.Findings{} // told already
	} else if c.catalog, err = f.Animals(); err != nil {
		c.animals(err)
	}
	if err != nil {
		c.Note = wording.Text("The animals come first: region.toml, the key and the schemes are checked once those are sound.")
		return c.CheckedRegion
	}
	if c.region, err = f.Region(c.catalog); err != nil {
		c.wrong(folder.HeadFile, err)
	}
	c.Warnings = append(c.Warnings, c.catalog.Namesakes(c.region)...)
	c.words()
	c.key()
	for _, t := range c.catalog.Taxa() {
		if t.Photo != nil {
			if _, err := t.Photo.Small(); err != nil {
				c.wrong(folder.Taxa, err)
			}
		}
	}
	rules, err := f.Rules(c.catalog)
	if lacks := c.halfRules(); lacks != "" {
		c.Errors = append(c.Errors, authored.Finding{Pos: authored.Pos{File: c.folder.Join(lacks)}, Rule: "half-rules",
			Message: wording.Text("this folder holds no .toml file: schemes need a protocol, and protocols a scheme"),
			Hint:    wording.Sprintf("put one there, or take the files of %s away; without both there is no grade", otherRules(lacks))})
	} else if err != nil {
		c.wrong(folder.Schemes, err)
	} else if c.region != nil {
		c.protocols(rules)
		c.schemes(rules)
	}
	c.leftovers()
	return c.CheckedRegion
}

// misnamed finds files that would be read under another name: what is missing follows
// from it.
func (c *regionCheck) misnamed() {
	for _, m := range c.folder.Misnamed() {
		message := wording.Sprintf("it is not read: only %s would be", m.Should)
		hint := wording.Sprintf("call it %s, or take it away", m.Should)
		switch {
		case path.Dir(m.Name) == m.Should:
			message = wording.Sprintf("it is not read: the files of %s lie in no further folder", m.Should)
			hint = wording.Sprintf("put its files into %s, or take it away", m.Should)
		case path.Dir(m.Name) != path.Dir(m.Should):
			hint = wording.Sprintf("put it into the folder %s, or take it away", path.Dir(m.Should))
		}
		c.Errors = append(c.Errors, authored.Finding{Pos: authored.Pos{File: c.folder.Join(m.Name)}, Rule: "misnamed",
			Message: message, Hint: hint})
	}
}

// hasAnimals reports whether the animals can be looked for: they cannot where the folder
// of the region's own is there and holds none, or is misnamed, so that those that are
// built in would be taken for them.
func (c *regionCheck) hasAnimals() bool {
	if c.folder.Has(folder.Taxa) {
		return true
	}
	for _, m := range c.folder.Misnamed() {
		if m.Should == folder.Taxa || path.Dir(m.Should) == folder.Taxa {
			return false
		}
	}
	if _, err := fs.Stat(c.folder.FS, folder.Taxa); err != nil {
		return true
	}
	c.Errors = append(c.Errors, authored.Finding{Pos: authored.Pos{File: c.folder.Join(folder.Taxa)}, Rule: "no-taxa",
		Message: wording.Text("nothing is in it that is read, so the region would have the animals that are built in"),
		Hint:    wording.Text("make it a folder with traits.toml and the animals, or take it away")})
	return false
}

// animals adds what is wrong with the animals.
func (c *regionCheck) animals(err error) {
	if !errors.Is(err, fs.ErrNotExist) {
		c.wrong(folder.Taxa, err)
		return
	}
	c.Errors = append(c.Errors, authored.Finding{Pos: authored.Pos{File: c.folder.Join(path.Join(folder.Taxa, "traits.toml"))},
		Rule: "no-traits", Message: wording.Text("there is no such file, and the animals of this folder need the traits that they are " +
			"described by"), Hint: wording.Text("put it there")})
}

// halfRules is the folder that lacks where a region has schemes or protocols alone.
func (c *regionCheck) halfRules() string {
	switch schemes, protocols := c.folder.Has(folder.Schemes), c.folder.Has(folder.Protocols); {
	case schemes && !protocols:
		return folder.Protocols
	case protocols && !schemes:
		return folder.Schemes
	}
	return ""
}

func otherRules(lacks string) string {
	if lacks == folder.Schemes {
		return folder.Protocols
	}
	return folder.Schemes
}

// wrong adds what an error says, at its place where it has one.
func (c *regionCheck) wrong(name string, err error) {
	var found authored.Findings
	if errors.As(err, &found) {
		c.Errors = append(c.Errors, found...)
		return
	}
	words := strings.TrimPrefix(err.Error(), c.folder.Join(name)+": ")
	c.Errors = append(c.Errors, authored.Finding{Pos: authored.Pos{File: c.folder.Join(name)}, Rule: "unreadable", Message: words})
}

// key checks the key of the folder; one that is built in only by its name.
func (c *regionCheck) key() {
	if !c.folder.Has(folder.KeyFile) {
		if c.region == nil {
			return
		}
		if _, ok := couplets.EmbeddedFile(c.region.Key); !ok {
			c.failAt("key", 0, "no-key", wording.Text("the region has no key"),
				wording.Sprintf(`add %s, or name one that is built in with key = "north-america"`, folder.KeyFile))
		}
		return
	}
	c.KeyFile = c.folder.Join(folder.KeyFile)
	file, sound, reading := c.folder.Key(c.catalog)
	found, err := rules.Check(&rules.Input{File: file, Sound: sound, Catalog: c.catalog, Region: rules.Residents(c.region)}, reading)
	if err != nil {
		c.wrong(folder.KeyFile, err)
	}
	c.Errors = append(c.Errors, found.Errors...)
	if named := c.folder.Preface.Key; c.region != nil && file != nil && named != "" && named != file.ID {
		c.warnAt("key", "other-key",
			wording.Sprintf("the region names the key %s, but its folder holds %s, whose id is %s, and that is asked",
				plain.Quote(named), folder.KeyFile, plain.Quote(file.ID)),
			wording.Sprintf("delete this line, or take %s away if a key that is built in is meant: %s", folder.KeyFile,
				plain.List(couplets.EmbeddedNames())))
	}
	c.Warnings = append(c.Warnings, found.Warnings...)
	if sound != nil && c.region != nil {
		c.ends(sound)
	}
	c.Couplets, c.Ends = found.Couplets, found.Ends
}

// ends warns of each end of the key that the region's list of taxa does not hold, nor
// anything above or below it.
func (c *regionCheck) ends(sound *couplets.Sound) {
	for _, end := range rules.Unlisted(sound, c.catalog, c.region) {
		c.warnAt("taxa", "not-listed", wording.Sprintf("the key ends in %s, which is not in this list", plain.Quote(end.ID)),
			wording.Text("add it to the list, or take its lead out of the key"))
	}
}

// protocols checks that the protocols of the region are there.
func (c *regionCheck) protocols(rules *scoring.Rules) {
	for i, id := range c.region.Protocols {
		if _, err := rules.Protocol(id); err != nil {
			c.failAt("protocols", i, "unknown-protocol", wording.Sprintf("there is no protocol %s", plain.Quote(id)),
				wording.Sprintf("%s; put it into the folder protocols, or take its name out of the list", plain.Nearest(id,
					idsOfProtocols(rules))))
		}
	}
}

// madeFor warns of a scheme that grades by a protocol of the region and was made for others
// that are known.
func (c *regionCheck) madeFor(head *authored.Table, graded map[string]bool) {
	others := head.Strs("regions")
	if !graded[head.Str("id")] || len(others) == 0 || slices.Contains(others, c.region.ID) {
		return
	}
	for _, id := range others {
		if !slices.Contains(BuiltInIDs(), id) {
			return // told by itself
		}
	}
	c.Warnings = append(c.Warnings, authored.Finding{Pos: head.Pos("regions"), Rule: "unknown-region",
		Message: wording.Sprintf("the scheme was made for %s, so no visit of this region, %s, gets a grade by it", plain.List(others),
			plain.Quote(c.region.ID)),
		Hint: wording.Text("add this region if the scheme holds for its animals, else name another scheme in the protocol")})
}

// schemes checks that the regions are there that schemes are said to be made for.
func (c *regionCheck) schemes(rules *scoring.Rules) {
	graded := map[string]bool{}
	for _, p := range rules.Protocols() {
		if len(p.Schemes) > 0 && (len(c.region.Protocols) == 0 || slices.Contains(c.region.Protocols, p.ID)) {
			graded[p.Schemes[0]] = true
		}
	}
	known := append([]string{c.region.ID}, BuiltInIDs()...)
	for _, name := range c.folder.Names() {
		if path.Dir(name) != folder.Schemes {
			continue
		}
		var report authored.Report
		top, err := authored.ReadTable(c.folder.FS, name, c.folder.Join(name), &report)
		if err != nil || top == nil {
			continue // told already
		}
		head := top.Sub("scheme")
		if head == nil {
			continue
		}
		c.madeFor(head, graded)
		for i, id := range head.Strs("regions") {
			if !slices.Contains(known, id) {
				c.Warnings = append(c.Warnings, authored.Finding{Pos: head.Elem("regions", i), Rule: "unknown-region",
					Message: wording.Sprintf("there is no region %s, neither this one nor one that is built in", plain.Quote(id)),
					Hint: wording.Sprintf("%s; visits in regions that are not in this list get no grade by the scheme",
						plain.Nearest(id, known))})
			}
		}
	}
}

// leftovers warns of remarks that merging or drafting again left in the animals, the
// traits and the words; the key has a rule for it.
func (c *regionCheck) leftovers() {
	for _, name := range c.folder.Names() {
		if path.Ext(name) != ".toml" || name == folder.KeyFile {
			continue
		}
		text, err := authored.Read(c.folder.FS, name, c.folder.Join(name))
		if err != nil {
			continue // told already
		}
		for _, line := range merge.Unread(string(text)) {
			c.Warnings = append(c.Warnings, rules.Leftover(authored.Pos{File: c.folder.Join(name), Line: line, Col: 1}))
		}
	}
}

func idsOfProtocols(rules *scoring.Rules) (out []string) {
	for _, p := range rules.Protocols() {
		out = append(out, p.ID)
	}
	return out
}

// failAt adds an error on a field of the region's table: on a part of it where it is a
// list.
func (c *regionCheck) failAt(field string, part int, rule, message, hint string) {
	c.Errors = append(c.Errors, authored.Finding{Pos: c.place(field, part), Rule: rule, Message: message, Hint: hint})
}

// warnAt adds a warning on a field of the region's table.
func (c *regionCheck) warnAt(field, rule, message, hint string) {
	c.Warnings = append(c.Warnings, authored.Finding{Pos: c.place(field, 0), Rule: rule, Message: message, Hint: hint})
}

func (c *regionCheck) place(field string, part int) authored.Pos {
	if head := c.head(); head != nil {
		return head.Elem(field, part)
	}
	return authored.Pos{File: c.folder.Join(folder.HeadFile)}
}

func (c *regionCheck) readHead() *authored.Table {
	var report authored.Report
	top, err := authored.ReadTable(c.folder.FS, folder.HeadFile, c.folder.Join(folder.HeadFile), &report)
	if err != nil || top == nil {
		return nil
	}
	return top.Sub("region")
}
