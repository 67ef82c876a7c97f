package taxa_test

import (
	"strings"
	"testing"
)

// Whoever says that a part is not there, in whatever words, is understood.
func TestWhatIsNotThereIsDenied(t *testing.T) {
	for _, row := range []struct{ said, want string }{
		{"no tails", "tails=none"},
		{"tails absent", "tails=none"},
		{"tails are lacking", "tails=none"},
		{"tailless", "tails=none"},
		{"jointed legs wanting", "legs=0"},
		{"legless", "legs=0"},
		{"without any legs", "legs=0"},
		{"it hasnt got any legs", "legs=0"},
		{"devoid of legs", "legs=0"},
		{"absence of legs", "legs=0"},
		{"no sign of any tails", "tails=none"},
		{"neither tails nor suckers", "tails=none; suckers=none"},
		{"not green but brown", "colour=pale,grey,yellow,brown,dark,red; colour=brown"},
	} {
		if noted, unclear := understood(t, row.said); noted != row.want || len(unclear) > 0 {
			t.Errorf("%q: notes %q, unclear %+v; want %q", row.said, noted, unclear, row.want)
		}
	}
}

// Words that only go with a state are known, and asked.
func TestHintsAreAsked(t *testing.T) {
	for _, row := range []struct{ said, trait string }{
		{"strong legs", "leg-length"},
		{"it has thick thighs", "leg-length"},
		{"slimy", "skin"},
		{"six legs, slippery", "skin"},
	} {
		noted, unclear := understood(t, row.said)
		if strings.Contains(noted, row.trait) || len(unclear) != 1 || !unclear[0].Known || len(unclear[0].Choice) == 0 ||
			unclear[0].Choice[0].Trait.ID != row.trait {
			t.Errorf("%q: notes %q, unclear %+v; want to be asked of %s", row.said, noted, unclear, row.trait)
		}
	}
}

// What is nearly denied, compared, only a shade, or so at another time, is no finding.
func TestWhatIsNotQuiteSaidIsNotNoted(t *testing.T) {
	for _, row := range []struct{ said, never string }{
		{"hardly any fluff under its arms", "gills"},
		{"hardly any fluff under its arms", "gill-form"},
		{"almost no tails", "tails"},
		{"scarcely any legs", "legs"},
		{"very few hairs all over", "hair=hairy"},
		{"barely flattened", "flat"},
		{"dark reddish brown", "colour=red"},
		{"dark reddish brown", "colour=dark"},
		{"reddish-brown", "colour=red"},
		{"pale bluish green", "colour=pale"},
		{"yellowish grey", "colour=yellow"},
		{"paper-thin", "flat"},
		{"its tail gets longer", "tail-length"},
		{"later it turns into a long thin one", "outline"},
		{"no case on it now", "case"},
		{"it becomes red", "colour"},
		{"it is black when older", "colour"},
		{"more brown than green", "colour=green"},
		{"brown instead of green", "colour=green"},
		{"unlike the suckers of a leech", "suckers"},
		{"wrinkled brown skin", "shell"},      // no winkle
		{"my father saw it", "gill-form"},     // no feather
		{"single tail with hairs", "outline"}, // no single hair
		{"gills held straight out from the sides", "cuts"},
		{"two stumps where the tail starts", "tail-length"},
		{"two black eye dots on top", "eyes=top"},
		{"little two-lobed tail", "tails"},
		{"two forked tail bits behind", "tails"},
		{"little half-dome shell", "valves"},
		{"two big hooks without any brush of hairs", "hair"},
		{"slowly walking on a stone", "case"},
		{"it walked up my sleeve", "case"},
		{"shuffled about one stump at a time", "prolegs"},
		{"in a fast deep run", "move"},
		{"kicked up from gravel", "move"},
		{"reaching out past the body all round", "flat"},
		{"slid off a stickleback", "backbone"},
		{"fixed to the fin of a small fish", "backbone"},
		{"tufts on nearly every ring", "rings"},
		{"hind ends sticking up out of the mud", "case-face"},
		{"a greenish crusty sponge", "living"},
		{"a handful of sunken moss", "living"},
		{"humped and hard plated", "move"},
		{"fine lines across the whole length", "valves"},
		{"feelers about the same length", "tail-middle"},
		{"a long hinged grabber", "shell"},
		{"little legs close behind the head", "prolegs"},
		{"it curls round a stem", "posture"},
		{"a clear sausage, slightly bent", "case-bend"},
		{"it has two mouth needles, long and thin", "outline"},
		{"I took it for something in a case, but nothing was there, only brown crumbs", "case"},
		{"four legs, long for the body", "outline"},
		{"couldn't squash it", "flat"},
		{"about four inches long", "move"},
		{"running in the water", "surface"},
		{"front legs fringed with long hairs", "hindlegs"},
		{"black and white banded legs", "colour"},
		{"a case of tiny snail shells", "shell"},
		{"two big squares stuck together", "brood"},
		{"hangs under the surface film", "pupa"}, // as what it hatched from does
	} {
		noted, _ := understood(t, row.said)
		trait, state, one := strings.Cut(row.never, "=")
		for _, n := range strings.Split(noted, "; ") {
			of, states, _ := strings.Cut(n, "=")
			if of == trait && (!one || states == state) {
				t.Errorf("%q: notes %s", row.said, noted)
			}
		}
	}
}

// The last word of a colour decides.
func TestTheLastWordOfAColourDecides(t *testing.T) {
	for said, want := range map[string]string{
		"dark reddish brown":  "colour=brown",
		"reddish-brown":       "colour=brown",
		"deep dark green":     "colour=green",
		"pale yellowish grey": "colour=grey",
		"dirty brownish red":  "colour=red",
		"black and yellow":    "colour=dark; colour=yellow",
	} {
		if noted, _ := understood(t, said); noted != want {
			t.Errorf("%q: notes %q, want %q", said, noted, want)
		}
	}
}

// Nothing is offered that shares with what was said no more than letters or a word that
// tells nothing.
func TestNothingIsOfferedByChance(t *testing.T) {
	for _, said := range []string{"roofed", "each", "every one of them", "each of them roofed", "gable", "umbrella"} {
		if noted, unclear := understood(t, said); noted != "" || len(unclear) > 0 && len(unclear[0].Choice) > 0 {
			t.Errorf("%q: notes %q, offers %+v", said, noted, unclear)
		}
	}
	for said, want := range map[string]string{"pincrs": "forelegs=pincers", "gils under the legs": "gills"} {
		noted, unclear := understood(t, said)
		for _, u := range unclear {
			noted += "; " + told(u.Choice)
		}
		if !strings.Contains(noted, want) {
			t.Errorf("%q: finds %q, not %s", said, noted, want)
		}
	}
}
