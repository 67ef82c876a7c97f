package main

import (
	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/taxa"
	"rillkey/taxa/folder"
	"rillkey/taxa/wording"
)

func regionShowCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "show [NAME|FOLDER]",
		Short: "What a region is: title, version, authors, what it brings",
		Long: `Tells what a region is and brings: a built-in one by its name, or a folder or ZIP
file. Without a name those of the present folder and those that are built in are listed.`,
		Example: "  rillkey region show\n  rillkey region show north-america\n  rillkey region show our-brook.zip",
		RunE: func(cmd *cobra.Command, args []string) error {
			if args = a.named(args, ""); len(args) == 0 {
				args = regionsHere(a.library)
			} else if err := oneName("region")(cmd, args); err != nil {
				return err
			}
			all := []*show.RegionJSON{}
			for _, name := range args {
				r, err := describeRegion(name)
				if err != nil {
					return err
				}
				all = append(all, r)
			}
			return a.give(all, func() error { return show.Regions(a.stdout, a.width, all) })
		},
	}
}

// regionsHere are the present folder, if it is a region's, else the regions' files in it,
// and those built in.
func regionsHere(l *library) (out []string) {
	if isFile(folder.HeadFile) {
		out = append(out, ".")
	} else {
		out = append(out, zipsHere(l)...)
	}
	if catalog, err := taxa.Embedded(); err == nil {
		out = append(out, regionNames(catalog)...)
	}
	return out
}

func describeRegion(name string) (*show.RegionJSON, error) {
	catalog, err := taxa.Embedded()
	if err != nil {
		return nil, err
	}
	if r := catalog.RegionNamed(name); r != nil && !isRegionFolder(name) {
		return describeBuiltIn(r, catalog)
	}
	f, err := openRegion(name)
	if err != nil {
		return nil, err
	}
	if catalog, err = f.Animals(); err != nil {
		return nil, err
	}
	r, err := f.Region(catalog)
	if err != nil {
		return nil, err
	}
	out := show.NewRegion(r)
	out.Place, out.Animals = name, len(r.Taxa)
	rules, err := f.Rules(catalog)
	if err != nil {
		return nil, err
	}
	out.Rules(rules)
	if f.Has(folder.KeyFile) {
		_, s, err := f.Key(catalog)
		if err != nil {
			return nil, err
		}
		out.Key, out.Couplets = s.Title, len(s.Couplets)
	}
	out.Fingerprint, err = f.Fingerprint()
	return out, err
}

func describeBuiltIn(r *taxa.Region, catalog *taxa.Catalog) (*show.RegionJSON, error) {
	out := show.NewRegion(r)
	out.Place = wording.Text("built in")
	f, err := builtInFolder(r.ID)
	if err != nil {
		return nil, err
	}
	rules, err := scoring.EmbeddedRules(catalog)
	if err != nil {
		return nil, err
	}
	out.Rules(rules)
	out.Fingerprint, err = f.Fingerprint()
	return out, err
}
