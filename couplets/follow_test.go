package couplets_test

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/couplets"
	"rillkey/taxa"
)

// An author follows a key by letters, numbers and back; what leads nowhere moves nothing.
func TestATrailIsFollowedByLettersNumbersAndBack(t *testing.T) {
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	sound, err := couplets.Load(fstest.MapFS{"brook.toml": {Data: []byte(`[key]
id     = "brook"
title  = "Animals of a brook"
source = "invented"

[couplet.1]
ask = "Number of legs"
a   = { text = "Six or fewer.", traits = { legs = ["6", "0"] }, to = "2" }
b   = { text = "Ten legs.", traits = { legs = "10" }, taxon = "astacidea" }

[couplet.2]
ask = "Number of legs"
a   = { text = "Six legs.", traits = { legs = "6" }, taxon = "ephemeroptera" }
b   = { text = "No legs.", traits = { legs = "0" }, taxon = "turbellaria" }
`)}}, "brook.toml", "brook.toml", catalog)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		why   string
		typed string
		here  string
		ends  string
		known bool
	}{
		{"nothing lies before the beginning", "<", "1", "", true},
		{"a lead to another couplet", "a", "2", "", true},
		{"a lead to an animal, and the trail stays", "a b", "2", "turbellaria", true},
		{"back", "a <", "1", "", true},
		{"back twice goes no farther", "a < <", "1", "", true},
		{"a number goes anywhere", "2", "2", "", true},
		{"and back comes from it", "2 1 <", "2", "", true},
		{"a letter that no lead has", "c", "1", "", false},
		{"a number that no couplet has", "a 7", "2", "", false},
		{"a capital is no letter of a lead", "A", "1", "", false},
	} {
		trail := sound.Follow("1")
		var ends []string
		var known bool
		for _, typed := range strings.Fields(row.typed) {
			ends, known = trail.Step(typed)
		}
		if trail.Here() != row.here || !slices.Equal(ends, strings.Fields(row.ends)) || known != row.known {
			t.Errorf("%s: %q comes to %s, %v, %v, not %s, %q, %v",
				row.why, row.typed, trail.Here(), ends, known, row.here, row.ends, row.known)
		}
	}
}
