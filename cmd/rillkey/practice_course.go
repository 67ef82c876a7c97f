package main

import (
	"path/filepath"
	"slices"

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

// mostSeasonal is how many visits of a folder are read for practice at most, the newest.
const mostSeasonal = 200

// seasonal are the visits by which animals are drawn as common as now by the stream: of
// this time of year, in whichever year, in the present folder, at one site where it is
// named. about says in words which they are; empty where there are none.
func (a *app) seasonal(site string) (out []*visit.Visit, about string, err error) {
	names := namesHere()
	today := a.now()
	var sites []string
	for _, name := range names[max(0, len(names)-mostSeasonal):] {
		v, err := visit.Read(name)
		if err != nil {
			a.passOver(name, err)
			continue
		}
		if !series.InSeason(v.Header, today, site) {
			continue
		}
		out = append(out, v)
		if name := plain.OneLine(v.Header.Site); !slices.Contains(sites, name) {
			sites = append(sites, name)
		}
	}
	if len(out) == 0 {
		if site != "" {
			err = wording.Errorf("no visit to %s at this time of year is in this folder; leave --site out", plain.Quote(site))
		}
		return nil, "", err
	}
	if len(sites) > 3 {
		sites = append(sites[:3], wording.Sprintf("%d more", len(sites)-3))
	}
	return out, wording.Sprintf("Animals as common as in the region and in %s at this time of year: %s.", plain.Count(len(out), "visit"),
		plain.And(sites)), nil
}

// alike are the visits whose animals practice takes after: those named with --like, else
// those of the season here.
func (a *app) alike(f practiceFlags) (out []*visit.Visit, about string, err error) {
	if len(f.like) == 0 {
		return a.seasonal(f.site)
	}
	for _, file := range f.like {
		v, err := visit.Read(file)
		if err != nil {
			return nil, "", err
		}
		out = append(out, v)
	}
	return out, wording.Sprintf("Animals as common as in the region and in %s named with --like.", plain.Count(len(out), "visit")), nil
}

func readTray(file string, c *practice.Course) ([]practice.Cup, error) {
	dir, name := splitPath(file)
	cups, err := practice.ReadTray(authored.DirFS(dir), name, filepath.ToSlash(file), c)
	return cups, fileError(file, err)
}
