package scoring

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"path"
	"slices"
	"sort"
	"strings"

	"rillkey/taxa"
	"rillkey/taxa/authored"
)

//go:embed schemes/*.toml protocols/*.toml
var embedded embed.FS

// Rules are the schemes and protocols that grades are given by, for the taxa
// of one catalog.
type Rules struct {
	catalog   *taxa.Catalog
	schemes   []*Scheme
	protocols []*Protocol
}

// EmbeddedRules reads the rules inside the program.
func EmbeddedRules(cat *taxa.Catalog) (*Rules, error) { return LoadRules(embedded, "", cat) }

// LoadRules reads every .toml file in the folders schemes and protocols of
// fsys, in the order of their names. Rules with anything wrong are refused;
// the error is of type [authored.Findings] where the files could be read at
// all. Messages put dir before the names of the files.
func LoadRules(fsys fs.FS, dir string, cat *taxa.Catalog) (*Rules, error) {
	r := &Rules{catalog: cat}
	var report authored.Report
	if err := eachFile(fsys, dir, "schemes", &report, r.addScheme); err != nil {
		return nil, err
	}
	// A protocol that names a refused scheme would only repeat its findings.
	if err := report.Findings().Err(); err != nil {
		return nil, err
	}
	if err := eachFile(fsys, dir, "protocols", &report, r.addProtocol); err != nil {
		return nil, err
	}
	if err := report.Findings().Err(); err != nil {
		return nil, err
	}
	return r, nil
}

// Schemes are all schemes in the order of their files.
func (r *Rules) Schemes() []*Scheme { return r.schemes }

// Scheme is the scheme with the id, or nil.
func (r *Rules) Scheme(id string) *Scheme {
	i := slices.IndexFunc(r.schemes, func(s *Scheme) bool { return s.ID == id })
	if i < 0 {
		return nil
	}
	return r.schemes[i]
}

// Protocols are all protocols in the order of their files.
func (r *Rules) Protocols() []*Protocol { return r.protocols }

// Protocol is the protocol with the id; the error lists those there are.
func (r *Rules) Protocol(id string) (*Protocol, error) {
	var ids []string
	for _, p := range r.protocols {
		if p.ID == id {
			return p, nil
		}
		ids = append(ids, p.ID)
	}
	if id == "" {
		return nil, fmt.Errorf("no protocol is named; choose one of %s", authored.List(ids))
	}
	return nil, fmt.Errorf("there is no protocol %s; choose one of %s", authored.Quote(id), authored.List(ids))
}

func eachFile(fsys fs.FS, dir, folder string, report *authored.Report, add func(*authored.Table)) error {
	names, err := fs.Glob(fsys, folder+"/*.toml")
	if err != nil {
		return err
	}
	if len(names) == 0 {
		return errors.New(authored.Printable(path.Join(dir, folder)) + ": this folder holds no .toml file")
	}
	sort.Strings(names)
	for _, name := range names {
		data, err := authored.Read(fsys, name, path.Join(dir, name))
		if err != nil {
			return err
		}
		if top := authored.Parse(path.Join(dir, name), data, report); top != nil {
			add(top)
		}
	}
	return nil
}

func (r *Rules) addScheme(top *authored.Table) {
	top.Need("scheme", "group", "kind", "band")
	head := top.Sub("scheme")
	if head == nil {
		return
	}
	s := &Scheme{
		ID: needID(head), Title: head.NeedStr("title"), Form: head.NeedStr("form"),
		Source: head.NeedStr("source"), Status: readStatus(head, ""), Note: head.Str("note"),
		decimals: readDecimals(head), byTaxon: map[string]int{},
	}
	if r.Scheme(s.ID) != nil {
		head.Fail("id", "doubled-id", "another file has a scheme "+authored.Quote(s.ID), "")
	}
	groups := s.readGroups(top)
	s.readKinds(top, r.catalog)
	s.readBands(top)
	read := forms[s.Form]
	if read == nil {
		head.Fail("form", "unknown-form", "there is no form "+authored.Quote(s.Form), "the forms are "+authored.List(formNames))
		return // what else the file holds belongs to a form nobody knows
	}
	s.formula = read(s, top, groups)
	for _, g := range groups {
		g.Done()
	}
	head.Done()
	top.Done()
	r.schemes = append(r.schemes, s)
}

func needID(t *authored.Table) string {
	id := t.NeedStr("id")
	if id != "" && !authored.CheckID(id) {
		t.Fail("id", "bad-id", authored.Quote(id)+" cannot be an id", "use lower-case letters, digits and hyphens")
	}
	return id
}

// readStatus wants one of Statuses; without one the inherited status holds.
func readStatus(t *authored.Table, inherited string) string {
	if inherited == "" {
		t.Need("status")
	}
	status := t.Str("status")
	if status == "" {
		return inherited
	}
	if !slices.Contains(Statuses, status) {
		t.Fail("status", "unknown-status", "there is no status "+authored.Quote(status), "it is one of "+strings.Join(Statuses, ", "))
	}
	return status
}

func readDecimals(t *authored.Table) int {
	d, _ := t.Int("decimals")
	if d < 0 || d > 4 {
		t.Fail("decimals", "bad-figure", "decimals must be from 0 to 4", "")
		return 0
	}
	return int(d)
}

func (s *Scheme) readGroups(top *authored.Table) []authored.Named {
	groups := needRows(top, "group")
	for _, g := range groups {
		s.Groups = append(s.Groups, Group{g.ID, g.NeedStr("label")})
	}
	return groups
}

func (s *Scheme) readKinds(top *authored.Table, cat *taxa.Catalog) {
	for _, row := range needRows(top, "kind") {
		k := Kind{ID: row.ID, Label: row.NeedStr("label"), Group: row.NeedStr("group"), Status: readStatus(row.Table, s.Status)}
		if _, i := s.group(k.Group); i < 0 {
			row.Fail("group", "unknown-group", "there is no group "+authored.Quote(k.Group), "groups are the tables [group.…] of this file")
		}
		row.Need("taxa")
		k.Taxa = row.Strs("taxa")
		if row.Has("taxa") && len(k.Taxa) == 0 {
			row.Fail("taxa", "empty", "the kind has no taxa", "")
		}
		for i, id := range k.Taxa {
			s.list(row.Table, i, id, cat)
		}
		row.Done()
		s.Kinds = append(s.Kinds, k)
	}
}

// list enters a taxon under the kind that is being read.
func (s *Scheme) list(row *authored.Table, i int, id string, cat *taxa.Catalog) {
	if problem, hint := cat.Unknown(id); problem != "" {
		row.FailAt(row.Elem("taxa", i), "unknown-taxon", problem, hint)
		return
	}
	if first, doubled := s.byTaxon[id]; doubled {
		where := "this kind"
		if first < len(s.Kinds) {
			where = "the kind " + authored.Quote(s.Kinds[first].ID)
		}
		row.FailAt(row.Elem("taxa", i), "doubled-taxon", authored.Quote(id)+" is listed already for "+where, "a taxon belongs to one kind")
		return
	}
	s.byTaxon[id] = len(s.Kinds)
}

// readBands wants every value from 0 up in exactly one band.
func (s *Scheme) readBands(top *authored.Table) {
	rows := needRows(top, "band")
	at := map[string]authored.Pos{}
	for _, row := range rows {
		b := Band{Rating: row.NeedStr("rating"), to: math.MaxInt64}
		if _, doubled := at[b.Rating]; doubled {
			row.Fail("rating", "doubled-rating", "another band has the rating "+authored.Quote(b.Rating), "")
		}
		at[b.Rating] = row.Here()
		b.from = s.edge(row.Table, "from", "above", 0, 1)
		b.to = s.edge(row.Table, "to", "below", math.MaxInt64, -1)
		if b.to < b.from {
			row.FailAt(row.Here(), "band-empty", "the band ends before it begins", "")
		}
		s.Bands = append(s.Bands, b)
		row.Done()
	}
	sort.SliceStable(s.Bands, func(i, j int) bool { return s.Bands[i].from < s.Bands[j].from })
	next := int64(0)
	for _, b := range s.Bands {
		s.joins(top, at[b.Rating], b.from, next)
		next = b.to + 1 // wraps around behind the last band, which is checked below
	}
	if n := len(s.Bands); n > 0 && s.Bands[n-1].to != math.MaxInt64 {
		top.FailAt(at[s.Bands[n-1].Rating], "band-gap", fmt.Sprintf("no band holds values above %s", s.text(s.Bands[n-1].to)), "leave the upper edge of the highest band out")
	}
}

func (s *Scheme) joins(top *authored.Table, at authored.Pos, from, next int64) {
	switch {
	case next < 0 || from < next:
		top.FailAt(at, "band-overlap", fmt.Sprintf("the value %s lies in two bands", s.text(from)), "")
	case from > next:
		top.FailAt(at, "band-gap", fmt.Sprintf("no band holds the values from %s to %s", s.text(next), s.text(from-1)), "")
	}
}

// edge reads one edge of a band: inside is the key for a value that belongs
// to the band, outside for one that just does not.
func (s *Scheme) edge(row *authored.Table, inside, outside string, open, inward int64) int64 {
	switch {
	case row.Has(inside) && row.Has(outside):
		row.Fail(outside, "band-edges", "an edge is given twice", fmt.Sprintf("keep either %s or %s", inside, outside))
		row.Num(inside)
		return s.steps(row, outside) + inward
	case row.Has(inside):
		return s.steps(row, inside)
	case row.Has(outside):
		return s.steps(row, outside) + inward
	}
	return open
}
