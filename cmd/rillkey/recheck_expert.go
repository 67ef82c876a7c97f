package main

import (
	"strings"
	"time"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

type expertFlags struct{ record, taxon, who, date, kept string }

func expertCommand(a *app) *cobra.Command {
	var f expertFlags
	cmd := &cobra.Command{
		Use:   "expert",
		Short: "Enter the name that an expert gave a specimen",
		Long: `Takes what came back on the slip of a specimen ('rillkey print labels --visit' makes
one beside each vial): the name, who determined it, on which day, and where the
specimen is kept. The name counts as settled from then on, and says whose it is; the
one given at the stream stays in the file.`,
		Example: `  rillkey recheck expert
  rillkey recheck expert --of k3v9m2qa --taxon Baetidae --who "Dr Wren" --on 2026-06-20 --kept "county museum"`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return expertName(a, f, func(name string) bool { return cmd.Flags().Changed(name) })
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&f.record, "of", "", "`CODE` of the record, as on the slip")
	flags.StringVar(&f.taxon, "taxon", "", "what it is, any `NAME` of it")
	flags.StringVar(&f.who, "who", "", "`NAME` of the expert")
	flags.StringVar(&f.date, "on", "", "the `DAY` it was determined, as 2026-06-20 (else today)")
	flags.StringVar(&f.kept, "kept", "", "where the specimen is kept, `PLACE`")
	return cmd
}

func expertName(a *app, f expertFlags, given func(string) bool) error {
	h, err := openVisit(a)
	if err != nil {
		return err
	}
	t := h.account.Tally
	codes := func(s string) error {
		_, err := h.chosen(s)
		return err
	}
	err = a.fill([]setting{
		{ask.Field{Key: "of", Title: wording.Text("Which record? The code is on the slip."), Check: codes}, &f.record, given("of")},
		{ask.Field{Key: "taxon", Title: wording.Text("What is it?"),
			Check: func(s string) error { return notFound(s, h.catalog.Find(s)) }}, &f.taxon, given("taxon")},
		{ask.Field{Key: "who", Title: wording.Text("Who determined it?")}, &f.who, given("who")},
		{ask.Field{Key: "on", Title: wording.Text("On which day?"), Default: a.now().Format(time.DateOnly), Check: realDate},
			&f.date, given("on")},
		{ask.Field{Key: "kept", Title: wording.Text("Where is the specimen kept?"), Optional: true}, &f.kept, given("kept")},
	})
	if err != nil {
		return err
	}
	rec, ok := t.Record(strings.TrimSpace(f.record))
	if !ok {
		return misused("%s holds no animals with the code %q", h.visit.File, f.record)
	}
	taxon, err := a.taxonNamed(h.catalog, f.taxon)
	if err != nil {
		return misused("--taxon: %w", err)
	}
	saved, err := a.save(h.visit.File, f.who, visit.Determined(rec.ID, taxon.ID, taxon.Rank, f.who, f.date, f.kept))
	if err != nil {
		return err
	}
	if a.json {
		return a.savedJSON(h.visit, saved)
	}
	a.plainly("Saved: %s is %s, determined by %s on %s, and counts as settled (%s).", rec.ID, show.BothNames(taxon), f.who,
		f.date, saved.Event.ID)
	return nil
}
