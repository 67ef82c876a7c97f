package paper

import (
	_ "embed" // the style
	"fmt"
	"strings"

	"rillkey/cmd/rillkey/figure"
	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// sheetFigure is the size of a figure on the contact sheet.
var sheetFigure = figure.Size{Width: 34, Height: 25}

// leadFigure is the size of a lead's figure there, pairFigure that of one of two abreast.
var (
	leadFigure = figure.Size{Width: 27, Height: 20}
	pairFigure = figure.Size{Width: 43, Height: 25}
)

//go:embed figures.css
var figuresStyle string

// Figures is the contact sheet: all taxa of a catalog by order, and all leads
// of a key, each couplet's side by side.
func Figures(catalog *taxa.Catalog, key *couplets.Sound) *Page {
	p := New(wording.Text("All figures"))
	p.Style(figuresStyle)
	p.Text("", wording.Text("Every drawing that the program makes, from the traits alone. Outlines are schematic. What a lead speaks "+
		"of is drawn with a heavier line and a pointer; a dotted ring marks a part that is absent. The bar beneath an "+
		"animal is its length at life size, if the page is printed at 100 %: heavy up to the shortest grown animal, thin up to "+
		"the longest."))
	atlas := figure.NewAtlas(catalog, key)
	for _, group := range byOrder(catalog, catalog.Taxa()) {
		p.Section(group.name)
		p.Begin("div", "grid")
		for _, t := range group.taxa {
			p.Figure(atlas.Telling(t).SVG(sheetFigure), names(t))
			p.photograph(t)
		}
		p.End()
		p.End()
	}
	p.Section(wording.Sprintf("Leads of the key: %s", key.Title))
	p.Begin("div", "leads")
	for i := range key.Couplets {
		p.lead(atlas, &key.Couplets[i])
	}
	p.End()
	p.End()
	return p
}

func (p *Page) lead(atlas *figure.Atlas, c *couplets.Couplet) {
	p.Begin("div", "couplet")
	p.Heading(c.ID + " " + c.Ask)
	class, size := "pair", leadFigure
	if len(c.Leads)%2 == 0 {
		class, size = "pair two", pairFigure
	}
	p.Begin("div", class)
	for i, f := range atlas.Leads(c) {
		words := c.ID + c.Leads[i].Letter + " " + strings.Join(strings.Fields(c.Leads[i].Text), " ")
		if f.Empty() {
			p.Text("note", wording.Sprintf("%s (no drawing)", words))
			continue
		}
		p.Figure(f.SVG(size), words)
	}
	p.End()
	p.End()
}

func names(t *taxa.Taxon) string {
	if t.Name() == t.Scientific {
		return t.Scientific
	}
	return fmt.Sprintf("%s, %s (%s)", t.Name(), t.Scientific, t.Rank)
}

// group is an order with its taxa, or what stands above all orders.
type group struct {
	name string
	taxa []*taxa.Taxon
}

// byOrder groups taxa by the order they belong to, as their orders come; those
// above any order come first.
func byOrder(catalog *taxa.Catalog, of []*taxa.Taxon) []group {
	groups := []group{{name: wording.Text("Larger groups")}}
	index := map[string]int{"": 0}
	for _, t := range of {
		id, name := "", ""
		for _, up := range append([]*taxa.Taxon{t}, catalog.Ancestors(t.ID)...) {
			if up.Rank == "order" {
				id, name = up.ID, up.Name()+" ("+up.Scientific+")"
				break
			}
		}
		i, ok := index[id]
		if !ok {
			i = len(groups)
			index[id] = i
			groups = append(groups, group{name: name})
		}
		groups[i].taxa = append(groups[i].taxa, t)
	}
	return groups
}
