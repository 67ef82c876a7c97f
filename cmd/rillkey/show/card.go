package show

import (
	"io"
	"strings"

	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// CardLine is a labelled text of a card, or why a find matters in the region and what to do
// about it.
type CardLine struct{ Label, Text string }

// mostMixedUp are how many look-alikes a card names: it is one, not a key.
const mostMixedUp = 2

// CardLines are what a card tells of an animal beside its marks, in the order of
// telling; what the card holds for may lie beneath its taxon.
func CardLines(catalog *taxa.Catalog, t *taxa.Taxon, c *taxa.Card) []CardLine {
	out := []CardLine{{wording.Text("How it lives"), c.Life}, {wording.Text("How it eats"), c.Food},
		{wording.Text("It tells"), c.Tells}, {wording.Text("But"), c.Silent}}
	var mixed []string
	for _, m := range lookAlikes(catalog, t) {
		mixed = append(mixed, wording.Sprintf("With %s: %s", catalog.Taxon(m.Taxon).Name(), m.Tell))
	}
	if len(mixed) > 0 {
		out = append(out, CardLine{wording.Text("Mixed up"), strings.Join(mixed, " ")})
	}
	if t.Handling != "" {
		out = append(out, CardLine{wording.Text("Handle"), t.Handling})
	}
	out = append(out, concernsWithin(catalog, t)...)
	if c.Months != "" {
		out = append(out, CardLine{wording.Text("Months"), c.Months})
	}
	return append(out, CardLine{wording.Text("Try this"), c.Try})
}

// lookAlikes are what an animal is taken for; where nothing is said of it, those
// of the nearest above.
func lookAlikes(catalog *taxa.Catalog, t *taxa.Taxon) []taxa.Mistaken {
	for _, up := range append([]*taxa.Taxon{t}, catalog.Ancestors(t.ID)...) {
		if len(up.Mistaken) > 0 {
			return up.Mistaken[:min(mostMixedUp, len(up.Mistaken))]
		}
	}
	return nil
}

// concernsWithin are the concerns of an animal, or that some of its kind in the
// region are foreign or protected.
func concernsWithin(catalog *taxa.Catalog, t *taxa.Taxon) []CardLine {
	if out := concerns(t); len(out) > 0 || catalog.Region() == nil {
		return out
	}
	var foreign, guarded []string
	both := false // of one kind some are foreign and some protected
	for _, r := range catalog.Region().Taxa {
		if x := catalog.Taxon(r.Taxon); catalog.IsUnder(r.Taxon, t.ID) {
			if x.Invader != nil {
				foreign = append(foreign, some(x, x.Invader))
			}
			if x.Protected != nil {
				guarded, both = append(guarded, some(x, x.Protected)), both || x.Invader != nil
			}
		}
	}
	var out []CardLine
	if len(foreign) > 0 {
		out = append(out, CardLine{wording.Text("Foreign"),
			wording.Sprintf("%s. No sign of clean water; ask what the law says before any goes back.", strings.Join(foreign, ", "))})
	}
	switch list := strings.Join(guarded, ", "); {
	case both:
		out = append(out, CardLine{wording.Text("Protected"),
			wording.Sprintf("%s. Look, keep none, and ask before any goes back.", list)})
	case list != "":
		out = append(out, CardLine{wording.Text("Protected"), wording.Sprintf("%s. Look, and put it back first.", list)})
	}
	return out
}

func some(t *taxa.Taxon, c *taxa.Concern) string {
	if c.Some {
		return wording.Sprintf("some of %s", t.Name())
	}
	return t.Name()
}

// Card writes the card of an animal, which may be that of a kind above it.
func Card(w io.Writer, width int, catalog *taxa.Catalog, t *taxa.Taxon, c *taxa.Card) error {
	p := newPage(w, width)
	p.text(0, 0, "%s", heading(t))
	if c.Taxon != t.ID {
		p.text(0, 0, "What is told of %s as a whole:", catalog.Taxon(c.Taxon).Name())
	}
	p.item("Know it by", "%s", c.Marks[0].Words)
	p.item("", "%s", c.Marks[1].Words)
	if t.Length.Known() {
		p.item("Size", "grown ones are %s", LengthRange(t.Length))
	}
	for _, l := range CardLines(catalog, t, c) {
		if l.Label == "How it eats" {
			l.Text += " (" + strings.Join(c.Eats, ", ") + ")"
		}
		p.item(l.Label, "%s", l.Text)
	}
	p.text(2, 2, "%s", CardSource(c))
	return p.err
}

// CardSource says where a card's texts come from, and how sure they are.
func CardSource(c *taxa.Card) string {
	if c.Source == c.Status {
		return wording.Sprintf("Source: %s.", wording.Text(c.Source))
	}
	return wording.Sprintf("Source: %s; %s.", wording.Text(c.Source), wording.Text(c.Status))
}
