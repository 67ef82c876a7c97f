package key_test

import (
	"testing"

	"rillkey/key/keytest"
)

// With one fact that an observer got wrong the animal stays the likeliest by its others
// (what was wrong and what was right in accounts of live animals).
func TestOneMisreadFactLeavesTheKindLikeliest(t *testing.T) {
	t.Parallel()
	m := fileModel(t, keytest.Key(t))
	for _, test := range []struct {
		is, wrong string
		seen      []string
	}{
		{"corixidae", "upside=belly", []string{"outline=oval", "pattern=marked", "hindlegs=oars", "forelegs=scoops", "mouth=small"}},
		{"corixidae", "upside=belly", []string{"outline=oval", "flat=flat", "pattern=marked", "hindlegs=oars", "stroke=together"}},
		{"glossiphoniidae", "move=swim", []string{"suckers=ends", "outline=oval", "flat=flat", "colour=brown", "hair=spiny"}},
	} {
		v := verdictOf(t, m, append([]string{test.wrong}, test.seen...))
		if v.Likeliest != test.is {
			t.Errorf("%s, with %s: %q at %.3f", test.is, test.wrong, v.Likeliest, v.LikeliestProbability)
		}
	}
}
