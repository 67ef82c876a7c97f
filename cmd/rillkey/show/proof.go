package show

import (
	"io"
	"slices"
	"strings"

	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// Proof is the features that settle a name.
type Proof struct {
	Taxon    string        `json:"taxon"`
	Name     string        `json:"name"`
	Settled  bool          `json:"settled"` // whether all of them together settle it
	Features []FeatureJSON `json:"features"`
}

// FeatureJSON is one trait with what of it the taxon can show.
type FeatureJSON struct {
	Trait       string   `json:"trait"`
	Question    string   `json:"question"`
	How         string   `json:"how"`
	Look        string   `json:"look"` // eye, patience or lens
	States      []string `json:"states"`
	Labels      []string `json:"labels"`
	Probability float64  `json:"probability"` // of the taxon, once this and all before it were seen
}

// NewProof describes the features that settle a name.
func NewProof(t *taxa.Taxon, features []key.Feature, settled bool) *Proof {
	p := &Proof{Taxon: t.ID, Name: BothNames(t), Settled: settled, Features: []FeatureJSON{}}
	for _, f := range features {
		p.Features = append(p.Features, FeatureJSON{
			f.Trait.ID, f.Trait.Question, f.Trait.How, string(f.Trait.Look),
			slices.Clone(f.States), stateLabels(f.Trait, f.States), round(f.Probability),
		})
	}
	return p
}

func stateLabels(t *taxa.Trait, states []string) []string {
	out := make([]string, len(states))
	for i, id := range states {
		out[i] = t.States[t.State(id)].Label
	}
	return out
}

// Text writes the features for a person.
func (p *Proof) Text(w io.Writer, width int) error {
	page := newPage(w, width)
	page.text(0, 2, "It is %s if all of this holds:", p.Name)
	for i, f := range p.Features {
		page.text(2, 5, "%d. %s %s%s.", i+1, f.Question, strings.Join(f.Labels, wording.Text(", or ")), lookWord(f.Look))
		page.text(5, 5, "so far: %s", Likely(f.Probability))
	}
	if !p.Settled {
		page.text(0, 2, "Even all of that does not settle it: the trait table holds nothing more that tells it from its closest rivals.")
	}
	return page.err
}

// lookWord says what it takes to see a trait, where the eye is not enough.
func lookWord(look string) string {
	switch taxa.Look(look) {
	case taxa.Lens:
		return wording.Text(" (hand lens)")
	case taxa.Patience:
		return wording.Text(" (wait until it moves)")
	}
	return ""
}
