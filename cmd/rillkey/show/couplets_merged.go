//go:build !js

package show

import (
	"io"
	"strings"

	"rillkey/couplets/versions"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// KeysMerged is what came of two people's versions of a key.
type KeysMerged struct {
	*versions.MergedKey
	File     string            `json:"file,omitempty"` // that was written
	Findings authored.Findings `json:"findings"`       // what is wrong with the result
	// Unchecked says why nobody looked whether the result is sound.
	Unchecked string `json:"unchecked,omitempty"`
	Key       string `json:"key,omitempty"` // the text, where no file was written
}

// Text writes what both changed, and each contradiction on a line of its own.
func (m KeysMerged) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	if m.File != "" {
		p.text(0, 2, "Written: %s", plain.Printable(m.File))
	}
	for _, a := range m.Added {
		if a.Was != a.Now {
			p.text(0, 2, "The other version's new couplet %s is couplet %s now: that number was taken.", a.Was, a.Now)
		}
	}
	if len(m.Both) > 0 {
		p.text(0, 2, "Both versions changed %s %s: read what it says now once more.", wording.Agree(len(m.Both), "couplet", "couplets"),
			plain.And(m.Both))
	}
	for _, c := range m.Conflicts {
		p.text(0, 2, "%s", contradiction(c))
	}
	if len(m.Conflicts) > 0 {
		p.text(0, 2, "%s: this version stays, and the other stands below it as a comment that begins \"%s\". Choose one and "+
			"delete the comment.",
			plain.Count(len(m.Conflicts), "contradiction"), versions.MergeComment())
	}
	for _, f := range m.Findings {
		p.text(0, 2, "%s", f.Error())
	}
	switch {
	case len(m.Findings) > 0:
		p.text(0, 2, "Brought together, the key is not sound.")
	case m.Unchecked != "":
		p.text(0, 2, "%s", m.Unchecked)
	case len(m.Conflicts) == 0:
		p.text(0, 2, "Nothing contradicts, and the key is sound.")
	}
	return p.err
}

// contradiction is one conflict in words.
func contradiction(c versions.KeyConflict) string {
	place := "[" + c.Table + "]"
	switch {
	case c.Lead != "":
		place = wording.Sprintf("Couplet %s, lead %s", c.Couplet, c.Lead)
	case c.Couplet != "":
		place = wording.Sprintf("Couplet %s", c.Couplet)
	}
	switch {
	case len(c.Fields) == 0 && c.Ours == "":
		return wording.Sprintf("%s: gone in this version, changed in the other.", place)
	case len(c.Fields) == 0:
		return wording.Sprintf("%s: changed in this version, gone in the other.", place)
	}
	return wording.Sprintf("%s, %s: was %s; here %s; in the other version %s.", place, plain.And(c.Fields), valueOf(c.Base),
		valueOf(c.Ours), valueOf(c.Theirs))
}

// valueOf is a value as it stands in a file, on one line.
func valueOf(text string) string {
	if text == "" {
		return wording.Text("not there")
	}
	return plain.Printable(strings.Join(strings.Fields(text), " "))
}
