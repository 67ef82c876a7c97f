package couplets

import (
	"io/fs"
	"maps"
	"slices"
	"strings"

	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/bitset"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Load reads a key and checks it against a catalog. The error is of type
// [authored.Findings], holding all that is wrong, where the file could be read.
func Load(fsys fs.FS, name, shown string, catalog *taxa.Catalog) (*Sound, error) {
	_, s, err := Examine(fsys, name, shown, catalog)
	return s, err
}

// LoadText is [Load] for a key that is not in a file.
func LoadText(data []byte, shown string, catalog *taxa.Catalog) (*Sound, error) {
	var report authored.Report
	top := authored.Parse(shown, data, &report)
	if top == nil {
		return nil, report.Findings()
	}
	return check(readTable(top), catalog, report)
}

// Examine is [Load] that gives the key as read too, as far as it could be read;
// nil where it could not be read at all.
func Examine(fsys fs.FS, name, shown string, catalog *taxa.Catalog) (*File, *Sound, error) {
	var report authored.Report
	f, err := Read(fsys, name, shown, &report)
	if err != nil {
		return nil, nil, err
	}
	if f == nil {
		return nil, nil, report.Findings()
	}
	s, err := check(f, catalog, report)
	return f, s, err
}

func check(f *File, catalog *taxa.Catalog, report authored.Report) (*Sound, error) {
	c := &checker{causes: newCauses(f), file: f, catalog: catalog, report: report,
		index: make(map[string]int, len(f.Couplets)), ends: make(map[string]int, len(f.Couplets)+1), back: map[*Lead]bool{},
		contradicted: map[rivalry]int{}}
	for i := range f.Couplets {
		c.index[f.Couplets[i].ID] = i
	}
	if _, ok := c.index[f.Start]; !ok && len(f.Couplets) > 0 {
		c.fail(f.StartPos, "unknown-couplet", wording.Sprintf("the key starts at couplet %s, which is not there", plain.Quote(f.Start)),
			wording.Text("name a couplet of this file"))
	}
	if c.foreign() {
		return nil, c.report.Findings()
	}
	c.references()
	c.routes()
	c.meaning()
	if err := c.report.Findings().Err(); err != nil {
		return nil, err
	}
	s := &Sound{
		File: f, Ends: c.order, index: c.index, ends: c.ends,
		reach: c.reach, topdown: c.topdown, open: c.open, table: c.table,
	}
	s.fillWeights()
	return s, nil
}

type checker struct {
	causes       causes
	file         *File
	catalog      *taxa.Catalog
	report       authored.Report
	index        map[string]int // couplet id to its place
	ends         map[string]int // end point's id to its number
	order        []*taxa.Taxon  // end points in file order
	reach        []bitset.Set   // end points beneath each couplet
	topdown      []int          // couplets, each after all that lead to it
	open         []bitset.Set   // states that the ways to each couplet leave open
	back         map[*Lead]bool // leads back to where they came from
	table        *table
	some         bitset.Set // of end points, for the check at work
	others       bitset.Set
	kept         int             // findings
	contradicted map[rivalry]int // contradictions within the couplet at work, by their place in the report
	keyed        map[string]int  // by end point, the line of the first lead that ends in it; made when needed
}

// rivalry is an end point and a trait in which a lead contradicts it.
type rivalry struct {
	end   int
	trait string
}

// mostFindings are reported of one file. A branch of thousands of animals that a
// lead contradicts would otherwise fill gigabytes with one mistake.
const mostFindings = 1000

// fail reports a finding, and gives its place in the report.
func (c *checker) fail(p authored.Pos, rule, message, hint string) int {
	if c.kept == mostFindings {
		c.report.Skip()
		return len(c.report.All()) - 1
	}
	c.kept++
	c.report.Add(p, rule, message, hint)
	return len(c.report.All()) - 1
}

// references checks every name that the file uses.
func (c *checker) references() {
	for i := range c.file.Couplets {
		couplet := &c.file.Couplets[i]
		if couplet.Stop != "" {
			c.taxon(couplet.Stop, couplet.StopPos)
		}
		for j := range couplet.Leads {
			c.lead(couplet, &couplet.Leads[j])
		}
	}
	for _, e := range c.file.weightsAt {
		c.end(e.Taxon, e.Pos)
	}
	for _, set := range c.file.LensSets {
		for i, id := range set.Taxa {
			c.end(id, set.TaxaPos[i])
		}
		c.taxon(set.NakedEye, set.nakedEyePos)
	}
}

// taxon checks that the catalog knows a taxon. The search for similar names is
// left out where the finding would not be kept.
func (c *checker) taxon(id string, at authored.Pos) bool {
	if c.catalog.Taxon(id) != nil {
		return true
	}
	if c.kept == mostFindings {
		c.report.Skip()
		return false
	}
	problem, hint := c.catalog.Unknown(id)
	if _, there := c.index[id]; there {
		hint = wording.Sprintf("a lead goes on to a couplet with to = %s", plain.Quote(id))
	}
	c.fail(at, "unknown-taxon", problem, hint)
	return false
}

// end checks that a taxon named outside the couplets is an end point.
func (c *checker) end(id string, at authored.Pos) {
	if _, ok := c.ends[id]; !ok {
		c.follows(c.firstAstray(), at, "no-end-point", wording.Sprintf("%s is not an end point of this key", plain.Quote(id)),
			wording.Sprintf("%s; name a taxon that a lead goes to", plain.Nearest(id, slices.Sorted(maps.Keys(c.ends)))))
	}
}

func (c *checker) lead(couplet *Couplet, lead *Lead) {
	lead.Conditions = c.known(lead)
	for _, cond := range lead.Conditions {
		if problem, hint := c.catalog.Vocabulary().Unknown(cond.Trait, cond.States...); problem != "" {
			c.causes.vague[lead] = c.fail(cond.Pos, "unknown-trait", problem, hint)
		} else if cond.States != nil && len(cond.States) == 0 {
			c.causes.vague[lead] = c.fail(cond.Pos, "no-states",
				wording.Sprintf("the lead accepts no state of %s", plain.Quote(cond.Trait)),
				wording.Text("name the states that its animals show"))
		}
	}
	if lead.Next != "" {
		if _, ok := c.index[lead.Next]; !ok {
			c.causes.astray[lead] = c.fail(lead.TargetPos, "unknown-couplet",
				wording.Sprintf("lead %s%s goes to couplet %s, which is not there", couplet.ID, lead.Letter,
					plain.Quote(lead.Next)), c.meantCouplet(lead.Next))
		}
		return
	}
	for i, id := range lead.Taxa {
		if _, known := c.ends[id]; known {
			continue
		}
		if !c.taxon(id, lead.TaxaPos[i]) {
			c.causes.astray[lead] = len(c.report.All()) - 1
			continue
		}
		c.ends[id] = len(c.order)
		c.order = append(c.order, c.catalog.Taxon(id))
	}
}

// known are the conditions of a lead whose traits there are; the others are
// reported, and say nothing of an animal.
func (c *checker) known(lead *Lead) []Condition {
	const most = 50 // told one by one
	var known, unknown []Condition
	for _, cond := range lead.Conditions {
		if c.catalog.Vocabulary().Trait(cond.Trait) != nil {
			known = append(known, cond)
		} else {
			unknown = append(unknown, cond)
		}
	}
	for i, cond := range unknown {
		if i == most {
			c.fail(cond.Pos, "unknown-trait", wording.Sprintf("%d more traits of this lead are unknown", len(unknown)-i),
				wording.Text("is this the catalog that the key is made for? See --taxa"))
			break
		}
		problem, hint := c.catalog.Vocabulary().Unknown(cond.Trait)
		c.causes.vague[lead] = c.fail(cond.Pos, "unknown-trait", problem, hint)
	}
	if unknown == nil {
		return lead.Conditions
	}
	return known
}

// meantCouplet is what to do about a couplet that is not there: most often its
// number is written with something beside it.
func (c *checker) meantCouplet(id string) string {
	digits := strings.Trim(strings.TrimPrefix(id, "couplet."), "abcdef. \t")
	if _, there := c.index[digits]; there {
		return wording.Sprintf("did you mean %s?", plain.Quote(digits))
	}
	if c.catalog.Taxon(id) != nil {
		return wording.Sprintf("a lead ends in an animal with taxon = %s", plain.Quote(id))
	}
	return wording.Text("correct the number, or add a couplet that has it")
}

// routes finds leads that come back to a couplet they came from, and couplets
// that nothing leads to. It keeps its own stack: a file may be a long chain.
func (c *checker) routes() {
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
		next, ok := c.index[lead.Next]
		if !ok {
			continue
		}
		switch state[next] {
		case open:
			c.back[lead] = true
			c.causes.astray[lead] = c.fail(lead.TargetPos, "cycle",
				wording.Sprintf("lead %s%s goes back to couplet %s, which it came from", couplet.ID, lead.Letter,
					plain.Quote(lead.Next)), wording.Text("people who go that way never reach an end; send the lead elsewhere"))
		case unseen:
			state[next] = open
			stack = append(stack, frame{next, 0})
		}
	}
	slices.Reverse(c.topdown)
	c.unreached(func(i int) bool { return state[i] == unseen })
}

// unreached reports the couplets that no walk comes to. Those that only others of
// them lead to follow from the first that nothing leads to.
func (c *checker) unreached(is func(int) bool) {
	led := map[string]bool{}
	for couplet, l := range c.file.Leads() {
		led[l.Next] = led[l.Next] || l.Next != couplet.ID
	}
	why := c.firstAstray()
	for _, others := range []bool{false, true} {
		for i := range c.file.Couplets {
			couplet := &c.file.Couplets[i]
			if !is(i) || led[couplet.ID] != others {
				continue
			}
			message := wording.Sprintf("no lead goes to couplet %s", plain.Quote(couplet.ID))
			if others {
				message = wording.Sprintf("couplet %s is never reached: only couplets that are never reached lead to it",
					plain.Quote(couplet.ID))
			}
			c.follows(why, couplet.Pos, "unreachable", message,
				wording.Sprintf("send a lead there with to = %s, or leave the couplet out", plain.Quote(couplet.ID)))
			if others && why < 0 {
				why = len(c.report.All()) - 1
			}
		}
		if why < 0 {
			why = c.firstOf("unreachable")
		}
	}
}

// meaning checks what the leads say against what the taxa beneath them show, as
// far as the leads lead anywhere.
func (c *checker) meaning() {
	c.table = newTable(c.file, c.catalog, c.order)
	c.some, c.others = bitset.New(len(c.order)), bitset.New(len(c.order))
	c.collect()
	c.open = c.arriving()
	for _, i := range c.topdown {
		couplet := &c.file.Couplets[i]
		c.stop(couplet, c.reach[i])
		clear(c.contradicted)
		for j := range couplet.Leads {
			c.contradictions(couplet, &couplet.Leads[j])
		}
		c.gap(couplet, c.reach[i], c.open[i])
	}
	for i := range c.file.Couplets {
		leads := c.file.Couplets[i].Leads
		for j := range leads {
			for k := range j {
				c.overlap(&c.file.Couplets[i], &leads[k], &leads[j])
			}
		}
	}
	c.lensSets()
}

// collect finds the end points beneath each couplet.
func (c *checker) collect() {
	c.reach = make([]bitset.Set, len(c.file.Couplets))
	for _, i := range slices.Backward(c.topdown) {
		set := bitset.New(len(c.order))
		for j := range c.file.Couplets[i].Leads {
			c.addEnds(&c.file.Couplets[i].Leads[j], set)
		}
		c.reach[i] = set
	}
	c.findLacking()
}

// arriving is which states, as bits of the table, the leads on the way to each
// couplet have left open.
func (c *checker) arriving() []bitset.Set {
	at := make([]bitset.Set, len(c.file.Couplets))
	if len(c.topdown) == 0 {
		return at
	}
	at[c.topdown[0]] = bitset.Full(len(c.table.shows))
	for _, i := range c.topdown {
		for j := range c.file.Couplets[i].Leads {
			lead := &c.file.Couplets[i].Leads[j]
			next, ok := c.index[lead.Next]
			if !ok || c.back[lead] {
				continue
			}
			came := c.table.passing(at[i], lead)
			if at[next] != nil {
				came.Or(at[next])
			}
			at[next] = came
		}
	}
	return at
}

// addEnds adds the end points that a lead leads to; one that goes back to where it
// came from leads to none.
func (c *checker) addEnds(l *Lead, set bitset.Set) {
	if next, ok := c.index[l.Next]; ok && !c.back[l] {
		set.Or(c.reach[next])
		return
	}
	for _, id := range l.Taxa {
		if end, ok := c.ends[id]; ok {
			set.Add(end)
		}
	}
}

func (c *checker) stop(couplet *Couplet, beneath bitset.Set) {
	if couplet.Stop == "" || c.catalog.Taxon(couplet.Stop) == nil {
		return
	}
	beneath.Each(func(end int) {
		if !c.catalog.IsUnder(c.order[end].ID, couplet.Stop) {
			c.fail(couplet.StopPos, "bad-stop",
				wording.Sprintf("couplet %s stops at %s, but %s, keyed below it, does not belong to it", couplet.ID,
					plain.Quote(couplet.Stop), plain.Quote(c.order[end].ID)),
				wording.Text("name a taxon that everything below belongs to, or leave the stop out"))
		}
	})
}

// contradictions finds taxa beneath a lead whose own traits rule it out.
func (c *checker) contradictions(couplet *Couplet, lead *Lead) {
	for _, cond := range lead.Conditions {
		column, ok := c.table.columns[cond.Trait]
		if !ok || len(cond.States) == 0 {
			continue
		}
		why := c.causes.whyVague(lead)
		against := c.some
		clear(against)
		c.addEnds(lead, against)
		against.And(column.known)
		for _, bit := range column.bits(cond.States) {
			against.AndNot(c.table.shows[bit])
		}
		against.Each(func(end int) {
			var shows []string
			for _, w := range c.order[end].States(cond.Trait) {
				shows = append(shows, w.State)
			}
			if why < 0 {
				c.contradicted[rivalry{end, cond.Trait}] = len(c.report.All())
			}
			c.follows(why, cond.Pos, "contradiction",
				wording.Sprintf("lead %s%s asks for %s %s, but %s, keyed below it%s, shows %s", couplet.ID, lead.Letter,
					cond.Trait, plain.List(cond.States), plain.Quote(c.order[end].ID), c.keyedAt(lead, c.order[end].ID),
					plain.List(shows)),
				wording.Text("change the lead, or the taxon's traits"))
		})
	}
}

// keyedAt says where an animal is keyed that a lead leads to further down; nothing
// where the lead itself ends in it.
func (c *checker) keyedAt(lead *Lead, id string) string {
	if slices.Contains(lead.Taxa, id) {
		return ""
	}
	if c.keyed == nil {
		c.keyed = map[string]int{}
		for _, l := range c.file.Leads() {
			for k, id := range l.Taxa {
				if c.keyed[id] == 0 {
					c.keyed[id] = l.TaxaPos[k].Line
				}
			}
		}
	}
	return wording.Sprintf(" in line %d", c.keyed[id])
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
	if len(a.Conditions) == 0 || len(b.Conditions) == 0 {
		return // already without traits
	}
	c.follows(c.causes.whyVague(b, a), b.Pos, "overlap", wording.Sprintf("an animal can fit both leads %s%s and %s%s%s",
		couplet.ID, a.Letter, couplet.ID, b.Letter, inBoth(a, b)), wording.Text("give them states of one trait that exclude each other"))
}

// inBoth names the states of a trait that two leads both accept; empty where they
// speak of no trait together.
func inBoth(a, b *Lead) string {
	for _, cond := range a.Conditions {
		var both []string
		for _, state := range b.accepts(cond.Trait) {
			if slices.Contains(cond.States, state) {
				both = append(both, state)
			}
		}
		if len(both) > 0 {
			return wording.Sprintf(": %s %s is in both", cond.Trait, plain.List(both))
		}
	}
	return ""
}

// gap finds states that a taxon beneath a couplet can show, but with which no
// lead would bring it to where it is keyed.
func (c *checker) gap(couplet *Couplet, beneath, open bitset.Set) {
	if open == nil || len(couplet.Leads) == 0 {
		return
	}
	why := c.whyGap(couplet)
	for _, trait := range splitting(couplet) {
		column, ok := c.table.columns[trait]
		if !ok {
			continue
		}
		for i, state := range column.trait.States {
			if !open.Has(column.first + i) {
				continue
			}
			lost := c.some
			copy(lost, beneath)
			lost.And(c.table.shows[column.first+i])
			lost.AndNot(c.accepting(couplet, trait, state.ID))
			lost.Each(func(end int) {
				why := why
				if cause, ok := c.contradicted[rivalry{end, trait}]; ok && why < 0 {
					why = min(cause, len(c.report.All())-1)
				}
				c.follows(why, couplet.Pos, "gap",
					wording.Sprintf("%s can show %s %s, but with it no lead of couplet %s goes to it",
						plain.Quote(c.order[end].ID), trait, plain.Quote(state.ID), couplet.ID),
					wording.Text("key the taxon out under that lead too, or change its traits"))
			})
		}
	}
}

// accepting are the end points beneath the leads that accept the state, until it
// is called again.
func (c *checker) accepting(couplet *Couplet, trait, state string) bitset.Set {
	set := c.others
	clear(set)
	for j := range couplet.Leads {
		if l := &couplet.Leads[j]; slices.Contains(l.accepts(trait), state) {
			c.addEnds(l, set)
		}
	}
	return set
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

// lensSets checks that people without a lens have a name to stop at.
func (c *checker) lensSets() {
	for _, set := range c.file.LensSets {
		for i, id := range set.Taxa {
			if c.catalog.Taxon(id) == nil || c.catalog.Taxon(set.NakedEye) == nil {
				continue
			}
			if id == set.NakedEye || !c.catalog.IsUnder(id, set.NakedEye) {
				c.fail(set.TaxaPos[i], "bad-lens-set",
					wording.Sprintf("%s does not belong to %s, where people without a lens would stop", plain.Quote(id),
						plain.Quote(set.NakedEye)), wording.Text("name a taxon that holds all of the set"))
			}
		}
	}
}
