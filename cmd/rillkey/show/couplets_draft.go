package show

import (
	"fmt"
	"io"
	"strings"

	"rillkey/key/draft"
)

// Drafted is what there is to say of a drafted key.
type Drafted struct {
	File        string       `json:"file,omitempty"`
	Taxa        int          `json:"taxa"`
	Exact       bool         `json:"optimum"` // no key of the table costs less
	Cost        float64      `json:"cost"`    // of one animal: effort, and what wrong names cost
	MeanPath    float64      `json:"mean_questions"`
	Draft       *KeyFigures  `json:"draft,omitempty"`
	Author      *KeyFigures  `json:"author,omitempty"` // the key whose end points were drafted
	Inseparable []draft.Same `json:"inseparable"`
	Key         string       `json:"key,omitempty"`
}

// KeyFigures are what animals meet in a key on average, by commonness where the
// key says it.
type KeyFigures struct {
	Couplets  int     `json:"couplets"`
	Questions float64 `json:"questions"`
	Effort    float64 `json:"effort"`
	Lost      float64 `json:"lost"`
}

// Text writes the remarks about a drafted key.
func (d Drafted) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	what := "close to the best that was looked for"
	if d.Exact {
		what = "nothing cheaper exists"
	}
	p.text(0, 2, "Drafted: %s, %.2f questions on average; cost %.2f for each animal (%s).", count(d.Taxa, "kind"), d.MeanPath, d.Cost, what)
	if d.File != "" {
		p.text(0, 2, "Written to %s.", d.File)
	}
	if d.Author != nil {
		p.line("")
		p.line("              couplets  questions  effort  lost of 100")
		p.figures("by hand", d.Author)
		p.figures("drafted", d.Draft)
		p.text(0, 2, "The key by hand takes %+.0f %% of the draft's effort. Its order may still be better for beginners: see its comments.", 100*(d.Author.Effort/d.Draft.Effort-1))
	}
	for _, s := range d.Inseparable {
		p.line("")
		p.text(0, 2, "Nothing in the table tells these apart; the key says %s: %s.", s.Kept, strings.Join(s.Taxa, ", "))
		for _, h := range s.Help {
			if len(h.Unknown) > 0 {
				p.text(2, 4, "would help: %s, unknown for %s", h.Trait, strings.Join(h.Unknown, ", "))
			} else {
				p.text(2, 4, "would help: %s, if it were stated more narrowly", h.Trait)
			}
		}
	}
	return p.err
}

func (p *page) figures(name string, f *KeyFigures) {
	p.line(fmt.Sprintf("  %-12s%8d%11.2f%8.2f%13.1f", name, f.Couplets, f.Questions, f.Effort, 100*f.Lost))
}
