package publish

import (
	"cmp"
	"slices"
	"strings"

	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/paper"
	"rillkey/cmd/rillkey/show"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// animals are those named on any visit, each with a drawing in a file of its own, and a
// page that shows them all.
func (c *county) animals() (out []siteFile) {
	atlas := figure.NewAtlas(c.Catalog, nil)
	found := c.found()
	for _, f := range found {
		out = append(out, siteFile{Path: drawing(f.taxon), Rests: c.rests("drawing", f.taxon.ID), Make: func() ([]byte, error) {
			return []byte(paper.Face(atlas, f.taxon) + "\n"), nil
		}})
	}
	var on []any
	for _, f := range found {
		on = append(on, f.taxon.ID, f.sites)
	}
	title := wording.Text("The animals")
	return append(out, c.page("animals/index.html", title, c.way(), c.rests("animals", on), func(p *paper.Page) error {
		p.Text("lead", wording.Sprintf("Every kind that was named, and at how many of the %s it ever was.",
			plain.Count(len(c.sites), "site")))
		for _, class := range slices.Concat(taxa.Classes, []taxa.Class{""}) {
			c.animalsOf(p, class, found)
		}
		p.Text("note", wording.Text("Drawn from what each kind usually shows, schematic and not to one scale."))
		return nil
	}))
}

func (c *county) animalsOf(p *paper.Page, class taxa.Class, found []foundTaxon) {
	found = slices.DeleteFunc(slices.Clone(found), func(f foundTaxon) bool {
		return f.taxon.Class != class && (class != "" || slices.Contains(taxa.Classes, f.taxon.Class))
	})
	if len(found) == 0 {
		return
	}
	title := wording.Text("Of several classes")
	if class != "" {
		title = plain.Capital(show.ClassWord(class))
	}
	p.Section(title)
	p.Begin("div", "kinds")
	for _, f := range found {
		p.Picture(f.taxon.ID+".svg", "", show.BothNames(f.taxon)+", "+plain.Count(f.sites, "site"), faceWidth, faceHeight)
	}
	p.End()
	p.End()
}

// The size of a drawing on a page, in pixels.
const faceWidth, faceHeight = 106, 68

type foundTaxon struct {
	taxon *taxa.Taxon
	sites int
}

// found are the taxa named on any visit, the most widespread first.
func (c *county) found() (out []foundTaxon) {
	sites := map[string]int{}
	for _, s := range c.sites {
		here := map[string]bool{}
		for _, v := range s.visits {
			for _, id := range strings.Fields(v.Taxa) {
				here[id] = true
			}
		}
		for id := range here {
			sites[id]++
		}
	}
	for id, n := range sites {
		if t := c.Catalog.Taxon(id); t != nil {
			out = append(out, foundTaxon{t, n})
		}
	}
	slices.SortFunc(out, func(a, b foundTaxon) int {
		return cmp.Or(cmp.Compare(b.sites, a.sites), strings.Compare(a.taxon.ID, b.taxon.ID))
	})
	return out
}

func drawing(t *taxa.Taxon) string { return "animals/" + t.ID + ".svg" }

// pictureOf is the drawing of a taxon from a page one folder down.
func pictureOf(t *taxa.Taxon) string { return "../" + drawing(t) }
