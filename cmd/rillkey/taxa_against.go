package main

import (
	"rillkey/cmd/rillkey/show"
)

// compareTaxa tells two creatures apart by their features.
func compareTaxa(a *app, name, other string) error {
	m, err := usualModel(a.library)
	if err != nil {
		return err
	}
	k := m.Key()
	one, err := a.taxonNamed(k.Catalog(), name)
	if err != nil {
		return err
	}
	two, err := a.taxonNamed(k.Catalog(), other)
	if err != nil {
		return err
	}
	if one == two {
		return misused("%q and %q are the same creature here", name, other)
	}
	c := show.NewContrast(one, two, m.Compare(one.ID, two.ID))
	if a.json {
		err = show.JSON(a.stdout, c)
	} else if err = c.Text(a.stdout, a.width); err == nil {
		err = a.drawBeside(k.Catalog(), one, two)
	}
	if err == nil && len(c.Features) == 0 {
		return cannotSay
	}
	return err
}
