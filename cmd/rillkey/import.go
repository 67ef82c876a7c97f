package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/export"
	"rillkey/scoring/visit"
	"rillkey/scoring/wholefile"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

func importCommand(a *app) *cobra.Command {
	into := "."
	cmd := &cobra.Command{
		Use:   "import FOLDER",
		Short: "Read back the CSV tables that export wrote",
		Long: `Makes a visit's file of every visit in a folder that 'rillkey export --as csv'
wrote: of all, or, with anything wrong in the tables, of none. A file that exists is
never overwritten.`,
		Example: "  rillkey import for-the-county --into 2026",
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return misused("which folder? Give the one that export wrote; as in: rillkey import for-the-county")
			}
			return importTables(a, args[0], into)
		},
	}
	cmd.Flags().StringVar(&into, "into", ".", "the `FOLDER` for the visits' files")
	return cmd
}

func importTables(a *app, folder, into string) error {
	if info, err := os.Stat(into); err != nil || !info.IsDir() {
		return misused("--into: %s is no folder; create it first", plain.Printable(into))
	}
	done := show.TakenIn{Files: []string{}, There: []string{}, Remarks: []string{}}
	mode := wholefile.ModeOf(filepath.Join(folder, export.VisitsFile), filepath.Join(folder, export.EventsFile))
	watched := a.progress(wording.Text("reading the tables"), 0)
	defer watched.Done()
	var wrong error
	err := wholefile.NewFiles(into, func(scratch string) error {
		var remarks []string
		remarks, wrong = export.ReadTables(authored.DirFS(folder), folder, func(v *visit.Visit) error {
			name, there := placeFor(v, into, scratch)
			if there {
				done.There = append(done.There, filepath.Join(into, name))
				return nil
			}
			if path := filepath.Join(into, name); refuseExisting(path) != nil {
				return wording.Errorf("%s is there already and says something else of this visit; nothing is imported. To take it in "+
					"beside that, and unite the two afterwards: mkdir taken-in && rillkey import %s --into taken-in",
					plain.Printable(path), plain.ShellFiles(folder))
			}
			done.Files = append(done.Files, filepath.Join(into, name))
			return v.WriteNew(filepath.Join(scratch, name), mode)
		})
		done.Remarks = append(done.Remarks, remarks...)
		return wrong
	})
	switch {
	case wrong != nil:
		return wrong
	case errors.Is(err, fs.ErrExist):
		return wording.Errorf("another program made a file in %s meanwhile; nothing is imported, do it once more", plain.Printable(into))
	case err != nil:
		return cannotWrite(into, err)
	}
	watched.Done()
	for _, remark := range done.Remarks {
		a.complain("rillkey: " + remark)
	}
	for _, file := range done.Files {
		a.kept(file)
	}
	if a.json {
		return show.JSON(a.stdout, done)
	}
	where := into
	if filepath.Clean(into) == "." {
		where = wording.Text("this folder")
	}
	a.plainly("Saved: %s in %s.", plain.Count(len(done.Files), "visit"), where)
	if n := len(done.There); n > 0 {
		a.plainly("Left alone: %s, there already and the same to the last byte.", plain.Count(n, "visit"))
	}
	return nil
}

// placeFor is the name of the file that an imported visit gets, which neither
// folder has, and whether the first one has the visit already. Another visit to
// the site on that day keeps its name.
func placeFor(v *visit.Visit, into, scratch string) (name string, there bool) {
	plain := visit.FileName(v.Header.Date, v.Header.Site, v.Obscured())
	own := strings.TrimSuffix(plain, visit.Suffix) + "-" + v.Header.ID + visit.Suffix
	for _, name := range []string{plain, own} {
		if path := filepath.Join(into, name); isFile(path) && holds(path, v.Encode()) {
			return name, true
		}
	}
	for _, dir := range []string{into, scratch} {
		if refuseExisting(filepath.Join(dir, plain)) != nil {
			return own, false
		}
	}
	return plain, false
}
