package figure

import (
	"crypto/sha256"
	"encoding/hex"
	"maps"
	"slices"
	"sync"

	"rillkey/cmd/rillkey/figure/draw"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// Specimen is the figure of one animal of a taxon in the states that it shows, the
// traits set off that are named, as far as its outline has a place for them. Neither
// title nor words say what it is; they are for who is to name it. It is empty where
// too little is known of the taxon to draw it.
func (a *Atlas) Specimen(t *taxa.Taxon, shows map[string]string, setOff []string) Figure {
	f := Figure{Title: wording.Text("the animal")}
	if t.Drawing != nil {
		f = f.own(t.Drawing)
		f.Alt = wording.Text("Drawing of the animal.")
		return f
	}
	traits, p := a.sitter(t, shows)
	if p == nil {
		return f
	}
	k := newSketch(traits)
	p.draw(k)
	f.panels = []panel{body(traits, p, placed(k.places, setOff))}
	f.Alt = wording.Sprintf("Drawing of the animal, seen from %s.", wording.Text(p.view))
	return f
}

// sitter is an animal as it is drawn: in the states that it shows, and built as its
// kind is. Without a plan it cannot be.
func (a *Atlas) sitter(t *taxa.Taxon, shows map[string]string) (Traits, *plan) {
	traits := Traits(maps.Clone(shows)).coherent()
	own := a.look(t).plan()
	if p := planOf(traits, t.Build); p != nil && (own == nil || p == own || slices.Contains(turns()[own], p)) {
		return traits, p
	}
	if own != nil {
		return traits, own
	}
	for _, member := range a.shownBy(t) {
		usual := maps.Clone(a.look(member).traits())
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
var turns = sync.OnceValue(func() map[*plan][]*plan {
	return map[*plan][]*plan{
		planCased:      {planCaddis},
		planCaddis:     {planCased},
		planNymph:      {planBeetle, planGrub},
		planLandInsect: {planLandBeetle, planGrub},
		planGrub:       {planNymph},
		planWorm:       {planWire},
	}
})

// Drawn are the states of an animal as its figure has them: those that it shows, and what
// these need to be drawn beside each other.
func (a *Atlas) Drawn(t *taxa.Taxon, shows map[string]string) map[string]string {
	if traits, p := a.sitter(t, shows); p != nil && t.Drawing == nil {
		return traits
	}
	return shows
}

// Likeness is what the figure of an animal is known by in its usual pose: the same for
// animals that are drawn alike, line for line. It is empty where nothing is drawn.
func (a *Atlas) Likeness(t *taxa.Taxon, shows map[string]string) string {
	traits, p := a.sitter(t, shows)
	if p == nil || t.Drawing != nil {
		return ""
	}
	k := newSketch(traits)
	p.draw(k)
	sum := sha256.Sum256([]byte(drawn(k)))
	return "d" + hex.EncodeToString(sum[:5])
}

// Alike are the states of a trait that the figure of an animal does not tell from the
// one that the animal shows, this one among them: those in which it would be drawn as it
// is, as far as other taxa of its build show them. The figure tells nothing of the trait
// where ok is false: it has no place for it, or the state is not known.
func (a *Atlas) Alike(t *taxa.Taxon, shows map[string]string, trait string) (states []string, ok bool) {
	about := a.catalog.Vocabulary().Trait(trait)
	traits, p := a.sitter(t, shows)
	if p == nil || t.Drawing != nil || about == nil || traits[trait] == "" {
		return nil, false
	}
	k := newSketch(traits)
	p.draw(k)
	if len(k.places[trait]) == 0 && trait != "outline" {
		return nil, false
	}
	own, built := k, a.statesOf(p, trait)
	for _, s := range about.States {
		if s.ID == traits[trait] {
			states = append(states, s.ID)
		} else if built[s.ID] && !hangs(about, s.ID, traits) {
			k := newSketch(traits.changed(trait, s.ID))
			p.draw(k)
			if sameDrawn(k, own) {
				states = append(states, s.ID)
			}
		}
	}
	return states, true
}

// hangs reports whether a state of a part says that it is not there, while what it hangs
// on is: no animal is so.
func hangs(part *taxa.Trait, state string, t Traits) bool {
	on := part.OnlyIf
	return on != nil && absence(state) && slices.Contains(on.States, t[on.Trait])
}

// sameDrawn reports whether two sketches look the same. Most are of the same lines, or one
// has others, which is seen before they are drawn.
func sameDrawn(a, b *sketch) bool {
	inked := func(k *sketch) []draw.Shape {
		return slices.DeleteFunc(slices.Clone(k.Shapes), func(s draw.Shape) bool { return len(s.Points) == 0 })
	}
	as, bs := inked(a), inked(b)
	if !slices.EqualFunc(as, bs, func(s, t draw.Shape) bool {
		return s.Fill == t.Fill && s.Bare == t.Bare && s.Dashed == t.Dashed
	}) {
		return false
	}
	lies := func(s, t draw.Shape) bool {
		return s.Smooth == t.Smooth && s.Closed == t.Closed && s.Heavy == t.Heavy && s.Fine == t.Fine && slices.Equal(s.Points, t.Points)
	}
	return slices.EqualFunc(as, bs, lies) && slices.Equal(a.Texts, b.Texts) || drawn(a) == drawn(b)
}

// drawn is what a sketch looks like, to be compared.
func drawn(k *sketch) string {
	f := Figure{panels: []panel{{canvas: &k.Canvas, frame: k.Box()}}}
	return f.SVG(Size{Width: 160, Height: 100})
}

// changed are the traits with one in another state, without what hangs on the one it had.
func (t Traits) changed(trait, state string) Traits {
	out := Traits(maps.Clone(t))
	out[trait] = state
	for _, n := range needs {
		if n.trait == trait && out.has(n.part) && out.lacks(n.trait, n.part, n.state) {
			delete(out, n.part)
		}
	}
	return out.coherent()
}

// statesOf are the states of a trait that taxa of a build show.
func (a *Atlas) statesOf(p *plan, trait string) map[string]bool {
	out := map[string]bool{}
	for _, t := range a.catalog.Taxa() {
		if a.look(t).plan() != p {
			continue
		}
		for _, w := range t.States(trait) {
			out[w.State] = true
		}
	}
	return out
}
