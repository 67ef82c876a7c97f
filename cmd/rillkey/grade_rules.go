package main

import (
	"errors"
	"os"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/taxa/authored"
	"rillkey/taxa/wording"
)

// checkRules checks the schemes and protocols in dir and prints every finding at
// its place.
func checkRules(a *app, dir string) error {
	catalog, err := a.catalog()
	if err != nil {
		return err
	}
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return wording.Errorf("%s: there is no such folder; it holds the folders schemes and protocols", dir)
	}
	rules, err := scoring.LoadRules(authored.DirFS(dir), dir, catalog)
	var found authored.Findings
	if err != nil && !errors.As(err, &found) {
		return err
	}
	report := show.NewCheckedRules(rules, found)
	if a.json {
		err = show.JSON(a.stdout, report)
	} else {
		err = report.Text(a.stdout)
	}
	if err == nil && len(found) > 0 {
		return fault{status: statusBadData}
	}
	return err
}
