package show

import (
	"fmt"
	"io"
	"strings"

	"rillkey/key/improve"
)

// Bettered is what was changed in a key, and what that gained.
type Bettered struct {
	File    string           `json:"file,omitempty"`
	Changes []improve.Change `json:"changes"`
	Before  *KeyFigures      `json:"before"`
	After   *KeyFigures      `json:"after"`
}

// Text writes the changes, those first that gain most for the least work.
func (b Bettered) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	if len(b.Changes) == 0 {
		p.text(0, 2, "This key is as good as a few changes can make it: no branch, drafted anew, would save enough for the couplets to be worded again. Nothing was written.")
		return p.err
	}
	for i := range b.Changes {
		p.change(i+1, &b.Changes[i])
	}
	p.line("              couplets  questions  effort  lost of 100")
	p.figures("before", b.Before)
	p.figures("after", b.After)
	if b.File == "" {
		p.text(0, 2, "Nothing was replaced: name a file with --out.")
	} else {
		p.text(0, 2, "Written to %s. Try it on live animals before others use it.", b.File)
	}
	return p.err
}

func (p *page) change(n int, c *improve.Change) {
	where := fmt.Sprintf("Couplet %s asks %q instead of %q.", c.Couplet, Safe(c.Asks), Safe(c.Asked))
	if c.Asks == c.Asked {
		where = fmt.Sprintf("Couplet %s still asks %q, but what follows changes.", c.Couplet, Safe(c.Asks))
	}
	p.text(0, 3, "%d. %s On average %s and %s an animal; of 100 animals %s.", n, where,
		moreOrLess(c.Questions, "%.2f questions", "fewer", "more"), moreOrLess(c.Effort, "%.2f effort", "less", "more"), moreOrLess(100*c.Lost, "%.1f", "fewer are lost", "more are lost"))
	for _, row := range []struct {
		what string
		ids  []string
	}{{"to be worded", c.New}, {"same words, other goals", c.Moved}, {"gone", c.Gone}} {
		if len(row.ids) > 0 {
			p.text(3, 5, "%s: %s", row.what, strings.Join(row.ids, ", "))
		}
	}
	p.line("")
}

// moreOrLess is what is saved: "0.05 less effort".
func moreOrLess(saved float64, what, less, more string) string {
	word := less
	if saved < 0 {
		saved, word = -saved, more
	}
	number, noun, _ := strings.Cut(fmt.Sprintf(what, saved), " ")
	return strings.TrimSpace(number + " " + word + " " + noun)
}
