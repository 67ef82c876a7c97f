package key_test

import (
	"testing"

	"rillkey/key/keytest"
	"rillkey/taxa"
)

// What fell in from the bank is no animal that counts, by what anybody says of it first
// (common practice).
func TestWhatFellInGetsNoClassThatCounts(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	for _, row := range []struct{ kind, seen string }{
		{"myriapoda", "legs=30 flat=flat colour=brown antennae=long mouth=jaws land=yes length=25"},
		{"myriapoda", "legs=30 flat=round skin=hard posture=curled move=still length=25"},
		{"land-caterpillar", "prolegs=belly colour=green skin=soft land=yes legs=6 leg-length=short length=18"},
		{"terrestrial-insect", "hindlegs=long move=hop surface=top land=yes legs=6 length=12"},
		{"land-slug", "move=glide skin=soft antennae=pairs flat=round legs=0 colour=grey length=20"},
		{"nemertea", "move=glide rings=none outline=thread flat=round mouth=thread legs=0 length=15"},
		{"woodlouse", "legs=14 land=yes plates=all flat=flat colour=grey posture=curled length=12"},
		{"woodlouse", "legs=14 plates=all flat=round antennae=short rings=rings colour=grey length=13"},
		{"woodlouse", "legs=14 plates=all manner=curls move=still colour=grey length=10"},
		{"spider", "legs=8 brood=bags surface=top move=skate length=12"},
		{"terrestrial-insect", "wings=pads manner=tail-up surface=top colour=dark length=9"},
		{"fish", "backbone=yes eyes=big hind=rim move=swim length=20"},
		{"lamprey-eel", "outline=long hind=rim mouth=hood eyes=none legs=0 move=swim length=70"},
	} {
		v := told(t, m, row.seen).Verdict()
		if v.Likeliest != row.kind {
			t.Errorf("%s: the likeliest is %s (%.2f), want %s", row.seen, v.Likeliest, v.LikeliestProbability, row.kind)
		}
		if v.Class != "" && v.Class != taxa.NotScored {
			t.Errorf("%s: class %q", row.seen, v.Class)
		}
	}
}
