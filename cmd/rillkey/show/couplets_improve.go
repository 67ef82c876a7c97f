package show

import (
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

// Text writes the changes.
func (b Bettered) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	if len(b.Changes) == 0 {
		p.text(0, 2, "No branch of this key could be drafted so much better that it is worth a change. Nothing was written.")
		return p.err
	}
	for _, c := range b.Changes {
		p.text(0, 2, "From couplet %s on drafted anew: %.1f %% less cost. Replaced: %s.", c.Couplet, 100*c.Gain, strings.Join(c.Gone, ", "))
	}
	p.line("              couplets  questions  effort  lost of 100")
	p.figures("before", b.Before)
	p.figures("after", b.After)
	if b.File != "" {
		p.text(0, 2, "Written to %s. The wording of the new couplets is generated: say it in your own words.", b.File)
	}
	return p.err
}
