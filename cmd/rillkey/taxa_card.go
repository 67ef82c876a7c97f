package main

import (
	"fmt"

	"rillkey/cmd/rillkey/show"
)

// showCard shows the card of the animal of a name, with its drawing.
func showCard(a *app, name string) error {
	catalog, err := a.catalog()
	if err != nil {
		return err
	}
	f := catalog.Find(name)
	f.Near = f.Near[:min(mostAlike, len(f.Near))]
	switch {
	case f.Taxon == nil && len(f.Near) == 0:
		return fault{statusCannotSay, fmt.Errorf("no creature here has a name like %q; try a shorter part of the name", name)}
	case f.Taxon == nil:
		if err := show.LookAlikes(a.out, a.width, name, f); err != nil {
			return err
		}
		return cannotSay
	}
	card := catalog.Card(f.Taxon.ID)
	switch {
	case card == nil:
		return fault{statusCannotSay, fmt.Errorf("there is no card of %s yet; 'rillkey taxa' tells what is known", f.Taxon.Name())}
	case a.json:
		return show.JSON(a.out, card)
	}
	if err := show.Card(a.out, a.width, catalog, f.Taxon, card); err != nil {
		return err
	}
	return a.drawBelow(catalog, f.Taxon)
}
