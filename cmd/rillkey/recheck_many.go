package main

import (
	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/series"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// listManyRechecks lists the animals of many visits worth a second look first.
func listManyRechecks(a *app, paths []string, most int) error {
	_, rules, err := a.catalogAndRules()
	if err != nil {
		return err
	}
	from, err := a.visitsAt(paths, nil)
	if err != nil {
		return err
	}
	defer from.Close()
	watched := a.progress(wording.Text("visits"), from.Len())
	defer watched.Done()
	list := show.Rechecks{Records: []show.VisitRecheck{}}
	failed := from.Each(func(i series.Item) bool {
		list.Visits++
		watched.Step(list.Visits)
		v, err := i.Read()
		if err == nil {
			one, graded := rules.Recheck(rules.Account(v), seed)
			if err = graded; err == nil {
				list.Add(i.Name, one, most)
			}
		}
		if err != nil {
			watched.Interrupt(func() {
				a.complain(wording.Sprintf("rillkey: passed over: %s", plain.Printable(wording.Reason(err).Error())))
			})
			list.PassedOver++
		}
		return true
	})
	watched.Done()
	switch {
	case failed != nil:
		return failed
	case a.json:
		err = show.JSON(a.stdout, list)
	default:
		err = list.Text(a.stdout, a.width)
	}
	if err == nil && list.PassedOver > 0 {
		err = fault{status: statusBadData}
	}
	return err
}
