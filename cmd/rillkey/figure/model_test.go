package figure

import (
	"slices"
	"testing"

	"rillkey/taxa"
)

// Every drawing of a lead is one taxon beneath it, and shows no state that this
// taxon lacks.
func TestALeadIsOneAnimalBeneathIt(t *testing.T) {
	for name, key := range keys(t) {
		a := NewAtlas(catalog(t), key)
		for i := range key.Couplets {
			c := &key.Couplets[i]
			for j, f := range a.Leads(c) {
				beneath := a.taxaUnder(&c.Leads[j])
				for _, p := range f.panels {
					if p.build != nil {
						sits(t, name+" "+c.ID+c.Leads[j].Letter, p.model, beneath)
					}
				}
			}
		}
	}
}

// sits fails unless a model is one of the taxa, with states of its own.
func sits(t *testing.T, what string, m model, of []*taxa.Taxon) {
	t.Helper()
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
}
