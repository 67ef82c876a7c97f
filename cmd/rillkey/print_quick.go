package main

import (
	"cmp"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/paper"
	"rillkey/taxa"
)

// kindsKey is the key whose end points are the kinds that beginners tell apart.
const kindsKey = "kinds"

func printQuickCommand(a *app, d *delivery) *cobra.Command {
	var protocol string
	var large bool
	cmd := &cobra.Command{
		Use:   "quick",
		Short: "One sheet to laminate: every kind with two marks that tell it",
		Long: `Makes one sheet for both sides, to laminate: the kinds of the key "kinds" that
live in the region, in the order of that key, each with a drawing, two marks, and
its class as the protocol has it.`,
		Example: `  rillkey print quick > quick.html
  rillkey print quick --large-type --region north-west-europe --pdf quick.pdf`,
		Args: noArgs,
	}
	cmd.Flags().StringVar(&protocol, "protocol", "",
		"`ID` of the protocol whose class words are used (else that of the visit or the region)")
	cmd.Flags().BoolVar(&large, "large-type", false, "larger letters, smaller drawings")
	return pageCommand(a, cmd, d, func([]string) (*paper.Page, error) {
		catalog, err := a.leadersCatalog(protocol)
		if err != nil {
			return nil, err
		}
		key, err := kindsOf(a.library, catalog)
		if err != nil {
			return nil, err
		}
		if n := len(key.Ends); n > paper.MostQuick {
			return nil, misused("the key has %d kinds, and one sheet has room for %d", n, paper.MostQuick)
		}
		return paper.QuickSheet(catalog, key, large), nil
	})
}

// leadersCatalog is the catalog of the region, that of the usual key where nobody
// said, with the class words of a protocol: the one named, that of the visit at
// hand, or the region's first.
func (a *app) leadersCatalog(protocol string) (*taxa.Catalog, error) {
	a.followAtHand()
	protocol = cmp.Or(protocol, a.library.header.Protocol)
	catalog, err := a.regionalCatalog()
	if err != nil {
		return nil, err
	}
	if catalog.Region() == nil {
		catalog = catalog.InRegion(catalog.RegionNamed(usualRegion))
	}
	protocol = cmp.Or(protocol, catalog.Region().UsualProtocol())
	rules, err := a.rules(catalog)
	if err != nil {
		return nil, err
	}
	if protocol != "" {
		if _, err := rules.Protocol(protocol); err != nil {
			return nil, fault{statusMisused, err}
		}
	}
	return worded(catalog, rules, protocol), nil
}
