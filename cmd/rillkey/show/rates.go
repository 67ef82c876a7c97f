//go:build !js

package show

import (
	"io"
	"math"

	"rillkey/key"
	"rillkey/key/learned"
	"rillkey/scoring/series"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// RatesJSON is how often each trait is misread.
type RatesJSON struct {
	File    string      `json:"file"` // empty for the built-in rates
	Learned *Learned    `json:"learned,omitempty"`
	Group   float64     `json:"group"`  // how many times as often as the built-in rates say the group misreads
	Traits  []TraitRate `json:"traits"` // in the order of the vocabulary
}

// Learned says what counts were just taken from.
type Learned struct {
	series.ConfirmedCount
	First string `json:"-"` // the first of the visits' files
}

// TraitRate is how often one trait is misread.
type TraitRate struct {
	Trait   string  `json:"trait"`
	Looked  int     `json:"looked"`         // answers of animals that chance drew and whose right name became known
	Misread int     `json:"misread"`        // of them
	Chosen  int     `json:"chosen"`         // answers of other such animals, and
	Wrong   int     `json:"chosen_misread"` // of them; no rate rests on these
	Rate    float64 `json:"rate"`           // that is reckoned with
	BuiltIn float64 `json:"built_in"`
}

// NewRates describes what a group has learned. An empty record leaves the
// vocabulary's rates.
func NewRates(file string, v *taxa.Vocabulary, record *learned.Counts) *RatesJSON {
	base := key.FileRates(v)
	r := &RatesJSON{File: file, Group: round(record.Group()), Traits: []TraitRate{}}
	own := record.Rates(base)
	for _, t := range v.Asked() {
		c, chosen := record.Count(t.ID), record.Chosen(t.ID)
		r.Traits = append(r.Traits, TraitRate{
			t.ID, c.Looked, c.Misread, chosen.Looked, chosen.Misread, round(own.Misread[t.ID]), base.Misread[t.ID]})
	}
	return r
}

// Text writes the rates in plain numbers.
func (r *RatesJSON) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	if l := r.Learned; l != nil {
		p.text(0, 2, "Learned from %s: %s with a name that is known to be right, %d of them drawn by chance.",
			plain.Count(l.Visits, "visit"),
			plain.Count(l.Animals, "record"), l.Drawn)
		if l.Drawn == 0 {
			p.text(0, 2, "No rate rests on animals chosen for their doubtful names.")
		}
		if l.Drawn == 0 && l.First != "" {
			p.text(0, 2, "Some are drawn by: rillkey recheck draw --visit %s", plain.ShellWord(l.First))
		}
		for _, s := range l.LeftOut {
			p.text(2, 4, "left out: %s", s)
		}
	}
	switch {
	case r.File != "" && math.Abs(r.Group-1) < 0.05:
		p.text(0, 2, "All traits together are misread as often as the built-in rates say.")
	case r.File != "":
		p.text(0, 2, "All traits together are misread %.2g times as often as the built-in rates say.", r.Group)
	}
	if r.Group < 1 {
		p.text(0, 2, "No rate is reckoned with below the built-in one: bolder names would be wrong more often.")
	}
	known := 0
	for _, t := range r.Traits {
		if r.File != "" && t.Looked+t.Chosen == 0 {
			continue
		}
		known++
		if r.File == "" {
			p.text(0, 2, "%s: %s", t.Trait, inHundred(t.BuiltIn))
			continue
		}
		p.text(0, 2, "%s: misread %d of %d%s; reckoned with %s (built in: %s)", t.Trait, t.Misread, t.Looked, t.chosen(), inHundred(t.Rate),
			inHundred(t.BuiltIn))
	}
	switch {
	case r.File == "":
		p.text(0, 2, "These are the built-in rates, remembered by trainers and not measured.")
	case known < len(r.Traits) && r.Group <= 1:
		p.text(0, 2, "%s without a second look yet: the built-in rates hold.", plain.Count(len(r.Traits)-known, "trait"))
	case known < len(r.Traits):
		p.text(0, 2, "%s without a second look yet: the built-in rates hold, as many times over.",
			plain.Count(len(r.Traits)-known, "trait"))
	}
	return p.err
}

// chosen are the answers that weigh nothing, in words.
func (t TraitRate) chosen() string {
	if t.Chosen == 0 {
		return ""
	}
	return wording.Sprintf(" (%d of %d where the name was doubtful)", t.Wrong, t.Chosen)
}

func inHundred(rate float64) string { return wording.Sprintf("%.0f in 100", 100*rate) }
