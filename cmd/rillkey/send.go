package main

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"runtime/debug"
	"time"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/network"
	"rillkey/scoring/visit"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

func sendCommand(a *app) *cobra.Command {
	to := ""
	cmd := &cobra.Command{
		Use:   "send [FILE or FOLDER…]",
		Short: "Send visits to the database of a network of groups",
		Long: `Sends the entries of visits to the database of a network, each once: send as often
as you like, from as many laptops as there are, in any order. Nothing that is there
is changed or deleted, and the files stay as they are. After a lost connection, run
the same command again: it goes on where it was.

An entry that fails its checksum or a rule is kept apart there with the reason, which
you and the coordinator see. One that is dated ahead of the network's clock is sent
as it is, and told. Without files or folders all visits below the present folder are
sent.

The password is never part of the address: it comes from PGPASSWORD, or from a file
of mode 0600 that PGPASSFILE names. Names of people and exact places are sent as they
are; the network shows them to the group itself and to coordinators alone.`,
		Example: "  rillkey send --to postgres://mill-brook@network.example/streams\n" +
			"  rillkey send visits 2026-05-16-tanyard-brook.visit.toml --to postgres://mill-brook@network.example/streams --json",
		RunE: func(_ *cobra.Command, args []string) error { return sendVisits(a, to, args) },
	}
	cmd.Flags().StringVar(&to, "to", "", "the `ADDRESS` of the database: postgres://GROUP@HOST/DATABASE")
	return cmd
}

func sendVisits(a *app, to string, paths []string) error {
	if to == "" {
		return misused("--to is missing; give the address of the network's database")
	}
	if len(paths) == 0 {
		paths = []string{"."}
		if a.visitFile != "" {
			paths = []string{a.visitFile}
		}
	}
	files, err := visitFiles(paths)
	if err != nil {
		return err
	}
	ctx, stop := a.leaving.untilSignal()
	defer stop()
	defer debug.SetGCPercent(debug.SetGCPercent(sendGCPercent))
	db, err := a.database(ctx, to)
	if err != nil {
		return err
	}
	defer db.Close()
	watched := a.progress(wording.Text("visits"), len(files))
	defer watched.Done()
	begun := a.now()
	report, err := db.Send(ctx, files, wholeVisit, watched.Step)
	watched.Done()
	if report.New > 0 {
		a.kept(wording.Sprintf("%s in the network", plain.CountOf(report.New, "new entry", "new entries")))
	}
	a.tellClock(begun, report)
	return a.tellSent(report, err)
}

// tellClock says where the clock of this machine, or of one that recorded a visit, is wrong.
func (a *app) tellClock(begun time.Time, report network.SendResult) {
	if off := report.ClockOff(begun); off != 0 {
		way := wording.Text("ahead of")
		if off < 0 {
			way = wording.Text("behind")
		}
		a.complain(wording.Sprintf("rillkey: the clock of this machine is %s %s that of the network; set it, since entries are "+
			"dated by it", roughly(off.Abs()), way))
	}
	for _, x := range report.Ahead {
		a.complain(wording.Sprintf("rillkey: sent, but dated ahead: %s: %s until %s; set the clock of the machine that recorded it",
			plain.Printable(x.File), plain.CountOf(x.Entries, "entry", "entries"), x.Latest.UTC().Format("2006-01-02 15:04 UTC")))
	}
}

// roughly is a time in words.
func roughly(d time.Duration) string {
	switch {
	case d >= 48*time.Hour:
		return plain.Count(int(d.Hours()/24), "day")
	case d >= 2*time.Hour:
		return plain.Count(int(d.Hours()), "hour")
	}
	return plain.Count(int(d.Minutes()), "minute")
}

// sendGCPercent is how much memory may be added before what is no longer used is collected: a
// batch is small, and collecting it often would take a fifth of the time.
const sendGCPercent = 400

// tellSent says what came of sending, also where it ended early.
func (a *app) tellSent(report network.SendResult, ended error) error {
	for _, u := range report.Unread {
		a.complain(wording.Sprintf("rillkey: not sent: %s", plain.Printable(u)))
	}
	for _, r := range report.Refused {
		a.complain(wording.Sprintf("rillkey: kept apart: %s:%d: %s", plain.Printable(r.File), r.Line, plain.Printable(r.Reason)))
	}
	err := a.give(report, func() error { return show.Sent(a.stdout, a.width, report, ended != nil) })
	switch {
	case ended != nil:
		return ended
	case err != nil:
		return err
	case len(report.Unread)+len(report.Refused)+len(report.Ahead) > 0:
		return fault{status: statusBadData}
	}
	return nil
}

// wholeVisit is the text of a visit's file.
func wholeVisit(file string) ([]byte, error) {
	f, err := authored.OpenFile(file, os.O_RDONLY)
	if err != nil {
		return nil, wording.Errorf("%s: the visit file cannot be opened: %w", plain.Printable(file), fileCause(err))
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, visit.MaxFile+1))
	if err != nil {
		return nil, wording.Errorf("%s: the file cannot be read: %w", plain.Printable(file), fileCause(err))
	}
	return data, nil
}

// fileCause is what the operating system says without the path, which was said.
func fileCause(err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		return at.Err
	}
	return err
}
