package main

import (
	"errors"
	"path/filepath"

	"rillkey/key"
	"rillkey/key/practice"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/authored"
)

// course is what is practised in the region: its kinds that can be drawn or described,
// as common as the key has them and, where visits are named, as they were found there.
func (l *library) course(visits []string) (*key.Model, *practice.Course, error) {
	k, err := l.key()
	if err != nil {
		return nil, nil, err
	}
	m, err := l.model(k, "")
	if err != nil {
		return nil, nil, err
	}
	plan := practice.Plan{}
	if plan.Effect, err = l.effect(k.Catalog()); err != nil {
		return nil, nil, err
	}
	if plan.Common, err = commonIn(visits, k); err != nil {
		return nil, nil, err
	}
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
	protocol := usualProtocol
	if r := catalog.Region(); r != nil && len(r.Protocols) > 0 {
		protocol = r.Protocols[0]
	}
	if _, err := rules.Protocol(protocol); err != nil {
		return nil, nil
	}
	return rules.Swap(protocol)
}

// commonIn mixes how common kinds are in the key with how common they were in visits,
// half and half; nil where none is named.
func commonIn(visits []string, k *key.Key) (map[string]float64, error) {
	if len(visits) == 0 {
		return nil, nil
	}
	found, total := map[string]float64{}, 0.0
	for _, file := range visits {
		v, err := visit.Read(file)
		if err != nil {
			return nil, err
		}
		for _, r := range v.Tally().Records {
			id := k.Catalog().Current(r.Taxon)
			if k.EndsIn(id) {
				found[id] += float64(r.Count)
				total += float64(r.Count)
			}
		}
	}
	if total == 0 {
		return nil, errors.New("the visits named with --like hold no animal that was named to a kind of this key")
	}
	out := map[string]float64{}
	for i, t := range k.Ends() {
		out[t.ID] = k.Prior()[i]/2 + found[t.ID]/total/2
	}
	return out, nil
}

func readTray(file string, c *practice.Course) ([]practice.Cup, error) {
	dir, name := splitPath(file)
	cups, err := practice.ReadTray(authored.DirFS(dir), name, filepath.ToSlash(file), c)
	return cups, fileError(file, err)
}
