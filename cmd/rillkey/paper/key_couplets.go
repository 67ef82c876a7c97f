package paper

import (
	"html"
	"slices"
	"strings"

	"rillkey/cmd/rillkey/figure"
	"rillkey/couplets"
	"rillkey/taxa"
)

// leadSize is the size of the drawing beside a lead, in mm; one that may show
// several animals, a state each, is higher.
func leadSize(l *couplets.Lead) figure.Size {
	for _, c := range l.Conditions {
		if len(c.States) > 2 {
			return figure.Size{Width: 35, Height: 29}
		}
	}
	return figure.Size{Width: 35, Height: 21}
}

// oftenMisread is from what share of wrong answers on beginners are told how to
// look (memory).
const oftenMisread = 0.1

// couplets are all couplets by number, each with the leads it is come to from.
func (k *keyPage) couplets() {
	k.Section("The key")
	k.Raw(`<div class="couplets">` + "\n")
	for i := range k.sound.Couplets {
		k.couplet(i)
	}
	k.Raw("</div>\n")
	k.End()
}

func (k *keyPage) couplet(place int) {
	c := &k.sound.Couplets[place]
	k.Raw(`<div class="step" id="` + html.EscapeString(coupletAnchor(c.ID)) + `">` + "\n")
	k.Raw(`<h3><span class="number">` + html.EscapeString(c.ID) + "</span> " + k.say(c.Ask))
	if from := k.from[c.ID]; len(from) > 0 {
		k.Raw(` <span class="from">(from ` + leadLinks(from) + ")</span>")
	}
	k.Raw("</h3>\n")
	if advice := k.advice(c); len(advice) > 0 {
		k.Raw(`<p class="look">` + k.say(strings.Join(advice, " ")) + "</p>\n")
	}
	k.Raw(`<ul class="leads">` + "\n")
	for i, f := range k.atlas.Leads(c) {
		k.lead(c, &c.Leads[i], f)
	}
	k.Raw("</ul>\n")
	k.stop(place)
	k.Raw("</div>\n")
}

// lead is a lead with its drawing, its words and where it goes.
func (k *keyPage) lead(c *couplets.Couplet, l *couplets.Lead, f figure.Figure) {
	k.Raw(`<li id="` + html.EscapeString(leadAnchor(c.ID, l.Letter)) + `"><span class="letter">` + html.EscapeString(c.ID+l.Letter) + "</span>")
	if !f.Empty() {
		k.Raw(`<span class="drawing">` + f.SVG(leadSize(l)) + "</span>")
	}
	k.Raw(`<div><p>` + k.say(l.Text) + "</p>" + k.target(l) + "</div></li>\n")
}

// target is where a lead goes.
func (k *keyPage) target(l *couplets.Lead) string {
	if l.To != "" {
		return `<p class="to"><a href="#` + html.EscapeString(coupletAnchor(l.To)) + `">go to <b>` + html.EscapeString(l.To) + "</b></a></p>"
	}
	t := k.catalog.Taxon(l.Taxon)
	return `<p class="to end"><a href="#` + html.EscapeString(taxonAnchor(t.ID)) + `">` + taxonNames(t) + "</a> " + classWord(t.Class) + "</p>"
}

// advice is how to look: the author's, else the vocabulary's where patience or a
// lens is needed or beginners often misread what is asked.
func (k *keyPage) advice(c *couplets.Couplet) []string {
	var out []string
	if c.Wait != "" {
		out = append(out, c.Wait)
	}
	for _, id := range traitsOf(c) {
		t := k.catalog.Vocabulary().Trait(id)
		if c.Wait == "" && (t.Look != taxa.Eye || t.Misread >= oftenMisread) {
			out = append(out, t.How)
		}
	}
	if k.needsLens(c) && !strings.Contains(strings.ToLower(c.Ask+strings.Join(out, " ")), "lens") {
		out = append([]string{"Hand lens."}, out...)
	}
	return out
}

// traitsOf are the traits that the leads of a couplet speak of, as written.
func traitsOf(c *couplets.Couplet) []string {
	var out []string
	for _, l := range c.Leads {
		for _, condition := range l.Conditions {
			if !slices.Contains(out, condition.Trait) {
				out = append(out, condition.Trait)
			}
		}
	}
	return out
}

// stop says where those may stop who cannot go on.
func (k *keyPage) stop(place int) {
	c := &k.sound.Couplets[place]
	unsure := k.catalog.Taxon(c.Stop)
	var lensless *taxa.Taxon
	if k.needsLens(c) {
		if set := k.lensSet(place); set != nil {
			lensless = k.catalog.Taxon(set.Without)
		}
	}
	if unsure == nil && lensless == nil {
		return
	}
	when := "Unsure?"
	switch {
	case unsure == nil:
		when, unsure = "No lens?", lensless
	case lensless == unsure:
		when = "Unsure, or no lens?"
	case lensless != nil:
		k.stopAt("No lens?", lensless)
	}
	k.stopAt(when, unsure)
}

func (k *keyPage) stopAt(when string, t *taxa.Taxon) {
	k.Raw(`<p class="stop">` + when + " Stop here: " + taxonNames(t) + " " + classWord(t.Class) + "</p>\n")
}

func (k *keyPage) needsLens(c *couplets.Couplet) bool {
	return slices.ContainsFunc(traitsOf(c), func(id string) bool { return k.catalog.Vocabulary().Trait(id).Look == taxa.Lens })
}

// lensSet is the lens set that holds all end points beneath a couplet, or nil.
func (k *keyPage) lensSet(place int) *couplets.LensSet {
	beneath := k.sound.Beneath(place)
	for i := range k.sound.LensSets {
		set := &k.sound.LensSets[i]
		all := true
		for j, t := range k.sound.Ends {
			all = all && (!beneath.Has(j) || slices.Contains(set.Taxa, t.ID))
		}
		if all {
			return set
		}
	}
	return nil
}
