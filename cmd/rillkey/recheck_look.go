package main

import (
	"cmp"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/question"
	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/units"
	"rillkey/key"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

type lookFlags struct {
	record, who, answers, count, note string
	observe                           []string
	inquiry                           inquiryFlags
	drawn                             bool
}

func lookCommand(a *app) *cobra.Command {
	var f lookFlags
	cmd := &cobra.Command{
		Use:   "look",
		Short: "Key an animal a second time without seeing its first name",
		Long: `A second person keys the animals of one record without being told what they were
called. Without --of it is the first that 'rillkey recheck' lists and nobody looked at
twice, or where no name is doubtful the least sure one. Both names stay in the
file; only afterwards are they shown side by side.`,
		Example: "  rillkey recheck look --who Oona\n  rillkey recheck look --of k3v9m2qa --who Oona --answers 1a,2b",
		Args:    noArgs,
		RunE:    func(*cobra.Command, []string) error { return lookAgain(a, f) },
	}
	flags := cmd.Flags()
	flags.StringVar(&f.record, "of", "", "`CODE` of the record to look at")
	flags.BoolVar(&f.drawn, "drawn", false, "the next record that 'recheck draw' lists")
	flags.StringVar(&f.who, "who", "", "`NAME` of the second person")
	flags.StringVar(&f.answers, "answers", "", "the leads to take, `1b,4a`")
	flags.StringArrayVar(&f.observe, "observe", nil, "something seen, `TRAIT=STATE`; may be repeated")
	f.inquiry.register(flags)
	flags.StringVar(&f.count, "count", "", "how many there are, counted again, `N`")
	flags.StringVar(&f.note, "note", "", "anything worth keeping, `TEXT`")
	return cmd
}

func lookAgain(a *app, f lookFlags) error {
	h, err := openVisit(a)
	if err != nil {
		return err
	}
	k, err := a.key()
	if err != nil {
		return err
	}
	if f.drawn {
		if f.record != "" {
			return misused("--drawn says which record; leave --of out")
		}
		if f.record, err = h.nextDrawn(); err != nil {
			return err
		}
	}
	rec, err := h.chosen(f.record)
	if err != nil {
		return err
	}
	if err := visit.Appendable(h.visit.File); err != nil {
		return err
	}
	// Nothing on the screen may tell the first name from here on.
	a.plainly("Sample %s, cell %s: take the animals of this record (%s) and do not look at their name.", rec.Sample,
		cmp.Or(rec.Cell, wording.Text("not noted")), rec.ID)
	who := ask.Field{Key: "who", Title: wording.Text("Who looks this time?"), Offers: h.visit.People()}
	if err := a.fill([]setting{{who, &f.who, f.who != ""}}); err != nil {
		return err
	}
	if visit.SamePerson(f.who, rec.Who) {
		return misused("%s named these animals the first time; a second look needs another pair of eyes", f.who)
	}
	to := question.Destination{Name: h.visit.Header.Site, Rest: wording.Sprintf(", sample %s, second look", rec.Sample)}
	q, err := secondInquiry(a, k, f, to)
	if err != nil {
		return err
	}
	body, err := secondLook(q, rec.ID, f)
	if err != nil {
		return err
	}
	saved, err := a.save(h.visit.File, strings.TrimSpace(f.who), body)
	if err != nil {
		return err
	}
	return showLook(a, h, rec, body, saved.Event.ID)
}

// chosen is the record with the code, else the one that is next.
func (h opened) chosen(of string) (visit.Record, error) {
	t := h.account.Tally
	if of != "" {
		if rec, ok := t.Record(of); ok {
			return rec, nil
		}
		return visit.Record{}, misused("%s holds no animals with the code %q; they are listed by: rillkey recheck --visit %s",
			h.visit.File, of, plain.ShellWord(h.visit.File))
	}
	list, err := h.rules.Recheck(h.account, seed)
	if err != nil {
		return visit.Record{}, err
	}
	rec, ok := list.Next(t)
	if !ok {
		return rec, fault{statusCannotSay, wording.Errorf("somebody looked twice at every record; name one with --of")}
	}
	return rec, nil
}

// secondInquiry asks the second person, or takes what the command line says.
func secondInquiry(a *app, k *key.Key, f lookFlags, to question.Destination) (*key.Inquiry, error) {
	options, err := f.inquiry.options()
	if err != nil {
		return nil, err
	}
	m, err := a.model(k, f.inquiry.rates)
	if err != nil {
		return nil, err
	}
	how, err := a.howAsked(&f.inquiry, m, options, farEnd)
	if err != nil {
		return nil, err
	}
	q, err := how.begin()
	if err != nil {
		return nil, err
	}
	if f.answers != "" || len(f.observe) > 0 {
		return q, say(q, f.answers, f.observe, 0)
	}
	if a.json {
		return nil, misused("with --json nothing is asked; give --answers or --observe")
	}
	return q, askQuestions(a, q, to)
}

func secondLook(q *key.Inquiry, of string, f lookFlags) (visit.SecondLook, error) {
	k := q.Kept()
	body := visit.SecondLook{
		Entry: of, Taxon: k.Taxon, Rank: k.Rank, Confidence: k.Probability, Path: k.Path, Undecided: k.Taxon == "", Note: f.note,
	}
	return body, readOptional("count", f.count, units.Animals, &body.Count)
}

func showLook(a *app, h opened, rec visit.Record, body visit.SecondLook, event string) error {
	v := show.NewLook(h.catalog, rec, body, event)
	return a.give(v, func() error { return v.Text(a.stdout, a.width, a.sameVisit()) })
}

type settleFlags struct{ record, taxon, who, reason string }

func settleCommand(a *app) *cobra.Command {
	var f settleFlags
	cmd := &cobra.Command{
		Use:   "settle",
		Short: "Say which name counts after a second look",
		Long: `The name given counts from now on, and the grade takes it for certain. The names
of both people stay in the file.`,
		Example: "  rillkey recheck settle --of k3v9m2qa --taxon mayfly --who Mags",
		Args:    noArgs,
		RunE:    func(*cobra.Command, []string) error { return settleName(a, f) },
	}
	flags := cmd.Flags()
	flags.StringVar(&f.record, "of", "", "`CODE` of the record")
	flags.StringVar(&f.taxon, "taxon", "", "the name that counts, any `NAME` of it")
	flags.StringVar(&f.who, "who", "", "`NAME` of the person who settles it")
	flags.StringVar(&f.reason, "reason", "", "why, `TEXT`")
	return cmd
}

func settleName(a *app, f settleFlags) error {
	if f.record == "" || f.taxon == "" {
		return misused("say which record with --of and which name counts with --taxon")
	}
	h, err := openVisit(a)
	if err != nil {
		return err
	}
	t, err := a.taxonNamed(h.catalog, f.taxon)
	if err != nil {
		return misused("--taxon: %w", err)
	}
	rec, err := h.chosen(f.record)
	if err != nil {
		return err
	}
	why := cmp.Or(f.reason, wording.Text("settled after a second look"))
	saved, err := a.save(h.visit.File, f.who, visit.Amendment{Entry: rec.ID, Reason: why,
		Change: visit.NamedForCertain(t.ID, t.Rank)})
	if err != nil {
		return err
	}
	if a.json {
		return a.savedJSON(h.visit, saved)
	}
	a.plainly("Saved: %s counts as %s now (%s).", rec.ID, show.BothNames(t), saved.Event.ID)
	return nil
}
