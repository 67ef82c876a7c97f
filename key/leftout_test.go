package key

import (
	"math"
	"slices"
	"strings"
	"testing"

	"rillkey/taxa"
)

// Nobody says much of a snail and nothing of its shell: what bears one is half as likely
// by an account that has two things else, less by far where nobody could tell when asked, once
// however often, and as likely as before where the shell was spoken of.
func TestWhatIsObviousIsNotLeftOut(t *testing.T) {
	m := embedded(t)
	snail := slices.IndexFunc(m.ends, func(e *taxa.Taxon) bool { return e.ID == "planorbidae" })
	worm := slices.IndexFunc(m.ends, func(e *taxa.Taxon) bool { return e.ID == "turbellaria" })
	odds := func(said ...string) float64 {
		q, err := m.Inquire(DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range said {
			trait, state, found := strings.Cut(s, "=")
			err := q.Say(s)
			if found {
				q.Back()
				err = q.Hear(trait, state)
			}
			if err != nil {
				t.Fatal(err)
			}
		}
		return math.Log(q.belief.P()[snail] / q.belief.P()[worm])
	}
	without := odds("move=glide") - math.Log(m.prior[snail]/m.prior[worm]) + odds("head=soft")
	untold := m.traits[m.index["shell"]].Untold
	for _, test := range []struct {
		said  []string
		times float64
	}{
		{[]string{"move=glide", "head=soft"}, obviousUnsaid},
		{[]string{"move=glide", "head=soft", "eyes?"}, obviousUnsaid},
		{[]string{"move=glide", "head=soft", "shell?"}, untold},
		{[]string{"shell?", "move=glide", "head=soft"}, untold},
		{[]string{"move=glide", "shell?", "head=soft", "shell?"}, untold},
	} {
		if got := odds(test.said...) - without; math.Abs(got-math.Log(test.times)) > 0.02 {
			t.Errorf("after %v a snail is %.3f times as likely as by what was seen alone, want %v", test.said, math.Exp(got), test.times)
		}
	}
	if asked, alone := odds("move=glide", "shell?"), odds("move=glide"); math.Abs(asked-alone) > 1e-9 {
		t.Error("can't tell counts after one thing that was seen")
	}
	spoken := without + odds("shell=none") - math.Log(m.prior[snail]/m.prior[worm])
	if got := odds("move=glide", "head=soft", "shell=none"); math.Abs(got-spoken) > 0.02 {
		t.Errorf("where the shell was spoken of a snail is %.3f times as likely as that says", math.Exp(got-spoken))
	}
}
