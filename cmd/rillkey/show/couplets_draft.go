//go:build !js

package show

import (
	"fmt"
	"io"
	"strings"

	"rillkey/key/draft"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Drafted is what there is to say of a drafted key.
type Drafted struct {
	File        string              `json:"file,omitempty"`
	Taxa        int                 `json:"taxa"`
	Exact       bool                `json:"optimum"` // no key of the table costs less
	Cost        float64             `json:"cost"`    // of one animal: effort, and what wrong names cost
	MeanPath    float64             `json:"mean_questions"`
	Draft       *KeyFigures         `json:"draft,omitempty"`
	Author      *KeyFigures         `json:"author,omitempty"` // the key whose end points were drafted
	Inseparable []draft.Inseparable `json:"inseparable"`
	Kept        *draft.Kept         `json:"kept,omitempty"` // of the file that was there
	Key         string              `json:"key,omitempty"`

	Sheet   bool   `json:"-"`                  // drafted from a spreadsheet
	TaxaDir string `json:"taxa_dir,omitempty"` // where its animals were written
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
	what := wording.Text("other keys may cost less")
	if d.Exact {
		what = wording.Text("no key of one feature a couplet and as many leads costs less")
	}
	p.text(0, 2, "Drafted: %s, %.2f questions on average. Cost %.2f an animal, in looks with the naked eye and what a "+
		"wrong name is worth: %s.", plain.Count(d.Taxa, "kind"), d.MeanPath, d.Cost, what)
	switch {
	case d.Kept != nil:
		d.kept(p)
	case d.File != "":
		p.text(0, 2, "Written to %s. The wording is generated: say it in your own words.", d.File)
	}
	if d.File != "" && d.TaxaDir != "" {
		p.text(0, 2, "The animals are in %s. To see each change as you save it:", d.TaxaDir)
		// in one piece, to be copied
		p.line("  rillkey couplets check " + plain.ShellFiles(d.File) + " --taxa " + plain.ShellWord(d.TaxaDir) + " --watch")
	} else if d.Sheet {
		p.text(0, 2, "To use this key, its animals are needed as well: write them too, with --taxa-out mytaxa.")
	}
	if d.Author != nil {
		p.line("")
		p.figures(wording.Text("by hand"), d.Author, wording.Text("drafted"), d.Draft)
		p.text(0, 2, "%s", d.compared())
	}
	for _, s := range d.Inseparable {
		p.line("")
		if len(s.Help) == 0 {
			p.text(0, 2, "Nothing in the table tells these apart, so they share an end: %s. They need a trait in which they differ.",
				strings.Join(s.Taxa, ", "))
			continue
		}
		p.text(0, 2, "Nothing in the table tells these apart, so they share an end: %s.", strings.Join(s.Taxa, ", "))
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

// muchMore is how much more effort than its draft a key by hand should not take
// without saying why.
const muchMore = 1.15

// compared is what the figures of the key by hand and its draft come to.
func (d Drafted) compared() string {
	more := d.Author.Effort / d.Draft.Effort
	words := wording.Sprintf("By hand an animal takes %.0f %% more effort than in the draft", 100*(more-1))
	switch {
	case more < 0.995:
		words = wording.Sprintf("By hand an animal takes %.0f %% less effort than in the draft", 100*(1-more))
	case more < 1.005:
		words = wording.Text("By hand an animal takes as much effort as in the draft")
	}
	if more > muchMore {
		return wording.Sprintf("%s: improve the key with --keep, or say in its comments why its order is easier for beginners.", words)
	}
	return wording.Sprintf("%s. What beginners see at once, and words they know, may still make its order the better one.", words)
}

// figures are those of two keys side by side, or on a narrow page in two
// sentences.
func (p *page) figures(one string, f *KeyFigures, other string, g *KeyFigures) {
	if p.width >= narrow {
		p.line(wording.Text("              couplets  questions  effort  lost of 100"))
	}
	for _, key := range []struct {
		name string
		*KeyFigures
	}{{one, f}, {other, g}} {
		if p.width < narrow {
			p.text(0, 2, "%s: %d couplets, %.2f questions, %.2f effort, %.1f of 100 lost", key.name, key.Couplets,
				key.Questions, key.Effort,
				100*key.Lost)
		} else {
			p.line(fmt.Sprintf("  %-12s%8d%11.2f%8.2f%13.1f", key.name, key.Couplets, key.Questions, key.Effort, 100*key.Lost))
		}
	}
}

// kept says what stays of the key that was there.
func (d Drafted) kept(p *page) {
	p.text(0, 2, "Written to %s. What was written by hand, and the numbers, stay in %s.", d.File, plain.Count(d.Kept.Couplets, "couplet"))
	list := func(ids []string, format string) {
		if len(ids) > 0 {
			p.text(0, 2, format, plain.And(ids))
		}
	}
	list(d.Kept.New, wording.Mark("New: couplet %s. Say them in your own words."))
	list(d.Kept.Gone, wording.Mark("No longer asked: couplet %s. Words that were written by hand stand at the end of the file."))
	list(d.Kept.Reread, wording.Mark("Read again, since what they stand for has changed: lead %s."))
}
