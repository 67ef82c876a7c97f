package main

import (
	"cmp"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/units"
	"rillkey/scoring/sheet"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

type addFlags struct{ sample, who string }

func (f *addFlags) register(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.who, "who", "", "`NAME` of the person who counts")
}

func addCommand(a *app) *cobra.Command {
	var f addFlags
	cmd := &cobra.Command{
		Use:   "add NAME [N]",
		Short: "Count animals that are known at sight",
		Long: `Counts so many animals by their name, 1 without a number. Animals of one kind,
sample and person make one record, whose count rises; 'rillkey visit undo' takes the
last of it back.`,
		Example: "  rillkey visit add scud 3\n  rillkey visit add \"golden stonefly\" --sample 2 --who Oona",
		Args:    cobra.ArbitraryArgs,
		RunE:    func(_ *cobra.Command, args []string) error { return addAnimals(a, f, args) },
	}
	cmd.Flags().StringVar(&f.sample, "sample", "", "the `SAMPLE` they came from (else the latest)")
	f.register(cmd)
	return cmd
}

func addAnimals(a *app, f addFlags, args []string) error {
	name, n, err := units.NameAndCount(args)
	switch {
	case err != nil:
		return misused("%w", err)
	case name == "":
		return misused("say which animals: rillkey visit add scud 3")
	}
	v, err := a.visitToAddTo(false)
	if err != nil {
		return err
	}
	a.follow(v)
	catalog, err := a.catalog()
	if err != nil {
		return err
	}
	t, err := a.taxonNamed(catalog, name)
	if err != nil {
		return err
	}
	tally := v.Tally()
	if len(tally.Samples) == 0 {
		return a.noSample(v.File)
	}
	label := cmp.Or(f.sample, tally.SampleMeant())
	s, err := tally.NeedSample(label)
	if err != nil {
		return misused("%w", err)
	}
	saved, err := a.save(v.File, strings.TrimSpace(f.who), sheet.MoreBy(tally, sheet.OfTaxon(t, s.Label, n), f.who))
	if err != nil {
		return err
	}
	if a.json {
		return a.savedJSON(v, saved)
	}
	undo := "rillkey visit undo" + a.sameVisit()
	if who := strings.TrimSpace(f.who); who != "" {
		undo += " --who " + plain.ShellWord(who)
	}
	a.plainly("Saved: %d more %s in sample %s (%s). To take it back: %s", n, show.BothNames(t), s.Label, saved.Event.ID, undo)
	for _, c := range show.FirstConcerns(t, tally.Records) {
		a.plainly("%s", c.Label+": "+c.Text)
	}
	return nil
}

func undoCommand(a *app) *cobra.Command {
	var f addFlags
	cmd := &cobra.Command{
		Use:   "undo",
		Short: "Take back what was counted last",
		Long: `Takes back the last animals that the person counted or named, again and again if
need be. Nothing is rewritten: what is taken back stays in the file, with a new entry
that says so.`,
		Example: "  rillkey visit undo\n  rillkey visit undo --who Oona",
		Args:    noArgs,
		RunE:    func(*cobra.Command, []string) error { return undoLast(a, f) },
	}
	f.register(cmd)
	return cmd
}

func undoLast(a *app, f addFlags) error {
	v, err := a.visitToAddTo(false)
	if err != nil {
		return err
	}
	who := strings.TrimSpace(f.who)
	body, ok := sheet.UndoLastOf(v, who)
	if !ok {
		if last := sheet.LastHand(v); who == "" && last != "" {
			return fault{statusCannotSay, wording.Errorf(
				"the last animals were counted by %s; to take them back: rillkey visit undo --who %s%s", last, plain.ShellWord(last),
				a.sameVisit())}
		}
		return fault{statusCannotSay, wording.Errorf(
			"nothing is left to take back that %s counted; any entry is corrected by: rillkey visit amend%s",
			cmp.Or(who, wording.Text("nobody in particular")), a.sameVisit())}
	}
	saved, err := a.save(v.File, who, body)
	if err != nil {
		return err
	}
	if a.json {
		return a.savedJSON(v, saved)
	}
	a.follow(v)
	catalog, err := a.catalog()
	if err != nil {
		return err
	}
	a.plainly("Saved: taken back (%s). %s", saved.Event.ID, leftOf(catalog, v, body))
	return nil
}

// leftOf says what is left of the record that something was taken back of.
func leftOf(catalog *taxa.Catalog, v *visit.Visit, body visit.Body) string {
	change, ok := body.(visit.Amendment)
	if !ok {
		return ""
	}
	r, _ := v.Tally().Record(change.Entry)
	if r, ok = r.Apply(change); !ok {
		return wording.Text("That entry is out of the tally.")
	}
	name := r.Taxon
	if t := catalog.Taxon(r.Taxon); t != nil {
		name = show.BothNames(t)
	}
	return wording.Sprintf("Sample %s now has %d x %s there.", r.Sample, r.Count, cmp.Or(name, wording.Text("set aside")))
}
