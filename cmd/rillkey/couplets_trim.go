package main

import (
	"bytes"
	"io/fs"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/trim"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/folder"
	"rillkey/taxa/wording"
)

type trimFlags struct {
	file  string
	write bool
}

func trimCommand(a *app) *cobra.Command {
	var flags trimFlags
	cmd := &cobra.Command{
		Use:   "trim [FILE] --region FILE",
		Short: "Shorten a key to the animals of a region",
		Long: `Keeps the end points of the region. Couplets that no longer decide anything fall
away and the rest is numbered anew; wording and comments of what stays are not
touched. The shorter key is written to --out; without --out it is only tried. A
file that is there is only replaced with --write.`,
		Example: `  rillkey couplets trim --region brook.toml
  rillkey couplets trim mykey.toml --region brook.toml --out brook-key.toml`,
		Args: atMostOneFile,
		RunE: func(_ *cobra.Command, files []string) error {
			if len(files) > 0 {
				a.keyFile = files[0]
			}
			return trimKey(a, flags)
		},
	}
	cmd.Flags().StringVar(&flags.file, "out", "", "the `FILE` for the shorter key")
	cmd.Flags().BoolVar(&flags.write, "write", false, "replace a file that is there")
	return cmd
}

func trimKey(a *app, flags trimFlags) error {
	catalog, err := a.wholeCatalog()
	if err != nil {
		return err
	}
	region, err := a.regionMeant(catalog)
	switch {
	case err != nil:
		return err
	case region == nil:
		return misused("name the region's folder or file with --region")
	}
	data, sound, err := a.source(catalog)
	if err != nil {
		return err
	}
	out, err := trim.Keep(data, sound, func(id string) bool { return region.Holds(id, catalog) })
	if err != nil {
		return err
	}
	short, err := couplets.LoadText(out.Text, wording.Text("the trimmed key"), catalog)
	if err != nil {
		return wording.Errorf("the key cannot be trimmed cleanly, so nothing was written: %w", err)
	}
	if flags.file != "" {
		if err := replaceFile(a, flags.file, []string{a.keyFile}, out.Text, flags.write); err != nil {
			return err
		}
	}
	report := show.TrimmedJSON{
		File: flags.file, Couplets: out.Couplets, Ends: out.Ends,
		Left:   idsOf(short.Ends),
		Before: key.Compile(sound, catalog).Stats(), After: key.Compile(short, catalog).Stats(),
	}
	return a.give(report, func() error { return report.Text(a.stdout, a.width) })
}

func idsOf(all []*taxa.Taxon) []string {
	ids := make([]string, len(all))
	for i, t := range all {
		ids[i] = t.ID
	}
	return ids
}

// source is the text of the key to work on, and the key as checked.
func (l *library) source(catalog *taxa.Catalog) ([]byte, *couplets.Sound, error) {
	var data []byte
	var err error
	shown := l.keyFile
	if shown == "" && l.ownKey() {
		shown = l.home.Join(folder.KeyFile)
		data, err = authored.Read(l.home.FS, folder.KeyFile, shown)
	} else if shown == "" {
		shown = couplets.DefaultName
		data, err = fs.ReadFile(couplets.Embedded(), shown)
	} else {
		dir, name := splitPath(shown)
		data, err = authored.Read(authored.DirFS(dir), name, shown)
	}
	if err != nil {
		return nil, nil, fileError(shown, err)
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	sound, err := couplets.LoadText(data, shown, catalog)
	return data, sound, err
}
