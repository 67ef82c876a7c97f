package main

import (
	"cmp"
	"errors"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/units"
	"rillkey/scoring/condition"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// amendFlags are what an amendment can change, as text.
type amendFlags struct {
	entry, reason, who                 string
	withdraw                           bool
	taxon, count, cell, sample, length string
	note, habitat, area, effort        string
	fraction                           string
	set                                []string
	head                               headFlags
	obscured                           bool
}

func amendCommand(a *app) *cobra.Command {
	var f amendFlags
	cmd := &cobra.Command{
		Use:   "amend",
		Short: "Correct an entry by adding a new one",
		Long: `Corrects a sample, an identification, a finish, what was noted of stream and day, or
what stands at the head of the visit: site, day, people, protocol, place and the site it
is compared with, which take no --of. Nothing is rewritten: the correction is a new
entry with its reason. 'rillkey visit show' prints the code of every entry in square brackets.`,
		Example: `  rillkey visit amend
  rillkey visit amend --of k3v9m2qa --count 4 --reason "counted again"
  rillkey visit amend --of k3v9m2qa --withdraw --reason "entered twice"
  rillkey visit amend --set water-temperature=9.5 --reason "misread"
  rillkey visit amend --site "Mill Brook, ford" --at 44.12,-72.98 --reason "wrong bank"
  rillkey visit amend --reference "Upper Ford" --reason "upstream of the works"
  rillkey visit amend --obscured --reason "a rare crayfish lives here"`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return amendEntry(a, f, cmd.Flags()) },
	}
	flags := cmd.Flags()
	flags.StringVar(&f.entry, "of", "", "`CODE` of the entry to correct")
	flags.StringVar(&f.reason, "reason", "", "why, `TEXT`")
	flags.StringVar(&f.who, "who", "", "`NAME` of the person who corrects")
	flags.BoolVar(&f.withdraw, "withdraw", false, "take the entry out")
	flags.StringVar(&f.taxon, "taxon", "", "what it is instead, any `NAME` of it")
	flags.StringVar(&f.count, "count", "", "how many there are instead, `N`")
	flags.StringVar(&f.cell, "cell", "", "the tray `CELL` instead")
	flags.StringVar(&f.sample, "sample", "", "the `SAMPLE` it came from instead")
	flags.StringVar(&f.length, "length", "", "its length instead, in `MM` unless it says otherwise")
	flags.StringVar(&f.note, "note", "", "the note instead, `TEXT`")
	flags.StringVar(&f.habitat, "habitat", "", "a sample's `HABITAT` instead")
	flags.StringVar(&f.area, "area", "", "a sample's `AREA` instead")
	flags.StringVar(&f.fraction, "fraction", "", "the `SHARE` of a sample that was sorted instead, as 1/4")
	flags.StringVar(&f.effort, "effort", "", "a sample's effort instead, `TEXT`")
	flags.StringArrayVar(&f.set, "set", nil, "a condition instead, `NAME=VALUE`, or - for a value that is taken back; may be repeated")
	f.head.register(flags)
	flags.BoolVar(&f.obscured, "obscured", false, "do not give the exact place of the visit to others from now on (takes no --of)")
	return cmd
}

func amendEntry(a *app, f amendFlags, flags *pflag.FlagSet) error {
	path, v, err := a.visitToCorrect(true)
	if err != nil {
		return err
	}
	a.follow(v)
	catalog, err := a.catalog()
	if err != nil {
		return err
	}
	if flags.Changed("obscured") {
		return amendPlace(a, f, v)
	}
	if f.head.any(flags) {
		return amendHead(a, f, v, flags)
	}
	if len(f.set) == 0 && f.entry == "" && !a.json {
		if err := askAmendment(a, &f, catalog, v); err != nil {
			return err
		}
		if f.head.asked {
			return amendHead(a, f, v, flags)
		}
	}
	var to *taxa.Taxon
	if f.taxon != "" {
		if to, err = a.taxonNamed(catalog, f.taxon); err != nil {
			return misused("--taxon: %w", err)
		}
	}
	change, err := f.change(to, flags)
	if err != nil {
		return err
	}
	if len(f.set) > 0 {
		if change.Conditions, err = f.conditions(v, a.sameVisit()); err != nil {
			return err
		}
	}
	saved, err := a.save(path, f.who, visit.Amendment{Entry: f.entry, Reason: f.reason, Withdrawn: f.withdraw, Change: change})
	if err != nil {
		return err
	}
	if a.json {
		return a.savedJSON(v, saved)
	}
	a.plainly("Saved: the correction of %s is %s.", f.entry, saved.Event.ID)
	return nil
}

// amendPlace obscures the place of a visit, or gives it to others again, which
// is asked for.
func amendPlace(a *app, f amendFlags, v *visit.Visit) error {
	switch {
	case f.entry != "":
		return misused("--obscured is about the whole visit; leave --of out")
	case f.obscured == v.Obscured():
		return misused("nothing to change: the place of %s is %s", v.File, obscuredWords(f.obscured))
	case !f.obscured && a.json:
		return misused("whether the exact place may be given to others is asked; say it without --json")
	case !f.obscured:
		answers, err := a.ask(ask.Field{Key: "give", Title: wording.Text("Give the exact place to others from now on?"),
			Help: wording.Text("Somebody obscured it, because a species there is sensitive. What others have been given cannot " +
				"be taken back."), Confirm: true})
		if err != nil {
			return err
		}
		if !answers.Yes("give") {
			return fault{statusCannotSay, wording.NewError("the place stays obscured")}
		}
	}
	saved, err := a.save(v.File, f.who, visit.Amendment{Entry: v.Header.ID, Reason: f.reason, Change: visit.Change{Obscured: &f.obscured}})
	if err != nil {
		return err
	}
	if a.json {
		return a.savedJSON(v, saved)
	}
	a.plainly("Saved: the place of the visit is %s.", obscuredWords(f.obscured))
	return nil
}

func obscuredWords(obscured bool) string {
	if obscured {
		return wording.Text("obscured: others get it to a tenth of a degree, without its name")
	}
	return wording.Text("given to others as it is")
}

// askAmendment asks which animals are meant and what is right instead.
func askAmendment(a *app, f *amendFlags, catalog *taxa.Catalog, v *visit.Visit) error {
	records, noted := v.Tally().Records, notedOptions(v)
	var options []ask.Option
	for _, r := range records {
		options = append(options, ask.Option{Value: r.ID, Label: wording.Sprintf("sample %s, cell %s: %d x %s [%s]", r.Sample,
			cmp.Or(r.Cell, "-"), r.Count, nameOf(catalog, r), r.ID)})
	}
	options = append(append(options, noted...), headOptions(v)...)
	which := ask.Field{Key: "of", Title: wording.Text("Which entry is wrong?"), Options: options}
	return askAgain(a, &which, func(of string) error {
		if name, ok := strings.CutPrefix(of, ofHead); ok {
			return askHead(a, f, v, name)
		}
		if id, ok := strings.CutPrefix(of, ofCondition); ok {
			return askCondition(a, f, v, condition.Find(id))
		}
		f.entry = of
		return askRecord(a, f, catalog, v)
	})
}

// askAgain asks a field, then what follows from its answer; whoever goes back from there
// is asked it again.
func askAgain(a *app, field *ask.Field, then func(answer string) error) error {
	for {
		answers, err := a.ask(*field)
		if err != nil {
			return err
		}
		field.Default = answers[field.Key]
		if err = then(field.Default); !errors.Is(err, ask.ErrBefore) {
			return err
		}
	}
}

// askRecord asks what is wrong with a record, what is right, and why.
func askRecord(a *app, f *amendFlags, catalog *taxa.Catalog, v *visit.Visit) error {
	wrong := ask.Field{Key: "what", Title: wording.Text("What is wrong with it?"), GoesBack: true, Options: []ask.Option{
		{Value: "taxon", Label: wording.Text("the name")}, {Value: "count", Label: wording.Text("the count")},
		{Value: "sample", Label: wording.Text("the sample")},
		{Value: "cell", Label: wording.Text("the tray cell")}, {Value: "withdraw", Label: wording.Text("all of it: take it out")},
	}}
	return askAgain(a, &wrong, func(what string) error {
		f.withdraw = what == "withdraw"
		var fields []ask.Field
		if !f.withdraw {
			fields = append(fields, ask.Field{Key: "new", Title: wording.Text("What is right?"), Check: checkOf(catalog, v, what)})
		}
		fields = append(fields,
			ask.Field{Key: "reason", Title: wording.Text("Why?"), Help: wording.Text("A few words, for those who read it later.")},
			ask.Field{Key: "who", Title: wording.Text("Who corrects it?"), Optional: true, Offers: v.People()})
		fields[0].GoesBack = true
		answers, err := a.ask(fields...)
		if err != nil {
			return err
		}
		f.reason, f.who = answers["reason"], answers["who"]
		if to := map[string]*string{"taxon": &f.taxon, "count": &f.count, "sample": &f.sample, "cell": &f.cell}[what]; to != nil {
			*to = answers["new"]
		}
		return nil
	})
}

// checkOf judges a new value of what is wrong.
func checkOf(catalog *taxa.Catalog, v *visit.Visit, what string) func(string) error {
	return func(s string) error {
		var err error
		switch what {
		case "taxon":
			err = notFound(s, catalog.Find(s))
		case "count":
			_, err = units.Animals(s)
		case "sample":
			_, err = v.Tally().NeedSample(s)
		}
		return err
	}
}

// change reads what the flags, or the answers in their place, change. The new
// name has become a taxon before, nil for none.
func (f *amendFlags) change(to *taxa.Taxon, flags *pflag.FlagSet) (visit.Change, error) {
	var ch visit.Change
	if to != nil {
		ch.Taxon, ch.Rank = &to.ID, &to.Rank
	}
	err := cmp.Or(
		amended("count", f.count, units.Animals, &ch.Count),
		amended("length", f.length, units.Millimetres, &ch.Length),
		amended("area", f.area, units.SquareMetres, &ch.Area),
		amended("fraction", f.fraction, units.Fraction, &ch.Fraction),
	)
	if err != nil {
		return ch, err
	}
	f.habitat = scheme.HabitatNamed(f.habitat)
	for _, text := range []struct {
		name   string
		value  *string
		target **string
	}{
		{"cell", &f.cell, &ch.Cell}, {"sample", &f.sample, &ch.Sample}, {"note", &f.note, &ch.Note},
		{"habitat", &f.habitat, &ch.Habitat}, {"effort", &f.effort, &ch.Effort},
	} {
		if *text.value != "" || flags.Changed(text.name) {
			*text.target = text.value
		}
	}
	return ch, nil
}

// amended reads a new value where the flag gives one.
func amended[T any](flag, value string, read func(string) (T, error), to **T) error {
	if value == "" {
		return nil
	}
	*to = new(T)
	return readFlag(flag, value, read, *to)
}

func nameOf(catalog *taxa.Catalog, r visit.Record) string {
	if t := catalog.Taxon(r.Taxon); t != nil {
		return t.Name()
	}
	return wording.Text("set aside")
}
