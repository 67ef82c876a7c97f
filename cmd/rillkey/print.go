package main

import (
	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/paper"
)

func (a *app) printCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "print",
		Short: "Pages to print, each one self-contained HTML file",
		Long: `Writes a page as one HTML file to standard output. It needs no network and no
script, and any browser prints it on A4 or Letter.`,
		RunE: group,
	}
	cmd.AddCommand(a.printFiguresCommand())
	return cmd
}

func (a *app) printFiguresCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "figures",
		Short:   "The contact sheet: a drawing of every animal and every lead",
		Example: "  rillkey print figures > figures.html\n  rillkey print figures --key mykey.toml > figures.html",
		Args:    noArgs,
		RunE: func(*cobra.Command, []string) error {
			if a.json {
				return misused("print writes a page as HTML; leave --json out")
			}
			k, err := a.key()
			if err != nil {
				return err
			}
			return paper.Figures(a.out, k.Catalog(), k.Title(), k.Couplets())
		},
	}
}
