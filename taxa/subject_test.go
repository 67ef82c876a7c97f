package taxa_test

import (
	"slices"
	"strings"
	"testing"

	"rillkey/taxa"
)

// What a saying tells of is the part that was named last, where it names none itself: it is no
// finding of the animal, nor of another part.
func TestWhatIsSaidGoesOnWithThePartNamedBefore(t *testing.T) {
	for _, row := range []struct{ said, noted, never string }{
		{"It lives in a tube of sand grains, very smooth, and narrower at the back", "case-face=smooth", "hair=; outline="},
		{"The case is of sand. It is smooth", "case-face=smooth", "hair="},
		{"It lives in a tube of sand. It is brown", "colour=brown", ""},
		{"Three tails, the middle one a bit shorter, hairy on the inside edges", "tail-hair=fringed", "hair="},
		{"Legs mottled, stuck out, one hook on each", "", "hooks="},
		{"Small flaps lie on top of the back like roof tiles", "", "shield="},
		{"the first two rings behind the wing cases carry none", "", "case="},
		{"The net was hard on it", "", "skin="},
		{"yellow marked with dark brown", "", "colour=brown"},
		{"It's white and shiny underneath", "", "colour="},
		{"Front legs very short", "", "leg-length=; hindlegs="},
		{"It came off the moss", "", "living="},
		{"on a bit of moss", "", "living="},
		{"Early March, ice still on the bank", "", "move="},
		{"it marches along", "move=crawl", ""},
		{"I counted eight legs, the front two thin as thread", "legs=8", "outline="},
		{"feelers short and thick like clubs", "antennae=thick", "outline="},
		{"Rear end cut off flat, with two dark spots", "air-spots=two", ""},
		{"brown, with two dark spots", "", "air-spots="},
		{"The bucket had a stickleback in it", "", "backbone="},
		{"Tiny hairs along, no legs", "legs=0", "outline="},
		{"loads of little paddles, at least eighty", "", "move="},
		{"it climbed up the wall of the tray", "", "pupa="},
		{"my fingers are numb. Little blood-red worm thing", "colour=red", ""},
		{"no house of any kind, the rings deeply pinched like a string of sausages", "", "outline="},
		{"Dark bean-shaped eyes", "", "outline="},
		{"The head is funny, it has six fleshy fingers round it like a star", "", "hind="},
		{"six legs, a row of fleshy points, eight of them", "legs=6", "legs=8"},
		{"The back end has pointy flaps like a star", "", "hind=points"},
		{"It scoots sideways round the stone", "", "upside="},
		{"a wide head with both eyes on top", "eyes=top", "head="},
		{"It shoved itself under the sand right away", "manner=digs", "forelegs="},
		{"one little oval plate lying on top of the back", "gills=back", "plates="},
		{"a fringe of narrow gills, each split into two", "gill-form=forks", "gill-form=feathers"},
		{"It clung on to the netting", "", "move="},
		{"legs mottled, one hook on each", "claws=1; bands=legs", "hooks="},
		{"a tube of the finest sand, very smooth", "case-stuff=sand; case-face=smooth", "hair="},
	} {
		seen, _, err := vocabulary(t).Understand(row.said)
		if err != nil {
			t.Fatal(err)
		}
		noted := "; " + told(seen)
		for _, one := range strings.Split(row.noted, "; ") {
			if !strings.Contains(noted+"; ", one) {
				t.Errorf("%q: notes %q, not %s", row.said, noted, one)
			}
		}
		for _, never := range strings.Split(row.never, "; ") {
			if never != "" && strings.Contains(noted, "; "+never) {
				t.Errorf("%q: notes %q", row.said, noted)
			}
		}
	}
}

// The front legs are short of what rows as of what skates: that the others are long is said by "only".
func TestShortIsNeverHeardAsLong(t *testing.T) {
	for said, want := range map[string]string{
		"front legs very short":           "",
		"front legs short like scoops":    "",
		"only the front legs are short":   "hindlegs=both",
		"just the front legs are short":   "hindlegs=both",
		"only the front pair is hairless": "",
	} {
		seen, _, err := vocabulary(t).Understand(said)
		if err != nil {
			t.Fatal(err)
		}
		if got := told(seen); strings.Contains(got, "hindlegs=both") != (want != "") {
			t.Errorf("%q: notes %q", said, got)
		}
	}
	for _, trait := range vocabulary(t).Traits() {
		short, long := trait.State("short"), trait.State("long")
		if short < 0 || long < 0 {
			continue
		}
		for _, words := range trait.States[long].Words {
			if slices.Contains(strings.Fields(words), "short") {
				t.Errorf("%s=long is called %q", trait.ID, words)
			}
		}
	}
}

// What hangs on a part is told by the words that tell of the part, and is asked where that part was
// said to be otherwise.
func TestWhatHangsOnAPartIsHeardWithIt(t *testing.T) {
	for said, want := range map[string]string{
		"Oval plates flutter down each side of the belly": "gills=sides; gill-form=plates",
		"three hairy tails": "tails=3; tail-hair=fringed",
		"White fluffy tufts in the armpits of all the legs": "gills=chest; gill-form=tufts",
		"bushy tufts all along the belly":                   "gills=under; gill-form=tufts",
		"a little cap of a shell, with an oval opening":     "shell=cap",
		"no tails, hairy tails":                             "tails=none",
		"All three sections behind the head are plated":     "plates=3",
		"the first two chest rings with hard brown tops":    "plates=2",
		"the first two rings of the belly are soft":         "",
		"Up in the armpits of all six legs is white fluff":  "legs=6; gills=chest; gill-form=tufts",
		"then down both sides a row of fleshy feelers":      "side-arms=fleshy",
		"four tiny hooks at the very end, single threads":   "hooks=four; gill-form=threads",
		"All the rings behind the head are covered by skin": "",
	} {
		seen, _, err := vocabulary(t).Understand(said)
		if err != nil {
			t.Fatal(err)
		}
		for _, one := range strings.Split(want, "; ") {
			if one != "" && !slices.ContainsFunc(seen, func(s taxa.Seen) bool { return told([]taxa.Seen{s}) == one }) {
				t.Errorf("%q: notes %q, not %s", said, told(seen), one)
			}
		}
		for _, s := range seen {
			if want != "" && !strings.Contains(want, s.Trait.ID+"=") || want == "" && s.Trait.ID == "plates" {
				t.Errorf("%q: notes %q", said, told(seen))
			}
		}
	}
}
