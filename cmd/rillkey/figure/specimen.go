package figure

import (
	"maps"
	"slices"

	"rillkey/taxa"
)

// Specimen is the figure of one animal of a taxon in the states that it shows, the
// traits set off that are named, as far as its outline has a place for them. Neither
// title nor words say what it is; they are for who is to name it. It is empty where
// too little is known of the taxon to draw it.
func (a *Atlas) Specimen(t *taxa.Taxon, shows map[string]string, setOff []string) Figure {
	f := Figure{Title: "the animal"}
	if t.Drawing != nil {
		f = f.own(t.Drawing)
		f.Alt = "Drawing of the animal."
		return f
	}
	traits, p := a.sitter(t, shows)
	if p == nil {
		return f
	}
	k := newSketch(traits)
	p.draw(k)
	f.panels = []panel{body(traits, p, placed(k.places, setOff))}
	f.Alt = "Drawing of the animal, seen from " + p.view + "."
	return f
}

// sitter is an animal as it is drawn: in the states that it shows, and built as its
// kind is. Without a plan it cannot be.
func (a *Atlas) sitter(t *taxa.Taxon, shows map[string]string) (Traits, *plan) {
	traits := Traits(maps.Clone(shows)).coherent()
	own := planOf(a.traits[t.ID], t.Build)
	if p := planOf(traits, t.Build); p != nil && (own == nil || p == own || slices.Contains(turns[own], p)) {
		return traits, p
	}
	if own != nil {
		return traits, own
	}
	for _, member := range a.builds(t) {
		usual := maps.Clone(a.traits[member.ID])
		maps.Copy(usual, traits)
		if p := planOf(usual, member.Build); p != nil {
			return usual.coherent(), p
		}
	}
	return nil, nil
}

// turns are the builds that animals of one kind have besides their usual one. Whatever
// else single states look like, an odd animal is built as its kind: an oval flatworm is
// no water flea, and a leech whose suckers do not show is no worm.
var turns = map[*plan][]*plan{
	planCased:  {planCaddis},
	planCaddis: {planCased},
	planNymph:  {planBeetle, planGrub},
	planGrub:   {planNymph},
	planWorm:   {planWire},
}

// Visible are the traits that the figure of an animal has a place for, so that they can
// be read there.
func (a *Atlas) Visible(t *taxa.Taxon, shows map[string]string) map[string]bool {
	out := map[string]bool{}
	if t.Drawing != nil {
		return out
	}
	traits, p := a.sitter(t, shows)
	if p == nil {
		return out
	}
	k := newSketch(traits)
	p.draw(k)
	for trait := range k.places {
		out[trait] = true
	}
	out["outline"] = true
	return out
}
