package paper

import (
	_ "embed" // the style
	"html/template"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

//go:embed key_short.css
var shortKeyStyle string

// ShortKey is a small key on one side of one sheet, A4 or Letter: its couplets in two
// columns with tiny drawings, and each end with its class, without the entries of the
// animals, the words and the index of [LongKey]. The catalog must be the one that the key
// was checked against.
func ShortKey(sound *couplets.Sound, catalog *taxa.Catalog) *Page {
	k := newKeyPage(sound, catalog)
	k.Style(shortKeyStyle)
	if r := catalog.Region(); r != nil {
		k.Text("use", wording.Sprintf("Animals, names and classes: %s.", oneLine(r.Title)))
	}
	k.Text("use", wording.Sprintf("Begin at %s with one living animal in clear water. Read all answers, choose what fits best, go to "+
		"its number. Cannot tell? Try both ways.", sound.Start))
	k.Begin("div", "couplets")
	for i := range sound.Couplets {
		k.put("short-couplet", k.shortCouplet(i))
	}
	k.End()
	k.Text("caution", wording.Text(quickCautions))
	return k.Page
}

// shortCouplet is a couplet with the author's advice alone, and a tiny drawing of
// each animal that it ends in.
func (k *keyPage) shortCouplet(place int) couplet {
	c := &k.sound.Couplets[place]
	out := couplet{ID: c.ID, Ask: oneLine(c.Ask), Incoming: k.incoming[c.ID], Look: oneLine(c.Wait), Leads: k.leads(c, oneLine)}
	for i, l := range out.Leads {
		if len(l.Ends) > 0 {
			drawn := k.atlas.Taxon(l.Ends[0])
			drawn.Length = taxa.Range{}
			out.Leads[i].Drawing = template.HTML(drawn.SVG(sketch)) // made smaller by the style
		}
	}
	return out
}

// What one side of the smaller of both sheets has room for, in mm of both columns
// together, and what takes it (measured): a couplet by itself, a line of advice, a
// line of a lead, and a lead with a drawing at least.
const (
	shortRoom   = 480.0
	shortBare   = 5.2
	shortAdvice = 3.4
	shortLine   = 3.5
	shortDrawn  = 7.2
)

// Letters of a line, and those that a name takes with its class.
const (
	shortAcross = 68
	shortBeside = 50
	shortName   = 24
)

// fewCouplets are so few that [LongKey] takes a sheet or two with all that it has.
const fewCouplets = 8

// OnOneSheet reports whether a key is better printed as [ShortKey]: that takes one side
// of a sheet, [LongKey] would take several, and nothing that its author wrote is lost, as
// words to explain and drawings of leads would be.
func OnOneSheet(sound *couplets.Sound) bool {
	if len(sound.Couplets) < fewCouplets || len(sound.Glossary) > 0 {
		return false
	}
	room := shortRoom
	for _, c := range sound.Couplets {
		room -= shortBare + shortAdvice*linesOf(len(oneLine(c.Wait)), shortAcross)
		for _, l := range c.Leads {
			if l.Drawing != nil {
				return false
			}
			if letters := len(oneLine(l.Text)); l.Next != "" {
				room -= shortLine * linesOf(letters+len("go to 99"), shortAcross)
			} else {
				room -= max(shortDrawn, shortLine*linesOf(letters+shortName*len(l.Taxa), shortBeside))
			}
		}
	}
	return room >= 0
}

// linesOf is how many lines so many letters take.
func linesOf(letters, abreast int) float64 { return float64((letters + abreast - 1) / abreast) }
