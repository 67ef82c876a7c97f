package lesson

import (
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

// A broad name lists all kinds, in a test too; what is offered for an unknown one is
// never refused next.
func TestABroadNameListsItsKinds(t *testing.T) {
	for _, test := range []practice.TestKind{"", practice.OnSight} {
		o, _ := options(t, practice.Drawing)
		if o.Test = test; test != "" {
			o.Animals = 3
		}
		l := Begin(o)
		for typed, want := range map[string][]string{
			"lunged snail": {"pouch snail; ", "ramshorn snail"}, "gilled snail": {"faucet snail", "horn snail"},
			"non-biting midge": {"bloodworm", "midge larva, not red"}, "casemaker caddisfli": {"northern case maker", "giant case maker"},
			"land insect": {"land insect that fell in"},
		} {
			l.Name(typed)
			for _, one := range want {
				if !strings.Contains(l.said, one) || strings.Contains(l.said, " more") {
					t.Errorf("%q: %s", typed, l.said)
				}
			}
		}
		if l.met > 0 {
			t.Error("one of them was taken")
		}
	}
}

// perlodidae was answered by "Noted: striped stonefly", which taught the name.
func TestATestNotesWhatWasTyped(t *testing.T) {
	o, _ := options(t, practice.Drawing)
	o.Test, o.Animals = practice.OnSight, 2
	l := Begin(o)
	if l.Name(" Perlodidae "); l.said != "Noted: Perlodidae." {
		t.Errorf("%q", l.said)
	}
	o.Test = practice.WithKey
	l = Begin(o)
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
