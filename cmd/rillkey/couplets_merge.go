package main

import (
	"bytes"
	"cmp"
	"errors"
	"io"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/couplets/versions"
	"rillkey/taxa/authored"
	"rillkey/taxa/wording"
)

// keyMergeFlags are the flags of one merge of keys.
type keyMergeFlags struct {
	file  string
	write bool
}

func mergeKeysCommand(a *app) *cobra.Command {
	var flags keyMergeFlags
	cmd := &cobra.Command{
		Use:   "merge BASE OURS THEIRS",
		Short: "Bring together what two people made of one key, couplet by couplet",
		Long: `Brings together two versions of a key, OURS and THEIRS, that were both made of BASE.
A couplet is the same whatever its number, and keeps the one that it has in OURS; one
that only THEIRS has gets a number that is free. Where both changed the same thing,
OURS stays, THEIRS stands below it as a comment, and each is told by its couplet;
the status is then 1, as it is if the result is not sound.

The result is printed, goes to a new file with --to, or replaces OURS with --write.
Git merges keys so, once it is told:

  git config merge.couplets.driver "rillkey couplets merge --write %O %A %B"
  echo "key.toml merge=couplets" >> .gitattributes`,
		Example: "  rillkey couplets merge mykey-1.toml mykey.toml from-anna.toml --to merged.toml",
		RunE: func(_ *cobra.Command, names []string) error {
			if len(names) != 3 {
				return misused("give three versions of a key, the one that both began with first; see 'rillkey couplets merge --help'")
			}
			if flags.file != "" && flags.write {
				return misused("--to and --write do not go together")
			}
			return mergeKeys(a, names, flags)
		},
	}
	cmd.Flags().StringVar(&flags.file, "to", "", "the new `FILE` for the result")
	cmd.Flags().BoolVar(&flags.write, "write", false, "replace OURS with the result")
	return cmd
}

func mergeKeys(a *app, names []string, flags keyMergeFlags) error {
	if flags.file != "" {
		if err := refuseExisting(flags.file); err != nil {
			return err
		}
	}
	var editions [3]versions.Version
	for i, name := range names {
		var err error
		if editions[i], err = editionOf(name); err != nil {
			return err
		}
	}
	merged, err := versions.MergeKeys(editions[0], editions[1], editions[2])
	if err != nil {
		return err
	}
	report := show.KeysMerged{MergedKey: merged, Findings: authored.Findings{}}
	if err := a.checkMerged(&report, cmp.Or(flags.file, wording.Text("the merged key"))); err != nil {
		return err
	}
	if err := a.deliverMerged(&report, names, flags); err != nil {
		return err
	}
	if len(report.Conflicts)+len(report.Findings) > 0 {
		return fault{status: statusBadData}
	}
	return nil
}

// editionOf reads a version of a key as it is, sound or not.
func editionOf(name string) (versions.Version, error) {
	dir, base := splitPath(name)
	data, err := authored.Read(authored.DirFS(dir), base, name)
	if err != nil {
		return versions.Version{}, noKey(name, fileError(name, err))
	}
	var report authored.Report
	file, err := couplets.Read(authored.DirFS(dir), base, name, &report)
	if err == nil && file == nil {
		err = report.Findings()
	}
	return versions.Version{File: file, Text: string(bytes.TrimPrefix(data, []byte("\ufeff")))}, err
}

// checkMerged looks whether the result, shown by a name, is sound with the animals in use.
func (a *app) checkMerged(report *show.KeysMerged, shown string) error {
	catalog, err := a.wholeCatalog()
	if err != nil {
		report.Unchecked = wording.Text("Whether the result is sound was not looked at: the animals cannot be read.")
		return nil
	}
	_, err = couplets.LoadText([]byte(report.MergedKey.Text), shown, catalog)
	var found authored.Findings
	switch {
	case couplets.ForOtherAnimals(err):
		report.Unchecked = wording.Text("Whether the result is sound was not looked at: its animals are others than those in use. " +
			"Name them with --region or --taxa.")
	case errors.As(err, &found):
		report.Findings = found
	case err != nil:
		return err
	}
	return nil
}

// deliverMerged writes the result where it belongs, and says what came of it.
func (a *app) deliverMerged(report *show.KeysMerged, names []string, flags keyMergeFlags) error {
	text := []byte(report.MergedKey.Text)
	var err error
	switch {
	case flags.write:
		report.File = names[1]
		err = a.replacement(names[1], names, text)
	case flags.file != "":
		report.File = flags.file
		err = a.newFile(flags.file, names, func(w io.Writer) error { _, err := w.Write(text); return err })
	}
	if err != nil {
		return err
	}
	out := a.stdout
	switch {
	case a.json && report.File == "":
		report.Key = report.MergedKey.Text
		return show.JSON(a.stdout, report)
	case a.json:
		return show.JSON(a.stdout, report)
	case report.File == "":
		if _, err := a.stdout.Write(text); err != nil {
			return err
		}
		out = a.stderr
	}
	return report.Text(out, a.width)
}
