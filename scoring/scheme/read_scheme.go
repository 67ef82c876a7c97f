package scheme

import (
	"cmp"
	"fmt"
	"slices"
	"sync"

	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// addSchemes reads those with kinds of their own first, since others share
// them, and keeps the order of the files.
func (r *Rulebook) addSchemes(tops []*authored.Table) {
	for _, sharing := range []bool{false, true} {
		for i, top := range tops {
			if sharesKinds(top) == sharing {
				r.addScheme(top, i)
			}
		}
	}
	for _, s := range r.schemes {
		r.checkReadWith(s, tops[s.file].Sub("scheme"))
	}
	sorting.Stable(r.schemes, func(a, b *Scheme) int { return cmp.Compare(a.file, b.file) })
}

// checkReadWith wants the scheme that another's words must agree with to have the
// same words.
func (r *Rulebook) checkReadWith(s *Scheme, head *authored.Table) {
	if s.ReadWith == "" {
		return
	}
	other := r.Scheme(s.ReadWith)
	switch {
	case other == nil || other == s:
		head.Fail("read_with", "unknown-scheme", wording.Sprintf("there is no other scheme %s", plain.Quote(s.ReadWith)),
			wording.Text("name a scheme of the folder schemes with the same words, or delete the line"))
	case !slices.Equal(ratingsOf(s), ratingsOf(other)):
		head.Fail("read_with", "other-ratings", wording.Sprintf("the ratings of %s are not those of this scheme", plain.Quote(other.ID)),
			wording.Text("both have the same words"))
	}
}

// ratingsOf are the ratings of a scheme in the order of the alphabet.
func ratingsOf(s *Scheme) (out []string) {
	for _, b := range s.Bands {
		out = append(out, b.Rating)
	}
	slices.Sort(out)
	return out
}

func sharesKinds(top *authored.Table) bool {
	return top.IsTable("scheme") && top.Sub("scheme").Has("kinds_from")
}

func (r *Rulebook) addScheme(top *authored.Table, file int) {
	top.NeedHead("scheme")
	head := top.Sub("scheme")
	if head == nil {
		return
	}
	s := &Scheme{
		ID: needID(head), Title: head.NeedStr("title"), Form: head.NeedStr("form"),
		Source: head.NeedStr("source"), Status: readStatus(head, ""), Note: head.Str("note"),
		BandSource: head.Str("bands_source"), KindsFrom: head.Str("kinds_from"),
		Scaled: readSubsample(head),
		file:   file, decimals: readDecimals(head), lowIsClean: readCleanest(head), Floor: readFloor(top),
		ReadWith: head.Str("read_with"), NotCounted: r.readTaxonIDs(head, "not_counted"),
		Regions: head.Strs("regions"),
		KindSet: newKindSet(r.catalog),
	}
	if r.Scheme(s.ID) != nil {
		head.Fail("id", "doubled-id", wording.Sprintf("another file has a scheme %s", plain.Quote(s.ID)),
			wording.Text("give one of the two another id, or take one of the files away"))
	}
	groups := r.readKindsOf(s, top, head)
	s.readBands(top)
	s.accrual = sync.OnceValues(s.takenApart)
	if s.formula = s.readForm(schemeFile{top, head, groups}); s.formula == nil {
		return // what else the file holds belongs to a form nobody knows
	}
	for _, g := range groups {
		g.Done()
	}
	head.Done()
	top.Done()
	r.schemes = append(r.schemes, s)
}

func readDecimals(head *authored.Table) int {
	d, _ := head.Int("decimals")
	if d < 0 || d > 4 {
		head.Fail("decimals", "bad-figure", wording.Text("decimals must be from 0 to 4"),
			wording.Text("write how many decimals the value is told with, as 1"))
		return 0
	}
	return int(d)
}

// readCleanest tells that low values stand for clean streams.
func readCleanest(head *authored.Table) bool {
	word := head.Str("cleanest")
	if head.Has("cleanest") && word != "lowest" && word != "highest" {
		head.Fail("cleanest", "unknown-word", wording.Sprintf("the cleanest streams cannot have the %s values", plain.Quote(word)),
			wording.Text(`it is "highest", which holds without this line, or "lowest"`))
	}
	return word == "lowest"
}

// readSubsample tells what is made of samples of which only a part was sorted.
func readSubsample(head *authored.Table) bool {
	word := head.Str("subsample")
	if head.Has("subsample") && word != "scaled" && word != "as counted" {
		head.Fail("subsample", "unknown-word", wording.Sprintf("counts of a sample sorted in part cannot be taken %s", plain.Quote(word)),
			wording.Text(`it is "as counted", which holds without this line, or "scaled"`))
	}
	return word == "scaled"
}

// readKindsOf gives the scheme its groups and kinds: those of its file, or
// those of another scheme and the kinds that its file adds.
func (r *Rulebook) readKindsOf(s *Scheme, top, head *authored.Table) []authored.Section {
	if head.Has("kinds_at") {
		r.readKindsAt(s, top, head)
		return nil
	}
	if s.KindsFrom == "" {
		top.Need("group", "kind")
		groups := needRows(top, "group")
		for _, g := range groups {
			s.Groups = append(s.Groups, Group{ID: g.ID, Label: g.NeedStr("label")})
		}
		r.readKinds(s, top)
		return groups
	}
	if lender := r.Scheme(s.KindsFrom); lender == nil || lender.KindsFrom != "" {
		head.Fail("kinds_from", "unknown-scheme", wording.Sprintf("there is no scheme %s with kinds of its own",
			plain.Quote(s.KindsFrom)), wording.Text("name one that has [kind.…] tables, or write such tables here"))
	} else if lender.decimals > s.decimals {
		head.Fail("kinds_from", "bad-figure",
			wording.Sprintf("the scheme has %d decimals, fewer than the weights of %s", s.decimals, plain.Quote(lender.ID)),
			wording.Text("raise decimals in [scheme]"))
	} else {
		s.borrow(lender)
	}
	r.readKinds(s, top)
	return nil
}

// borrow takes over groups, kinds and weights.
func (s *Scheme) borrow(lender *Scheme) {
	s.KindSet = lender.KindSet.Clone()
	s.NotCounted = append(s.NotCounted, lender.NotCounted...)
	s.weight = map[string]int64{}
	for group, w := range lender.weight {
		s.weight[group] = w * (s.One() / lender.One())
	}
}

func (r *Rulebook) readKinds(s *Scheme, top *authored.Table) {
	for _, row := range needRows(top, "kind") {
		k := Kind{
			ID: row.ID, Label: row.Str("label"), Group: s.readGroup(row), Whole: row.Bool("whole"),
			ListedAs: row.Str("listed_as"), Status: readStatus(row.Table, s.Status), Note: row.Str("note"),
		}
		if _, i := s.Group(k.Group); i < 0 {
			row.Fail("group", "unknown-group", wording.Sprintf("there is no group %s", plain.Quote(k.Group)),
				wording.Sprintf("%s; groups are the tables [group.…] of the file that the kinds are from",
					plain.Nearest(k.Group, s.groupIDs())))
		}
		if slices.ContainsFunc(s.Kinds, func(before Kind) bool { return before.ID == k.ID }) {
			row.FailAt(row.Here(), "doubled-id", wording.Sprintf("%s is a kind already", plain.Quote(k.ID)),
				wording.Text("leave one of the two out, or give it another name"))
		}
		r.readTaxa(s, &k, row)
		r.readAbsent(s, &k, row)
		if k.Label == "" {
			k.Label = r.labelOf(k)
		}
		row.Done()
		s.Kinds = append(s.Kinds, k)
	}
}

func (s *Scheme) groupIDs() (out []string) {
	for _, g := range s.Groups {
		out = append(out, g.ID)
	}
	return out
}

func (s *Scheme) kindIDs() (out []string) {
	for _, k := range s.Kinds {
		out = append(out, k.ID)
	}
	return out
}

// readGroup reads the group of a kind, which needs no saying where there is but
// the one.
func (s *Scheme) readGroup(row authored.Section) string {
	if s.KindsAt != "" && !row.Has("group") {
		return everyKind
	}
	return row.NeedStr("group")
}

// readTaxa reads the taxa of a kind: those under the key taxa, else the taxon
// that the kind's own id names, unless all it has are absent ones.
func (r *Rulebook) readTaxa(s *Scheme, k *Kind, row authored.Section) {
	k.Taxa = row.Strs("taxa")
	if row.Has("taxa") && len(k.Taxa) == 0 {
		row.Fail("taxa", "empty", wording.Text("the kind has no taxa"),
			wording.Text("name those that count as it, or delete the line where the kind is called as its taxon"))
	}
	if !row.Has("taxa") && !row.Has("absent") {
		k.Taxa = []string{row.ID}
	}
	for i, id := range k.Taxa {
		if r.has(row.Table, "taxa", i, id) && !claim(s.listed, id, len(s.Kinds)) {
			s.doubled(row, row.Elem("taxa", i), id, s.listed[id])
		}
	}
}

func (s *Scheme) doubled(row authored.Section, at authored.Pos, name string, first int) {
	where := "this kind"
	if first < len(s.Kinds) {
		where = "the kind " + plain.Quote(s.Kinds[first].ID)
	}
	row.FailAt(at, "doubled-taxon", wording.Sprintf("%s is listed already for %s", plain.Quote(name), where),
		wording.Text("a taxon belongs to one kind"))
}

// readAbsent reads the published names that the catalog has no taxon for, and
// the taxa that it would hang them below. So no published value is lost, and
// an animal named as one of those is known to be of an open kind.
func (r *Rulebook) readAbsent(s *Scheme, k *Kind, row authored.Section) {
	k.Absent = row.Strs("absent")
	for i, name := range k.Absent {
		at, folded := row.Elem("absent", i), foldName(name)
		if !claim(s.absent, folded, len(s.Kinds)) {
			s.doubled(row, at, name, s.absent[folded])
			continue
		}
		id := r.known[folded]
		if slices.Contains(row.Strs("below"), id) {
			continue // the catalog knows it as another name of the wider taxon that it hangs below
		}
		if id != "" && !r.lenient.Present {
			row.FailAt(at, "not-absent",
				wording.Sprintf("the catalog has %s as the taxon %s", plain.Quote(name), plain.Quote(id)), wording.Text("move it to taxa"))
		} else if id != "" {
			claim(s.listed, id, len(s.Kinds)) // unless it is listed already
		}
	}
	r.readHolders(s, row)
}

func (r *Rulebook) readHolders(s *Scheme, row authored.Section) {
	if row.Has("absent") {
		row.Need("below")
	}
	below := r.readTaxonIDs(row.Table, "below")
	if row.Has("below") && (!row.Has("absent") || len(below) == 0) {
		row.Fail("below", "below-nothing", wording.Text("below says where absent names would hang"),
			wording.Text("it stands beside absent and names one taxon at least"))
	}
	for _, id := range below {
		s.holders[id] = append(s.holders[id], len(s.Kinds))
	}
}

// labelOf is what people call a kind that has no label of its own: the plain
// name of its first taxon with the scientific one, else the published name.
func (r *Rulebook) labelOf(k Kind) string {
	for _, id := range k.Taxa {
		t := r.catalog.Taxon(id)
		switch {
		case t == nil:
			continue
		case t.Name() == t.Scientific:
			return t.Scientific
		}
		return fmt.Sprintf("%s (%s)", t.Name(), t.Scientific)
	}
	if len(k.Absent) > 0 {
		return k.Absent[0]
	}
	return k.ID
}

// readTaxonIDs reads ids that the catalog has, unless it need not.
func (r *Rulebook) readTaxonIDs(t *authored.Table, key string) []string {
	ids := t.Strs(key)
	for i, id := range ids {
		r.has(t, key, i, id)
	}
	return ids
}

// has tells that the catalog has the taxon that the list under a key names.
func (r *Rulebook) has(t *authored.Table, key string, i int, id string) bool {
	problem, hint := r.catalog.Unknown(id)
	if problem != "" && !r.lenient.Unknown {
		t.FailAt(t.Elem(key, i), "unknown-taxon", problem, hint)
	}
	return problem == ""
}
