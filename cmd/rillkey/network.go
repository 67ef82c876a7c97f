package main

import (
	"context"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/network"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

func networkCommand(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "network",
		Short: "The database of a network of groups: begin, admit, news, waiting, agreement, draw, health",
		Long: `A network keeps the visits of many groups in one database, PostgreSQL or one that
speaks its protocol. 'network begin' makes it, 'network admit' lets groups, coordinators
and readers in; groups then 'send' and 'fetch', and 'visit list', 'grade', 'export',
'rates learn' and 'recheck' take its address in the place of a folder.

A group reads and writes its own visits. A coordinator reads all and keeps the grades.
A reader sees grades, without people and obscured places.`,
		RunE: group,
	}
	if a.meant("network") {
		cmd.AddCommand(networkBeginCommand(a), networkAdmitCommand(a), networkNewsCommand(a), networkWaitingCommand(a),
			networkAgreementCommand(a), networkDrawCommand(a), networkHealthCommand(a))
	}
	return cmd
}

// networkAt adds the flag for the address of the database.
func networkAt(cmd *cobra.Command, at *string) *cobra.Command {
	cmd.Flags().StringVar(at, "at", "", "the `ADDRESS` of the database: postgres://NAME@HOST/DATABASE")
	return cmd
}

func networkBeginCommand(a *app) *cobra.Command {
	var at string
	parts := 0
	cmd := networkAt(&cobra.Command{
		Use:   "begin",
		Short: "Make the network's tables in a database, or bring them up to date",
		Long: `Makes the tables, roles and rights of a network in a database that its owner names,
or brings those of an older program up to date. It can be done again at any time, and
by several at once; tables are only ever added to. With --parts the tables of a new
network are parted by the visit, for networks of many hundred thousand visits.`,
		Example: "  rillkey network begin --at postgres://owner@network.example/streams",
		Args:    noArgs,
		RunE: func(*cobra.Command, []string) error {
			if err := network.CheckParts(parts); err != nil {
				return fault{statusMisused, wording.Errorf("--parts: %w", err)}
			}
			return beginNetwork(a, at, parts)
		},
	}, &at)
	cmd.Flags().IntVar(&parts, "parts", 0, "part the tables of a new network into `N` by the hash of the visit")
	return cmd
}

func beginNetwork(a *app, at string, parts int) error {
	if at == "" {
		return misused("--at is missing; give the address of the database")
	}
	conf, err := a.settingsOf(at)
	if err != nil {
		return err
	}
	done, err := network.Migrate(context.Background(), conf, a.logger(), parts)
	if err != nil {
		return err
	}
	if a.json {
		return show.JSON(a.stdout, struct {
			Schema int      `json:"schema"`
			Steps  []string `json:"steps"`
		}{network.SchemaVersion(), append([]string{}, done...)})
	}
	if len(done) == 0 {
		a.plainly("The network is up to date: schema %d.", network.SchemaVersion())
		return nil
	}
	a.plainly("The network is ready: schema %d. A group, such as mill-brook, is let in by: rillkey network admit mill-brook --as group "+
		"--at %s", network.SchemaVersion(), plain.ShellWord(at))
	return nil
}

func networkAdmitCommand(a *app) *cobra.Command {
	var at, as string
	cmd := networkAt(&cobra.Command{
		Use:   "admit NAME",
		Short: "Let a group, a coordinator or a reader into the network",
		Long: `Makes a user of the database with the name, if there is none, and gives it what it may
do. It gets no password from here, so that none is typed where others see it: set one
with psql's \password, or let the server know its user otherwise.`,
		Example: "  rillkey network admit mill-brook --as group --at postgres://owner@network.example/streams",
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return misused("name one group or person to let in; see 'rillkey network admit --help'")
			}
			return admit(a, at, args[0], as)
		},
	}, &at)
	cmd.Flags().StringVar(&as, "as", "", "what it is, `ROLE`: %s")
	nameInHelp(cmd.Flags(), "as", network.Roles())
	return cmd
}

func admit(a *app, at, name, as string) error {
	if err := oneOf("as", as, network.Roles()); err != nil {
		return err
	}
	if at == "" {
		return misused("--at is missing; give the address of the database")
	}
	db, err := a.database(context.Background(), at)
	if err != nil {
		return err
	}
	defer db.Close()
	if err := db.Admit(context.Background(), name, network.Role(as)); err != nil {
		return err
	}
	if a.json {
		return show.JSON(a.stdout, map[string]string{"name": name, "as": as})
	}
	a.plainly(`%s is let in as a %s. Give it a password in psql with: \password "%s"`, plain.Printable(name), as, name)
	return nil
}
