package main

import (
	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/visit"
	"rillkey/scoring/wholefile"
	"rillkey/taxa/wording"
)

type salvageFlags struct {
	file, site, date string
	keep             bool
}

func salvageCommand(a *app) *cobra.Command {
	var f salvageFlags
	cmd := &cobra.Command{
		Use:   "salvage FILE [COPY…]",
		Short: "Make a sound file of a damaged one",
		Long: `Brings back what can be of a damaged visit's file, in a new file: from the file,
from what was set aside beside it in files ending in .torn, and from other copies
of the visit that you name. A header that is lost is taken from its copies in the
file or from another copy; with neither, say --site and --date. No file is changed;
the damaged one then gets ".damaged" added to its name, unless you say --keep.`,
		Example: `  rillkey visit salvage 2026-05-16-mill-brook.visit.toml
  rillkey visit salvage broken.visit.toml /media/card/copy.visit.toml --to mended.visit.toml`,
		RunE: func(_ *cobra.Command, files []string) error { return salvageVisit(a, f, files) },
	}
	flags := cmd.Flags()
	flags.StringVar(&f.file, "to", "", "the new `FILE` (else the old name with -salvaged)")
	flags.StringVar(&f.site, "site", "", "the place, `NAME`, where the header is lost")
	flags.StringVar(&f.date, "date", "", "the `DAY`, as 2026-05-16, where the header is lost")
	flags.BoolVar(&f.keep, "keep", false, "leave the damaged file under its name")
	return cmd
}

// isSound reports whether a visit's file is read without a remark.
func salvageVisit(a *app, f salvageFlags, files []string) error {
	if len(files) == 0 {
		return misused("which file is damaged? Name it, and other copies of the visit after it")
	}
	if f.file == "" {
		f.file = visit.NamedAsFile(files[0], "-salvaged")
	}
	if err := refuseExisting(f.file); err != nil {
		return err
	}
	s, err := visit.Salvage(files[0], files[1:], visit.Header{Site: f.site, Date: f.date})
	if err != nil {
		return err
	}
	if len(files) == 1 && s.WasSound {
		return fault{statusCannotSay, wording.Errorf("%s is sound, and nothing was set aside beside it; nothing is written", files[0])}
	}
	if err := s.Visit.WriteNew(f.file, wholefile.ModeOf(files...)); err != nil {
		return err
	}
	a.kept(f.file)
	done := show.NewSalvaged(s, f.file)
	if !f.keep {
		if done.PutAway, err = visit.PutAwayDamaged(files[0]); err != nil {
			a.complain(wording.Sprintf("rillkey: %v; take it out of this folder, so that nothing is added to it by mistake", err))
		}
	}
	if a.json {
		err = show.JSON(a.stdout, done)
	} else {
		err = done.Text(a.stdout, a.width)
	}
	if err == nil && len(s.Lost) > 0 {
		err = fault{status: statusBadData}
	}
	return err
}
