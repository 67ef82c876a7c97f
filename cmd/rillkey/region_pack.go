package main

import (
	"errors"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/taxa/authored"
	"rillkey/taxa/folder"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

func regionPackCommand(a *app) *cobra.Command {
	var to string
	cmd := &cobra.Command{
		Use:   "pack [FOLDER]",
		Short: "Make one file of a region, to hand on",
		Long: "Checks the region and writes it as a ZIP file, the same bytes for the same files.\nEvery command takes that " +
			"file with --region.",
		Example: "  rillkey region pack our-brook --to our-brook.zip\n  rillkey identify --region our-brook.zip",
		RunE: func(cmd *cobra.Command, args []string) error {
			args = a.named(args, ".")
			if err := oneName("folder")(cmd, args); err != nil {
				return err
			}
			if to == "" || !folder.IsZip(to) {
				return misused("say where it goes, with the ending .zip: --to our-brook.zip")
			}
			return packRegion(a, args[0], to)
		},
	}
	cmd.Flags().StringVar(&to, "to", "", "the new `FILE`")
	return cmd
}

func packRegion(a *app, dir, to string) error {
	f, err := openRegion(dir)
	if err != nil {
		return err
	}
	report := checkRegion(f)
	if len(report.Errors) > 0 {
		return errors.Join(authored.Findings(report.Errors), wording.NewError("nothing was packed: mend this first"))
	}
	if err := a.newFile(to, nil, f.Pack); err != nil {
		return err
	}
	mark, err := f.Fingerprint()
	if err != nil {
		return err
	}
	if a.json {
		return show.JSON(a.stdout, show.Packed{File: to, Files: f.Names(), Fingerprint: mark})
	}
	a.plainly("Packed: %s in %s, fingerprint %s.", plain.Count(len(f.Names()), "file"), to, mark)
	return nil
}
