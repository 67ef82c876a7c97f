package taxa

import (
	"iter"
	"maps"
	"slices"
	"strings"

	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Class is the tolerance class that volunteers' manuals give a kind of animal.
// It is empty where no single class holds for all that the taxon contains.
type Class string

// The classes, from the one that needs the cleanest water down.
const (
	Sensitive         Class = "sensitive"
	SomewhatSensitive Class = "somewhat sensitive"
	Tolerant          Class = "tolerant"
	NotScored         Class = "not scored"
)

// Classes are all classes, most sensitive first.
var Classes = []Class{Sensitive, SomewhatSensitive, Tolerant, NotScored}

func classWords() (out []string) {
	for _, c := range Classes {
		out = append(out, string(c))
	}
	return out
}

// Informal is the rank of a set of animals that is no formal taxon, but that
// people can tell from others all the same. It may stand anywhere.
const Informal = "group"

// Ranks are the ranks a taxon may have, highest first; [Informal] is no formal
// rank.
var Ranks = []string{"kingdom", "phylum", "subphylum", "class", "subclass", "superorder", "order", "suborder", "infraorder",
	"superfamily", "family", "subfamily", "genus", "species", Informal}

// stages are the words for parts of a life.
var stages = []string{wording.Mark("larva"), wording.Mark("pupa"), wording.Mark("adult")}

// Range is a range of body lengths in millimetres; the zero Range is unknown.
type Range struct{ Min, Max float64 }

// Known reports whether a length is given.
func (r Range) Known() bool { return r.Max > 0 }

// Weight is a state with its share among the animals of a taxon; the weights of
// one trait sum to 1.
type Weight struct {
	State string
	Share float64
}

// Mistaken is a taxon that another is often taken for, and how to tell.
type Mistaken struct{ Taxon, Tell string }

// Taxon is one kind of animal, of any rank.
type Taxon struct {
	ID, Rank, Scientific string
	Parent               string // id, empty at the top
	Stage                string // larva, pupa, adult, or empty where it makes no difference
	Common, Synonyms     []string
	Also                 []string // more names that people have for it, to find it by
	Was                  []string // ids that it had in earlier editions, or that those merged into it had
	Length               Range    // of mature animals; young ones are shorter
	Class                Class
	Build                string // which way of drawing it fits, one of Builds; empty where its traits tell
	ClassSource          string
	Drawing              *Drawing // its own, in the place of one made from its traits; nil for that
	Photo                *Photo   // nil where there is none
	Habit                string
	Habitat              string
	Feeding              string
	Handling             string // what to take care of, for the person or the animal
	Source               string
	Mistaken             []Mistaken
	Marks                []string // traits that its drawing points at: what tells it from what looks nearly the same
	Invader, Protected   *Concern // in the region that the catalog is seen from; nil where it is none

	parent *Taxon              // nil at the top
	states map[string][]Weight // own and inherited
	table  *authored.Table
}

// States are the states the taxon can show for the trait, with their shares; nil
// means unknown.
func (t *Taxon) States(trait string) []Weight { return t.states[trait] }

// AllStates are the states that the taxon can show for each trait of which it states
// anything or nothing, in no order.
func (t *Taxon) AllStates() iter.Seq2[string, []Weight] { return maps.All(t.states) }

// Name is the name to show people first: the first common name, else the
// scientific one.
func (t *Taxon) Name() string {
	if len(t.Common) > 0 {
		return t.Common[0]
	}
	return t.Scientific
}

func readTaxon(n authored.Section, files folder) *Taxon {
	t := &Taxon{
		ID: n.ID, Rank: n.NeedStr("rank"), Scientific: n.NeedStr("scientific"), Parent: n.Str("parent"),
		Stage: n.Str("stage"), Common: n.Filled("common"), Synonyms: n.Filled("synonyms"), Also: n.Filled("also"), Was: readFormer(n),
		Class: Class(n.Str("class")), ClassSource: n.Str("class_source"),
		Habit: n.Str("habit"), Habitat: n.Str("habitat"), Feeding: n.Str("feeding"),
		Handling: n.Str("handling"), Build: n.Str("build"), Source: n.NeedStr("source"),
		Marks: n.Strs("marks"), states: map[string][]Weight{}, table: n.Table,
	}
	t.Drawing, t.Photo = readDrawing(n.Table, "figure", files), readPhoto(n.Table, files)
	checkWord(n, "rank", t.Rank, Ranks)
	checkWord(n, "build", t.Build, Builds)
	checkWord(n, "stage", t.Stage, stages)
	checkWord(n, "class", string(t.Class), classWords())
	if t.Class != "" {
		n.Need("class_source")
	}
	t.Length = readLength(n)
	for _, row := range n.Subs("mistaken") {
		if row.ID == n.ID {
			row.FailAt(row.Here(), "own-name", wording.Sprintf("%s is not mistaken for itself", plain.Quote(n.ID)),
				wording.Text("name the taxon that it is mistaken for, or delete this table"))
		}
		t.Mistaken = append(t.Mistaken, Mistaken{Taxon: row.ID, Tell: row.NeedStr("tell")})
		row.Done()
	}
	return t
}

// readFormer reads the ids that a taxon had.
func readFormer(n authored.Section) []string {
	ids := n.Filled("was")
	for i, id := range ids {
		if strings.TrimSpace(id) != "" && !plain.IsID(id) {
			n.FailAt(n.Elem("was", i), "bad-id", wording.Sprintf("%s cannot be an id", plain.Quote(id)),
				wording.Text("write the id that an earlier edition had: lower-case letters, digits and hyphens"))
		}
	}
	return ids
}

// checkMarks wants traits.
func (t *Taxon) checkMarks(v *Vocabulary) {
	for i, trait := range t.Marks {
		if problem, hint := v.Unknown(trait); problem != "" {
			t.table.FailAt(t.table.Elem("marks", i), "unknown-trait", problem, hint)
		}
	}
}

func checkWord(n authored.Section, key, word string, allowed []string) {
	checkWordAt(n.Table, key, key, word, allowed)
}

// checkWordAt wants one of some words of a kind under a key.
func checkWordAt(t *authored.Table, key, kind, word string, allowed []string) {
	if word != "" && !slices.Contains(allowed, word) {
		t.Fail(key, "unknown-"+kind, wording.Sprintf("there is no %s %s", kind, plain.Quote(word)), oneOf(word, allowed))
	}
}

// oneOf proposes of a list the word that was meant, else all of it.
func oneOf(word string, allowed []string) string {
	all := wording.Sprintf("it is one of %s", strings.Join(allowed, ", "))
	for _, w := range allowed {
		if n := len(w); n > 3 && plain.Distance(word, w) <= 2 {
			return wording.Sprintf("did you mean %s?", plain.Quote(w)) + " " + all
		}
	}
	return all
}

func readLength(n authored.Section) Range {
	if !n.Has("length_mm") {
		return Range{}
	}
	found := n.Found()
	v := n.Nums("length_mm")
	if n.Found() > found {
		return Range{}
	}
	if len(v) != 2 || v[0] <= 0 || v[1] < v[0] || v[1] > 2000 {
		n.Fail("length_mm", "bad-length",
			wording.Text("a length range is two numbers in millimetres, the smaller first, above 0 and at most 2000"),
			wording.Text("for example [4, 12]"))
		return Range{}
	}
	return Range{v[0], v[1]}
}

// readStates reads what the taxon itself states. "?" means unknown whatever its
// parent states, and is kept as an entry without weights.
func (t *Taxon) readStates(v *Vocabulary) {
	table := t.table.Sub("traits")
	t.checkSources(v, table)
	if table == nil {
		return
	}
	keys := table.Keys()
	t.states = make(map[string][]Weight, len(keys)) // of a large catalog, growing takes longer than reading
	room := make([]Weight, 0, len(keys))
	for _, id := range keys {
		trait := v.Trait(id)
		if trait == nil {
			problem, hint := v.Unknown(id)
			table.FailAt(table.KeyPos(id), "unknown-trait", problem, hint)
			table.Strs(id)
			continue
		}
		weights, ok := readWeights(table, trait, room)
		if !ok {
			continue
		}
		t.states[id] = weights
		room = room[:min(len(room)+len(weights), cap(room))]
	}
	table.Done()
}

func (t *Taxon) checkSources(v *Vocabulary, traits *authored.Table) {
	sources := t.table.Sub("sources")
	if sources == nil {
		return
	}
	for _, trait := range sources.Keys() {
		sources.NeedStr(trait)
		if v.Trait(trait) == nil || traits == nil || !traits.Has(trait) {
			sources.FailAt(sources.KeyPos(trait), "source-of-nothing",
				wording.Sprintf("a source for %s, which the taxon does not state", plain.Quote(trait)),
				wording.Text("state the trait, or delete its source"))
		}
	}
}

// readWeights reads the states of one trait, behind what room holds where it has room.
func readWeights(table *authored.Table, trait *Trait, room []Weight) ([]Weight, bool) {
	if table.IsTable(trait.ID) {
		return readShares(table.Sub(trait.ID), trait)
	}
	ids := table.Strs(trait.ID)
	if len(ids) == 1 && ids[0] == "?" {
		return nil, true
	}
	out := room[len(room):]
	for i, id := range ids {
		if checkState(func() authored.Pos { return table.Elem(trait.ID, i) }, table, trait, id, out) {
			out = append(out, Weight{id, 1 / float64(len(ids))})
		}
	}
	return out[:len(out):len(out)], len(out) == len(ids) && len(out) > 0
}

func checkState(at func() authored.Pos, table *authored.Table, trait *Trait, id string, before []Weight) bool {
	if trait.State(id) < 0 {
		table.FailAt(at(), "unknown-state", wording.Sprintf("the trait %s has no state %s", plain.Quote(trait.ID), plain.Quote(id)),
			wording.Sprintf("its states are %s", plain.List(trait.StateIDs())))
		return false
	}
	if slices.ContainsFunc(before, func(w Weight) bool { return w.State == id }) {
		table.FailAt(at(), "doubled-state", wording.Sprintf("the state %s is named twice", plain.Quote(id)),
			wording.Text("name each state once"))
		return false
	}
	return true
}

func readShares(shares *authored.Table, trait *Trait) ([]Weight, bool) {
	var out []Weight
	sum := 0.0
	for _, id := range shares.Keys() {
		share, ok := shares.Num(id)
		if !ok || !checkState(func() authored.Pos { return shares.KeyPos(id) }, shares, trait, id, out) {
			return nil, false
		}
		if share <= 0 || share > 1 {
			shares.Fail(id, "bad-share", wording.Text("a share lies above 0 and at most at 1"),
				wording.Text("leave out a state that does not occur"))
			return nil, false
		}
		out = append(out, Weight{id, share})
		sum += share
	}
	if sum < 0.999 || sum > 1.001 {
		shares.FailAt(shares.Here(), "bad-share",
			wording.Sprintf("the shares of %s sum to %.3g, not 1", plain.Quote(trait.ID), sum),
			wording.Text("change them so that they sum to 1"))
		return nil, false
	}
	for i := range out {
		out[i].Share /= sum
	}
	return out, true
}

// Builds are the ways of drawing an animal that a catalog can name for a taxon
// and all below it, where their traits do not tell.
var Builds = []string{"hydra", "sponge", "moss-animal", "springtail", "seed-shrimp", "copepod", "roundworm", "caddis",
	"penny", "scavenger", "armoured", "tiger", "bug-domed", "bug", "beetle-waisted", "beetle-dotted", "beetle-parallel",
	"beetle-smooth", "hellgrammite", "damselfly", "dragonfly", "mayfly", "stonefly",
	"fish-louse", "ragworm", "false-scorpion", "harvestman"}
