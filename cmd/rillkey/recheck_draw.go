package main

import (
	"cmp"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

func drawCommand(a *app) *cobra.Command {
	most := 0
	cmd := &cobra.Command{
		Use:   "draw",
		Short: "List animals that chance draws for a second look",
		Long: `Chance draws the records, whatever they were called and however sure the names
are; the order is the same each time. Go down the list and leave none out: only
as far as nobody skipped one do the second looks teach how often the group
misreads ('rates learn'). Names are not shown. Draw once the visit is sorted,
since animals entered later fall in anywhere.`,
		Example: "  rillkey recheck draw --most 20\n  rillkey recheck look --drawn --who Oona",
		Args:    noArgs,
		RunE: func(*cobra.Command, []string) error {
			if most < 1 {
				return misused("--most %d: list one record at least", most)
			}
			return listDrawn(a, most)
		},
	}
	cmd.Flags().IntVar(&most, "most", 20, "draw `N` records")
	return cmd
}

func listDrawn(a *app, most int) error {
	h, err := openVisit(a)
	if err != nil {
		return err
	}
	d := show.Draw{Visit: h.visit.Header.ID, Records: []show.DrawnRecord{}}
	for _, id := range h.visit.Draw() {
		if d.Keyed++; len(d.Records) == most {
			continue
		}
		if rec, ok := h.account.Tally.Record(id); ok {
			d.Records = append(d.Records, show.DrawnRecord{Record: id, Sample: rec.Sample, Cell: rec.Cell, Looks: len(rec.Looks)})
		}
	}
	return a.give(d, func() error { return d.Text(a.stdout, a.width, a.sameVisit()) })
}

// nextDrawn is the first record of the draw that nobody looked at twice.
func (h opened) nextDrawn() (string, error) {
	if r, ok := visit.NextDrawn(h.visit); ok {
		return r.ID, nil
	}
	return "", fault{statusCannotSay, wording.Errorf("%s holds no keyed record that nobody looked at twice",
		plain.Printable(cmp.Or(h.visit.File, wording.Text("the visit"))))}
}
