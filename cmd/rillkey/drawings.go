package main

import (
	"fmt"

	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/question"
	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/taxa"
)

// drawings gives the atlas of an inquiry's key, made once for all creatures of a
// sitting.
func (a *app) drawings(q *key.Inquiry) question.Drawings {
	k := q.Model().Key()
	return func() *figure.Atlas {
		if a.atlas == nil {
			a.atlas = figure.NewAtlas(k.Catalog(), k.Couplets())
		}
		return a.atlas
	}
}

// drawAbove shows a taxon and its length on a terminal, above the words on it,
// if all of that is likely to stay in view. Pipes, plain lines and screen readers
// are left alone: dots are only noise there.
func (a *app) drawAbove(catalog *taxa.Catalog, t *taxa.Taxon) error {
	const width, height = 60, 24
	if !a.onScreen() || t == nil || a.width < width || a.height < height {
		return nil
	}
	room := show.Room{Width: a.width, Height: a.height * 3 / 4} // the words and what is asked next come below
	if err := show.Drawn(a.out, room, figure.NewAtlas(catalog, nil).Taxon(t)); err != nil {
		return err
	}
	_, err := fmt.Fprintln(a.out)
	return err
}

// drawBelow does so below words that fill a screen, with the name and the class.
func (a *app) drawBelow(catalog *taxa.Catalog, t *taxa.Taxon) error {
	if !a.onScreen() {
		return nil
	}
	if _, err := fmt.Fprintln(a.out); err != nil {
		return err
	}
	if err := show.Say(a.out, a.width, "%s: %s", show.Named(t), show.ClassWord(t.Class)); err != nil {
		return err
	}
	return show.Drawn(a.out, a.room(), figure.NewAtlas(catalog, nil).Taxon(t))
}

// drawBeside shows two taxa side by side.
func (a *app) drawBeside(catalog *taxa.Catalog, one, two *taxa.Taxon) error {
	if !a.onScreen() {
		return nil
	}
	atlas := figure.NewAtlas(catalog, nil)
	return show.DrawnBeside(a.out, a.room(), atlas.Taxon(one), atlas.Taxon(two))
}

func (a *app) room() show.Room { return show.Room{Width: a.width, Height: a.height} }
