package show

import (
	"fmt"
	"io"
	"strings"

	"rillkey/scoring"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
)

// CheckedRules is what a check of schemes and protocols has found.
type CheckedRules struct {
	Schemes   []string          `json:"schemes"`   // ids; none where there are errors
	Protocols []string          `json:"protocols"` // likewise
	Errors    authored.Findings `json:"errors"`
}

// NewCheckedRules describes rules that could be read, or what is wrong with them.
func NewCheckedRules(rules *scoring.Rules, found authored.Findings) *CheckedRules {
	c := &CheckedRules{Schemes: []string{}, Protocols: []string{}, Errors: append(authored.Findings{}, found...)}
	if rules == nil {
		return c
	}
	for _, s := range rules.Schemes() {
		c.Schemes = append(c.Schemes, s.ID)
	}
	for _, p := range rules.Protocols() {
		c.Protocols = append(c.Protocols, p.ID)
	}
	return c
}

// Text writes one line for every finding, however long, so that editors can
// follow them, and what is sound where there is none.
func (c *CheckedRules) Text(w io.Writer) error {
	var b strings.Builder
	for _, f := range c.Errors {
		fmt.Fprintf(&b, "%s\n", f.Error())
	}
	if len(c.Errors) == 0 {
		fmt.Fprintf(&b, "sound: %s, %s\n", plain.Count(len(c.Schemes), "scheme"), plain.Count(len(c.Protocols), "protocol"))
	} else {
		fmt.Fprintf(&b, "%s\n", plain.Count(len(c.Errors), "error"))
	}
	_, err := io.WriteString(w, b.String())
	return err
}
