package main

import (
	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/paper"
)

func printCardsCommand(a *app, d *delivery) *cobra.Command {
	var protocol string
	cmd := &cobra.Command{
		Use:   "cards",
		Short: "A card of every kind: how it lives, what it tells, something to try",
		Long: `Makes cards to cut out and hand round, four to a sheet, of the kinds that live in
the region: names, length at life size, two marks with pointers, how it lives and
eats, what it tells of the stream and what not, what it is mixed up with, how to
handle it, and something to watch for a minute. 'rillkey taxa NAME --card' shows one
on the terminal. The texts are those of cards.toml among the taxa.`,
		Example: `  rillkey print cards > cards.html
  rillkey print cards --region north-west-europe --pdf cards.pdf`,
		Args: noArgs,
	}
	cmd.Flags().StringVar(&protocol, "protocol", "",
		"`ID` of the protocol whose class words are used (else that of the visit or the region)")
	return pageCommand(a, cmd, d, func([]string) (*paper.Page, error) {
		catalog, err := a.leadersCatalog(protocol)
		if err != nil {
			return nil, err
		}
		if len(catalog.Cards()) == 0 {
			return nil, misused("these taxa have no cards: put a file cards.toml beside them")
		}
		return paper.Cards(catalog), nil
	})
}
