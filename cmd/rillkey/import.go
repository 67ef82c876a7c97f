package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/handover"
	"rillkey/scoring/visit"
)

func (a *app) importCommand() *cobra.Command {
	into := "."
	cmd := &cobra.Command{
		Use:   "import FOLDER",
		Short: "Read back the CSV tables that export wrote",
		Long: `Makes a visit's file of every visit in a folder that 'rillkey export --as csv'
wrote. All tables are read and checked first; with anything wrong in them nothing
is written. A file that exists is never overwritten.`,
		Example: "  rillkey import for-the-county --into 2026",
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return misused("which folder? Give the one that 'rillkey export --as csv' wrote")
			}
			return a.importTables(args[0], into)
		},
	}
	cmd.Flags().StringVar(&into, "into", ".", "the `FOLDER` for the visits' files")
	return cmd
}

func (a *app) importTables(folder, into string) error {
	if info, err := os.Stat(into); err != nil || !info.IsDir() {
		return misused("--into: %s is no folder; create it first", show.Safe(into))
	}
	tables := os.DirFS(folder)
	total := 0
	reading := a.progress("reading the tables", 0)
	err := handover.ReadTables(tables, folder, func(*visit.Visit) error { total++; return nil })
	reading.Done()
	if err != nil {
		return err
	}
	watched := a.progress("visits", total)
	defer watched.Done()
	done := show.TakenIn{Files: []string{}, There: []string{}}
	err = handover.ReadTables(tables, folder, func(v *visit.Visit) error {
		watched.Step(len(done.Files) + len(done.There))
		path, there := placeFor(into, v)
		if there {
			done.There = append(done.There, path)
			return nil
		}
		done.Files = append(done.Files, path)
		return v.WriteNew(path)
	})
	if err != nil {
		return err
	}
	watched.Done()
	if a.json {
		return show.JSON(a.out, done)
	}
	a.plainly("Saved: %s in %s.", visits(len(done.Files)), into)
	if n := len(done.There); n > 0 {
		a.plainly("Left alone: %s, there already and the same to the last byte.", visits(n))
	}
	return nil
}

// placeFor is the file that an imported visit gets, and whether the visit is in
// it already. Another visit to the site on that day keeps its name.
func placeFor(into string, v *visit.Visit) (path string, there bool) {
	plain := filepath.Join(into, fileName(v.Header.Site, v.Header.Date))
	own := strings.TrimSuffix(plain, visitSuffix) + "-" + v.Header.ID + visitSuffix
	for _, path := range []string{plain, own} {
		data, err := os.ReadFile(path)
		switch {
		case err != nil:
			return path, false
		case bytes.Equal(data, v.Encode()):
			return path, true
		}
	}
	return own, false // WriteNew refuses it with a clear message
}
