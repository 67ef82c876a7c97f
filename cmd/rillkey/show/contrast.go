package show

import (
	"io"
	"strings"

	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// ContrastJSON is two taxa and what tells them apart, the most visible first.
type ContrastJSON struct {
	A        Side             `json:"a"`
	B        Side             `json:"b"`
	Tell     []string         `json:"tell"` // what the catalog says of telling them apart
	Features []DifferenceJSON `json:"features"`
}

// Side is one of two taxa.
type Side struct {
	Taxon string `json:"taxon"`
	Name  string `json:"name"`
}

// DifferenceJSON is a trait with what the two show of it.
type DifferenceJSON struct {
	Trait    string      `json:"trait"`
	Question string      `json:"question"`
	Look     string      `json:"look"` // eye, patience or lens
	A        []StateJSON `json:"a"`
	B        []StateJSON `json:"b"`
	// Separation is how far apart fallible people see the two, 0 to 1.
	Separation float64 `json:"separation"`
}

// StateJSON is a state of a trait with the share of animals that show it.
type StateJSON struct {
	State string  `json:"state"`
	Label string  `json:"label"`
	Share float64 `json:"share"`
}

// NewContrast describes what tells two taxa apart.
func NewContrast(a, b *taxa.Taxon, contrasts []key.Contrast) *ContrastJSON {
	c := &ContrastJSON{A: Side{a.ID, BothNames(a)}, B: Side{b.ID, BothNames(b)}, Tell: []string{}, Features: []DifferenceJSON{}}
	c.tell(a, b)
	c.tell(b, a)
	for _, x := range contrasts {
		c.Features = append(c.Features, DifferenceJSON{
			x.Trait.ID, x.Trait.Question, string(x.Trait.Look), shares(x.Trait, x.A), shares(x.Trait, x.B), round(x.Separation),
		})
	}
	return c
}

func (c *ContrastJSON) tell(a, b *taxa.Taxon) {
	for _, m := range a.Mistaken {
		if m.Taxon == b.ID {
			c.Tell = append(c.Tell, m.Tell)
		}
	}
}

func shares(t *taxa.Trait, shown []taxa.Weight) []StateJSON {
	out := make([]StateJSON, len(shown))
	for i, w := range shown {
		out[i] = StateJSON{w.State, t.States[t.State(w.State)].Label, round(w.Share)}
	}
	return out
}

// Text writes the comparison for a person.
func (c *ContrastJSON) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	p.text(0, 2, "%s or %s?", c.A.Name, c.B.Name)
	for _, t := range c.Tell {
		p.text(2, 4, "%s", t)
	}
	if len(c.Features) == 0 {
		p.text(2, 4, "Nothing in the trait table tells them apart well enough to rely on.")
	}
	for i, f := range c.Features {
		p.text(0, 3, "%d. %s%s", i+1, f.Question, lookWord(f.Look))
		p.text(3, 5, "%s: %s", c.A.Name, statesShown(f.A))
		p.text(3, 5, "%s: %s", c.B.Name, statesShown(f.B))
	}
	return p.err
}

// statesShown is what is shown of a trait, with how often where it varies.
func statesShown(states []StateJSON) string {
	var out []string
	for _, s := range states {
		if len(states) > 1 {
			out = append(out, wording.Sprintf("%s (%.0f of 100)", s.Label, 100*s.Share))
		} else {
			out = append(out, s.Label)
		}
	}
	return strings.Join(out, wording.Text(", or "))
}
