package couplets

import (
	"fmt"
	"io/fs"
	"maps"
	"slices"

	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/taxset"
)

// Sound is a key without errors: every lead goes somewhere, every end point can
// be reached, and no lead contradicts the traits of a taxon beneath it.
type Sound struct {
	*File
	// Ends are the taxa the key can end in, in the order of the file.
	Ends []*taxa.Taxon

	index map[string]int
}

// Couplet is the couplet with the id, or nil.
func (s *Sound) Couplet(id string) *Couplet {
	if i, ok := s.index[id]; ok {
		return &s.Couplets[i]
	}
	return nil
}

// Load reads a key and checks it against a catalog. The error is of type
// [authored.Findings], holding all that is wrong, where the file could be read.
func Load(fsys fs.FS, name, shown string, catalog *taxa.Catalog) (*Sound, error) {
	var report authored.Report
	f, err := Read(fsys, name, shown, &report)
	if err != nil {
		return nil, err
	}
	if found := report.Findings(); len(found) > 0 {
		return nil, found
	}
	return Check(f, catalog)
}

// Check checks a key against a catalog. All that is wrong is in the error, of
// type [authored.Findings].
func Check(f *File, catalog *taxa.Catalog) (*Sound, error) {
	c := &checker{file: f, catalog: catalog, index: map[string]int{}, ends: map[string]int{}}
	for i := range f.Couplets {
		c.index[f.Couplets[i].ID] = i
	}
	if _, ok := c.index[f.Start]; !ok && len(f.Couplets) > 0 {
		c.fail(f.startAt, "unknown-couplet", "the key starts at couplet "+authored.Quote(f.Start)+", which is not there", "")
	}
	c.references()
	c.cycles()
	if len(c.report.Findings()) > 0 {
		return nil, c.report.Findings()
	}
	c.meaning()
	if err := c.report.Findings().Err(); err != nil {
		return nil, err
	}
	s := &Sound{File: f, index: c.index, Ends: make([]*taxa.Taxon, len(c.order))}
	for i, id := range c.order {
		s.Ends[i] = catalog.Taxon(id)
	}
	return s, nil
}

type checker struct {
	file    *File
	catalog *taxa.Catalog
	report  authored.Report
	index   map[string]int // couplet id to its place
	ends    map[string]int // end point's id to its number
	order   []string       // end points in file order
	beneath []taxset.Set   // end points beneath each couplet
	topdown []int          // couplets, each after all that lead to it
}

func (c *checker) fail(p authored.Pos, rule, message, hint string) {
	c.report.Add(p, rule, message, hint)
}

// references checks every name that the file uses.
func (c *checker) references() {
	for i := range c.file.Couplets {
		couplet := &c.file.Couplets[i]
		if problem, hint := c.catalog.Unknown(couplet.Stop); couplet.Stop != "" && problem != "" {
			c.fail(couplet.stopAt, "unknown-taxon", problem, hint)
		}
		for j := range couplet.Leads {
			c.lead(couplet, &couplet.Leads[j])
		}
	}
	for _, e := range c.file.commonness {
		c.end(e.taxon, e.at)
	}
	for _, set := range c.file.LensSets {
		for i, id := range set.Taxa {
			c.end(id, set.taxaAt[i])
		}
		if problem, hint := c.catalog.Unknown(set.Without); problem != "" {
			c.fail(set.withoutAt, "unknown-taxon", problem, hint)
		}
	}
}

// end checks that a taxon named outside the couplets is an end point.
func (c *checker) end(id string, at authored.Pos) {
	if _, ok := c.ends[id]; !ok {
		c.fail(at, "no-end-point", authored.Quote(id)+" is not an end point of this key", "name a taxon that a lead goes to")
	}
}

func (c *checker) lead(couplet *Couplet, lead *Lead) {
	for _, cond := range lead.Conditions {
		if problem, hint := c.catalog.Vocabulary().Unknown(cond.Trait, cond.States...); problem != "" {
			c.fail(cond.at, "unknown-trait", problem, hint)
		} else if len(cond.States) == 0 {
			c.fail(cond.at, "no-states", "the lead accepts no state of "+authored.Quote(cond.Trait), "")
		}
	}
	if lead.To != "" {
		if _, ok := c.index[lead.To]; !ok {
			c.fail(lead.target, "unknown-couplet", fmt.Sprintf("lead %s%s goes to couplet %s, which is not there", couplet.ID, lead.Letter, authored.Quote(lead.To)), "")
		}
		return
	}
	if problem, hint := c.catalog.Unknown(lead.Taxon); problem != "" {
		c.fail(lead.target, "unknown-taxon", problem, hint)
		return
	}
	if _, known := c.ends[lead.Taxon]; !known {
		c.ends[lead.Taxon] = len(c.order)
		c.order = append(c.order, lead.Taxon)
	}
}

// cycles finds leads that come back to a couplet they came from, and couplets
// that nothing leads to. It keeps its own stack: a file may be a long chain.
func (c *checker) cycles() {
	const (
		unseen = iota
		open
		done
	)
	state := make([]int, len(c.file.Couplets))
	type frame struct{ couplet, lead int }
	start, ok := c.index[c.file.Start]
	if !ok {
		return
	}
	state[start] = open
	for stack := []frame{{start, 0}}; len(stack) > 0; {
		top := &stack[len(stack)-1]
		couplet := &c.file.Couplets[top.couplet]
		if top.lead == len(couplet.Leads) {
			state[top.couplet] = done
			c.topdown = append(c.topdown, top.couplet)
			stack = stack[:len(stack)-1]
			continue
		}
		lead := &couplet.Leads[top.lead]
		top.lead++
		next, ok := c.index[lead.To]
		if !ok {
			continue
		}
		switch state[next] {
		case open:
			c.fail(lead.target, "cycle", fmt.Sprintf("lead %s%s goes back to couplet %s, which it came from", couplet.ID, lead.Letter, authored.Quote(lead.To)), "a walk there would never end")
		case unseen:
			state[next] = open
			stack = append(stack, frame{next, 0})
		}
	}
	slices.Reverse(c.topdown)
	for i, s := range state {
		if s == unseen {
			c.fail(c.file.Couplets[i].at, "unreachable", fmt.Sprintf("no lead goes to couplet %s", authored.Quote(c.file.Couplets[i].ID)), "")
		}
	}
}

// meaning checks what the leads say against what the taxa beneath them show.
func (c *checker) meaning() {
	c.collect()
	arriving := c.arriving()
	for i := range c.file.Couplets {
		couplet := &c.file.Couplets[i]
		c.stop(couplet, c.beneath[i])
		for j := range couplet.Leads {
			c.contradictions(couplet, &couplet.Leads[j])
			for k := range j {
				c.overlap(couplet, &couplet.Leads[k], &couplet.Leads[j])
			}
		}
		c.beneath[i].Each(func(end int) { c.gap(couplet, end, arriving[i]) })
	}
	c.lensSets()
}

// collect finds the end points beneath each couplet.
func (c *checker) collect() {
	c.beneath = make([]taxset.Set, len(c.file.Couplets))
	for _, i := range slices.Backward(c.topdown) {
		set := taxset.New(len(c.order))
		for j := range c.file.Couplets[i].Leads {
			set.Or(c.under(&c.file.Couplets[i].Leads[j]))
		}
		c.beneath[i] = set
	}
}

// narrowed is the states of each trait that an animal can still have; a trait
// not in it can have any.
type narrowed map[string][]string

func (n narrowed) allows(trait, state string) bool {
	states, ok := n[trait]
	return !ok || slices.Contains(states, state)
}

// through is n once a lead was taken.
func (n narrowed) through(l *Lead) narrowed {
	out := maps.Clone(n)
	for _, cond := range l.Conditions {
		out[cond.Trait] = slices.DeleteFunc(slices.Clone(cond.States), func(s string) bool { return !n.allows(cond.Trait, s) })
	}
	return out
}

// or is what n or m leaves.
func (n narrowed) or(m narrowed) narrowed {
	out := narrowed{}
	for trait, states := range n {
		if more, ok := m[trait]; ok {
			out[trait] = slices.Concat(states, more)
		}
	}
	return out
}

// arriving is what the leads on the way to each couplet have left open.
func (c *checker) arriving() []narrowed {
	at := make([]narrowed, len(c.file.Couplets))
	at[c.index[c.file.Start]] = narrowed{}
	for _, i := range c.topdown {
		for j := range c.file.Couplets[i].Leads {
			lead := &c.file.Couplets[i].Leads[j]
			if lead.To == "" {
				continue
			}
			next, came := c.index[lead.To], at[i].through(lead)
			if at[next] != nil {
				came = at[next].or(came)
			}
			at[next] = came
		}
	}
	return at
}

func (c *checker) under(l *Lead) taxset.Set {
	if l.To != "" {
		return c.beneath[c.index[l.To]]
	}
	set := taxset.New(len(c.order))
	set.Add(c.ends[l.Taxon])
	return set
}

func (c *checker) stop(couplet *Couplet, beneath taxset.Set) {
	if couplet.Stop == "" {
		return
	}
	beneath.Each(func(end int) {
		if !c.catalog.IsUnder(c.order[end], couplet.Stop) {
			c.fail(couplet.stopAt, "bad-stop", fmt.Sprintf("couplet %s stops at %s, but %s beneath it is none", couplet.ID, authored.Quote(couplet.Stop), authored.Quote(c.order[end])), "")
		}
	})
}

// contradictions finds taxa beneath a lead whose own traits rule it out.
func (c *checker) contradictions(couplet *Couplet, lead *Lead) {
	beneath := c.under(lead)
	for _, cond := range lead.Conditions {
		beneath.Each(func(end int) {
			shown := c.catalog.Taxon(c.order[end]).States(cond.Trait)
			if shown != nil && !slices.ContainsFunc(shown, func(w taxa.Weight) bool { return slices.Contains(cond.States, w.State) }) {
				c.fail(cond.at, "contradiction", fmt.Sprintf("lead %s%s asks for %s %s, but %s beneath it shows %s", couplet.ID, lead.Letter, cond.Trait, authored.List(cond.States), authored.Quote(c.order[end]), authored.List(stateIDs(shown))), "change the lead, or the taxon's traits")
			}
		})
	}
}

func stateIDs(ws []taxa.Weight) []string {
	ids := make([]string, len(ws))
	for i, w := range ws {
		ids[i] = w.State
	}
	return ids
}

// overlap finds two leads that one animal could fit both of.
func (c *checker) overlap(couplet *Couplet, a, b *Lead) {
	for _, ca := range a.Conditions {
		for _, cb := range b.Conditions {
			if ca.Trait == cb.Trait && !slices.ContainsFunc(ca.States, func(s string) bool { return slices.Contains(cb.States, s) }) {
				return
			}
		}
	}
	c.fail(b.at, "overlap", fmt.Sprintf("an animal can fit both leads %s%s and %s%s", couplet.ID, a.Letter, couplet.ID, b.Letter), "give them states of one trait that exclude each other")
}

// gap finds states that a taxon beneath a couplet can show, but with which no
// lead would bring it to where it is keyed.
func (c *checker) gap(couplet *Couplet, end int, open narrowed) {
	taxon := c.catalog.Taxon(c.order[end])
	for _, trait := range splitting(couplet) {
		for _, w := range taxon.States(trait) {
			if open.allows(trait, w.State) && !c.reachable(couplet, end, trait, w.State) {
				c.fail(couplet.at, "gap", fmt.Sprintf("%s can show %s %s, but with it no lead of couplet %s goes to it", authored.Quote(taxon.ID), trait, authored.Quote(w.State), couplet.ID), "key the taxon out under that lead too, or change its traits")
			}
		}
	}
}

// splitting are the traits that all leads of a couplet speak of.
func splitting(couplet *Couplet) []string {
	var out []string
	for _, cond := range couplet.Leads[0].Conditions {
		if !slices.ContainsFunc(couplet.Leads, func(l Lead) bool { return l.accepts(cond.Trait) == nil }) {
			out = append(out, cond.Trait)
		}
	}
	return out
}

func (l *Lead) accepts(trait string) []string {
	for _, cond := range l.Conditions {
		if cond.Trait == trait {
			return cond.States
		}
	}
	return nil
}

func (c *checker) reachable(couplet *Couplet, end int, trait, state string) bool {
	for j := range couplet.Leads {
		l := &couplet.Leads[j]
		if slices.Contains(l.accepts(trait), state) && c.under(l).Has(end) {
			return true
		}
	}
	return false
}
