package key_test

import (
	"slices"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
)

// Of a pupa, a shed skin or a fish nothing is asked that is not to be seen of it: not of
// the first few questions where that may have been misread, and never where it is likely.
func TestNothingIsAskedOfAPupaThatItHasNot(t *testing.T) {
	for _, file := range []string{"north-america.toml", "north-west-europe.toml"} {
		sound, catalog := keytest.Sound(t, file)
		m := fileModel(t, key.Compile(sound, catalog))
		states := 0
		for _, trait := range catalog.Vocabulary().Traits() {
			for _, state := range trait.States {
				if state.Leaves == nil {
					continue
				}
				states++
				for _, order := range []key.Order{key.AuthorsOrder, key.Shortest} {
					o := key.DefaultOptions()
					o.Order = order
					q := inquire(t, m, o)
					if err := q.Say(trait.ID + "=" + state.ID); err != nil {
						t.Fatal(err)
					}
					likely := trait.ID != "land" && state.ID != "tumbler"
					for now := q.Question(); now != nil && (likely || q.Questions() < 3); now = q.Question() {
						for _, asked := range askedOf(now) {
							if asked != trait.ID && !slices.Contains(state.Leaves, asked) {
								t.Errorf("%s, %s: after %s=%s it asks for %s", file, order, trait.ID, state.ID, asked)
							}
						}
						if err := q.CantTell(); err != nil {
							t.Fatal(err)
						}
					}
				}
			}
		}
		if states < 10 {
			t.Errorf("%s: only %d states leave little to be seen", file, states)
		}
	}
}

// Where more was said, and there is no name yet, a state that leaves little to be seen ends
// no questions.
func TestAnUnsurePupaIsLookedAtOnceMore(t *testing.T) {
	for _, file := range []string{"north-america.toml", "north-west-europe.toml"} {
		sound, catalog := keytest.Sound(t, file)
		q := inquire(t, fileModel(t, key.Compile(sound, catalog)), key.DefaultOptions())
		for _, said := range []string{"living=growth", "skin=hard"} {
			if err := q.Say(said); err != nil {
				t.Fatal(err)
			}
		}
		if v := q.Verdict(); v.LikeliestProbability >= 0.9 || q.Question() == nil {
			t.Errorf("%s: %s is likeliest (%.2f), and nothing is asked", file, v.Likeliest, v.LikeliestProbability)
		}
	}
}

// askedOf are the traits that a question speaks of.
func askedOf(q *key.Question) (out []string) {
	if q.Trait != nil {
		return []string{q.Trait.ID}
	}
	for _, l := range q.Couplet.Leads {
		for _, c := range l.Conditions {
			out = append(out, c.Trait)
		}
	}
	return out
}

// What a case hides is not asked for on an animal that carries one.
func TestNothingIsAskedThatACaseHides(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	o := key.DefaultOptions()
	o.Order, o.Most = key.Shortest, 1000
	q := inquire(t, m, o)
	if err := q.Say("case=carried"); err != nil {
		t.Fatal(err)
	}
	for now := q.Question(); now != nil; now = q.Question() {
		if now.Trait != nil && now.Trait.HiddenIf.Holds(map[string]string{"case": "carried"}) {
			t.Errorf("it asks for %s", now.Trait.ID)
		}
		if err := q.CantTell(); err != nil {
			t.Fatal(err)
		}
	}
}

// Nobody who sees a snail's shell, or a leech's two suckers, is asked how many legs it has,
// in a couplet or by itself; whoever sees neither is.
func TestNobodyIsAskedForTheLegsOfASnail(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	for _, row := range []struct {
		said  string
		asked bool
	}{{"shell=coil", false}, {"shell=two", false}, {"suckers=ends", false}, {"colour=brown", true}} {
		q, asked := inquire(t, m, key.DefaultOptions()), false
		if err := q.Say(row.said); err != nil {
			t.Fatal(err)
		}
		for now := q.Question(); now != nil; now = q.Question() {
			asked = asked || !slices.ContainsFunc(askedOf(now), func(trait string) bool { return trait != "legs" })
			if err := q.CantTell(); err != nil {
				t.Fatal(err)
			}
		}
		if asked != row.asked {
			t.Errorf("after %s legs are asked for: %v; %v", row.said, asked, q.Path())
		}
	}
}

// Who told of a snail's lid unasked has told of its shell: neither that nor its legs are
// asked for.
func TestNobodyWhoToldOfALidIsAskedForTheShell(t *testing.T) {
	for _, file := range []string{"north-america.toml", "north-west-europe.toml"} {
		for _, order := range []key.Order{key.AuthorsOrder, key.Shortest} {
			sound, catalog := keytest.Sound(t, file)
			o := key.DefaultOptions()
			o.Order = order
			q := inquire(t, fileModel(t, key.Compile(sound, catalog)), o)
			for _, said := range []string{"spire=cone", "lid=winding"} {
				if err := q.Say(said); err != nil {
					t.Fatal(err)
				}
			}
			asked := 0
			for now := q.Question(); now != nil; now = q.Question() {
				asked++
				for _, trait := range askedOf(now) {
					if trait == "shell" || trait == "legs" {
						t.Errorf("%s, %s: question %d asks for %s", file, order, asked, trait)
					}
				}
				if err := q.CantTell(); err != nil {
					t.Fatal(err)
				}
			}
			if asked == 0 {
				t.Errorf("%s, %s: nothing is asked", file, order)
			}
		}
	}
}
