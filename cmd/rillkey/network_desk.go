package main

import (
	"context"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/network"
	"rillkey/taxa/wording"
)

// onNetwork runs something on the database at an address, and shows what it gives.
func onNetwork[T any](a *app, at string, do func(context.Context, *network.DB) (T, error), text func(T) error) error {
	if at == "" {
		return misused("--at is missing; give the address of the database")
	}
	ctx := context.Background()
	db, err := a.database(ctx, at)
	if err != nil {
		return err
	}
	defer db.Close()
	found, err := do(ctx, db)
	if err != nil {
		return err
	}
	if a.json {
		return show.JSON(a.stdout, found)
	}
	return text(found)
}

// bookInUse is by what visits are graded now.
func (a *app) bookInUse() (network.Book, error) {
	catalog, rules, err := a.catalogAndRules()
	if err != nil {
		return network.Book{}, err
	}
	return a.book(catalog, rules)
}

func networkNewsCommand(a *app) *cobra.Command {
	var at, since string
	cmd := networkAt(&cobra.Command{
		Use:     "news",
		Short:   "What came in: visits and entries by group",
		Example: "  rillkey network news --since 2026-05-01 --at postgres://ann@network.example/streams",
		Args:    noArgs,
		RunE: func(*cobra.Command, []string) error {
			from := network.WeekBefore(a.now())
			if since != "" {
				var err error
				if from, err = time.Parse(time.DateOnly, since); err != nil {
					return misused("--since %q is no day; write it as 2026-05-16", since)
				}
			}
			return onNetwork(a, at, func(ctx context.Context, db *network.DB) ([]network.Came, error) { return db.News(ctx, from) },
				func(n []network.Came) error { return show.NetworkNews(a.stdout, a.width, from, n) })
		},
	}, &at)
	cmd.Flags().StringVar(&since, "since", "", "from this `DAY` on (else the last seven days)")
	return cmd
}

func networkWaitingCommand(a *app) *cobra.Command {
	var at string
	most, alarms := 50, false
	cmd := networkAt(&cobra.Command{
		Use:   "waiting",
		Short: "What waits: open visits, undecided animals, contradictions, invaders, entries kept apart, alarms",
		Long: `Lists the visits with something open about them, newest first: nobody finished them,
animals were set aside and not named since, a second look says another name and nobody
settled which counts, entries do not fit, or an animal does not belong there; and the
entries that were kept apart. It goes by the grades that are kept: 'rillkey regrade'
first. With --alarms sites are named whose visits changed beyond chance, too.`,
		Example: "  rillkey network waiting --alarms --at postgres://ann@network.example/streams",
		Args:    noArgs,
		RunE: func(*cobra.Command, []string) error {
			if most < 1 {
				return misused("--most %d: list one at least", most)
			}
			book, err := a.bookInUse()
			if err != nil {
				return err
			}
			return onNetwork(a, at, func(ctx context.Context, db *network.DB) (network.Waiting, error) {
				return db.Waiting(ctx, book, most, a.now(), alarms)
			}, func(w network.Waiting) error { return show.NetworkWaiting(a.stdout, a.width, a.inNames(w)) })
		},
	}, &at)
	cmd.Flags().IntVar(&most, "most", 50, "list at most `N` of each")
	cmd.Flags().BoolVar(&alarms, "alarms", false, "name the sites that changed, too")
	return cmd
}

// inNames calls the animals that do not belong where they were found by their names.
func (a *app) inNames(w network.Waiting) network.Waiting {
	catalog, err := a.wholeCatalog()
	if err != nil {
		return w // grading said so before
	}
	w.Visits = slices.Clone(w.Visits)
	for i := range w.Visits {
		v := &w.Visits[i]
		v.Invaders = slices.Clone(v.Invaders)
		for n, id := range v.Invaders {
			if t := catalog.Taxon(id); t != nil {
				v.Invaders[n] = show.BothNames(t)
			}
		}
	}
	return w
}

func networkAgreementCommand(a *app) *cobra.Command {
	var at string
	return networkAt(&cobra.Command{
		Use:   "agreement",
		Short: "How well groups agree at sites that several of them visited",
		Long: `Sets visits of two groups to one site, by one protocol and within a fortnight, against
each other: how often the word was the same, and how far the values lay apart. It goes
by the grades that are kept: 'rillkey regrade' first.`,
		Example: "  rillkey network agreement --at postgres://ann@network.example/streams",
		Args:    noArgs,
		RunE: func(*cobra.Command, []string) error {
			book, err := a.bookInUse()
			if err != nil {
				return err
			}
			return onNetwork(a, at, func(ctx context.Context, db *network.DB) ([]network.GroupAgreement, error) {
				return db.Agree(ctx, book)
			},
				func(all []network.GroupAgreement) error { return show.NetworkAgreement(a.stdout, a.width, all) })
		},
	}, &at)
}

func networkDrawCommand(a *app) *cobra.Command {
	var at, seed, since string
	visits, records := 5, 4
	cmd := networkAt(&cobra.Command{
		Use:   "draw",
		Short: "Draw animals for second looks at random, by design",
		Long: `Draws of each group some visits, each as likely as any other of the group, and of each
visit the first animals of its own draw ('recheck draw'), whatever they were called and
however sure the names are. The same seed draws the same; write it down with the
result. Names are not shown.`,
		Example: "  rillkey network draw --seed 2026-spring --visits 5 --records 4 --at postgres://ann@network.example/streams",
		Args:    noArgs,
		RunE: func(*cobra.Command, []string) error {
			switch {
			case seed == "":
				return misused("--seed is missing; any word will do, as 2026-spring")
			case visits < 1 || records < 1:
				return misused("--visits and --records are 1 at least")
			case since != "" && realDate(since) != nil:
				return misused("--since %q is no day; write it as 2026-05-16", since)
			}
			return onNetwork(a, at, func(ctx context.Context, db *network.DB) ([]network.Drawn, error) {
				return db.Draw(ctx, seed, since, visits, records)
			}, func(all []network.Drawn) error { return show.NetworkDraw(a.stdout, a.width, seed, all) })
		},
	}, &at)
	flags := cmd.Flags()
	flags.StringVar(&seed, "seed", "", "a `WORD` that the draw follows from")
	flags.StringVar(&since, "since", "", "only visits that came from this `DAY` on")
	flags.IntVar(&visits, "visits", 5, "visits of each group, `N`")
	flags.IntVar(&records, "records", 4, "animals of each visit, `N`")
	return cmd
}

func networkHealthCommand(a *app) *cobra.Command {
	var at string
	return networkAt(&cobra.Command{
		Use:   "health",
		Short: "Whether the network answers, and what it holds",
		Long: `Ends with 0 if the database answers and its schema fits this program, else with 1 and
the reason. With RILLKEY_LOG=info (or debug) every command writes what it does to the
network as structured lines to standard error.`,
		Example: "  rillkey network health --json --at postgres://ann@network.example/streams",
		Args:    noArgs,
		RunE: func(*cobra.Command, []string) error {
			return onNetwork(a, at, func(ctx context.Context, db *network.DB) (network.Health, error) { return db.Health(ctx, time.Now) },
				func(h network.Health) error {
					a.plainly("%s", wording.Sprintf(
						"The network answers (%.1f ms): schema %d; groups: %d, visits: %d, entries: %d, kept apart: %d, not "+
							"graded since something came: %d.",
						h.Answered, h.Schema, h.Groups, h.Visits, h.Events, h.Kept, h.Ungraded))
					return nil
				})
		},
	}, &at)
}
