package draft

import (
	"cmp"
	"maps"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"rillkey/couplets"
	"rillkey/couplets/rules"
	"rillkey/taxa"
	"rillkey/taxa/authored/merge"
	"rillkey/taxa/bitset"
	"rillkey/taxa/wording"
)

// Kept is what a key that is drafted again has of the key that was there.
type Kept struct {
	Couplets int      `json:"couplets"` // that stay, with their numbers, words and places
	New      []string `json:"new"`
	Gone     []string `json:"gone"`
	// Reread are leads that keep words by hand though they stand for other states now.
	Reread []string `json:"reread"`
}

// Again is the draft as a key file in the place of one that was there, drafted earlier
// and edited since by anybody: couplets that ask the same keep their numbers, the order
// of their leads, their place in the file and all that was written by hand, remarks
// too. What each lead stands for and where it goes is the draft's. Words of couplets
// that are no longer asked stay at the end of the file, as remarks.
// It refuses a file whose layout mixes lines and braces in another way than drafts do.
func (d *Draft) Again(h Head, old *couplets.File, text string) ([]byte, *Kept, error) {
	f := d.former(old)
	w := &writer{Draft: d, head: h, number: map[*Node]string{}, order: f.order}
	for n, c := range f.couplet {
		w.number[n] = c.ID
	}
	next := 1
	for i := range old.Couplets {
		n, _ := strconv.Atoi(old.Couplets[i].ID)
		next = max(next, n+1)
	}
	ours, theirs := merge.Read(withoutSeal(text)), merge.Read(string(w.file(next)))
	if err := laidOut(ours, theirs); err != nil {
		return nil, nil, err
	}
	base := supposed(ours, theirs, f.byTable(h.Catalog != nil), func(path []string) bool { return path[0] == "couplet" })
	done := merge.Merge(base, ours, theirs, merge.Options{One: [][]string{{"to", "taxon"}}, Mark: merge.DraftedRemark()})
	kept := f.kept(w)
	for _, blocks := range done.Gone {
		if id := blocks[0].Path[1]; slices.Contains(kept.Gone, id) && f.hand[id] {
			done.Tail += "\n" + merge.Commented(wording.Text("No longer asked; the words are kept:"), textOf(blocks))
		}
	}
	return []byte(done.String()), kept, nil
}

// laidOut refuses a file that holds in braces, or behind a dot, what a draft gives lines
// of its own.
func laidOut(ours, theirs *merge.Document) error {
	of := map[string]*merge.Block{}
	for _, b := range ours.Blocks {
		of[strings.Join(b.Path, "\x00")] = b
	}
	for _, t := range theirs.Blocks {
		if len(t.Path) == 0 || of[strings.Join(t.Path, "\x00")] != nil {
			continue
		}
		for up := len(t.Path) - 1; up >= 0; up-- {
			b, rest := of[strings.Join(t.Path[:up], "\x00")], strings.Join(t.Path[up:], ".")
			if b == nil {
				continue
			}
			for _, f := range b.Fields {
				if f.Key == rest || strings.HasPrefix(rest, f.Key+".") || strings.HasPrefix(f.Key, rest+".") {
					return wording.Errorf("[%s] has %q on a line of it, not a line [%s] of its own", strings.Join(b.Path, "."), f.Key,
						strings.Join(t.Path, "."))
				}
			}
		}
	}
	return nil
}

func textOf(blocks []*merge.Block) string {
	var b strings.Builder
	for _, block := range blocks {
		b.WriteString(block.String())
	}
	return b.String()
}

// former is a key that was there, as far as a draft is the same.
type former struct {
	*Draft
	file      *couplets.File
	couplet   map[*Node]*couplets.Couplet // what a node was
	order     map[*Node][]int             // the side of each lead
	generated map[string]bool             // texts that a draft made, by "4" and "4b"
	hand      map[string]bool             // couplets with words by hand
}

// likeness is how well a couplet of the key that was there is a node.
type likeness struct {
	node    *Node
	couplet int
	order   []int   // the side of each lead
	share   float64 // of the taxa beneath both or either that are beneath both; 1 more where the states are the same
}

func (d *Draft) former(old *couplets.File) *former {
	f := &former{Draft: d, file: old, couplet: map[*Node]*couplets.Couplet{}, order: map[*Node][]int{}, generated: map[string]bool{},
		hand: map[string]bool{}}
	traits := map[string]int{}
	for j := range d.Table.Traits {
		traits[d.Table.Traits[j].ID] = j
	}
	asking := map[int][]int{} // couplets by the trait that they ask
	for i := range old.Couplets {
		c := &old.Couplets[i]
		id := traitOf(c)
		f.words(c, id, traits)
		if j, ok := traits[id]; ok {
			asking[j] = append(asking[j], i)
		}
	}
	beneath := f.taxaBeneath()
	var all []likeness
	d.Each(func(n *Node, _ int) {
		if n.End() {
			return
		}
		set := bitset.New(len(d.Table.Taxa))
		for _, t := range n.Taxa {
			set.Add(t)
		}
		for _, i := range asking[n.Trait] {
			if l, ok := f.likenessTo(n, i); ok {
				both := set.Clone()
				both.And(beneath[i])
				if common := both.Len(); common > 0 {
					l.share += float64(common) / float64(set.Len()+beneath[i].Len()-common)
					all = append(all, l)
				}
			}
		}
	})
	slices.SortStableFunc(all, func(x, y likeness) int { return cmp.Compare(y.share, x.share) })
	taken := map[int]bool{}
	for _, l := range all {
		if f.couplet[l.node] == nil && !taken[l.couplet] {
			f.couplet[l.node], f.order[l.node], taken[l.couplet] = &old.Couplets[l.couplet], l.order, true
		}
	}
	return f
}

// traitOf is the one trait of which all leads of a couplet ask, and nothing else; empty
// for others.
func traitOf(c *couplets.Couplet) string {
	id := ""
	for i := range c.Leads {
		of := c.Leads[i].Conditions
		if len(of) != 1 || i > 0 && of[0].Trait != id {
			return ""
		}
		id = of[0].Trait
	}
	return id
}

// likenessTo compares a node with a couplet that asks the same trait: each lead must stand
// for states of one side alone, though not for all of them. Sides that no lead stands
// for come behind, as leads to be added.
func (f *former) likenessTo(n *Node, i int) (likeness, bool) {
	l := likeness{node: n, couplet: i}
	leads := f.file.Couplets[i].Leads
	if len(leads) > len(n.Sides) {
		return l, false
	}
	t := f.Table.Traits[n.Trait].Trait
	asked, same := others(n.Sides, -1), len(leads) == len(n.Sides)
	for k := range leads {
		states := uint64(0)
		for _, s := range leads[k].Conditions[0].States {
			if at := t.State(s); at >= 0 {
				states |= 1 << at
			}
		}
		states &= asked
		side := slices.IndexFunc(n.Sides, func(of uint64) bool { return states&^of == 0 })
		if states == 0 || side < 0 || slices.Contains(l.order, side) {
			return l, false
		}
		l.order, same = append(l.order, side), same && states == n.Sides[side]
	}
	for side := range n.Sides {
		if !slices.Contains(l.order, side) {
			l.order = append(l.order, side)
		}
	}
	if same {
		l.share = 1
	}
	return l, true
}

// taxaBeneath are the taxa of the table beneath each couplet of the key that was there.
func (f *former) taxaBeneath() []bitset.Set {
	places, index := map[string]int{}, map[string]int{}
	for i := range f.Table.Taxa {
		places[f.Table.Taxa[i].ID] = i
	}
	for i := range f.file.Couplets {
		index[f.file.Couplets[i].ID] = i
	}
	out := make([]bitset.Set, len(f.file.Couplets))
	var of func(i int) bitset.Set
	of = func(i int) bitset.Set {
		if out[i] != nil {
			return out[i]
		}
		out[i] = bitset.New(len(f.Table.Taxa)) // what leads in a circle ends here
		for k := range f.file.Couplets[i].Leads {
			l := &f.file.Couplets[i].Leads[k]
			for _, id := range l.Taxa {
				if at, ok := places[id]; ok {
					out[i].Add(at)
				}
			}
			if next, ok := index[l.Next]; ok {
				out[i].Or(of(next))
			}
		}
		return out[i]
	}
	for i := range out {
		of(i)
	}
	return out
}

// words notes which words of a couplet a draft made, and which somebody wrote.
func (f *former) words(c *couplets.Couplet, id string, traits map[string]int) {
	note := func(mark, text, made string) {
		if sameWords(text, made) {
			f.generated[mark] = true
		} else {
			f.hand[c.ID] = true
		}
	}
	t := &taxa.Trait{ID: id}
	if j, ok := traits[id]; ok {
		t = f.Table.Traits[j].Trait
	}
	note(c.ID, c.Ask, rules.DraftedAsk(t))
	for k := range c.Leads {
		l := &c.Leads[k]
		if id == "" {
			f.hand[c.ID] = true
			continue
		}
		states, others := l.Conditions[0].States, rules.StatesOfOthers(c, k)
		note(c.ID+l.Letter, l.Text, rules.DraftedLead(withStates(t, states, others), states, others))
	}
}

// withStates is a trait with states that its table no longer has, labelled as a sheet
// labels them.
func withStates(t *taxa.Trait, of ...[]string) *taxa.Trait {
	out := *t
	for _, ids := range of {
		for _, id := range ids {
			if out.State(id) < 0 {
				column := strings.TrimSuffix(t.Question, "?")
				out.States = append(slices.Clip(out.States), taxa.State{ID: id, Label: labelled(column, strings.ReplaceAll(id, "-", " "))})
			}
		}
	}
	return &out
}

// sameWords reports whether two texts hold the same words in any order: that of a
// trait's states is the order of the sheet's rows.
func sameWords(a, b string) bool {
	words := func(s string) []string {
		return slices.Sorted(slices.Values(strings.FieldsFunc(strings.ToLower(s), func(r rune) bool {
			return !unicode.IsLetter(r) &&
				!unicode.IsDigit(r)
		})))
	}
	return slices.Equal(words(a), words(b))
}

// byTable says which fields of a key are the draft's.
func (f *former) byTable(stops bool) func(path []string, key string) bool {
	return func(path []string, key string) bool {
		switch {
		case len(path) == 3 && path[0] == "couplet":
			return key == "traits" || key == "to" || key == "taxon" || key == "text" && f.generated[path[1]+path[2]]
		case len(path) == 2 && path[0] == "couplet":
			return key == "stop" && stops || key == "ask" && f.generated[path[1]]
		}
		return slices.Equal(path, []string{"commonness", "weight"}) || slices.Equal(path, []string{"key"}) && key == "start"
	}
}

// kept says what stays.
func (f *former) kept(w *writer) *Kept {
	out := &Kept{Couplets: len(f.couplet), New: []string{}, Gone: []string{}, Reread: []string{}}
	stays := map[string]bool{}
	f.Each(func(n *Node, _ int) {
		c := f.couplet[n]
		switch {
		case n.End():
		case c == nil:
			out.New = append(out.New, w.number[n])
		default:
			stays[c.ID] = true
			for k := range c.Leads {
				now := slices.Sorted(slices.Values(stateIDs(f.Table.Traits[n.Trait].Trait, n.Sides[f.order[n][k]])))
				if l := &c.Leads[k]; !f.generated[c.ID+l.Letter] &&
					!slices.Equal(now, slices.Sorted(slices.Values(l.Conditions[0].States))) {
					out.Reread = append(out.Reread, c.ID+l.Letter)
				}
			}
		}
	})
	for i := range f.file.Couplets {
		if id := f.file.Couplets[i].ID; !stays[id] {
			out.Gone = append(out.Gone, id)
		}
	}
	return out
}

// supposed is what two versions of a file would both have been made of, if one of them
// had changed nothing but the fields that a table decides, and the other nothing but
// the rest. Tables that the newer one lacks are gone from it where gone says so.
func supposed(ours, theirs *merge.Document, byTable func(path []string, key string) bool, gone func(path []string) bool) *merge.Document {
	base := &merge.Document{Tail: theirs.Tail}
	of := map[string]*merge.Block{}
	for _, b := range ours.Blocks {
		of[strings.Join(b.Path, "\x00")] = b
	}
	for _, t := range theirs.Blocks {
		mark := strings.Join(t.Path, "\x00")
		o := of[mark]
		delete(of, mark)
		if o == nil {
			continue
		}
		base.Blocks = append(base.Blocks, supposedBlock(o, t, byTable))
	}
	for _, o := range ours.Blocks {
		if of[strings.Join(o.Path, "\x00")] != nil && len(o.Path) > 0 && gone(o.Path) {
			base.Blocks = append(base.Blocks, o)
		}
	}
	return base
}

func supposedBlock(o, t *merge.Block, byTable func(path []string, key string) bool) *merge.Block {
	b := &merge.Block{Path: t.Path, Lead: t.Lead}
	had, has := map[string]merge.KeyValue{}, map[string]bool{}
	for _, f := range o.Fields {
		had[f.Key] = f
	}
	for i := range t.Fields {
		f := &t.Fields[i]
		has[f.Key] = true
		was, there := had[f.Key]
		switch {
		case !byTable(t.Path, f.Key):
			b.Fields = append(b.Fields, *f)
		case there:
			value := f.Value
			*f = was // its layout and remarks
			f.SetValue(value)
			b.Fields = append(b.Fields, was)
		}
	}
	for _, f := range o.Fields {
		if !has[f.Key] && byTable(t.Path, f.Key) {
			b.Fields = append(b.Fields, f)
		}
	}
	return b
}

// CatalogAgain is a file of the sheet's catalog in the place of one that was there,
// edited since: what cells say is the sheet's, all else stays as it was written. What
// the sheet no longer has stays at the end of the file, as remarks.
func (s *Spreadsheet) CatalogAgain(old, drafted string) ([]byte, error) {
	ours, theirs := merge.Read(withoutSeal(old)), merge.Read(drafted)
	if err := laidOut(ours, theirs); err != nil {
		return nil, err
	}
	own := s.byHand(ours)
	there := map[string]bool{}
	for _, b := range theirs.Blocks {
		there[strings.Join(b.Path[:min(2, len(b.Path))], ".")] = true
	}
	said := s.said()
	byTable := func(path []string, key string) bool {
		if len(path) == 3 && path[0] == "taxon" && path[2] == "traits" {
			return !own[key]
		}
		return said[strings.Join(path, ".")+"."+key]
	}
	gone := func(path []string) bool {
		if len(path) < 2 || path[0] == "trait" && own[path[1]] {
			return false
		}
		return !there[path[0]+"."+path[1]] || len(path) == 4 && path[0] == "trait" && path[2] == "state"
	}
	done := merge.Merge(supposed(ours, theirs, byTable, gone), ours, theirs, merge.Options{Mark: merge.DraftedRemark()})
	for _, blocks := range done.Gone {
		done.Tail += "\n" + merge.Commented(wording.Text("No longer in the sheet:"), textOf(blocks))
	}
	return []byte(done.String()), nil
}

// byHand are the traits that somebody added to a catalog's file: their source is not the
// sheet, and the sheet has no such column.
func (s *Spreadsheet) byHand(d *merge.Document) map[string]bool {
	own := map[string]bool{}
	for _, b := range d.Blocks {
		if f := b.Field("source"); len(b.Path) == 2 && b.Path[0] == "trait" && f != nil && f.Value != quote(sheetSource()) {
			own[b.Path[1]] = true
		}
	}
	for _, t := range s.Traits {
		delete(own, t.ID)
	}
	return own
}

// said are the fields of a catalog that cells and headers of the sheet say.
func (s *Spreadsheet) said() map[string]bool {
	out := map[string]bool{}
	for i, a := range s.details {
		at := "taxon." + s.IDs[i] + "."
		maps.Copy(out, map[string]bool{at + "rank": a.rank != "", at + "scientific": a.scientific != "", at + "parent": a.group != "",
			at + "length_mm": a.most > 0, at + "class": a.class != "", at + "class_source": a.class != "", at + "source": a.source != ""})
	}
	for _, t := range s.Traits {
		out["trait."+t.ID+".look"] = t.Look != taxa.Eye
		out["trait."+t.ID+".question"] = s.Asks[t.ID] != ""
		out["trait."+t.ID+".misread"] = s.rates[t.ID]
	}
	return out
}
