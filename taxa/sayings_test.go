package taxa_test

import (
	"strings"
	"testing"
)

// Where something is may be said before it, and several things of one part in a row.
func TestWhatIsSaidInAnotherOrderIsUnderstood(t *testing.T) {
	for _, row := range []struct{ said, noted string }{
		{"On its back sit two three-cornered lids", "lids=triangle"},
		{"Down each side of the belly sticks out a row of pale fingers", "side-arms=fleshy"},
		{"On the belly, down the middle, are six suction cups in a row", "suckers=row"},
		{"At the tail there are four hooks", "hooks=four"},
		{"Under the chin there's a flat folding arm it shoots out", "mouth=mask"},
		{"its feelers are short, thick and stubby", "antennae=thick"},
		{"three long, thin tails", "tails=3"},
		{"legs are long and spindly", "leg-length=long"},
		{"One pair of long feelers and a short pair between them", "antennae=pairs"},
		{"a short pair of antennae and another long pair", "antennae=pairs"},
		{"All three of the rings that bear the legs are covered with a hard brown plate", "plates=3"},
		{"Two soft tails, without a fringe of hairs down their sides", "tail-hair=bare"},
		{"Six legs, long for its size", "leg-length=long"},
		{"It rows along", "move=row"},
		{"The back is cut off blunt, with two brown spots", "air-spots=two"},
		{"Six legs with dark bands, two banded tails", "bands=both"},
		{"it is all one round blob", "rings=none"},
		{"Behind the head three pairs of short legs", "leg-place=front"},
	} {
		if noted, _ := understood(t, row.said); !strings.Contains("; "+noted+"; ", "; "+row.noted+"; ") {
			t.Errorf("%q: notes %q, want %q", row.said, noted, row.noted)
		}
	}
	for _, row := range []struct{ said, never string }{
		{"From above you can't see any head or legs", "legs=0"}, // they are hidden
		{"in a row of single, oval, glassy leaflets", "outline"},
		{"At the tail two little legs, each with a hook", "leg-length"},
		{"brown, long tails", "tail-length=none"},
	} {
		if noted, _ := understood(t, row.said); strings.Contains("; "+noted, "; "+row.never) {
			t.Errorf("%q: notes %q", row.said, noted)
		}
	}
}

// Offers for words that are not known are few, and none for where the animal was, for a
// place alone, or for the opposite of what was said.
func TestOffersAreFewAndLikely(t *testing.T) {
	const most = 3
	for _, row := range []struct{ said, want, never string }{
		{"really fast swimmer", "move=swim", "move=still"},
		{"out of its rear end", "", "outline"},
		{"from rotting leaves", "", "gills"},
		{"under a big rock in the fastest riffle", "", "case"},
		{"on the end", "", "hooks"},
		{"one pair of bent feelers", "", "antennae=pairs"},
		{"like something rounder than flat", "", "flat=flat"},
		{"four legs", "", "legs=0"},
		{"all dusted in silt", "", "leg-length"},
		{"pincrs", "forelegs=pincers", ""},
		{"gils under the legs", "gills", ""},
	} {
		noted, unclear := understood(t, row.said)
		all := "; " + noted
		for _, u := range unclear {
			all += "; " + told(u.Choice)
			if len(u.Choice) > most && !u.Known {
				t.Errorf("%q: %d offers for %q", row.said, len(u.Choice), u.Words)
			}
		}
		if !strings.Contains(all, "; "+row.want) || row.never != "" && strings.Contains(all, "; "+row.never) {
			t.Errorf("%q: notes or offers %q; want %q, and never %q", row.said, all, row.want, row.never)
		}
	}
}
