package main

import (
	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/visit"
)

// reopenCommand withdraws a finish.
func reopenCommand(a *app) *cobra.Command {
	var who, reason string
	cmd := &cobra.Command{
		Use:   "reopen",
		Short: "Open a finished visit again",
		Long: `Withdraws the finish, so that samples and animals can be added again. The finish
stays in the file, with the reason why it no longer holds.`,
		Example: `  rillkey visit reopen
  rillkey visit reopen --visit 2026-05-16-mill-brook.visit.toml --reason "one tray was left"`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error { return reopenVisit(a, who, reason) },
	}
	cmd.Flags().StringVar(&who, "who", "", "`NAME` of the person who opens it")
	cmd.Flags().StringVar(&reason, "reason", "opened again", "why, `TEXT`")
	return cmd
}

func reopenVisit(a *app, who, reason string) error {
	path, err := a.visitPath(true)
	if err != nil {
		return err
	}
	v, err := a.take(path)
	if err != nil {
		return err
	}
	if !v.Finished() {
		return misused("%s is not finished; samples and animals can be added to it as it is", path)
	}
	if err := a.reopenFile(v, who, reason); err != nil {
		return err
	}
	if a.json {
		return show.JSON(a.stdout, show.SavedJSON{Visit: v.Header.ID, File: path})
	}
	return nil
}

// reopenFile opens a visit again and says so.
func (vf *visitFolder) reopenFile(v *visit.Visit, who, reason string) error {
	saved, err := visit.Reopen(v, vf.now(), who, reason, vf.random)
	for _, s := range saved {
		vf.notices(s)
	}
	if err != nil {
		return err
	}
	vf.plainly("Saved: the visit in %s is open again. It is closed by: rillkey visit finish%s", v.File, vf.sameVisit())
	return nil
}
