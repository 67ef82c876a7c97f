package main

import (
	"fmt"
	"path/filepath"
	"slices"

	"rillkey/key/practice"
	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// readers are the people whose files of practice are named.
func (a *app) readers(files []string) ([]practice.Reader, error) {
	_, course, err := a.course(nil)
	if err != nil {
		return nil, err
	}
	var out []practice.Reader
	for _, file := range files {
		dir, name := splitPath(file)
		r, err := practice.ReadRecord(authored.DirFS(dir), name, filepath.ToSlash(file))
		if err != nil {
			return nil, fileError(file, err)
		}
		out = append(out, practice.Reader{Name: r.Person, Learner: r.Learner(course)})
	}
	return out, nil
}

// tellWhoLooks says of each record who of those who practised reads the feature that
// settles it best, the first person left out.
func tellWhoLooks(a *app, catalog *taxa.Catalog, t visit.Tally, list []scoring.RecheckRecord, readers []practice.Reader) {
	for i := range list {
		trait, kinds := list[i].Settling(catalog)
		rec, _ := t.Record(list[i].Record)
		if trait == nil {
			continue
		}
		others := slices.DeleteFunc(slices.Clone(readers), func(r practice.Reader) bool { return visit.SamePerson(r.Name, rec.Who) })
		all := practice.ByReading(others, trait, kinds...)
		if len(all) == 0 {
			continue
		}
		words := wording.Sprintf("%s reads that feature rightly %.0f times in 100", plain.OneLine(all[0].Name), 100*all[0].Chance)
		if len(all) > 1 {
			words += fmt.Sprintf(", %s %.0f", plain.OneLine(all[1].Name), 100*all[1].Chance)
		}
		a.plainly("Who looks at [%s], going by practice: %s.", list[i].Record, words)
	}
}
