package practice_test

import (
	"math"
	"testing"

	"rillkey/key/practice"
)

// Animals that a visit holds as "mayfly" alone had no weight in what is drawn.
func TestAnimalsOfAGroupWeighForAllItsKinds(t *testing.T) {
	s := newSchool(t)
	k := s.course.Key()
	if got := practice.Common(k, map[string]int{"plantae": 3, "no-such": 4}); got != nil {
		t.Errorf("nothing that the key has is as common as %v", got)
	}
	common := practice.Common(k, map[string]int{"ephemeroptera": 30, "perlidae": 10})
	mayflies, all, usual := 0.0, 0.0, 0.0
	for i, end := range k.Ends() {
		all += common[end.ID]
		if s.cat.IsUnder(end.ID, "ephemeroptera") {
			mayflies += common[end.ID]
			usual += k.Prior()[i]
		}
	}
	if math.Abs(all-1) > 1e-9 || math.Abs(mayflies-(usual/2+0.375)) > 1e-9 {
		t.Errorf("mayflies are %.3f of %.3f, want %.3f", mayflies, all, usual/2+0.375)
	}
	if common["baetidae"] <= common["ephemeridae"] {
		t.Error("among them the commoner in the key is not the commoner")
	}
}
