package draft

import (
	"bytes"
	"fmt"
	"math/bits"
	"slices"
	"strconv"
	"strings"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Head is what a key's file says beside its couplets.
type Head struct {
	ID, Title, Region, Source string
	// Catalog is where the taxa come from; nil leaves out the stops, which need
	// to know what belongs to what.
	Catalog    *taxa.Catalog
	Commonness map[string]float64 // of end points; may be empty
	LensSets   []couplets.LensSet // taxa that the table lacks are left out of them
	Asks       map[string]string  // what is asked of a trait; else its name
	Ends       map[string]string  // what a lead says that ends in a taxon; else its states

}

// Text is the draft as a key file, with generated wording to be edited.
func (d *Draft) Text(h Head) []byte {
	w := &writer{Draft: d, head: h, number: map[*Node]string{}}
	return w.file(1)
}

// file is the whole file, its couplets without a number numbered from first on.
func (w *writer) file(first int) []byte {
	h := &w.head
	fmt.Fprintf(&w.b, "# %s\n# %s\n# %s\n\n", wording.Text("Drafted from the trait table."),
		wording.Text("The wording is generated: say it in your own words, and try it on live animals."),
		wording.Text("What is wrong with it is told by 'rillkey couplets check' with its name."))
	fmt.Fprintf(&w.b, "[key]\nid     = %s\ntitle  = %s\n", quote(h.ID), quote(h.Title))
	if h.Region != "" {
		fmt.Fprintf(&w.b, "region = %s\n", quote(h.Region))
	}
	w.numberFrom(first)
	fmt.Fprintf(&w.b, "source = %s\nstart  = %s\n", quote(h.Source), quote(w.number[w.Root]))
	w.couplets()
	w.commonness()
	w.lensSets()
	return w.b.Bytes()
}

type writer struct {
	*Draft
	head   Head
	b      bytes.Buffer
	number map[*Node]string
	words  map[*Node]*LeadWords // of couplets that need none generated
	goes   map[*Node]string     // nodes from which couplets go on that are there
	order  map[*Node][]int      // the side of each lead, where it is not as drafted
}

// numberFrom numbers the couplets that have no number.
func (w *writer) numberFrom(first int) {
	w.walk(w.goes, func(n *Node, _ int) {
		if !n.End() && w.number[n] == "" {
			w.number[n] = strconv.Itoa(first)
			first++
		}
	})
}

// couplets writes all couplets.
func (w *writer) couplets() {
	w.walk(w.goes, func(n *Node, _ int) {
		if !n.End() {
			w.couplet(n)
		}
	})
}

func (w *writer) couplet(n *Node) {
	t := &w.Table.Traits[n.Trait]
	words := w.words[n]
	if words == nil {
		words = w.generated(t.Trait, n)
	}
	id := w.number[n]
	fmt.Fprintf(&w.b, "\n[couplet.%s]\nask = %s\n", id, quote(words.Ask))
	if words.Wait != "" {
		fmt.Fprintf(&w.b, "wait = %s\n", quote(words.Wait))
	}
	if stop := w.stop(n); stop != "" {
		fmt.Fprintf(&w.b, "stop = %s\n", quote(stop))
	}
	for i := range words.Text {
		fmt.Fprintf(&w.b, "[couplet.%s.%c]\ntext   = %s\ntraits = { %s = %s }\n", id, 'a'+i, quote(words.Text[i]), t.ID,
			stateList(t.Trait, words.States[i]))
		w.goal(n.Children[words.Sides[i]])
	}
}

func (w *writer) goal(n *Node) {
	if w.number[n] != "" {
		fmt.Fprintf(&w.b, "to     = %s\n", quote(w.number[n]))
		return
	}
	fmt.Fprintf(&w.b, "taxon  = %s\n", quotedList(w.ids(n.Taxa)))
}

func (w *writer) ids(places []int) []string {
	out := make([]string, len(places))
	for i, p := range places {
		out[i] = w.Table.Taxa[p].ID
	}
	return out
}

// stop is the lowest taxon, at order or below, that holds everything beneath.
func (w *writer) stop(n *Node) string {
	if w.head.Catalog == nil {
		return ""
	}
	cover := w.head.Catalog.Cover(w.ids(n.Taxa))
	if cover == nil || slices.Index(taxa.Ranks, cover.Rank) < slices.Index(taxa.Ranks, "order") {
		return ""
	}
	return cover.ID
}

func (w *writer) commonness() {
	if len(w.head.Commonness) == 0 {
		return
	}
	fmt.Fprintf(&w.b, "\n[commonness]\nsource = %s\n[commonness.weight]\n", quote(wording.Text("as in the table")))
	for _, t := range w.Table.Taxa {
		id := t.ID
		if weight, ok := w.head.Commonness[id]; ok {
			fmt.Fprintf(&w.b, "%s = %s\n", id, plain.FormatFloat(weight))
		}
	}
}

func (w *writer) lensSets() {
	for i, set := range w.head.LensSets {
		var left []string
		for _, id := range set.Taxa {
			if slices.ContainsFunc(w.Table.Taxa, func(t TableRow) bool { return t.ID == id }) {
				left = append(left, quote(id))
			}
		}
		if len(left) > 1 {
			fmt.Fprintf(&w.b, "\n[lens.set-%d]\ntaxa    = [%s]\nwithout = %s\nwhy     = %s\n", i+1, strings.Join(left, ", "),
				quote(set.NakedEye), quote(set.Why))
		}
	}
}

func stateList(t *taxa.Trait, states uint64) string { return quotedList(stateIDs(t, states)) }

func stateIDs(t *taxa.Trait, states uint64) []string {
	var ids []string
	for ; states != 0; states &= states - 1 {
		ids = append(ids, t.States[bits.TrailingZeros64(states)].ID)
	}
	return ids
}

// quotedList is texts as TOML writes them, a list where there are several.
func quotedList(texts []string) string {
	quoted := make([]string, len(texts))
	for i, s := range texts {
		quoted[i] = quote(s)
	}
	if len(quoted) == 1 {
		return quoted[0]
	}
	return "[" + strings.Join(quoted, ", ") + "]"
}

// quote is a text as TOML writes it. Texts without control characters need no
// escape that TOML does not know.
func quote(s string) string { return strconv.Quote(s) }
