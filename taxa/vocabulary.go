package taxa

import (
	"slices"
	"strings"

	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Look says what it takes to see a trait.
type Look string

// The three ways of looking, easiest first.
const (
	Eye      Look = "eye"      // the naked eye on the animal in a tray
	Patience Look = "patience" // waiting until the animal moves
	Lens     Look = "lens"     // a hand lens
)

// State is one thing that a trait can be.
type State struct {
	ID          string
	Label       string   // a short finding: "three tails"
	MistakenFor []string // states a beginner takes it for
	LostAs      []string // states it turns into when the part breaks off
	ToldAs      []string // states that people tell in its place who are not asked
	Words       []string // what people call it in words of their own
	Hints       []string // words that go with it and do not say it: what was meant is asked
	Striking    bool     // nobody overlooks it, or sees it where it is not
	Misread     float64  // share of beginners' answers that are wrong where it is so; 0 for that of the trait
	Leaves      []string // traits of which something is left to see then; nil for all
	Drawing     *Drawing // an author's own, in the place of the made one; nil for that
}

// Trait is one feature that can be looked at, with all the states it can have.
type Trait struct {
	ID       string
	Question string
	How      string // where and how to look
	Look     Look
	Glance   bool // whether people have seen it before they are asked
	Obvious  bool // whether nobody leaves unsaid that an animal shows a striking state of it
	// Untold is how many times as often as other animals those that show a striking state of
	// an obvious trait are the ones of which people who told other things could not tell it when
	// asked, above 0 and up to 0.5.
	Untold float64
	// Told is how many times as often as what takes as much to see people who did not speak
	// of it can tell it when asked, up to 1; 0 for as often.
	Told float64
	// Likeness says that it is what people liken the whole animal to: rough evidence, that
	// is heard and never asked for, and whose words count only where something is likened.
	Likeness bool
	AtRest   bool // whether it is asked of an animal that nobody touches
	OfParts  bool // whether its words are said of single parts too, as "hairy" of legs
	// Where are words for where on the animal it is: what is said of another part, or of
	// what any part may bear with none named, is asked. Nil where it is plain from its words.
	Where   []string
	Misread float64 // share of beginners' answers that are wrong, 0 to 0.5
	Source  string
	States  []State // in the order of the file
	// OnlyIf is what must be so for there to be anything of it to see, else it is
	// "none"; nil where nothing must.
	OnlyIf *Dependence
	// HiddenIf is what hides it, as a case hides what is behind the legs; nil where
	// nothing does.
	HiddenIf *Dependence
	// UnaskedIf are things of which any, once seen, says what there is of it: nobody who
	// sees a snail's shell is asked for its legs. Nil where nothing does.
	UnaskedIf []Dependence
}

// State is the index of the state with the id, or -1.
func (t *Trait) State(id string) int {
	for i := range t.States { // which are large to be handed over one by one
		if t.States[i].ID == id {
			return i
		}
	}
	return -1
}

// StateIDs are the ids of all states, in the order of the file.
func (t *Trait) StateIDs() []string {
	ids := make([]string, len(t.States))
	for i, s := range t.States {
		ids[i] = s.ID
	}
	return ids
}

// Vocabulary is the set of all traits.
type Vocabulary struct {
	traits      []*Trait
	index       map[string]int
	same        map[string]string // stems that mean another stem
	similes     []simile          // in the order of the file
	comparisons []comparison      // in the order of the file
	called      phrasebook
}

// Traits are all traits in the order of the file.
func (v *Vocabulary) Traits() []*Trait { return v.traits }

// Asked are the traits that people are asked for, in the order of the file: all but likenesses.
func (v *Vocabulary) Asked() []*Trait {
	return slices.DeleteFunc(slices.Clone(v.traits), func(t *Trait) bool { return t.Likeness })
}

// Trait is the trait with the id, or nil.
func (v *Vocabulary) Trait(id string) *Trait {
	if i, ok := v.index[id]; ok {
		return v.traits[i]
	}
	return nil
}

// IDs are the ids of all traits, in the order of the file.
func (v *Vocabulary) IDs() []string {
	ids := make([]string, len(v.traits))
	for i, t := range v.traits {
		ids[i] = t.ID
	}
	return ids
}

// Unknown says in one sentence what is wrong with naming this trait, or these
// states of it, and which there are; it is empty when all are known.
func (v *Vocabulary) Unknown(trait string, states ...string) (problem, hint string) {
	t := v.Trait(trait)
	if t == nil {
		return wording.Sprintf("there is no trait %s", plain.Quote(trait)), plain.Nearest(trait, v.IDs())
	}
	for _, s := range states {
		if t.State(s) < 0 {
			return wording.Sprintf("the trait %s has no state %s", plain.Quote(trait), plain.Quote(s)),
				wording.Sprintf("its states are %s", plain.List(t.StateIDs()))
		}
	}
	return "", ""
}

func readVocabulary(top *authored.Table, files folder) *Vocabulary {
	v := &Vocabulary{index: map[string]int{}, same: readSynonyms(top)}
	rows := top.Subs("trait")
	for _, named := range rows {
		v.index[named.ID] = len(v.traits)
		v.traits = append(v.traits, readTrait(named, files))
	}
	v.checkOnlyIf(rows)
	v.readSimiles(top)
	v.readComparisons(top)
	if len(v.traits) == 0 {
		top.FailAt(top.Here(), "no-traits", wording.Text("the file holds no trait"), wording.Text("add a table [trait.legs]"))
	}
	top.Done()
	return v
}

// readSynonyms are words that mean the word before them, whatever is spoken of.
func readSynonyms(top *authored.Table) map[string]string {
	same := map[string]string{}
	table := top.Sub("synonyms")
	if table == nil {
		return same
	}
	for _, word := range table.Keys() {
		for _, other := range table.Strs(word) {
			same[stem(strings.ToLower(other))] = stem(strings.ToLower(word))
		}
	}
	table.Done()
	return same
}

func readTrait(n authored.Section, files folder) *Trait {
	t := &Trait{
		ID:        n.ID,
		Question:  n.NeedStr("question"),
		How:       n.Str("how"),
		Look:      Look(n.NeedStr("look")),
		Glance:    n.Bool("glance"),
		Obvious:   n.Bool("obvious"),
		Untold:    readUntold(n),
		Told:      readTold(n),
		Likeness:  n.Bool("likeness"),
		AtRest:    n.Bool("at_rest"),
		OfParts:   n.Bool("of_parts"),
		Where:     n.Strs("where"),
		Source:    n.NeedStr("source"),
		OnlyIf:    readCondition(n, "only_if"),
		HiddenIf:  readCondition(n, "hidden_if"),
		UnaskedIf: readConditions(n, "unasked_if"),
	}
	if n.Has("look") && t.Look != Eye && t.Look != Lens && t.Look != Patience {
		n.Fail("look", "unknown-look", wording.Sprintf("there is no way of looking %s", plain.Quote(string(t.Look))),
			wording.Text("it is eye, patience or lens"))
	}
	n.Need("misread")
	t.Misread = readMisread(n)
	readStates(n, t, files)
	n.Done()
	return t
}

// readTold is how many times as often as others a trait is told, 0 where nothing says so.
func readTold(n authored.Section) float64 {
	told, given := n.Num("told")
	if given && !(told > 0 && told <= 1) {
		n.Fail("told", "out-of-range", wording.Text("how often it is told must be above 0 and up to 1"),
			wording.Text("write how many times as often as what takes as much to see people tell it when asked: 0.5 for half as often"))
	}
	return told
}

// usuallyUntold is how seldom a striking state of an obvious trait cannot be told where the
// vocabulary does not say (memory).
const usuallyUntold = 0.2

func readUntold(n authored.Section) float64 {
	untold, given := n.Num("untold")
	if !given {
		return usuallyUntold
	}
	if untold <= 0 || untold > 0.5 {
		n.Fail("untold", "out-of-range", wording.Text("how seldom an obvious trait cannot be told must be above 0 and up to 0.5"),
			wording.Text("write the share of animals that show it of which people who were asked say nothing: 0.1 for one in ten"))
	}
	return untold
}

// readMisread is a misread rate, 0 where there is none.
func readMisread(n authored.Section) float64 {
	m, _ := n.Num("misread")
	if m < 0 || m > 0.5 {
		n.Fail("misread", "out-of-range", wording.Text("a misread rate must be from 0 to 0.5"),
			wording.Text("write the share of answers that beginners get wrong: 0.1 for one in ten"))
	}
	return m
}

func readStates(n authored.Section, t *Trait, files folder) {
	rows := n.Subs("state")
	for _, row := range rows {
		t.States = append(t.States, State{
			ID:          row.ID,
			Label:       row.NeedStr("label"),
			MistakenFor: row.Strs("mistaken_for"),
			LostAs:      row.Strs("lost_as"),
			ToldAs:      row.Strs("told_as"),
			Words:       row.Strs("words"),
			Hints:       row.Strs("hints"),
			Striking:    row.Bool("striking"),
			Misread:     readMisread(row),
			Leaves:      readLeaves(row),
			Drawing:     readDrawing(row.Table, "figure", files),
		})
		row.Done()
	}
	if len(t.States) < 2 {
		n.FailAt(n.Here(), "few-states", wording.Sprintf("the trait %s has fewer than two states", plain.Quote(t.ID)),
			wording.Text("a trait must be able to differ"))
	}
	for i, row := range rows {
		label := t.States[i].Label
		if label != "" && slices.ContainsFunc(t.States[:i], func(s State) bool { return s.Label == label }) {
			row.Fail("label", "doubled-label", wording.Sprintf("another state of the trait %s is called %s too", plain.Quote(t.ID),
				plain.Quote(label)), wording.Text("say in both what tells them apart"))
		}
		checkStates(row, t, "mistaken_for", t.States[i].MistakenFor)
		checkStates(row, t, "lost_as", t.States[i].LostAs)
		checkStates(row, t, "told_as", t.States[i].ToldAs)
	}
}

// readLeaves are the traits that a state leaves to be seen: none where the list is empty,
// and all, as nil, where there is no list.
func readLeaves(row authored.Section) []string {
	if !row.Has("leaves") {
		return nil
	}
	return append([]string{}, row.Strs("leaves")...)
}

func checkStates(row authored.Section, t *Trait, key string, states []string) {
	for i, s := range states {
		switch {
		case t.State(s) < 0:
			row.FailAt(row.Elem(key, i), "unknown-state",
				wording.Sprintf("the trait %s has no state %s", plain.Quote(t.ID), plain.Quote(s)), wording.Sprintf("its states are %s",
					plain.List(t.StateIDs())))
		case s == row.ID:
			row.FailAt(row.Elem(key, i), "unknown-state", wording.Text("a state cannot be mistaken for itself"),
				wording.Text("delete it here"))
		}
	}
}
