package main

import (
	"errors"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/region"
	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/couplets/rules"
	"rillkey/scoring"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/folder"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

func regionCheckCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "check [FOLDER]",
		Short: "Find what is wrong in all files of a region at once",
		Long: `Checks the traits, the animals, region.toml, the key, the schemes and the protocols
of a region's folder or ZIP file (the present folder without a name), each finding
with its place. What others rest on comes first: with a mistake in the traits or the
animals the rest is not checked yet.`,
		Example: "  rillkey region check our-brook\n  rillkey region check our-brook.zip",
		RunE: func(cmd *cobra.Command, args []string) error {
			args = a.named(args, ".")
			if err := oneName("folder")(cmd, args); err != nil {
				return err
			}
			f, err := openRegion(args[0])
			if err != nil {
				return err
			}
			return showChecked(a, checkRegion(f))
		},
	}
}

// openRegion opens a region's folder or ZIP file.
func openRegion(name string) (*region.OpenRegion, error) {
	f, err := folder.Open(name)
	if errors.Is(err, os.ErrNotExist) {
		if like := plain.Like(name, builtInRegions()); len(like) > 0 {
			return nil, wording.Errorf("%s: there is no such folder, file or region; did you mean %s?", plain.Printable(name),
				plain.List(like))
		}
		return nil, wording.Errorf("%s: there is no such folder or file; one is begun by: rillkey region new %s",
			plain.Printable(name), plain.ShellWord(plain.Printable(name)))
	}
	if err != nil {
		return nil, err
	}
	return region.Opened(f), nil
}

// regionCheck is a check of a region at work.
type regionCheck struct {
	*show.CheckJSON
	folder  *region.OpenRegion
	catalog *taxa.Catalog
	region  *taxa.Region
}

// checkRegion finds everything that is wrong with a region, what others rest on first.
func checkRegion(f *region.OpenRegion) *show.CheckJSON {
	c := &regionCheck{CheckJSON: show.NewChecked(), folder: f}
	var err error
	if c.catalog, err = f.Animals(); err != nil {
		c.wrong(folder.Taxa, err)
		c.Note = wording.Text("The animals come first: region.toml, the key and the schemes are checked once those are sound.")
		return c.CheckJSON
	}
	if c.region, err = f.Region(c.catalog); err != nil {
		c.wrong(folder.HeadFile, err)
	}
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
	if err != nil {
		c.wrong(folder.Schemes, err)
	} else if c.region != nil {
		c.protocols(rules)
	}
	return c.CheckJSON
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
		if _, ok := builtIn(c.region.Key); !ok {
			c.failAt("key", 0, "no-key", wording.Text("the region has no key"),
				wording.Sprintf(`add %s, or name one that is built in with key = "north-america"`, folder.KeyFile))
		}
		return
	}
	file, sound, err := c.folder.Key(c.catalog)
	if err != nil {
		c.wrong(folder.KeyFile, err)
	}
	if file != nil && !isOtherCatalog(err) {
		c.Warnings = append(c.Warnings, rules.Warnings(
			&rules.Input{File: file, Sound: sound, Catalog: c.catalog, Region: residents(c.region)})...)
	}
	if sound != nil && c.region != nil {
		c.ends(sound)
	}
	c.Files = append(c.Files, show.CheckedFile{File: c.folder.Join(folder.KeyFile), Couplets: coupletsOf(sound), Ends: endsOf(sound)})
}

// ends warns of each end of the key that the region's list of taxa does not hold, nor
// anything above or below it.
func (c *regionCheck) ends(sound *couplets.Sound) {
	listed := map[string]bool{}
	for _, r := range c.region.Taxa {
		for t := c.catalog.Taxon(r.Taxon); t != nil && !listed[t.ID]; t = c.catalog.Taxon(t.Parent) {
			listed[t.ID] = true
		}
	}
	within := func(t *taxa.Taxon) bool {
		for ; t != nil; t = c.catalog.Taxon(t.Parent) {
			if slices.ContainsFunc(c.region.Taxa, func(r taxa.Resident) bool { return r.Taxon == t.ID }) {
				return true
			}
		}
		return false
	}
	for _, end := range sound.Ends {
		if !listed[end.ID] && !within(end) {
			c.warnAt("taxa", "not-listed", wording.Sprintf("the key ends in %s, which is not in this list", plain.Quote(end.ID)),
				wording.Text("add it to the list, or take its lead out of the key"))
		}
	}
}

func coupletsOf(s *couplets.Sound) int {
	if s == nil {
		return 0
	}
	return len(s.Couplets)
}

func endsOf(s *couplets.Sound) int {
	if s == nil {
		return 0
	}
	return len(s.Ends)
}

func isOtherCatalog(err error) bool {
	var found authored.Findings
	return errors.As(err, &found) && len(found) == 1 && found[0].Rule == "other-catalog"
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
	at := authored.Pos{File: c.folder.Join(folder.HeadFile)}
	var report authored.Report
	if top, err := authored.ReadTable(c.folder.FS, folder.HeadFile, at.File, &report); err == nil && top != nil {
		if head := top.Sub("region"); head != nil {
			at = head.Elem(field, part)
		}
	}
	return at
}
