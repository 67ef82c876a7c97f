package main

import (
	"os"
	"runtime"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// gradeMany grades the visits of several files and folders, or of a database, as one table.
func gradeMany(a *app, paths []string, reference string, charts bool) error {
	catalog, rules, err := a.catalogAndRules()
	if err != nil {
		return err
	}
	from, err := a.visitsAt(paths, readSteady)
	if err != nil {
		return err
	}
	defer from.Close()
	collecting := startCollecting()
	defer collecting.done()
	of := 0
	if from.db == nil {
		of = from.Len()
	}
	watched := a.progress("visits", of)
	table, err := from.table(a, catalog, rules, series.Options{
		Today: a.now(), Workers: runtime.GOMAXPROCS(0), Seed: seed, Reference: reference, Brief: !a.json,
		Progress: func(done int) {
			if watched.Step(done); done%stepsBetween == 0 {
				collecting.step()
			}
		},
	})
	watched.Done()
	if err != nil {
		return err
	}
	for _, p := range table.Problems {
		a.complain("rillkey: " + plain.Printable(p))
	}
	if a.json {
		err = show.TableJSON(a.stdout, table)
	} else {
		err = show.VisitTable(a.stdout, a.width, table)
		if charts && err == nil {
			err = chartsOverTime(a, rules, table)
		}
	}
	switch {
	case err != nil:
		return err
	case len(table.Problems) > 0:
		return fault{status: statusBadData}
	}
	for _, row := range table.Rows {
		if !row.Withheld {
			return nil
		}
	}
	return cannotSay
}

// stepsBetween is after how many visits it is looked how much memory is in use.
const stepsBetween = 256

// readSteady reads a visit whose file nobody changes meanwhile. One that grows is
// read again, a few times.
func readSteady(file string) (*visit.Visit, error) { return steadily(file, visit.Read) }

func steadily(file string, read func(string) (*visit.Visit, error)) (*visit.Visit, error) {
	for range 3 {
		before, _ := os.Stat(file)
		v, err := read(file)
		if err != nil {
			return nil, err
		}
		after, err := os.Stat(file)
		if err == nil && before != nil && before.Size() == after.Size() && before.ModTime().Equal(after.ModTime()) {
			return v, nil
		}
	}
	return nil, wording.Errorf("%s: the file keeps changing while it is read; try again when nobody writes to it", file)
}
