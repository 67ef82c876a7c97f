package main

import (
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// showCard shows the card of the animal of a name, with its drawing.
func showCard(a *app, name string) error {
	catalog, err := a.catalog()
	if err != nil {
		return err
	}
	f := catalog.Find(name)
	f.Similar = f.Similar[:min(mostAlike, len(f.Similar))]
	switch {
	case f.Taxon == nil && len(f.Similar) == 0:
		return fault{statusCannotSay, wording.Errorf("no creature here has a name like %q; try a shorter part of the name", name)}
	case f.Taxon == nil:
		if err := show.LookAlikes(a.stdout, a.width, name, f); err != nil {
			return err
		}
		return cannotSay
	}
	card := catalog.Card(f.Taxon.ID)
	switch {
	case card == nil:
		return fault{statusCannotSay, noCard(catalog, f.Taxon)}
	case a.json:
		return show.JSON(a.stdout, card)
	}
	if err := show.Card(a.stdout, a.width, catalog, f.Taxon, card); err != nil {
		return err
	}
	return a.drawBelow(catalog, f.Taxon)
}

// noCard says why an animal has no card: those that it stands for have their own, or
// it tells nothing of the stream, like a shed skin.
func noCard(c *taxa.Catalog, t *taxa.Taxon) error {
	var own []string
	for _, card := range c.Cards() {
		if c.IsUnder(card.Taxon, t.ID) && len(own) < 4 {
			own = append(own, c.Taxon(card.Taxon).Name())
		}
	}
	if len(own) > 0 {
		return wording.Errorf("there is no one card of %s; what belongs there has its own, such as %s", t.Name(), strings.Join(own, ", "))
	}
	return wording.Errorf("there is no card of %s: it has no story that tells of the stream; what is known is told by: "+
		"rillkey taxa %s", t.Name(), plain.ShellWord(t.ID))
}
