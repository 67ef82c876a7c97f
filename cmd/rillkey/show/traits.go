package show

import (
	"io"
	"math"

	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// TraitJSON is a trait with its states.
type TraitJSON struct {
	Trait    string              `json:"trait"`
	Question string              `json:"question"`
	Look     string              `json:"look"`
	Misread  float64             `json:"misread"` // share of beginners' answers that are wrong
	States   []LabelledStateJSON `json:"states"`
}

// LabelledStateJSON is a state of a trait, and what people are told of it.
type LabelledStateJSON struct {
	State string `json:"state"`
	Label string `json:"label"`
}

// NewTraits are the traits of a vocabulary in the order of its file.
func NewTraits(v *taxa.Vocabulary) []TraitJSON {
	out := []TraitJSON{}
	for _, t := range v.Traits() {
		states := []LabelledStateJSON{}
		for _, s := range t.States {
			states = append(states, LabelledStateJSON{s.ID, s.Label})
		}
		out = append(out, TraitJSON{t.ID, t.Question, string(t.Look), t.Misread, states})
	}
	return out
}

// TraitList lists traits with their ids, as keys and --observe name them, and what people
// read of them.
func TraitList(w io.Writer, width int, traits []TraitJSON) error {
	p := newPage(w, width)
	for i, t := range traits {
		if i > 0 {
			p.line("")
		}
		p.text(0, 2, "%s: %s (%s; misread %s times in 100)", t.Trait, t.Question, wording.Text(lookNames[taxa.Look(t.Look)]),
			wording.Number(math.Round(1000*t.Misread)/10))
		for _, s := range t.States {
			p.text(2, 4, "%s: %s", s.State, s.Label)
		}
	}
	return p.err
}

// lookNames say what it takes to see a trait.
var lookNames = map[taxa.Look]string{taxa.Eye: wording.Mark("eye"), taxa.Patience: wording.Mark("patience"),
	taxa.Lens: wording.Mark("lens")}
