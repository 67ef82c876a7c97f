package main

import (
	"path/filepath"

	"rillkey/cmd/rillkey/lesson"
	"rillkey/key"
	"rillkey/key/practice"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// course is what is practised in the region: its kinds that can be drawn or described,
// as common as the key has them and, where visits are given, as they were found there.
func (l *library) course(visits []*visit.Visit) (*key.Model, *practice.Course, error) {
	m, err := usualModel(l)
	if err != nil {
		return nil, nil, err
	}
	k := m.Key()
	plan := practice.Plan{}
	if plan.Effect, err = l.effect(k.Catalog()); err != nil {
		return nil, nil, err
	}
	plan.Common = practice.Common(k, visit.AnimalsByTaxon(visits))
	course, err := practice.NewCourse(k, plan)
	return m, course, err
}

// effect is what it does to the grade of the region's usual protocol when one kind is
// called another; nil where there are no rules for it.
func (l *library) effect(catalog *taxa.Catalog) (func(a, b string) float64, error) {
	rules, err := l.rules(catalog)
	if err != nil {
		return nil, err
	}
	p, err := rules.ProtocolFor(catalog.Region())
	if err != nil || p == nil {
		return nil, nil
	}
	return rules.Swap(p.ID)
}

// takenAfter are the visits whose animals practice takes after: those named with --like,
// else those of this time of year in the present folder.
func (a *app) takenAfter(f practiceFlags) (visits []*visit.Visit, about string, err error) {
	if len(f.kinds) == 0 {
		visits = series.Seasonal(namesHere(), a.now(), f.site, a.passOver)
		if len(visits) == 0 && f.site != "" {
			err = wording.Errorf("no visit to %s at this time of year is in this folder; leave --site out", plain.Quote(f.site))
		}
		return visits, lesson.AboutSeason(visits), err
	}
	for _, file := range f.kinds {
		v, err := visit.Read(file)
		if err != nil {
			return nil, "", err
		}
		visits = append(visits, v)
	}
	about = wording.Sprintf("Animals as common as in the region and in %s named with --like.", plain.Count(len(visits), "visit"))
	return visits, about, nil
}

func readTray(file string, c *practice.Course) ([]practice.Cup, error) {
	dir, name := splitPath(file)
	cups, err := practice.ReadTray(authored.DirFS(dir), name, filepath.ToSlash(file), c)
	return cups, fileError(file, err)
}
