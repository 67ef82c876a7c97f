package main

import (
	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/paper"
)

func printHowToCommand(a *app, d *delivery) *cobra.Command {
	return pageCommand(a, &cobra.Command{
		Use:   "howto",
		Short: "One page: kick, rub, rinse, sort, count, give back",
		Long: `Makes one page with six drawings of what is done at the stream, in order, each with
the caution that belongs to it. All cautions are on the field sheet.`,
		Example: "  rillkey print howto > howto.html\n  rillkey print howto --pdf howto.pdf --sheet-size letter",
		Args:    noArgs,
	}, d, func([]string) (*paper.Page, error) {
		catalog, err := a.catalog()
		if err != nil {
			return nil, err
		}
		return paper.HowTo(catalog.Region()), nil
	})
}
