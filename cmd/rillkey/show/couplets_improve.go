//go:build !js

package show

import (
	"io"
	"math"
	"strings"

	"rillkey/key/improve"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Bettered is what was changed in a key, and what that gained.
type Bettered struct {
	File    string            `json:"file,omitempty"`
	Changes []improve.Rewrite `json:"changes"`
	Before  *KeyFigures       `json:"before"`
	After   *KeyFigures       `json:"after"`
}

// Text writes the changes, those first that gain most for the least work.
func (b Bettered) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	if len(b.Changes) == 0 {
		p.text(0, 2, "This key is as good as a few changes can make it: no branch, if it were drafted again, would save "+
			"enough to be worth wording its couplets again. Nothing was written.")
		return p.err
	}
	for i := range b.Changes {
		p.change(i+1, &b.Changes[i])
	}
	p.figures(wording.Text("before"), b.Before, wording.Text("after"), b.After)
	if b.File == "" {
		p.text(0, 2, "Nothing was replaced: name a file with --out.")
	} else {
		p.text(0, 2, "Written to %s. Try it on live animals before others use it.", b.File)
	}
	return p.err
}

func (p *page) change(n int, c *improve.Rewrite) {
	where := wording.Sprintf("Couplet %s asks %q instead of %q.", c.Couplet, plain.Printable(c.Asks), plain.Printable(c.Asked))
	if c.Asks == c.Asked {
		where = wording.Sprintf("Couplet %s still asks %q, but what follows changes.", c.Couplet, plain.Printable(c.Asks))
	}
	p.text(0, 3, "%d. %s For 100 animals: %s.", n, where, strings.Join(saved(c), ", "))
	for _, row := range []struct {
		what string
		ids  []string
	}{{wording.Text("to be worded"), c.New}, {wording.Text("same words, other goals"), c.Moved}, {wording.Text("gone"), c.Gone}} {
		if len(row.ids) > 0 {
			p.text(3, 5, "%s: %s", row.what, strings.Join(row.ids, ", "))
		}
	}
	p.line("")
}

// saved is what a change saves, of 100 animals; what would read as nothing is
// left out.
func saved(c *improve.Rewrite) []string {
	var out []string
	for _, row := range []struct {
		gain, least float64 // least is what is worth saying
		less, more  string
	}{
		{c.Questions, 0.5, wording.Mark("%.0f fewer questions"), wording.Mark("%.0f more questions")},
		{c.Effort, 0.5, wording.Mark("%.0f less effort"), wording.Mark("%.0f more effort")},
		{c.Lost, 0.05, wording.Mark("%.1f fewer lost"), wording.Mark("%.1f more lost")},
	} {
		of100, words := 100*math.Abs(row.gain), row.less
		if row.gain < 0 {
			words = row.more
		}
		if of100 >= row.least {
			out = append(out, wording.Sprintf(words, of100))
		}
	}
	return out
}
