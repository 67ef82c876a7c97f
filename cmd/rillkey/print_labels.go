package main

import (
	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/paper"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
)

type labelFlags struct {
	cells string
	vials int
}

func printLabelsCommand(a *app, d *delivery) *cobra.Command {
	var f labelFlags
	cmd := &cobra.Command{
		Use:   "labels",
		Short: "Labels for trays, their cells, and vials",
		Long: `Makes labels to cut out. With --visit each sample has one for its tray, and each
record worth a second look (see 'rillkey recheck') one for its vial and a slip on which
an expert can write a name, unless no index scores the animal; without it all are blank, with lines to write on.`,
		Example: `  rillkey print labels > labels.html
  rillkey print labels --visit 2026-05-16-mill-brook.visit.toml --to labels.html
  rillkey print labels --cells 4x6 --vials 60 --pdf labels.pdf`,
		Args: noArgs,
	}
	cmd.Flags().StringVar(&f.cells, "cells", "3x4", "`ROWSxCELLS` of a tray, as 4x6: A1 to D6; 0x0 for no labels of cells")
	cmd.Flags().IntVar(&f.vials, "vials", -1, "`N` blank labels for vials (else 30, or 6 beside those of a visit)")
	return pageCommand(a, cmd, d, func([]string) (*paper.Page, error) { return labelsPage(a, f) })
}

func labelsPage(a *app, f labelFlags) (*paper.Page, error) {
	l := paper.BlankLabels()
	if a.visitFile != "" {
		var err error
		if l.Visit, err = visit.Read(a.visitFile); err != nil {
			return nil, err
		}
		series.ObscuredBeside([]string{l.Visit.File}).Obscure(l.Visit)
		a.follow(l.Visit)
		catalog, rules, err := a.catalogAndRules()
		if err != nil {
			return nil, err
		}
		list, err := rules.Recheck(rules.Account(l.Visit), seed)
		if err != nil {
			return nil, err
		}
		l.Again, l.Blank = list.Specimens(l.Visit.Tally(), catalog), paper.SpareVials
	}
	if f.vials >= 0 {
		l.Blank = f.vials
	}
	var err error
	l.Rows, l.Cells, err = paper.ParseCells(f.cells)
	switch {
	case err != nil:
		return nil, misused("--cells: %w", err)
	case f.vials < -1 || f.vials > paper.MostLabels:
		return nil, misused("--vials %d: give a number from 0 to %d", f.vials, paper.MostLabels)
	}
	return paper.TrayLabels(l), nil
}
