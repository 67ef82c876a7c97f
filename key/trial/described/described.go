// Package described reads animals as people described them in words, each coded
// trait by trait by an independent reader who saw the words and the vocabulary
// and never the animal's name.
//
// Begin with [Animal], [AccountKind] and [Shown].
package described

import (
	"cmp"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"

	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// AccountKind is a kind of account.
type AccountKind string

// The kinds of account.
const (
	FullAccount    AccountKind = "full"    // all that there is to say
	PartialAccount AccountKind = "partial" // a hurried volunteer's
	ChildAccount   AccountKind = "child"
	DamagedAccount AccountKind = "damaged" // the animal has lost parts
	YoungAccount   AccountKind = "young"
	ShutAccount    AccountKind = "shut"    // in its case or shell, or a pupa
	OutsideAccount AccountKind = "outside" // of nothing that is scored
	MisreadAccount AccountKind = "misread" // with one fact wrong
)

// AccountKinds are all kinds of account.
var AccountKinds = []AccountKind{FullAccount, PartialAccount, ChildAccount, DamagedAccount, YoungAccount,
	ShutAccount, OutsideAccount, MisreadAccount}

// Both stands for the region of an animal that lives in every key's.
const Both = "both"

// nothing is the taxon of what no catalog holds.
const nothing = "outside"

// Animal is one animal as it was described.
type Animal struct {
	ID     string
	Words  string
	Taxa   []string // what it is, ids of the catalog; several where no words tell them apart, none for what it does not hold
	Region string   // id of a key, or Both
	Kind   AccountKind
	// Reader is the number of the reader who coded it.
	Reader int
	// Shows is what the words say; what they do not say is unknown. Of two states
	// the words fit both.
	Shows []Shown
	// Striking are the two traits of Shows that anybody would say first.
	Striking []string
	Length   taxa.Range // in mm, as far as the words say
	Hidden   []string   // traits that the words say cannot be seen
	Unsaid   []string   // what the words say and no state of the vocabulary holds
	Wrong    string     // of a misread one, what is wrong in the words
	Truly    string     // and what is true
}

// Shown is what the words say of a trait.
type Shown struct {
	Trait  string
	States []string
}

// States are those that the words fit of a trait, none where they say nothing.
func (a *Animal) States(trait string) []string {
	for _, s := range a.Shows {
		if s.Trait == trait {
			return s.States
		}
	}
	return nil
}

// Odd reports whether the number at the end of the id is odd.
func (a *Animal) Odd() bool { return a.ID != "" && (a.ID[len(a.ID)-1]-'0')%2 == 1 }

// Load reads all .toml files of a folder, strictly; the animals come in the order
// of their ids. The error is of type [authored.Findings] where the files could be
// read at all; messages put dir before their names.
func Load(fsys fs.FS, dir string, catalog *taxa.Catalog) ([]Animal, error) {
	names, err := fs.Glob(fsys, "*.toml")
	if err != nil {
		return nil, err
	}
	if len(names) == 0 {
		return nil, wording.Errorf("%s holds no described animals; they stand in files that end in .toml", plain.Quote(dir))
	}
	var report authored.Report
	var out []Animal
	for _, name := range names {
		top, err := authored.ReadTable(fsys, name, path.Join(dir, name), &report)
		if err != nil {
			return nil, err
		}
		if top != nil {
			out = append(out, readFile(top, catalog, out)...)
		}
	}
	if err := report.Findings().Err(); err != nil {
		return nil, err
	}
	slices.SortFunc(out, func(a, b Animal) int { return cmp.Compare(a.ID, b.ID) })
	return out, nil
}

func readFile(top *authored.Table, catalog *taxa.Catalog, before []Animal) []Animal {
	top.Need("animal")
	var out []Animal
	for _, n := range top.Subs("animal") {
		if slices.ContainsFunc(before, func(a Animal) bool { return a.ID == n.ID }) {
			top.Sub("animal").FailAt(n.Here(), "doubled-animal",
				wording.Sprintf("the animal %s is in another file too", plain.Quote(n.ID)), wording.Text("give each its own id"))
		}
		out = append(out, reading{n, catalog}.animal())
	}
	top.Done()
	return out
}

// reading is one animal's table.
type reading struct {
	authored.Section
	catalog *taxa.Catalog
}

func (r reading) animal() Animal {
	a := Animal{ID: r.ID, Words: r.NeedStr("words"), Region: r.NeedStr("region"), Kind: AccountKind(r.NeedStr("kind")),
		Unsaid: r.Strs("unsaid")}
	if _, err := strconv.Atoi(r.ID[len(r.ID)-1:]); err != nil {
		r.FailAt(r.Here(), "bad-id", wording.Text("the id of a described animal ends in its number"),
			wording.Text("write an id such as d012"))
	}
	if !slices.Contains(AccountKinds, a.Kind) && a.Kind != "" {
		r.Fail("kind", "unknown-kind", wording.Sprintf("there is no kind of account %s", plain.Quote(string(a.Kind))),
			wording.Sprintf("it is one of %v", AccountKinds))
	}
	a.Taxa = r.taxa()
	reader, _ := r.Int("reader")
	a.Reader = int(reader)
	r.wrong(&a)
	a.Length = r.length()
	r.shows(&a)
	a.Striking, a.Hidden = r.traits("striking"), r.traits("hidden")
	r.striking(&a)
	r.Done()
	return a
}

func (r reading) taxa() []string {
	r.Need("taxon")
	ids := r.Strs("taxon")
	if len(ids) == 1 && ids[0] == nothing {
		return nil
	}
	for i, id := range ids {
		if problem, hint := r.catalog.Unknown(id); problem != "" {
			r.FailAt(r.Elem("taxon", i), "unknown-taxon", problem, hint)
		}
	}
	return ids
}

func (r reading) wrong(a *Animal) {
	a.Wrong, a.Truly = r.Str("wrong"), r.Str("truly")
	if a.Kind == MisreadAccount {
		r.Need("wrong", "truly")
	}
}

// length is two numbers, the first not above the second.
func (r reading) length() taxa.Range {
	const field = "length_mm"
	if !r.Has(field) {
		return taxa.Range{}
	}
	v := r.Nums(field)
	if len(v) != 2 || !(v[0] > 0 && v[0] <= v[1]) {
		r.Fail(field, "bad-length", wording.Text("this is no range of lengths in mm"),
			wording.Text("write length_mm = [7, 7] or length_mm = [6, 8]"))
		return taxa.Range{}
	}
	return taxa.Range{Min: v[0], Max: v[1]}
}

func (r reading) shows(a *Animal) {
	r.Need("shows")
	shows := r.Sub("shows")
	if shows == nil {
		return
	}
	for _, trait := range shows.Keys() {
		states := shows.Strs(trait)
		if problem, hint := r.catalog.Vocabulary().Unknown(trait, states...); problem != "" {
			shows.FailAt(shows.KeyPos(trait), "unknown-state", problem, hint)
		}
		a.Shows = append(a.Shows, Shown{trait, states})
	}
}

func (r reading) traits(field string) []string {
	ids := r.Strs(field)
	for i, id := range ids {
		if problem, hint := r.catalog.Vocabulary().Unknown(id); problem != "" {
			r.FailAt(r.Elem(field, i), "unknown-trait", problem, hint)
		}
	}
	return ids
}

// striking are things that the words say.
func (r reading) striking(a *Animal) {
	for i, trait := range a.Striking {
		if a.States(trait) == nil {
			r.FailAt(r.Elem("striking", i), "not-shown",
				wording.Sprintf("%s is striking, and is not among what the animal shows", plain.Quote(trait)),
				wording.Sprintf("add it to %s", strings.Join([]string{"animal", r.ID, "shows"}, ".")))
		}
	}
}
