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

var (
	quickFigure      = figure.Size{Width: 44, Height: 21}
	quickFigureSmall = figure.Size{Width: 44, Height: 19}
)

// Quick is one sheet to laminate, printed on both sides: the kinds that a key ends
// in, in its order and as far as a region has them, each with two marks that tell
// it and its class. With large, its letters are larger and its drawings smaller.
func Quick(catalog *taxa.Catalog, key *couplets.Sound, large bool) *Page {
	p := New(wording.Of("Stream animals at a glance"))
	p.Style(quickStyle)
	q := quickSheet{p, catalog, figure.NewAtlas(catalog, nil), large}
	sides := q.sides(key)
	for i, side := range sides {
		class := "side"
		if large {
			class += " large"
		}
		p.Begin("div", class)
		if i == 0 {
			p.Text("living", wording.Of(
				"Living animals only: no empty shell or case, no shed skin, no eggs. Look for both marks; the pointers show where."))
		}
		for _, g := range side {
			p.Section(g.name)
			p.Begin("div", "kinds")
			for _, t := range g.taxa {
				p.put("kind", q.kind(t))
			}
			p.End()
			p.End()
		}
		p.Text("caution", wording.Of(quickCautions))
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
	Marks                   []string
	Drawing                 template.HTML
}

func (q quickSheet) kind(t *taxa.Taxon) kind {
	k := kind{Name: t.Name(), Class: show.ClassWord(t.Class)}
	if !q.large && t.Scientific != t.Name() {
		k.Scientific = t.Scientific
	}
	if t.Class == "" {
		k.Class = wording.Of("class by its kind")
	}
	var traits []string
	if card := q.catalog.Card(t.ID); card != nil {
		for _, m := range card.Marks {
			k.Marks, traits = append(k.Marks, m.Words), append(traits, m.Trait)
		}
	}
	size := quickFigure
	if q.large {
		size = quickFigureSmall
	}
	drawn := q.atlas.Marked(t, traits)
	drawn.Length = taxa.Range{}
	k.Drawing = template.HTML(drawn.SVG(size))
	return k
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
	if c := key.Couplet(l.To); c != nil && !met[wording.Sprintf("to %s", l.To)] {
		met[wording.Sprintf("to %s", l.To)] = true
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
