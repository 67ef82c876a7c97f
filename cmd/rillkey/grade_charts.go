package main

import (
	"fmt"
	"strings"

	"rillkey/cmd/rillkey/chart"
	"rillkey/scoring"
	"rillkey/scoring/account"
	"rillkey/scoring/series"
	"rillkey/taxa/wording"
)

// chartsOf writes the charts of one visit as text.
func chartsOf(a *app, rules *scoring.Rules, of *account.Account, g *scoring.Grade) error {
	charts := []chart.Chart{chart.FoundByGroup(g), chart.FoundByKind(g)}
	main := &g.Indices[0]
	if c, ok := chart.Chances(main, rules.Scheme(main.ID)); ok {
		charts = append(charts, c)
	}
	x, err := rules.Incidence(of)
	if err != nil {
		return err
	}
	if c, ok := chart.Accumulated(x, g.Effort.Required); ok {
		charts = append(charts, c)
	}
	return writeCharts(a, charts)
}

// chartsOverTime writes a chart for every site that was visited twice at least.
func chartsOverTime(a *app, rules *scoring.Rules, t *series.VisitTable) error {
	var charts []chart.Chart
	for place, rows := range t.ByPlace() {
		c := chart.History(rows, rules.Scheme(place.Scheme), "")
		if len(c.Visit) > 1 {
			c.Title = wording.Sprintf("%s over time", place.Site)
			charts = append(charts, c)
		}
	}
	return writeCharts(a, charts)
}

// writeCharts writes them with bars, except in plain lines, which a screen
// reader speaks: there the words and numbers say the same.
func writeCharts(a *app, charts []chart.Chart) error {
	bars := !a.plain && a.env("TERM") != "dumb"
	for _, c := range charts {
		if _, err := fmt.Fprintln(a.stdout, "\n"+strings.Join(c.Text(a.width-1, bars), "\n")); err != nil {
			return err
		}
	}
	return nil
}
