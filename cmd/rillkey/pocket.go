package main

import (
	"context"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/pocket"
)

func pocketCommand(a *app) *cobra.Command {
	var to string
	cmd := &cobra.Command{
		Use:   "pocket",
		Short: "Write the whole program as one page for a phone",
		Long: `Writes one HTML file that names and counts animals on a phone: questions with
drawings, the tally, the grade. It is opened like any file, from a memory card, a
message or a folder, and needs no network and no installation. Each entry is kept
in the phone's browser at once; the visit leaves the page as a file, which
'rillkey visit merge' unites with others.

A released program has the page inside. Else it is built from the source, in
whose folder the command must then run, with the Go that built this one.`,
		Example: `  rillkey pocket --to stream.html
  rillkey --region north-west-europe pocket --to stream.html`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return writePocket(cmd.Context(), a, to) },
	}
	cmd.Flags().StringVar(&to, "to", "", "the new `FILE`")
	return cmd
}

func writePocket(ctx context.Context, a *app, to string) error {
	if a.json {
		return misused("pocket writes a page as HTML; leave --json out")
	}
	if to == "" {
		return misused("say where the page goes: --to stream.html")
	}
	key, err := pageKey(a, "a page for phones")
	if err != nil {
		return err
	}
	if err := refuseExisting(to); err != nil {
		return err
	}
	program, err := pocket.Make(ctx, ".")
	if err != nil {
		return err
	}
	page := pocket.Page{Program: program, Key: key}
	if page.Edition, err = builtInEdition(page.Key); err != nil {
		return err
	}
	err = a.newFile(to, slices.Clone(a.from), page.Write)
	if err == nil {
		a.plainly("The page is in %s. Open it in the phone's browser.", to)
	}
	return err
}

// pageKey is the id of the key that phones ask: that of --key or of the region in use.
// What is not built in cannot be on them.
func pageKey(a *app, what string) (string, error) {
	catalog, err := a.regionalCatalog()
	if err != nil {
		return "", err
	}
	home, err := a.folder()
	if err != nil {
		return "", err
	}
	file, ok := builtIn(a.keyName(catalog.Region()))
	if !ok || home != nil || a.taxaDir != "" || a.rulesDir != "" {
		return "", misused("%s asks a built-in key (%s) with its animals and rules, not yet those of your own", what,
			strings.Join(builtInNames(), ", "))
	}
	return strings.TrimSuffix(file, ".toml"), nil
}
