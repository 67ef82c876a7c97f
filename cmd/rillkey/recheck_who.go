package main

import (
	"cmp"
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

// reader is somebody who practised, as whoever looks a second time is chosen by.
type reader struct {
	name    string
	learner *practice.Learner
}

// readers are the people whose files of practice are named.
func (a *app) readers(files []string) ([]reader, error) {
	_, course, err := a.course(nil)
	if err != nil {
		return nil, err
	}
	var out []reader
	for _, file := range files {
		dir, name := splitPath(file)
		r, err := practice.ReadRecord(authored.DirFS(dir), name, filepath.ToSlash(file))
		if err != nil {
			return nil, fileError(file, err)
		}
		out = append(out, reader{r.Person, r.Learner(course)})
	}
	return out, nil
}

// tellWhoLooks says of each record who of those who practised reads the feature that
// settles it best, the first person left out.
func tellWhoLooks(a *app, catalog *taxa.Catalog, t visit.Tally, list []scoring.RecheckRecord, readers []reader) {
	for i := range list {
		trait, kinds := settling(catalog, &list[i])
		rec, _ := t.Record(list[i].Record)
		if trait == nil {
			continue
		}
		type chance struct {
			name  string
			right float64
		}
		var all []chance
		for _, r := range readers {
			if !visit.SamePerson(r.name, rec.Who) {
				all = append(all, chance{plain.OneLine(r.name), r.learner.Rightly(trait, kinds...)})
			}
		}
		if len(all) == 0 {
			continue
		}
		slices.SortStableFunc(all, func(x, y chance) int { return cmp.Compare(y.right, x.right) })
		words := wording.Sprintf("%s reads that feature rightly %.0f times in 100", all[0].name, 100*all[0].right)
		if len(all) > 1 {
			words += fmt.Sprintf(", %s %.0f", all[1].name, 100*all[1].right)
		}
		a.plainly("Who looks at [%s], going by practice: %s.", list[i].Record, words)
	}
}

// settling is the feature that tells what a record is named from what else it may be,
// and the two; nil where none does for certain.
func settling(catalog *taxa.Catalog, r *scoring.RecheckRecord) (*taxa.Trait, []*taxa.Taxon) {
	var ids []string
	if r.Taxon != "" {
		ids = append(ids, r.Taxon)
	}
	for _, x := range r.Rivals {
		ids = append(ids, x.Taxon)
	}
	if len(ids) < 2 || catalog.Taxon(ids[0]) == nil || catalog.Taxon(ids[1]) == nil {
		return nil, nil
	}
	two := []*taxa.Taxon{catalog.Taxon(ids[0]), catalog.Taxon(ids[1])}
	traits := catalog.TellApart(two[0], two[1])
	if len(traits) == 0 {
		return nil, nil
	}
	return traits[0], two
}
