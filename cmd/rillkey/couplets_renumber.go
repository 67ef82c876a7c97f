package main

import (
	"errors"
	"io"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/key/trim"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// renumberFlags are the files of one renumbering.
type renumberFlags struct{ file, numbers string }

func renumberCommand(a *app) *cobra.Command {
	var flags renumberFlags
	cmd := &cobra.Command{
		Use:   "renumber [FILE]",
		Short: "Number the couplets of a key in the order of its file",
		Long: `Writes the key to a new file with its couplets numbered 1, 2, 3 … as they stand;
wording and comments are not touched. --map keeps which number each couplet had, a
line each as "old,new", for sheets and notes that name the old ones. Neither file is
ever written over another.`,
		Example: "  rillkey couplets renumber mykey.toml --to mykey-2.toml --map numbers.csv",
		Args:    atMostOneFile,
		RunE: func(_ *cobra.Command, files []string) error {
			if len(files) > 0 {
				a.keyFile = files[0]
			}
			if flags.file == "" {
				return misused("say where the key goes: --to mykey-2.toml")
			}
			return renumberKey(a, flags)
		},
	}
	cmd.Flags().StringVar(&flags.file, "to", "", "the new `FILE`")
	cmd.Flags().StringVar(&flags.numbers, "map", "", "a new `FILE` for the old and new numbers, as CSV")
	return cmd
}

func renumberKey(a *app, flags renumberFlags) error {
	for _, name := range []string{flags.file, flags.numbers} {
		if name != "" {
			if err := refuseExisting(name); err != nil {
				return err
			}
		}
	}
	catalog, err := a.wholeCatalog()
	if err != nil {
		return err
	}
	data, sound, err := a.source(catalog)
	if err != nil {
		return err
	}
	out, err := trim.Renumber(data, sound)
	if err != nil {
		return err
	}
	if len(out.Couplets) > 0 {
		return wording.Errorf("couplet %s decides nothing and would fall away; mend that first. It is named by: rillkey couplets check %s",
			out.Couplets[0], plain.ShellFiles(a.keyFile))
	}
	if _, err := couplets.LoadText(out.Text, wording.Text("the renumbered key"), catalog); err != nil {
		return wording.Errorf("the key cannot be renumbered cleanly, so nothing was written: %w", err)
	}
	numbers, changed := out.NumbersCSV(sound)
	report := show.Renumbered{Couplets: len(sound.Couplets), Changed: changed, Numbers: out.Numbers}
	write := func(text []byte) func(io.Writer) error {
		return func(w io.Writer) error { _, err := w.Write(text); return err }
	}
	err = a.newFile(flags.file, []string{a.keyFile}, write(out.Text))
	if err == nil && flags.numbers != "" {
		err = errors.Join(err, a.newFile(flags.numbers, []string{a.keyFile}, write(numbers)))
	}
	if err != nil {
		return err
	}
	if a.json {
		return show.JSON(a.stdout, report)
	}
	a.plainly("Written: %s, %d of its %d couplets with another number.", flags.file, report.Changed, report.Couplets)
	return nil
}
