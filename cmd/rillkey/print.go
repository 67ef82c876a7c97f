package main

import (
	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/paper"
)

func printCommand(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "print",
		Short: "Pages to print, each one self-contained HTML file",
		Long: `Writes a page as one HTML file to standard output, or to the file of --to. It
needs no network and no script, and any browser prints it on A4 or Letter. With
--open it is opened in your browser, with --pdf a Chromium on this computer
makes a PDF of it.`,
		RunE: group,
	}
	var d delivery
	f := cmd.PersistentFlags()
	f.StringVar(&d.file, "to", "", "write the page to `FILE`, which must not exist yet")
	f.BoolVar(&d.open, "open", false, "open the page in the browser")
	f.StringVar(&d.pdf, "pdf", "", "make a PDF of the page as `FILE`, which must not exist yet; needs Chromium or Chrome")
	f.StringVar(&d.sheet, "sheet-size", "a4", "`SIZE` of the PDF's sheets: a4 or letter")
	if a.meant("print") {
		cmd.AddCommand(printKeyCommand(a, &d), printFiguresCommand(a, &d), printReportCommand(a, &d), printSheetCommand(a, &d),
			printLabelsCommand(a, &d), printQuickCommand(a, &d), printCardsCommand(a, &d), printHowToCommand(a, &d),
			printGroupCommand(a, &d), printCertificateCommand(a, &d))
	}
	return cmd
}

// pageCommand is a subcommand of print that makes one page; it goes where d says.
func pageCommand(a *app, cmd *cobra.Command, d *delivery, page func(args []string) (*paper.Page, error)) *cobra.Command {
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		if err := deliverable(a, d); err != nil {
			return err
		}
		a.sources = append(a.sources, a.visitFile, a.keyFile)
		p, err := page(args)
		if err != nil {
			return err
		}
		if words := a.editionWords(); words != "" {
			p.Foot(words)
		}
		return deliverPage(a, p, d)
	}
	return cmd
}

func printFiguresCommand(a *app, d *delivery) *cobra.Command {
	return pageCommand(a, &cobra.Command{
		Use:     "figures",
		Short:   "The contact sheet: a drawing of every animal and every lead",
		Example: "  rillkey print figures > figures.html\n  rillkey print figures --key mykey.toml > figures.html",
		Args:    noArgs,
	}, d, func([]string) (*paper.Page, error) {
		k, err := a.key()
		if err != nil {
			return nil, err
		}
		return paper.Figures(k.Catalog(), k.Sound()), nil
	})
}
