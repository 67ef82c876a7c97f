package paper

import (
	"html/template"
	"slices"
	"strings"

	"rillkey/cmd/rillkey/figure"
	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// leadSize is the size of the drawing beside a lead, in mm; one that may show
// several animals, a state each, is higher.
func leadSize(l *couplets.Lead) figure.Size {
	for _, c := range l.Conditions {
		if len(c.States) > 2 {
			return figure.Size{Width: 22, Height: 18}
		}
	}
	return figure.Size{Width: 22, Height: 13}
}

// oftenMisread is from what share of wrong answers on beginners are told how to
// look (memory).
const oftenMisread = 0.1

// couplets are all couplets by number, each with the leads it is come to from.
func (k *keyPage) couplets() {
	k.Section(wording.Text("The key"))
	k.Begin("div", "couplets")
	for i := range k.sound.Couplets {
		k.put("couplet", k.couplet(i))
	}
	k.End()
	k.End()
}

// couplet is one as it is printed: where it is come to from, how to look, its
// leads, and where those may stop who cannot go on.
type couplet struct {
	ID, Ask  string
	Incoming []string
	Look     string
	Leads    []lead
	Stops    []stop
}

// lead is one with its drawing, its words and where it goes.
type lead struct {
	Label, Words, Next string
	Ends               []*taxa.Taxon // where it goes to no couplet
	Drawing            template.HTML
}

type stop struct {
	When  string
	Taxon *taxa.Taxon
}

func (k *keyPage) couplet(place int) couplet {
	c := &k.sound.Couplets[place]
	out := couplet{ID: c.ID, Ask: k.say(c.Ask), Incoming: k.incoming[c.ID], Look: k.say(strings.Join(k.advice(c), " "))}
	out.Leads, out.Stops = k.leads(c, k.say), k.stops(place)
	for i, f := range k.atlas.Leads(c) {
		if !f.Empty() {
			out.Leads[i].Drawing = template.HTML(f.SVG(leadSize(&c.Leads[i])))
		}
	}
	return out
}

// leads are those of a couplet without drawings.
func (k *keyPage) leads(c *couplets.Couplet, say func(string) string) (out []lead) {
	for _, l := range c.Leads {
		one := lead{Label: c.ID + l.Letter, Words: say(l.Text), Next: l.Next}
		for _, id := range l.Taxa {
			one.Ends = append(one.Ends, k.catalog.Taxon(id))
		}
		out = append(out, one)
	}
	return out
}

// advice is how to look: the author's, else the vocabulary's where patience or a
// lens is needed or beginners often misread what is asked.
func (k *keyPage) advice(c *couplets.Couplet) []string {
	var out []string
	if c.Wait != "" {
		out = append(out, c.Wait)
	}
	for _, id := range c.Traits() {
		t := k.catalog.Vocabulary().Trait(id)
		if c.Wait == "" && (t.Look != taxa.Eye || t.Misread >= oftenMisread) {
			out = append(out, t.How)
		}
	}
	if k.needsLens(c) && !strings.Contains(strings.ToLower(c.Ask+strings.Join(out, " ")), "lens") {
		out = append([]string{wording.Text("Hand lens.")}, out...)
	}
	return out
}

// stops says where those may stop who cannot go on.
func (k *keyPage) stops(place int) []stop {
	c := &k.sound.Couplets[place]
	unsure := k.catalog.Taxon(c.Stop)
	var lensless *taxa.Taxon
	if k.needsLens(c) {
		if set := k.lensSet(place); set != nil {
			lensless = k.catalog.Taxon(set.NakedEye)
		}
	}
	switch {
	case unsure == nil && lensless == nil:
		return nil
	case unsure == nil:
		return []stop{{wording.Text("No lens?"), lensless}}
	case lensless == nil:
		return []stop{{wording.Text("Unsure?"), unsure}}
	case lensless == unsure:
		return []stop{{wording.Text("Unsure, or no lens?"), unsure}}
	}
	return []stop{{wording.Text("No lens?"), lensless}, {wording.Text("Unsure?"), unsure}}
}

func (k *keyPage) needsLens(c *couplets.Couplet) bool {
	return slices.ContainsFunc(c.Traits(), func(id string) bool { return k.catalog.Vocabulary().Trait(id).Look == taxa.Lens })
}

// lensSet is the lens set that holds all end points beneath a couplet, or nil.
func (k *keyPage) lensSet(place int) *couplets.LensSet {
	beneath := k.sound.EndsBeneath(place)
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
