package trial

import (
	"context"
	"os"
	"reflect"
	"testing"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/key/trial/described"
	"rillkey/taxa"
)

const described110 = "../../testdata/described"

func wordsOf(t testing.TB, animals ...described.Animal) DescribedAnimals {
	return DescribedAnimals{Animals: animals, Models: []*key.Model{keytest.Model(t)}, Options: key.DefaultOptions(), Workers: 2}
}

func told(t testing.TB, w DescribedAnimals) []Told {
	t.Helper()
	out, err := w.Run(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// Whoever has no words can't tell anything, and gives no name.
func TestAReaderWithoutWordsCantTellAnything(t *testing.T) {
	got := told(t, wordsOf(t, described.Animal{ID: "d1", Taxa: []string{"perlidae"}, Region: described.Both,
		Kind: described.FullAccount}))[0]
	if got.Naming != NoName || got.CantTells != got.Questions || got.Questions == 0 || got.Allowed != "" || got.Class != "" {
		t.Errorf("%+v", got)
	}
}

// A golden stonefly of which everything in the table is said is named so, and
// nothing of it is called misread.
func TestAReaderWithAllWordsNamesTheAnimal(t *testing.T) {
	a := described.Animal{ID: "d1", Taxa: []string{"perlidae"}, Region: described.Both, Kind: described.FullAccount,
		Striking: []string{"tails", "gills"}}
	catalog := keytest.Catalog(t)
	for _, trait := range catalog.Vocabulary().Traits() {
		if shown := catalog.Taxon("perlidae").States(trait.ID); shown != nil {
			a.Shows = append(a.Shows, described.Shown{Trait: trait.ID, States: []string{shown[0].State}})
		}
	}
	got := told(t, wordsOf(t, a))[0]
	if got.Naming != Narrow || !got.Exact || got.Allowed != "perlidae" || got.Accused || got.Class != "sensitive" || !got.classRight() {
		t.Errorf("%+v", got)
	}
}

// As on the screens, whoever ticks nothing of the last list is asked what is left to ask.
func TestAReaderAnswersWhatIsAskedAfterTheLastList(t *testing.T) {
	a := described.Animal{ID: "d1", Taxa: []string{"gomphidae"}, Region: described.Both, Kind: described.PartialAccount,
		Striking: []string{"antennae", "hair"}, Length: taxa.Range{Min: 26, Max: 26}}
	for _, said := range [][2]string{{"antennae", "thick"}, {"hair", "hairy"}, {"flat", "flat"}, {"hind", "plain"}} {
		a.Shows = append(a.Shows, described.Shown{Trait: said[0], States: said[1:]})
	}
	r, err := read(&a, keytest.Model(t), key.DefaultOptions(), false)
	if err != nil {
		t.Fatal(err)
	}
	if now := r.q.Question(); now != nil || r.lists == 0 {
		t.Errorf("after %d lists and %v %v is still asked", r.lists, r.q.Path(), now)
	}
}

func TestNamesAreHeldAgainstTheAnimal(t *testing.T) {
	k := keytest.Key(t)
	for _, row := range []struct {
		named, is []string
		allowed   string
		want      Naming
		exact     bool
	}{
		{nil, []string{"perlidae"}, "perlidae", NoName, false},
		{[]string{"perlidae"}, []string{"perlidae"}, "plecoptera", Narrow, true},
		{[]string{"plecoptera"}, []string{"perlidae"}, "plecoptera", Narrow, false},
		{[]string{"plecoptera"}, []string{"perlidae"}, "perlidae", Broader, false},
		{[]string{"plecoptera"}, []string{"perlidae"}, "", Broader, false},
		{[]string{"plecoptera"}, []string{"perlidae"}, "baetidae", Broader, false},
		{[]string{"perlodidae"}, []string{"perlidae"}, "plecoptera", Wrong, false},
		{[]string{"capniidae"}, []string{"leuctridae", "capniidae"}, "plecoptera", Narrow, true},
		{[]string{"perlidae", "perlodidae"}, []string{"perlidae"}, "perlidae", Narrow, true},
		{[]string{"chironomidae-red"}, []string{"chironomidae"}, "chironomidae", Narrow, true},
		{[]string{"perlidae"}, nil, "", Wrong, false},
		{[]string{"astacidea"}, []string{"cambaridae"}, "", Narrow, true}, // the key leads no closer
		{[]string{"tipulidae"}, []string{"dicranota"}, "", Broader, false},
	} {
		got := Told{Named: row.named, Taxa: row.is}
		got.judge(k, k.Catalog().Taxon(row.allowed))
		if got.Naming != row.want || got.Exact != row.exact {
			t.Errorf("%v named %v where the words allow %q: %s, exact %v", row.is, row.named, row.allowed, got.Naming, got.Exact)
		}
	}
}

func TestAReaderTakesTheLeadThatTheWordsTellOf(t *testing.T) {
	lead := func(letter string, conditions ...couplets.Condition) couplets.Lead {
		return couplets.Lead{Letter: letter, Conditions: conditions}
	}
	is := func(trait string, states ...string) couplets.Condition {
		return couplets.Condition{Trait: trait, States: states}
	}
	c := &couplets.Couplet{Leads: []couplets.Lead{
		lead("a", is("legs", "6"), is("case", "carried")), lead("b", is("legs", "6"), is("case", "none", "fixed")),
		lead("c", is("legs", "0")),
	}}
	for _, row := range []struct {
		why  string
		says []described.Shown
		want string
	}{
		{"nothing is said", nil, key.Unsure},
		{"all of a lead is said", []described.Shown{
			{Trait: "legs", States: []string{"6"}}, {Trait: "case", States: []string{"none"}}}, "b"},
		{"two leads fit", []described.Shown{{Trait: "legs", States: []string{"6"}}}, key.Unsure},
		{"one condition is said, and another lead is not denied",
			[]described.Shown{{Trait: "case", States: []string{"carried"}}}, key.Unsure},
		{"all leads are denied", []described.Shown{{Trait: "legs", States: []string{"8"}}}, key.Unsure},
	} {
		r := reader{Animal: &described.Animal{Shows: row.says}}
		if got := r.lead(c); got != row.want {
			t.Errorf("%s: lead %s, want %s", row.why, got, row.want)
		}
	}
}

// The animals in words go through, and what each came to does not depend on the
// number of workers.
func TestTheDescribedAnimals(t *testing.T) {
	animals, err := described.Load(os.DirFS(described110), described110, keytest.Catalog(t))
	if err != nil {
		t.Fatal(err)
	}
	w := wordsOf(t, animals[:24]...)
	two := told(t, w)
	w.Workers = 1
	if one := told(t, w); !reflect.DeepEqual(one, two) {
		t.Error("one worker finds something else than two")
	}
	if !testing.Short() {
		two = told(t, wordsOf(t, animals...))
		if true_ := Sum(two, trueWords); !reaches(true_) {
			t.Errorf("of animals described truly: %+v", true_)
		}
		w = wordsOf(t, animals...)
		w.Spoken = true
		// Of what is misunderstood some is accused, and some of what it speaks against.
		true_ := Sum(told(t, w), trueWords)
		if true_.Accused = 0; !reaches(true_) {
			t.Errorf("of animals described truly, in their own words: %+v", true_)
		}
	}
	sum := Sum(two, func(*Told) bool { return true })
	if sum.Narrow+sum.Broader+sum.Wrong+sum.None != sum.Animals || sum.Animals != len(two) || sum.Exact > sum.Narrow {
		t.Errorf("%+v", sum)
	}
}

// trueWords are accounts of animals of the keys in which all is true.
func trueWords(t *Told) bool {
	return t.Kind != described.OutsideAccount && t.Kind != described.MisreadAccount
}

// reaches reports whether names come out as they have to: seven in ten as narrow as
// the words allow, four classes in five right, at most one name in twenty-five
// wrong, and an answer accused of at most one in fifty. The first three are to
// become 0.78, 0.92 and 0.01.
func reaches(s Totals) bool {
	n := float64(s.Animals)
	return float64(s.Narrow) >= 0.7*n && float64(s.ClassRight) >= 0.8*float64(s.Classed) &&
		float64(s.Wrong) <= 0.04*n && float64(s.Accused) <= 0.02*n
}
