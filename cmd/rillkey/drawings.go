package main

import (
	"fmt"

	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/question"
	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/taxa"
)

// drawer draws animals beside words on screens.
type drawer struct {
	*console
	atlas *figure.Atlas // of the key, once something was drawn
}

// drawings gives the atlas of an inquiry's key, made once for all creatures of a
// sitting.
func (d *drawer) drawings(q *key.Inquiry) question.Drawings {
	k := q.Model().Key()
	return func() *figure.Atlas {
		if d.atlas == nil {
			d.atlas = figure.NewAtlas(k.Catalog(), k.Sound())
		}
		return d.atlas
	}
}

// drawAbove shows a taxon and its length on a terminal, above the words on it,
// if all of that is likely to stay in view. Pipes, plain lines and screen readers
// are left alone: dots are only noise there.
func (d *drawer) drawAbove(catalog *taxa.Catalog, t *taxa.Taxon) error {
	const width, height = 60, 24
	if !d.onScreen() || t == nil || d.width < width || d.height < height {
		return nil
	}
	room := show.Room{Width: d.width, Height: d.height * 3 / 4} // the words and what is asked next come below
	if err := show.DrawFigure(d.stdout, room, figure.NewAtlas(catalog, nil).Telling(t)); err != nil {
		return err
	}
	_, err := fmt.Fprintln(d.stdout)
	return err
}

// drawBelow does so below words that fill a screen, with the name and the class.
func (d *drawer) drawBelow(catalog *taxa.Catalog, t *taxa.Taxon) error {
	if !d.onScreen() {
		return nil
	}
	if _, err := fmt.Fprintln(d.stdout); err != nil {
		return err
	}
	if err := show.Say(d.stdout, d.width, "%s: %s", show.BothNames(t), show.ClassWord(t.Class)); err != nil {
		return err
	}
	return show.DrawFigure(d.stdout, d.room(), figure.NewAtlas(catalog, nil).Telling(t))
}

// drawBeside shows two taxa side by side.
func (d *drawer) drawBeside(catalog *taxa.Catalog, one, two *taxa.Taxon) error {
	if !d.onScreen() {
		return nil
	}
	atlas := figure.NewAtlas(catalog, nil)
	return show.DrawnBeside(d.stdout, d.room(), atlas.Telling(one), atlas.Telling(two))
}
