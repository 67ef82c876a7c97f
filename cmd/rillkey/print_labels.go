package main

import (
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/paper"
	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// Blank labels that are made when nobody says how many.
const (
	blankTrays = 4
	blankVials = 30
	spareVials = 6 // beside those of a visit
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

// backboned reports whether animals are likelier of a kind that no index scores, such
// as a salamander: those belong back in the stream, not in a vial.
func backboned(s scoring.RecheckRecord, catalog *taxa.Catalog) bool {
	unscored := 0.0
	for _, r := range append(s.Rivals[:len(s.Rivals):len(s.Rivals)], scoring.Rival{Taxon: s.Taxon, Chance: s.Sure}) {
		if t := catalog.Taxon(r.Taxon); t != nil && t.Class == taxa.NotScored {
			unscored += r.Chance
		}
	}
	return unscored > 0.5
}

// fewSaid is how many taxa of a record that was set aside a label can name.
const fewSaid = 3

// inTheirWords puts what somebody said that animals may be in place of what the
// region makes of it: a vial keeps what was seen at the table.
func inTheirWords(all []scoring.RecheckRecord, t visit.Tally, catalog *taxa.Catalog) {
	for i := range all {
		r, ok := t.Record(all[i].Record)
		if !ok || !r.Undecided || len(r.Possible) == 0 || len(r.Possible) > fewSaid {
			continue
		}
		all[i].Rivals = nil
		for _, id := range r.Possible {
			if known := catalog.Taxon(id); known != nil {
				all[i].Rivals = append(all[i].Rivals, scoring.Rival{Taxon: id, Name: known.Name(), Chance: 1 / float64(len(r.Possible))})
			}
		}
	}
}

func labelsPage(a *app, f labelFlags) (*paper.Page, error) {
	l := paper.Labels{Trays: blankTrays, Blank: blankVials}
	if a.visitFile != "" {
		var err error
		if l.Visit, err = visit.Read(a.visitFile); err != nil {
			return nil, err
		}
		obscureAsBeside(l.Visit)
		a.follow(l.Visit)
		catalog, rules, err := a.catalogAndRules()
		if err != nil {
			return nil, err
		}
		list, err := rules.Recheck(rules.Account(l.Visit), seed)
		if err != nil {
			return nil, err
		}
		l.Again, l.Blank = slices.DeleteFunc(list.Records, func(s scoring.RecheckRecord) bool {
			return !s.Doubtful() || backboned(s, catalog)
		}), spareVials
		inTheirWords(l.Again, l.Visit.Tally(), catalog)
	}
	if f.vials >= 0 {
		l.Blank = f.vials
	}
	var err error
	l.Rows, l.Cells, err = trayCells(f.cells)
	switch {
	case err != nil:
		return nil, err
	case f.vials < -1 || f.vials > mostLabels:
		return nil, misused("--vials %d: give a number from 0 to %d", f.vials, mostLabels)
	}
	return paper.TrayLabels(l), nil
}

// mostLabels is more than anybody cuts out on one evening.
const mostLabels = 1000

// trayCells reads the rows of a tray and the cells in each, as 3x4.
func trayCells(s string) (rows, cells int, err error) {
	a, b, ok := strings.Cut(strings.ToLower(s), "x")
	rows, errA := strconv.Atoi(a)
	cells, errB := strconv.Atoi(b)
	if !ok || errA != nil || errB != nil || rows < 0 || rows > 26 || cells < 0 || cells > 30 {
		return 0, 0, misused("--cells %q is no tray; give rows and cells in each as 3x4, at most 26x30", s)
	}
	return rows, cells, nil
}
