package show

import (
	"fmt"
	"io"

	"rillkey/key"
	"rillkey/key/learned"
	"rillkey/taxa"
	"rillkey/taxa/plain"
)

// Rates is how often each trait is misread.
type Rates struct {
	File    string      `json:"file"` // empty for the built-in rates
	Learned *Learned    `json:"learned,omitempty"`
	Traits  []TraitRate `json:"traits"` // in the order of the vocabulary
}

// Learned says what counts were just taken from.
type Learned struct {
	Visits  int      `json:"visits"`
	Animals int      `json:"animals"`  // records whose right name is known
	LeftOut []string `json:"left_out"` // records that could not be read with this key, and why
}

// TraitRate is how often one trait is misread.
type TraitRate struct {
	Trait   string  `json:"trait"`
	Looked  int     `json:"looked"`  // answers whose right name became known
	Misread int     `json:"misread"` // of them
	Rate    float64 `json:"rate"`    // that is reckoned with
	BuiltIn float64 `json:"built_in"`
}

// NewRates describes what a group has learned. An empty record leaves the
// vocabulary's rates.
func NewRates(file string, v *taxa.Vocabulary, record *learned.Counts) *Rates {
	r := &Rates{File: file, Traits: []TraitRate{}}
	base := key.FileRates(v)
	own := record.Rates(base)
	for _, t := range v.Traits() {
		c := record.Count(t.ID)
		r.Traits = append(r.Traits, TraitRate{t.ID, c.Looked, c.Misread, round(own.Misread[t.ID]), base.Misread[t.ID]})
	}
	return r
}

// Text writes the rates in plain numbers.
func (r *Rates) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	if l := r.Learned; l != nil {
		p.text(0, 2, "Learned from %s: %s with a name that is known to be right.", plain.Count(l.Visits, "visit"),
			plain.Count(l.Animals, "record"))
		for _, s := range l.LeftOut {
			p.text(2, 4, "left out: %s", s)
		}
	}
	known := 0
	for _, t := range r.Traits {
		if r.File != "" && t.Looked == 0 {
			continue
		}
		known++
		if t.Looked == 0 {
			p.text(0, 2, "%s: %s", t.Trait, inHundred(t.BuiltIn))
			continue
		}
		p.text(0, 2, "%s: misread %d of %d; reckoned with %s (built in: %s)", t.Trait, t.Misread, t.Looked, inHundred(t.Rate),
			inHundred(t.BuiltIn))
	}
	switch {
	case r.File == "":
		p.text(0, 2, "These are the built-in rates, remembered by trainers and not measured.")
	case known < len(r.Traits):
		p.text(0, 2, "%s without a second look yet: the built-in rates hold.", plain.Count(len(r.Traits)-known, "trait"))
	}
	return p.err
}

func inHundred(rate float64) string { return fmt.Sprintf("%.0f in 100", 100*rate) }
