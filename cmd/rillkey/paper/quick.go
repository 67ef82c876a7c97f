package paper

import (
	_ "embed" // the style
	"html/template"

	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

//go:embed quick.css
var quickStyle string

// MostQuick is how many kinds the quick sheet has room for, on both its sides.
const MostQuick = 36

// The quick sheet has four kinds abreast and, on each side, at most five rows.
const (
	quickAbreast = 4
	quickRows    = 5
)

// What a side has for drawings, in mm: of height over all its rows, less where letters
// are large; the most that one is high; and how wide a box is that takes one column.
const (
	quickDrawn  = 126
	largeDrawn  = 102
	mostDrawn   = 31
	columnWidth = 14.8
)

// QuickSheet is one sheet to laminate, printed on both sides: the kinds that a key ends
// in, in its order and as far as a region has them, each with two marks that tell
// it and its class. With large, its letters are larger and its drawings smaller.
func QuickSheet(catalog *taxa.Catalog, key *couplets.Sound, large bool) *Page {
	p := New(wording.Text("Stream animals at a glance"))
	p.Style(quickStyle)
	q := quickSheet{p, catalog, figure.NewAtlas(catalog, nil), large}
	sides := q.sides(key)
	for i, side := range sides {
		if i > 0 && len(side) == 0 {
			break // all kinds have room on the front
		}
		class := "side"
		if large {
			class += " large"
		}
		p.Begin("div", class)
		if i == 0 {
			p.Text("living", wording.Text(
				"Living animals only: no empty shell or case, no shed skin, no eggs. Look for both marks; the pointers show where."))
		}
		height := q.height(side)
		for _, g := range side {
			p.Section(g.name)
			p.Begin("div", "kinds")
			spans := spread(len(g.taxa))
			for i, t := range g.taxa {
				p.put("kind", q.kind(t, spans[i], height))
			}
			p.End()
			p.End()
		}
		p.Text("caution", wording.Text(quickCautions))
		p.End()
	}
	return p
}

// quickCautions are the cautions in one line; the field sheet has them whole.
var quickCautions = wording.Mark("Never alone, not in high or fast water, out at thunder, wash hands, spoon for what bites. " +
	"Back alive; foreign ones as the law says. Check, clean, dry. Local rules come first.")

type quickSheet struct {
	*Page
	catalog *taxa.Catalog
	atlas   *figure.Atlas
	large   bool
}

// kind is one box of the sheet.
type kind struct {
	Name, Scientific, Class string
	Span                    int // of the twelve columns of a sheet
	Marks                   []string
	Drawing                 template.HTML
}

// height is how high drawings are on a side, in mm.
func (q quickSheet) height(side []group) float64 {
	rows, all := 0, quickDrawn
	for _, g := range side {
		rows += (len(g.taxa) + quickAbreast - 1) / quickAbreast
	}
	if q.large {
		all = largeDrawn
	}
	return min(mostDrawn, float64(all)/float64(max(rows, 1)))
}

func (q quickSheet) kind(t *taxa.Taxon, span int, height float64) kind {
	k := kind{Name: t.Name(), Class: show.ClassWord(t.Class), Span: span}
	if !q.large && t.Scientific != t.Name() {
		k.Scientific = t.Scientific
	}
	if t.Class == "" {
		k.Class = wording.Text("class by its kind")
	}
	var traits []string
	if card := q.catalog.Card(t.ID); card != nil {
		for _, m := range card.Marks {
			k.Marks, traits = append(k.Marks, m.Words), append(traits, m.Trait)
		}
	}
	drawn := q.atlas.Marked(t, traits)
	drawn.Length = taxa.Range{}
	k.Drawing = template.HTML(drawn.SVG(figure.Size{Width: columnWidth * float64(span), Height: height}))
	return k
}

// spread is of how many of a sheet's twelve columns each of n boxes is wide, so that all
// rows are full: as even as may be, the first rows having one box more.
func spread(n int) []int {
	const columns = 12
	out := make([]int, 0, n)
	rows := (n + quickAbreast - 1) / quickAbreast
	for row := range rows {
		abreast := n / rows
		if row < n%rows {
			abreast++
		}
		for range abreast {
			out = append(out, columns/abreast)
		}
	}
	return out
}

// sides are the groups of each side: those of the key's first couplet, as many as
// fit on the front, the others behind.
func (q quickSheet) sides(key *couplets.Sound) [2][]group {
	var out [2][]group
	rows, side := 0, 0
	for _, l := range key.Couplet(key.Start).Leads {
		g := group{name: oneLine(l.Text), taxa: q.ends(key, &l, map[string]bool{})}
		if len(g.taxa) == 0 {
			continue
		}
		need := (len(g.taxa) + quickAbreast - 1) / quickAbreast
		if rows > 0 && rows+need > quickRows {
			side, rows = 1, 0
		}
		rows += need
		out[side] = append(out[side], g)
	}
	return out
}

// ends are the end points beneath a lead, as one comes to them from the front of
// the key, each once.
func (q quickSheet) ends(key *couplets.Sound, l *couplets.Lead, met map[string]bool) (out []*taxa.Taxon) {
	for _, id := range l.Taxa {
		if t := q.catalog.Taxon(id); !met[id] && q.lives(id) {
			met[id] = true
			out = append(out, t)
		}
	}
	if c := key.Couplet(l.Next); c != nil && !met["to "+l.Next] {
		met["to "+l.Next] = true
		for i := range c.Leads {
			out = append(out, q.ends(key, &c.Leads[i], met)...)
		}
	}
	return out
}

// lives reports whether a kind is met in the region of the catalog.
func (q quickSheet) lives(id string) bool {
	r := q.catalog.Region()
	return r == nil || r.Holds(id, q.catalog)
}
