package show

import (
	"fmt"
	"io"
	"strings"

	"rillkey/scoring"
)

// Grade writes a grade, or why there is none, for a person. With details every
// term of every index is written, so that the sum can be checked by hand.
func Grade(w io.Writer, width int, g *scoring.Grade, details bool) error {
	p := newPage(w, width)
	p.text(0, 2, "%s, %s", g.Visit.Site, g.Visit.Date)
	p.text(2, 4, "%s", effortLine(g.Effort))
	for _, r := range g.Effort.Remarks {
		p.text(2, 4, "Note: %s.", r)
	}
	for i := range g.Indices {
		p.line("")
		index(p, &g.Indices[i], details)
	}
	p.line("")
	found(p, g.Found)
	for _, r := range g.Remarks {
		p.text(0, 2, "%s", r)
	}
	p.line("")
	p.text(0, 2, "%s", g.Caution)
	return p.err
}

func effortLine(e scoring.Effort) string {
	s := fmt.Sprintf("Samples: %d taken of %d required", e.Taken, e.Required)
	if e.Complete {
		return s + "; the effort is complete."
	}
	var missing []string
	for _, m := range e.Missing {
		missing = append(missing, m.String())
	}
	return s + "; still missing: " + strings.Join(missing, ", ") + "."
}

func index(p *page, i *scoring.Index, details bool) {
	if i.Withheld {
		p.text(0, 2, "%s: no grade", i.Title)
		p.text(2, 4, "Withheld: %s.", i.Reason)
	} else {
		p.text(0, 2, "%s: %s (%s)", i.Title, strings.ToUpper(i.Rating), number(*i.Value))
	}
	if i.Sample != "" && !i.Withheld {
		p.text(2, 4, "from sample %s, the best one", i.Sample)
	}
	for _, r := range i.Remarks {
		p.text(2, 4, "%s", r)
	}
	if !details {
		return
	}
	for _, t := range i.Terms {
		code := ""
		if t.Code != "" {
			code = ", code " + t.Code
		}
		p.text(2, 6, "+ %s  %s: %d, %s%s", number(t.Weight), t.Label, t.Count, t.GroupLabel, code)
	}
	for _, l := range i.LeftOut {
		p.text(2, 6, "- %d of sample %s not counted: %s", l.Count, l.Sample, l.Note)
	}
	p.text(2, 4, "Source: %s (%s)", i.Source, i.Status)
}

func found(p *page, classes []scoring.Class) {
	p.text(0, 2, "Found so far:")
	for _, c := range classes {
		var kinds []string
		for _, k := range c.Kinds {
			kinds = append(kinds, fmt.Sprintf("%s %d", k.Label, k.Count))
		}
		p.text(2, 4, "%s: %s, %s: %s", c.Label, count(len(c.Kinds), "kind"), count(int(c.Animals), "animal"), orElse(strings.Join(kinds, ", "), "none"))
	}
}
