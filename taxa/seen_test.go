package taxa_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"rillkey/taxa"
)

func vocabulary(t testing.TB) *taxa.Vocabulary {
	t.Helper()
	c, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	return c.Vocabulary()
}

// told writes findings as "trait=state,state; trait=state".
func told(seen []taxa.Seen) string {
	var out []string
	for _, s := range seen {
		out = append(out, s.Trait.ID+"="+strings.Join(s.States, ","))
	}
	return strings.Join(out, "; ")
}

func TestWhatPeopleSayIsUnderstood(t *testing.T) {
	for _, tc := range []struct{ said, want string }{
		{"pincers", "forelegs=pincers"},
		{"Wing pads not started yet", "wings=none"},
		{"hind wing buds not there at all", "wings=pads"}, // only some of them
		{"flat as a coin", "flat=flat"},
		{"two claws on the foot", "claws=2"},
		{"six legs, each ending in two claws", "legs=6; claws=2"},
		{"way more legs than six", ""},
		{"only one pair of feelers", "antennae=short,long,thick,club,giant"},
		{"three hard rings behind the head", "plates=3"},
		{"All three segments behind the head have brown plates on top", "plates=3"},
		{"small stumpy foot just behind the head", "prolegs=head"},
		{"two feelers", "antennae=short,long,thick,giant"},
		{"feelers very thin and very long", "antennae=long"}, // the longer of what is said at one place
		{"the open end pointing downstream", ""},             // is no point at the end
		{"it doesn't cover the face", ""},                    // which is there
		{"rear end flat", ""},
		{"at the end two little forked sticks", "hind=points"}, // nothing sticks there
		{"a long thin one around the tail", ""},
		{"12 mm, perhaps", ""},
		{"Two tails, each fringed with hairs", "tails=2; tail-hair=fringed"}, // of the part before
		{"Two tails, rather short", "tails=2; tail-length=short"},
		{"Two tails, long legs", "tails=2; leg-length=long"},
		{"three thin see-through leaves at the tail end", "hind=plates; colour=pale"}, // what they are like stands between
		{"bunches of fluff all along the underside", "gills=under"},
		{"Only one tail left, but you can see where three were rooted", ""},
		{"a sucker at either end", "suckers=ends,hind"}, // which tells of no head
		{"stubby feelers", "antennae=short,thick"},
		{"The tail end has two stubby legs", ""},
		{"nothing came out, no foot", ""},
		{"will not show so much as a leg", ""},
		{"Red dot!", "colour=red"},
		{"it has a red dot", ""},
		{"nearly black", "colour=dark"},
		{"almost transparent", ""},
		{"EGGS all over its back", "brood=back"},
		{"babies under its belly", "brood=belly"},
		{"flappy bits down the sides of the rear half", "gills=sides"},
		{"Never once came up for air", "breath=never"},
		{"no telling the front from the back", "head=none"},
		{"Running late", ""},
		{"two short points behind", ""}, // is not pointed behind
		{"two halves", ""},
		{"two pairs of hooks at the rear", "hooks=stubs,four"},
		{"little horn on its head", "horn=one"},
		{"runs on the water", "surface=top"},
		{"ten legs, brown", "legs=10; colour=brown"}, // and no brown legs
		{"floppy", "skin=soft"},
		{"legs along most of the body", "leg-place=along"}, // as a label stands, alone
		{"a disc at each end", "suckers=ends"},
		{"crept", "move=crawl"},
		{"hood", ""},
		{"coils up when I touch it", ""}, // how it rests is asked
		{"coils up", "posture=curled"},
		{"six legs lying side by side", "legs=6"},
		{"narrow dark plates on its back, like tiny straps", ""}, // the plates are like straps, not the animal
		{"the front got mashed, so no head", ""},
		{"Front part got mashed in the net, sorry, so no head and I only find four of the legs", ""},
		{"spiral", ""}, // no slip of "spiracles"
		{"Four wing buds lie on its back", "wings=pads"}, // the buds lie, not the animal
		{"a row of specks back down the sides", ""},
		{"like a flat limpet", ""},
		{"hard plates", "skin=part,hard"},
		{"white branching tufts", ""},                // of the tufts
		{"a reddish-brown round head comes out", ""}, // of the head
		{"leaflets along either side", "gills=sides"},
		{"gills down both sides", "gills=sides"},
		{"four tiny hooks at the very end", "hooks=four"},
		{"little jaws that open sideways", "mouth=jaws"},
		{"two pairs of small stubs", "prolegs=two-rings"},
		{"stumpy legs with hooks", "hooks=stubs"},
		{"three dark lines running down its sides", "pattern=marked"}, // the lines run, not the animal
		{"hard shell", ""},                                            // a beetle has one too
		{"stone case", "case-stuff=stones"},
		{"rolls up", "posture=curled"},
		{"sucker", "suckers=ends,hind,row"},
		{"skates", "surface=top"},
		{"shell like a hat", "shell=cap"},
		{"ten legs, pincers", "legs=10; forelegs=pincers"},
		{"ten legs, pincers, ten legs", "legs=10; forelegs=pincers"},
		{"it has ten legs and lobster claws", "legs=10; forelegs=pincers"},
		{"Three tails.", "tails=3"},
		{"three long, thin tails", ""}, // the comma parts what belongs together
		{"three long thin tails", "tails=3; tail-length=long"},
		{"body flat", "flat=flat"},
		{"grey", "colour=grey"},
		{"gray", "colour=grey"},
		{"black", "colour=dark"},
		{"jet black", "colour=dark"},
		{"armored", "skin=hard"},
		{"armoured", "skin=hard"},
		{"armored over the front", "shield=crust"},
		{"gray in color", "colour=grey"},
		{"a pale speck", "colour=pale"},
		{"specks on its back", "pattern=marked"},
		{"four pairs of walking legs", "legs=8,10"},
		{"two tapering tails", "tails=2"},
		{"it ends in one long point", "tails=1"},
		{"hangs at the top of the water", "surface=under"},
		{"hind legs have fringes of hair", "hindlegs=oars"},
		{"pointed end upstream", "pupa=pocket"},
		{"feelers stick out of the sides", "side-arms=fleshy"},
		{"pincrs", "forelegs=pincers"},
		{"no legs", "legs=0"},
		{"no tails but two hooks", "tails=none; hooks=two"},
		{"without a shell", "shell=none"},
		{"not red", "colour=pale,grey,green,yellow,brown,dark"},
		{"six", "legs=6"}, // as a label stands, alone
		{"sucker at each end", "suckers=ends"},
		{"swims on its side", "upside=side"},
		{"a house made of sand", "case-stuff=sand"},
		{"eyes on top of its head", "eyes=top"},
		{"moves like an inchworm", "move=loop"},
		{"brown, flat", "colour=brown; flat=flat"},
		{"a brown and flat animal", "colour=brown; flat=flat"},
		{"six spindly legs", "legs=6; leg-length=long"},
		{"tails shorter than the body, two of them", ""},
		{"olive brown", "colour=green,brown"},
		{"legs with long hairs", ""}, // the hairs are long
		{"thin as a thread", "outline=thread"},
		{"thin threads along its sides", "gill-form=threads; gills=sides"},
		{"four pairs of eyes", "eye-dots=few,rows"},
		{"it hardly moves", "move=still"},
		{"flat round body", "outline=disc; flat=flat"}, // round from above
		{"it is flat brown and round", "outline=disc; flat=flat"},
		{"brown squashed body", "colour=brown; flat=flat"},
		{"two short tails", "tails=2; tail-length=short"},
		{"first joint of the feelers very long", "antennae=giant"}, // and not all of the feeler
		{"very thick feelers like arms", "antennae=arms"},
		{"last legs twice as long", "hindlegs=long"}, // and not all legs
		{"the hind legs are twice as long as the others", "hindlegs=long"},
		{"long hind legs", "hindlegs=long"},
		{"gills straight out to both sides", "gills=sides"},
		{"a breathing tube that slides in and out", "hind=tube"}, // the tube slides, not the animal
		{"lives in little mud tubes", "case=fixed"},
		{"lives in a tube", "case=carried,fixed"},
		{"a lip under the head that covers the face", "mouth=mask"}, // which is no covered head
		{"beads in jelly", "living=eggs"},
		{"rope of clear jelly with black beads", "living=eggs"},
		{"clear jelly sausage", "living=eggs; outline=long; skin=soft"},
		{"one stumpy foot in front and one at the back", "prolegs=ends"},
		{"straw yellow", "colour=yellow"}, // and no case of straw
		{"it is split open down the back", "living=skin"},
		{"two arms in front that shut like a penknife", "forelegs=grasping"},
		{"square head", "head=capsule"},
		{"eight pairs of legs", "legs=14"},
		{"round plate at both ends", "suckers=ends"},
		{"a little feather sticks out by the neck", "neck=gills"},
		{"ran across the water", "move=skate"},
		{"runs round in the water", "move=crawl"},
		{"orange lid", "door=door"},
		{"two claws", "claws=2"},
		{"big chips on each side", "case-side=stones"},
		{"a tube of sand, nobody came out", "case-stuff=sand; move=still"}, // of no case that is carried
		{"lives in muddy water", "land=no"},
		{"swims back uppermost", "upside=back"},
		{"a whole row", ""}, // which is no rowing
		{"gills that never stop waving", "gills=chest,chest-belly,sides,back,under,hind"},
	} {
		seen, unclear, err := vocabulary(t).Understand(tc.said)
		if err != nil {
			t.Errorf("%q: %v", tc.said, err)
			continue
		}
		if got := told(seen); tc.want != "" && (got != tc.want || len(unclear) > 0) {
			t.Errorf("%q: understood %q, unclear %v; want %q", tc.said, got, unclear, tc.want)
		}
	}
}

func TestWhatIsNotUnderstoodIsSaidToBe(t *testing.T) {
	for _, tc := range []struct {
		said    string
		known   bool
		choices string // one of those offered
	}{
		{"purple monkey", false, ""},
		{"xyzzy", false, ""},
		{"round", true, "outline=disc"},
		{"stubby", false, "leg-length=short"},
		{"three", false, ""},
		{"no legs and six legs", true, "legs=6"},
		{"two tails, three tails", true, "tails=3"},
		{"flat knees", true, "flat=flat"}, // of a part that is not known
		{"all three tails gone", true, "tails=3"},
		{"between sand grains", true, "case-stuff=sand"}, // where it was
		{"hung from the surface", true, "surface=top"},
		{"reaches up into the flow", true, "move=glide"},
	} {
		seen, unclear, err := vocabulary(t).Understand(tc.said)
		if err != nil || len(seen) > 0 || len(unclear) != 1 || unclear[0].Known != tc.known {
			t.Errorf("%q: understood %q, unclear %+v, %v", tc.said, told(seen), unclear, err)
			continue
		}
		if offered := told(unclear[0].Choice); !strings.Contains(offered, tc.choices) {
			t.Errorf("%q: offered %q, without %q", tc.said, offered, tc.choices)
		}
	}
}

func TestWhatCannotBeWordsIsRefused(t *testing.T) {
	for what, said := range map[string]string{
		"too long":         strings.Repeat("a leg ", 2000),
		"an escape":        "red \x1b[31m legs",
		"not UTF-8":        "legs \xff",
		"a hidden control": "legs\u0085",
	} {
		if _, _, err := vocabulary(t).Understand(said); err == nil {
			t.Errorf("%s was taken", what)
		}
	}
	for _, said := range []string{"", " , ,. ", "no", "the"} {
		if seen, unclear, err := vocabulary(t).Understand(said); err != nil || len(seen)+len(unclear) > 0 {
			t.Errorf("%q: %v %v %v", said, seen, unclear, err)
		}
	}
}

// Whoever says just what the vocabulary calls a state is understood.
func TestEveryStateHasWordsThatFindIt(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	for _, trait := range vocabulary(t).Traits() {
		for _, state := range trait.States {
			if len(state.Words) == 0 {
				t.Errorf("%s=%s has no words", trait.ID, state.ID)
			}
			for _, words := range state.Words {
				if trait.Likeness {
					words = "it looks like a " + words
				}
				seen, unclear, err := vocabulary(t).Understand(words)
				found := fmt.Sprint(told(seen))
				for _, u := range unclear {
					found += "; " + told(u.Choice)
				}
				if err != nil || !finds(found, trait.ID, state.ID) {
					t.Errorf("%q does not find %s=%s but %q (%v)", words, trait.ID, state.ID, found, err)
				}
			}
		}
	}
}

func finds(told, trait, state string) bool {
	for _, one := range strings.Split(told, "; ") {
		id, states, _ := strings.Cut(one, "=")
		for _, s := range strings.Split(states, ",") {
			if id == trait && s == state {
				return true
			}
		}
	}
	return false
}

func FuzzUnderstand(f *testing.F) {
	for _, said := range []string{"ten legs, pincers", "no long tails", "2.5 mm. round", "'s", "’", "no no no legs",
		"ß shell", "8,,6", strings.Repeat("tail ", 50)} {
		f.Add(said)
	}
	v := vocabulary(f)
	f.Fuzz(func(t *testing.T, said string) {
		seen, unclear, err := v.Understand(said)
		if err != nil {
			return
		}
		for _, s := range seen {
			if len(s.States) == 0 || !strings.Contains(said, s.Words) {
				t.Fatalf("%q: %+v", said, s)
			}
			for _, state := range s.States {
				if s.Trait.State(state) < 0 {
					t.Fatalf("%q: no state %q", said, state)
				}
			}
		}
		for _, u := range unclear {
			parts := []string{u.Words}
			if len(u.Choice) > 0 && u.Words != u.Choice[0].Words { // two things that contradict each other
				parts = strings.Split(u.Words, ", ")
			}
			for _, part := range parts {
				if !strings.Contains(said, part) {
					t.Fatalf("%q: %+v", said, u)
				}
			}
		}
	})
}

// What is not said outright is asked, and what is said of a part alone is said to be not known.
func TestWhatIsLeftOfWhatPeopleSay(t *testing.T) {
	for _, tc := range []struct{ said, seen, words, offers string }{
		{"Too many legs for an insect, eight I think", "", "eight I think", "legs=8"},
		{"Round all over, couldn't see where a head might begin", "", "Round", "outline=disc; flat=round"},
		{"I looked for gills and couldn't find any", "", "gills", "gills=none"},
		{"The tails are gone, just three stumps", "", "three stumps", "tails=3"},
		{"Both ends seem closed", "", "Both ends seem closed", "pupa=sealed"},
		{"overlapping plates", "", "overlapping plates", "shield=roof; plates=all; gills=back"},
		{"a soft caterpillar thing", "skin=soft; like=caterpillar", "caterpillar", "prolegs=belly"},
		{"I took it for a snail", "like=snail", "snail", "shell=coil; case-shape=snail"},
		{"I looked for woolly tufts at the legs and there are none", "", "tufts at the legs", "gills=none"},
		{"skinny", "", "skinny", "outline=thread,long"},
		{"waving in the flow", "", "flow", "move=glide"}, // a thing, and nothing it does
		{"long legs like bent hairpins", "leg-length=long", "bent hairpins", ""},
		{"on the first couple of rings of the belly", "", "first couple of rings of the belly", "gills=chest-belly"},
		{"curled round and round", "", "curled round and round", "posture=curled; shell=coil"},
		{"a long nose", "", "long nose", "mouth=beak"},
		{"Three tails, hair-thin", "tails=3", "hair-thin", "outline=thread"},
		{"three tails with pale and dark bands", "tails=3; bands=tails", "dark bands", "pattern=marked"},
		{"Two halves shut tight, fine rings on it", "shell=two", "fine rings", "rings=rings"},
		{"Deep cuts between rings, so it looks like a string of beads", "cuts=deep", "string of beads", "rings=lobes; cuts=deep"},
		{"no house, a silk net", "case=fixed; retreat=net", "no house", "case=none"},
		{"no case, silk bag", "retreat=finger", "no case", "case=none"},
		{"two long tail legs", "", "two long tail legs", "hooks=two,stubs"},
		{"pincers at the rear end", "", "pincers at the rear end", "hooks=two; hind=points"},
		{"long strong claws", "", "long strong claws", "claws=1,2"},
		{"four edges", "", "four edges", "case-shape=square"}, // no case was spoken of
		{"bits stick out", "", "bits stick out", "case-face=rough"},
		{"thickset", "", "thickset", "flat=round"},
		{"soft stubs at the front", "", "soft stubs at the front", "prolegs=ends,head,two-rings"},
		{"spike of a tail", "", "spike of a tail", "tails=1; hind=points,tube"},
		{"silk pockets", "", "silk pockets", "pupa=pocket; retreat=sheet"},
		{"flat, brown, round", "flat=flat; colour=brown", "round", "outline=disc"},
		{"threads near the tail", "", "threads", "outline=thread"},
		{"yellow and brown pattern on the head", "", "yellow", "colour=yellow"},
		{"three legs on each side", "legs=6", "legs on each side", "leg-place=along"},
		{"All three parts behind the head have hard plates", "plates=3", "hard plates", "skin=part,hard"},
	} {
		seen, unclear, err := vocabulary(t).Understand(tc.said)
		at := slices.IndexFunc(unclear, func(u taxa.Unclear) bool { return u.Words == tc.words })
		if err != nil || at < 0 || told(unclear[at].Choice) != tc.offers || told(seen) != tc.seen {
			t.Errorf("%q: %s, %+v (%v); want %q, and of %q that it may be %q",
				tc.said, told(seen), unclear, err, tc.seen, tc.words, tc.offers)
		}
	}
}
