package figure

import (
	"slices"
	"testing"

	"rillkey/cmd/rillkey/figure/draw"
	"rillkey/couplets"
	"rillkey/taxa"
)

// Every drawing of a lead is one taxon beneath it, shows no state that this taxon
// lacks, and is drawn from its states alone.
func TestALeadIsOneAnimalBeneathIt(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a while")
	}
	for name, key := range keys(t) {
		a := NewAtlas(catalog(t), key)
		for i := range key.Couplets {
			c := &key.Couplets[i]
			for j, f := range a.Leads(c) {
				beneath := a.taxaUnder(&c.Leads[j])
				for _, p := range f.panels {
					if p.build != nil {
						sits(t, name+" "+c.ID+c.Leads[j].Letter, p, beneath)
					}
				}
			}
		}
	}
}

// sits fails unless a drawing's model is one of the taxa, with states of its own, and
// the drawing is that of these states, whatever is set off in it.
func sits(t *testing.T, what string, p panel, of []*taxa.Taxon) {
	t.Helper()
	m := p.model
	if !slices.Contains(of, m.taxon) {
		t.Errorf("%s is drawn as %v, which does not lie beneath", what, m.taxon)
		return
	}
	for trait, state := range m.traits {
		known := m.taxon.States(trait)
		if known != nil && !slices.ContainsFunc(known, func(w taxa.Weight) bool { return w.State == state }) {
			t.Errorf("%s is drawn as %s with %s = %s, which it never has", what, m.taxon.ID, trait, state)
		}
	}
	k := newSketch(m.traits)
	p.build.draw(k)
	if unweighted(p.canvas) != unweighted(&k.Canvas) {
		t.Errorf("%s is not drawn by the states of the %s that sits for it", what, m.taxon.ID)
	}
}

// unweighted is what a canvas draws with all lines alike.
func unweighted(c *draw.Canvas) string {
	bare := *c
	bare.Shapes = slices.Clone(c.Shapes)
	for i := range bare.Shapes {
		bare.Shapes[i].Heavy = false
	}
	return bare.Key()
}

// What a taxon is known to lack is not drawn on it.
func TestNoPartIsDrawnThatIsNotThere(t *testing.T) {
	c := catalog(t)
	a := NewAtlas(c, nil)
	for _, taxon := range c.Taxa() {
		traits := a.look(taxon).traits()
		p := planOf(traits, taxon.Build)
		if p == nil {
			continue
		}
		k := newSketch(traits)
		p.draw(k)
		for _, part := range parts {
			if state, known := traits[part]; known && absence(state) && k.Shows(part) {
				t.Errorf("%s, which has no %s, is drawn with them", taxon.ID, part)
			}
		}
	}
}

// A catalog can name every build that is drawn, and no other.
func TestBuildsHavePlans(t *testing.T) {
	for _, build := range taxa.Builds {
		if builds()[build] == nil {
			t.Errorf("build %s has no plan", build)
		}
	}
	if len(builds()) != len(taxa.Builds) {
		t.Errorf("%d plans for %d builds", len(builds()), len(taxa.Builds))
	}
}

// A leg laid back, deep cuts and the face of a case are drawn on the animal.
func TestTraitsThatWereTickBoxesAreDrawn(t *testing.T) {
	c := catalog(t)
	a := NewAtlas(c, nil)
	for _, id := range []string{"reach", "cuts", "case-face"} {
		for i, f := range a.States(c.Vocabulary().Trait(id)) {
			if len(f.panels) == 0 || f.panels[0].build == nil {
				t.Errorf("%s, state %d is not drawn on an animal", id, i)
			}
		}
	}
}

// No two kinds look the same, but where only a colour parts them: words say it.
func TestKindsDiffer(t *testing.T) {
	c := catalog(t)
	a := NewAtlas(c, nil)
	byColour := map[string]bool{"chironomidae-red chironomidae-other": true, "cambaridae astacidae": true}
	met := map[string]*taxa.Taxon{}
	for _, taxon := range c.Taxa() {
		f := a.Taxon(taxon)
		if len(a.children[taxon.ID]) > 0 || f.Empty() {
			continue
		}
		f.Length = taxa.Range{} // which is no drawing
		key := shape(f.SVG(paperSize))
		if other := met[key]; other != nil && !byColour[other.ID+" "+taxon.ID] {
			t.Errorf("%s and %s look the same", other.ID, taxon.ID)
		}
		met[key] = taxon
	}
}

// A group is shown by what most of it is like, not by what its files begin with.
func TestAGroupIsShownByMostOfIt(t *testing.T) {
	c := catalog(t)
	a := NewAtlas(c, nil)
	for group, first := range map[string]*plan{
		"gastropoda": planSnail, "coleoptera": planArmoured, "hemiptera": planBug, "mollusca": planSnail} {
		of := a.shownBy(c.Taxon(group))
		if p := a.look(of[0]).plan(); p != first {
			t.Errorf("%s begins with %s, a %s", group, of[0].ID, p.name)
		}
	}
	if of := a.shownBy(c.Taxon("gastropoda")); of[0].ID == "neritidae" {
		t.Error("snails are shown by a nerite")
	}
}

// A couplet without leads and a trait without states have nothing to draw, and a couplet
// of another key that bears the same number has drawings of its own.
func TestWhatIsKeptIsOfThatQuestion(t *testing.T) {
	a := NewAtlas(catalog(t), nil)
	if got := len(a.Leads(&couplets.Couplet{ID: "1"})) + len(a.States(&taxa.Trait{ID: "empty"})); got != 0 {
		t.Errorf("%d figures of nothing", got)
	}
	two := &couplets.Couplet{ID: "1", Leads: make([]couplets.Lead, 2)}
	three := &couplets.Couplet{ID: "1", Leads: make([]couplets.Lead, 3)}
	if len(a.Leads(two)) != 2 || len(a.Leads(three)) != 3 {
		t.Error("a couplet has the drawings of another")
	}
}
