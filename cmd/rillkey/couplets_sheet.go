package main

import (
	"io"
	"path/filepath"
	"strings"

	"rillkey/key/draft"
	"rillkey/key/draft/grid"
)

// giveSheet writes the table of a key's animals as a spreadsheet.
func giveSheet(a *app, flags draftFlags) error {
	write := grid.Write
	switch ending := strings.ToLower(filepath.Ext(flags.sheet)); {
	case flags.csv != "" || flags.file != "" || flags.taxaOut != "":
		return misused("--sheet drafts nothing, so it goes alone or with --key, --taxa and --region")
	case ending == ".csv":
		write = grid.WriteCSV
	case ending != ".xlsx":
		return misused("--sheet writes a file that ends in .xlsx or .csv")
	}
	sound, catalog, err := a.sound()
	if err != nil {
		return err
	}
	table := draft.GiveKey(catalog, sound)
	err = a.newFile(flags.sheet, []string{a.keyFile}, func(w io.Writer) error { return write(w, table) })
	if err != nil {
		return err
	}
	a.plainly("Written: %s, %d animals by %d columns. Shares of states are not in it, and of the words of the key those of "+
		"leads that end in one animal.", flags.sheet, len(sound.Ends), len(table[0])-1)
	return nil
}
