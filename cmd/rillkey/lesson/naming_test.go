package lesson

import (
	"slices"
	"strings"
	"testing"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/key/practice"
)

// pouch snail was refused though it was listed: every name that is offered is taken.
func TestEveryNameThatIsOfferedIsTaken(t *testing.T) {
	for _, file := range []string{couplets.DefaultName, "north-west-europe.toml"} {
		sound, catalog := keytest.Sound(t, file)
		k := key.Compile(sound, catalog)
		course, err := practice.NewCourse(k, practice.Plan{})
		if err != nil {
			t.Fatal(err)
		}
		for _, kind := range course.Kinds() {
			for _, name := range []string{kind.Name(), kind.ID, kind.Scientific} {
				if got := course.Called(name); got != kind {
					t.Errorf("%s: %q is taken for %v", file, name, got)
				}
			}
		}
		if file == couplets.DefaultName {
			for typed, want := range map[string]string{"pouch snail": "physidae",
				"perlodid stonefly": "perlodidae", "northern caddisfly": "limnephilidae",
				"saddle-case caddisfly": "glossosomatidae", "free-living caddisfly": "rhyacophilidae",
				"green rock worm": "rhyacophilidae"} {
				if got := course.Called(typed); got == nil || got.ID != want {
					t.Errorf("%q is taken for %v, want %s", typed, got, want)
				}
			}
		}
	}
}

// A broad name lists all its kinds, of the stage that was said; a name like another is
// taken by one key.
func TestWhatIsOfferedForANameInPractice(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	l := New(o)
	for typed, want := range map[string][]string{
		"lunged snail": {"pouch snail; ", "ramshorn snail"}, "gilled snail": {"faucet snail", "horn snail"},
		"non-biting midge":    {"bloodworm", "midge larva, not red", "midge pupa"},
		"casemaker caddisfli": {"northern case maker", "giant case maker"},
		"land insect":         {"land insect that fell in (1)"},
		"midge larva":         {"Midge larva is several kinds here: bloodworm; midge larva, not red. "},
	} {
		l.Name(typed)
		for _, one := range want {
			if !strings.Contains(l.said, one) || strings.Contains(l.said, " more") {
				t.Errorf("%q: %s", typed, l.said)
			}
		}
	}
	if l.met > 0 {
		t.Fatal("one of them was taken")
	}
	l.Name("gold stonefly")
	p := l.Now()
	if !strings.Contains(p.Said, "golden stonefly (1)") || !slices.Contains(signs(&p), "1") {
		t.Errorf("%q %v", p.Said, signs(&p))
	}
	if l.Do("1"); l.met != 1 || o.Record.Meetings[0].Sight != "perlidae" {
		t.Errorf("%+v", o.Record.Meetings)
	}
	if l.Do("1"); l.met != 1 {
		t.Error("a name of the animal before was taken")
	}
}

// In a test a list of kinds taught, and what was refused told that it was wrong.
func TestATestTakesEveryNameInTheSameWords(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	o.Test, o.Animals = practice.OnSight, 100
	l := begun(o)
	for _, typed := range []string{"shore bug", "water bear beetle", "Saldidae", "hellgrammite", "pike",
		"small minnow mayfly", "Aedes", "corydalus"} {
		was := l.met
		if l.Name(typed); l.met != was+1 || l.said != "Noted: "+typed+"." {
			t.Errorf("%q: %s", typed, l.said)
		}
	}
	for _, typed := range []string{"stonefly", "caddisfly", "gilled snail", "midge larva", "caterpillar",
		"predaceous diving beetle", "snail"} {
		was := l.met
		l.Name(typed)
		want := `"` + typed + `" is a name for several kinds. Say it closer, or choose 1 to leave it at "` + typed + `".`
		if l.said != want || l.met != was {
			t.Errorf("%q: %s", typed, l.said)
		}
		if l.Do("1"); l.met != was+1 || l.said != "Noted: "+typed+"." {
			t.Errorf("%q left at that: %s", typed, l.said)
		}
	}
	l.Name("gold stonefly")
	if l.said != `Nobody here spells a name "gold stonefly". Do you mean golden stonefly (1)?` {
		t.Error(l.said)
	}
	for _, typed := range []string{"xyzzy", "blorp"} { // nor may a name that is in no list tell that it is wrong
		was := l.met
		if l.Name(typed); l.met != was || !strings.Contains(l.said, `is not in the lists of names here. Say it otherwise, or choose 1 `) {
			t.Errorf("%q: %s", typed, l.said)
		}
		if l.Do("1"); l.met != was+1 || l.said != "Noted: "+typed+"." {
			t.Errorf("%q left at that: %s", typed, l.said)
		}
	}
	if _, err := practice.ParseRecord("robin", o.Record.TOML()); err != nil {
		t.Error(err)
	}
}

// Whoever says what they see in the place of a name is told so, in a test and out of it.
func TestAFeatureIsNoName(t *testing.T) {
	for _, test := range []practice.TestKind{"", practice.OnSight} {
		o, _ := options(t, practice.DrawingSource)
		o.Test, o.Animals = test, 10
		l := begun(o)
		for _, typed := range []string{"two long tails", "ten legs", "no legs", "pincers", "feathery gills", "a case of sand grains",
			"hard shell", "swims on its side"} {
			if l.Name(typed); l.met > 0 || !strings.Contains(l.said, `says what is to be seen of an animal. Say its name, or choose `) {
				t.Errorf("%q: %s", typed, l.said)
			}
		}
		for _, typed := range []string{"red midge", "golden stonefly", "bloodworm", "brown beetle", "water penny"} {
			if isFeature(l, typed, l.catalog.Find(typed)) {
				t.Errorf("%q is taken for a feature", typed)
			}
		}
	}
}

// A kind chosen from a list that was offered is not yet known.
func TestANameFromAListIsNotedAsThat(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	o.Animals = 4
	l := New(o)
	l.Name("gilled snail")
	l.Name("horn snail")
	if m := o.Record.Meetings[0]; !m.Prompted || m.Sight != "pleuroceridae" {
		t.Errorf("%+v", m)
	}
	l.Do(GoOn)
	l.Name("horn snail")
	if m := o.Record.Meetings[1]; m.Prompted {
		t.Errorf("%+v", m)
	}
	back, err := practice.ParseRecord("robin", o.Record.TOML())
	if err != nil || !back.Meetings[0].Prompted || back.Meetings[1].Prompted {
		t.Error(err)
	}
}

// A name that means several kinds counts as far as it goes, and no kind is known by it.
func TestABroadNameInATestCountsAsFarAsItGoes(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	o.Test, o.Animals = practice.OnSight, 20
	l := begun(o)
	for l.stage == meeting {
		order := l.catalog.Ancestors(l.kind.ID)
		if l.met%2 == 0 || len(order) == 0 {
			l.Name(l.kind.Name())
			continue
		}
		l.Name(order[len(order)-1].Scientific)
		l.Do("1")
	}
	got := o.Record.Tested()[0]
	if got.Right < 10 || got.AsGroup < 3 || got.Right+got.AsGroup > 20 {
		t.Errorf("%+v", got)
	}
	if _, right := l.Met(); right != got.Right {
		t.Errorf("%d right are told of, %d counted", right, got.Right)
	}
}

// perlodidae was answered by "Noted: striped stonefly", which taught the name.
func TestATestNotesWhatWasTyped(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	o.Test, o.Animals = practice.OnSight, 2
	l := begun(o)
	if l.Name(" Perlodidae "); l.said != "Noted: Perlodidae." {
		t.Errorf("%q", l.said)
	}
	o.Test = practice.WithKey
	l = begun(o)
	for n := 0; l.met == 0 && n < 60; n++ {
		if q := l.talk.Inquiry().Question(); q != nil {
			l.Do(letterOf(l, *q))
		} else {
			l.Do(stop)
		}
	}
	if l.said != "Noted: the key came to a name." && l.said != "Noted: no name." {
		t.Errorf("%q", l.said)
	}
}

// A name of the family that the animal is of was right in a test and wrong in a sitting.
func TestANameThatHoldsTheKindIsRightAsFarAsItGoes(t *testing.T) {
	for _, name := range []string{"Pediciidae", "crane fly"} {
		o, _ := options(t, practice.DrawingSource)
		l := placed(o, "dicranota")
		l.Name(name)
		p := l.Now()
		if m := o.Record.Meetings[0]; !m.Right() || m.Group != "tipulidae" || l.stage != telling ||
			!strings.HasPrefix(p.Title, "Right as far as it goes: stub-legged crane fly larva") {
			t.Errorf("%s: %+v\n%s", name, m, inLines(&p))
		}
		if n, right := l.Met(); n != 1 || right != 1 {
			t.Errorf("%s: %d of %d right", name, right, n)
		}
	}
	o, _ := options(t, practice.DrawingSource)
	l := placed(o, "tipulidae")
	l.Name("stub-legged crane fly larva")
	if m := o.Record.Meetings[0]; m.Right() {
		t.Errorf("a closer name than it has: %+v", m)
	}
}

// Dolichopodidae was said to be horse flies and mosquitoes, and held for each in a test.
func TestAFamilyThatAGroupOnlyTakesInMeansNoneOfItsKinds(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	l := placed(o, "culicidae")
	l.Name("dolichopodidae")
	if l.stage != meeting || !strings.Contains(l.said, "not practised here by itself") || strings.Contains(l.said, "mosquito") {
		t.Errorf("said %q", l.said)
	}
	o, _ = options(t, practice.DrawingSource)
	o.Test = practice.OnSight
	l = begun(o)
	place(l, o, "culicidae")
	l.Name("Dolichopodidae")
	if all := o.Record.Meetings; len(all) != 1 || all[0].Right() || all[0].Sight != "dolichopodidae" {
		t.Errorf("%+v said %q", all, l.said)
	}
	o, _ = options(t, practice.DrawingSource)
	l = placed(o, "uenoidae")
	l.Name("Thremmatidae")
	if all := o.Record.Meetings; len(all) != 1 || !all[0].Right() {
		t.Errorf("%+v said %q", all, l.said)
	}
}
