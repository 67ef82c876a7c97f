package couplets_test

import (
	"maps"
	"slices"
	"testing"

	"rillkey/couplets"
	"rillkey/key/keytest"
)

// mostOfMany is how many couplets of the built-in key may have three leads or more:
// counts and shapes that nature does not halve, each with a comment saying why.
const mostOfMany = 21

// The built-in key is dichotomous, and both leads of a couplet speak of the same
// features.
func TestBuiltInKeyIsDichotomous(t *testing.T) {
	s, _ := keytest.Sound(t, couplets.DefaultName)
	many := 0
	for _, c := range s.Couplets {
		if len(c.Leads) > 2 {
			many++
		}
		first := features(c.Leads[0])
		for _, l := range c.Leads[1:] {
			if got := features(l); !slices.Equal(got, first) {
				t.Errorf("couplet %s: lead %s speaks of %v, lead a of %v", c.ID, l.Letter, got, first)
			}
		}
	}
	if many > mostOfMany {
		t.Errorf("%d couplets have three leads or more, at most %d may", many, mostOfMany)
	}
}

func features(l couplets.Lead) []string {
	traits := map[string]bool{}
	for _, c := range l.Conditions {
		traits[c.Trait] = true
	}
	return slices.Sorted(maps.Keys(traits))
}
