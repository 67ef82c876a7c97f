//go:build !js

package show

import (
	"fmt"
	"io"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Layouts are the ways a whole key can be shown.
var Layouts = []string{"numbered", "tree", "dot"}

// Layout writes a whole key in one of the [Layouts].
func Layout(w io.Writer, width int, layout string, s *couplets.Sound, catalog *taxa.Catalog) error {
	switch layout {
	case "tree":
		return Tree(w, width, s, catalog, s.Start, treeDepth)
	case "dot":
		return dot(w, s, catalog)
	}
	return numbered(w, width, s, catalog)
}

// gutter is the columns left of a lead's text: number, letter, back-reference.
const gutter = 12

// numbered writes the key as printed keys are: couplets by number, each with the
// lead it is come to from, each lead with where it goes.
func numbered(w io.Writer, width int, s *couplets.Sound, catalog *taxa.Catalog) error {
	p := newPage(w, width)
	p.text(0, 2, "%s", s.Title)
	from := s.LeadsTo()
	for i := range s.Couplets {
		c := &s.Couplets[i]
		p.line("")
		for j := range c.Leads {
			label := c.ID + c.Leads[j].Letter
			if j == 0 && len(from[c.ID]) > 0 {
				label += " (" + strings.Join(from[c.ID], ", ") + ")"
			}
			p.lead(label, c.Leads[j].Text, target(&c.Leads[j], catalog))
		}
	}
	return p.err
}

// target is where a lead goes, as words.
func target(l *couplets.Lead, catalog *taxa.Catalog) string {
	if l.Next != "" {
		return l.Next
	}
	return plain.Printable(Either(catalog, l.Taxa))
}

// lead writes a lead, dots leading the eye to where it goes.
func (p *page) lead(label, text, to string) {
	indent := strings.Repeat(" ", min(gutter, p.width/4))
	if ansi.StringWidth(label) >= len(indent) {
		p.line(label)
		label = ""
	}
	wide := p.width - 1 - len(indent)
	lines := fold(plain.Printable(text), wide)
	goals := fold(to, wide-5)
	to = goals[0]
	last := lines[len(lines)-1]
	if ansi.StringWidth(last)+ansi.StringWidth(to)+5 > wide {
		lines = append(lines, "")
		last = ""
	} else {
		last += " "
	}
	dots := max(2, wide-ansi.StringWidth(last)-ansi.StringWidth(to)-1)
	lines[len(lines)-1] = last + strings.Repeat(".", dots) + " " + to
	for i, l := range lines {
		head := indent
		if i == 0 {
			head = label + indent[len(label):]
		}
		p.line(head + l)
	}
	for _, more := range goals[1:] {
		p.line(indent + strings.Repeat(" ", max(0, wide-ansi.StringWidth(more)-1)) + more)
	}
}

// treeDepth is how deep a whole key is drawn; further down it is only counted.
const treeDepth = 64

// Tree draws the couplets from one on, at most depth questions down. A couplet
// that two leads go to is drawn at the first.
func Tree(w io.Writer, width int, s *couplets.Sound, catalog *taxa.Catalog, start string, depth int) error {
	t := &tree{page: newPage(w, width), sound: s, catalog: catalog, drawn: map[string]bool{}}
	t.couplet(start, "", depth)
	return t.err
}

type tree struct {
	*page
	sound   *couplets.Sound
	catalog *taxa.Catalog
	drawn   map[string]bool
}

func (t *tree) couplet(id, indent string, depth int) {
	c := t.sound.Couplet(id)
	if t.drawn[id] {
		t.hang(indent, wording.Sprintf("%s %s: drawn above", c.ID, c.Ask))
		return
	}
	if depth == 0 {
		t.hang(indent, wording.Sprintf("%s %s: %s below", c.ID, c.Ask,
			plain.Count(t.sound.EndsBeneath(t.sound.Place(id)).Len(), "end point")))
		return
	}
	t.drawn[id] = true
	t.hang(indent, c.ID+" "+c.Ask)
	for j := range c.Leads {
		l := &c.Leads[j]
		words := l.Letter + ": " + l.Text
		if l.Next == "" {
			words += " -> " + target(l, t.catalog)
		}
		t.hang(indent+"  ", words)
		if l.Next != "" {
			t.couplet(l.Next, indent+"    ", depth-1)
		}
	}
}

// hang writes a paragraph beneath an indent; where that leaves too little room,
// it is cut.
func (t *tree) hang(indent, words string) {
	in := min(len(indent), t.width/2)
	t.text(in, min(in+3, t.width/2), "%s", words)
}

// The widest lines of labels in a graph, in characters.
const (
	boxWide  = 24
	leadWide = 34
)

// dot writes the key as a directed graph in the DOT language of Graphviz, the
// first couplet at the left: as wide as the longest walk, not as all end points.
func dot(w io.Writer, s *couplets.Sound, catalog *taxa.Catalog) error {
	var b strings.Builder
	apart := "0.12"
	if len(s.Ends) < 60 { // inches between boxes: a small key is as long as a large one, and would be a ribbon
		apart = "0.9"
	}
	fmt.Fprintf(&b, "digraph %s {\n  rankdir=LR; ranksep=0.3; nodesep=%s;\n  label=%s; labelloc=t; "+
		"fontname=\"sans-serif\"; fontsize=20;\n", dotQuote(s.ID), apart, dotQuote(s.Title))
	b.WriteString("  node [shape=box, fontname=\"sans-serif\", fontsize=12, margin=\"0.1,0.04\"];\n  edge " +
		"[fontname=\"sans-serif\", fontsize=10, arrowsize=0.6];\n")
	for _, c := range s.Couplets {
		fmt.Fprintf(&b, "  %s [label=%s];\n", dotQuote("couplet-"+c.ID), dotLabel(c.ID+"  "+c.Ask, boxWide))
	}
	for _, t := range s.Ends {
		fmt.Fprintf(&b, "  %s [label=%s, style=rounded];\n", dotQuote("taxon-"+t.ID), dotLabel(BothNames(t), boxWide))
	}
	for _, c := range s.Couplets {
		for i := range c.Leads {
			l := &c.Leads[i]
			var goals []string
			if l.Next != "" {
				goals = append(goals, "couplet-"+l.Next)
			}
			for _, id := range l.Taxa {
				goals = append(goals, "taxon-"+id)
			}
			for _, to := range goals {
				fmt.Fprintf(&b, "  %s -> %s [label=%s];\n", dotQuote("couplet-"+c.ID), dotQuote(to),
					dotLabel(l.Letter+": "+l.Text, leadWide))
			}
		}
	}
	b.WriteString("}\n")
	_, err := io.WriteString(w, b.String())
	return err
}

// dotQuote is a text as a quoted string of DOT, where a quotation mark is
// escaped and a backslash begins an escape of labels.
func dotQuote(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(plain.Printable(s)) + `"`
}

// dotLabel is a text as a label of lines no wider than wide.
func dotLabel(s string, wide int) string {
	lines := fold(plain.Printable(s), wide)
	for i := range lines {
		quoted := dotQuote(lines[i])
		lines[i] = quoted[1 : len(quoted)-1]
	}
	return `"` + strings.Join(lines, `\n`) + `"`
}

// KeyJSON is a whole key as a value for scripts.
type KeyJSON struct {
	ID       string        `json:"id"`
	Title    string        `json:"title"`
	Start    string        `json:"start"`
	Couplets []CoupletJSON `json:"couplets"`
}

// CoupletJSON is one couplet of a [KeyJSON].
type CoupletJSON struct {
	ID       string     `json:"id"`
	Ask      string     `json:"ask"`
	Incoming []string   `json:"from"`
	Leads    []LeadJSON `json:"leads"`
}

// LeadJSON is one lead of a [CoupletJSON].
type LeadJSON struct {
	Letter string `json:"letter"`
	Text   string `json:"text"`
	Next   string `json:"to,omitempty"`
	Taxon  string `json:"taxon,omitempty"`
	// OneOf are the taxa of an end that the key cannot tell apart.
	OneOf []string `json:"one_of,omitempty"`
}

// LayoutJSON is the key with its back-references.
func LayoutJSON(s *couplets.Sound) KeyJSON {
	k := KeyJSON{ID: s.ID, Title: s.Title, Start: s.Start, Couplets: make([]CoupletJSON, len(s.Couplets))}
	from := s.LeadsTo()
	for i, c := range s.Couplets {
		k.Couplets[i] = CoupletJSON{ID: c.ID, Ask: c.Ask, Incoming: append([]string{}, from[c.ID]...)}
		for _, l := range c.Leads {
			lead := LeadJSON{Letter: l.Letter, Text: l.Text, Next: l.Next}
			if len(l.Taxa) == 1 {
				lead.Taxon = l.Taxa[0]
			} else {
				lead.OneOf = l.Taxa
			}
			k.Couplets[i].Leads = append(k.Couplets[i].Leads, lead)
		}
	}
	return k
}
