package key_test

import (
	"reflect"
	"slices"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
)

// asTold is an inquiry after these things were said.
func asTold(t *testing.T, said ...string) *key.Inquiry {
	t.Helper()
	q, err := keytest.Model(t).Inquire(key.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	for _, one := range said {
		if err := q.Say(one); err != nil {
			t.Fatal(err)
		}
	}
	return q
}

func states(marks []key.TraitState) (out []string) {
	for _, m := range marks {
		out = append(out, m.Trait.ID+"="+m.State)
	}
	return out
}

// What is listed to be ticked was not said, asked or offered before, stands beside what else
// is listed of its trait, and can be seen.
func TestDiffering(t *testing.T) {
	for _, row := range []struct {
		why      string
		said     []string
		has, not string
	}{
		{"two leeches' kin apart", []string{"suckers=ends", "flat=flat"}, "skin=hard", "flat=flat"},
		{"what was asked is not listed", []string{"case=carried", "case-stuff=plant", "humps?"}, "plates=2", "humps=all"},
		{"nor that there is nothing of what was seen", []string{"case-stuff=plant"}, "case=carried", "case=none"},
		{"nor a part whose whole nobody saw, as lacking", nil, "tails=none", "tail-length=none"},
	} {
		q := asTold(t, row.said...)
		marks := q.Differing(12)
		all := states(q.Differing(1000))
		if !slices.Contains(all, row.has) || slices.Contains(all, row.not) {
			t.Errorf("%s: %v", row.why, all)
		}
		if len(marks) > 12 || len(slices.Compact(traitsOf(marks))) != len(distinct(traitsOf(marks))) {
			t.Errorf("%s: %v", row.why, states(marks))
		}
	}
}

func traitsOf(marks []key.TraitState) (out []string) {
	for _, m := range marks {
		out = append(out, m.Trait.ID)
	}
	return out
}

func distinct(all []string) []string { return slices.Compact(slices.Sorted(slices.Values(all))) }

// Marks that were offered and not ticked say nothing, are not offered again, and are asked
// for last.
func TestMarksPassedOver(t *testing.T) {
	q := asTold(t, "case=carried", "case-stuff=plant", "hindlegs?")
	before := slices.Clone(q.Probabilities())
	for range 40 {
		marks := q.Differing(12)
		if marks == nil {
			break
		}
		q.PassOver(marks)
		for _, again := range states(q.Differing(12)) {
			if slices.Contains(states(marks), again) {
				t.Errorf("%s is offered again", again)
			}
		}
	}
	if left := q.Differing(12); left != nil {
		t.Errorf("left after all were passed over: %v", states(left))
	}
	if !reflect.DeepEqual(before, q.Probabilities()) {
		t.Error("what was passed over changes what is believed")
	}
}

// The list comes at the end only where something could not be told, nobody stopped, and no
// kind has a name.
func TestEndsOpen(t *testing.T) {
	for _, row := range []struct {
		why  string
		said []string
		want bool
	}{
		{"something is asked still", []string{"case=carried"}, false},
		{"a kind is named", []string{"tails=3", "gills=under", "legs=14"}, false},
	} {
		if got := asTold(t, row.said...).EndsOpen(); got != row.want {
			t.Errorf("%s: %v", row.why, got)
		}
	}
	q := asTold(t, "tails=2")
	for q.Question() != nil {
		if err := q.CantTell(); err != nil {
			t.Fatal(err)
		}
	}
	if !q.EndsOpen() {
		t.Error("nothing could be told, and it does not end open")
	}
	q.Stop()
	if q.EndsOpen() {
		t.Error("somebody stopped, and it ends open")
	}
}
