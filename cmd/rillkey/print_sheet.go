package main

import (
	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/paper"
	"rillkey/scoring"
	"rillkey/scoring/scheme"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

func printSheetCommand(a *app, d *delivery) *cobra.Command {
	var protocol string
	cmd := &cobra.Command{
		Use:   "sheet",
		Short: "The field sheet: cautions, samples, boxes to count in",
		Long: `Makes the sheet to fill in with a pencil at the stream, on both sides of one sheet
of paper. 'rillkey visit enter' types it in afterwards: it asks in the order of the
sheet. With --visit the site, day, people and samples of a visit that is begun are
filled in, and the sheet is for its protocol.`,
		Example: `  rillkey print sheet > sheet.html
  rillkey print sheet --protocol riffle-families --to families.html
  rillkey print sheet --visit 2026-05-16-mill-brook.visit.toml --pdf sheet.pdf --sheet-size letter`,
		Args: noArgs,
	}
	cmd.Flags().StringVar(&protocol, "protocol", "", "`ID` of the protocol (else that of the visit, or %s)")
	nameInHelp(cmd.Flags(), "protocol", []string{scoring.UsualProtocol})
	return pageCommand(a, cmd, d, func([]string) (*paper.Page, error) { return fieldSheet(a, protocol) })
}

func fieldSheet(a *app, protocol string) (*paper.Page, error) {
	var v *visit.Visit
	a.library.header.Protocol = protocol
	if a.visitFile != "" {
		var err error
		if v, err = visit.Read(a.visitFile); err != nil {
			return nil, err
		}
		series.ObscuredBeside([]string{v.File}).Obscure(v)
		a.follow(v)
		if protocol != "" && protocol != v.Header.Protocol {
			return nil, misused("%s follows the protocol %s; leave --protocol out, or --visit", a.visitFile, v.Header.Protocol)
		}
		protocol = v.Header.Protocol
	}
	catalog, rules, err := a.catalogAndRules()
	if err != nil {
		return nil, err
	}
	p, err := sheetProtocol(rules, catalog.Region(), protocol)
	if err != nil {
		return nil, err
	}
	return paper.FieldSheet(worded(catalog, rules, p.ID), rules, p, v), nil
}

// sheetProtocol is the protocol with the id; without one that of the region.
func sheetProtocol(rules *scoring.Rules, region *taxa.Region, id string) (p *scheme.Protocol, err error) {
	if id != "" {
		p, err = rules.Protocol(id)
	} else {
		p, err = rules.ProtocolFor(region)
	}
	switch {
	case err != nil:
		return nil, fault{statusMisused, err}
	case p == nil:
		return nil, misused("the rules have no protocol to make a sheet for")
	}
	return p, nil
}
