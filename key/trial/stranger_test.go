package trial

import (
	"io/fs"
	"slices"
	"testing"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/key/trim"
	"rillkey/taxa"
)

// keeping is the usual key cut to some of its end points.
func keeping(t testing.TB, keep func(end string) bool) *key.Key {
	t.Helper()
	sound, catalog := keytest.Sound(t, couplets.DefaultName)
	data, err := fs.ReadFile(couplets.Embedded(), couplets.DefaultName)
	if err != nil {
		t.Fatal(err)
	}
	trimmed, err := trim.Keep(data, sound, keep)
	if err != nil {
		t.Fatal(err)
	}
	cut, err := couplets.LoadText(trimmed.Text, "cut", catalog)
	if err != nil {
		t.Fatal(err)
	}
	return key.Compile(cut, catalog)
}

// tryStrangers tries a key on strangers, most of them from only if that is given.
func tryStrangers(t testing.TB, k *key.Key, method Method, animals int, only ...*taxa.Taxon) Strangers {
	t.Helper()
	rates := key.FileRates(k.Catalog().Vocabulary())
	s := Setup{Key: k, People: rates, Model: rates, Method: method, Hardship: Hardship{Strangers: 0.99}, Specimens: animals, only: only}
	return run(t, s).Strangers
}

func (s Strangers) wrongEnds() Accuracy { return Accuracy{s.Animals, s.WrongEnd} }

// An animal of the key's own region that somebody left out of the key is seldom
// named as something else that is in it. Issue of this bar: of kinds taken out one
// at a time at most 8 in 100, of a brook of four kinds at most 10.
func TestStrangersAreSeldomNamed(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	every, animals := keytest.Thoroughly(18, 36), 16
	if *long {
		every, animals = 1, 60
	}
	ends := keytest.Key(t).Ends()
	for _, method := range []Method{ConfirmingMethod, ShortestMethod} {
		var sum Accuracy
		for i := 0; i < len(ends); i += every {
			k := keeping(t, func(end string) bool { return end != ends[i].ID })
			one := tryStrangers(t, k, method, animals, ends[i]).wrongEnds()
			sum.Given, sum.Right = sum.Given+one.Given, sum.Right+one.Right
			if *long {
				t.Logf("%s: %d of %d", ends[i].ID, one.Right, one.Given)
			}
		}
		t.Logf("%s, taken out one at a time: %.3f of %d named to a wrong end point", method, sum.Share(), sum.Given)
		if sum.Share() > 0.08+3*sum.Error() {
			t.Errorf("%s, taken out one at a time: %.3f named to a wrong end point, at most 0.08", method, sum.Share())
		}
		brook := keeping(t, func(end string) bool {
			return slices.Contains([]string{"baetidae", "perlidae", "simuliidae", "gammaridae"}, end)
		})
		few := tryStrangers(t, brook, method, 12*animals).wrongEnds()
		t.Logf("%s, a brook of four kinds: %.3f of %d", method, few.Share(), few.Given)
		if few.Share() > 0.10+3*few.Error() {
			t.Errorf("%s, a brook of four kinds: %.3f named to a wrong end point, at most 0.10", method, few.Share())
		}
	}
}

// A cell of the table may be wrong in what an animal is like, not in that it is an animal
// at all: no worm is a pupa in its case or a shed skin, of which nothing else is seen.
func TestWrongCellsMakeNoPupae(t *testing.T) {
	k := keytest.Key(t)
	d := newDraws(&Setup{Key: k, Hardship: Hardship{Cells: 0.999}})
	wrong := 0
	for _, kind := range k.Ends() {
		for _, trait := range d.traits {
			shown := kind.States(trait.ID)
			if shown == nil {
				continue
			}
			state := d.wrongCell(kind, trait, shown)
			if state == "" {
				continue
			}
			wrong++
			if trait.States[trait.State(state)].Leaves != nil {
				t.Errorf("%s: all of them show %s=%s by mistake", kind.ID, trait.ID, state)
			}
		}
	}
	if wrong < len(k.Ends()) {
		t.Errorf("only %d cells are wrong", wrong)
	}
}

// A scud of the other continent is named for the one that lives here, from which nothing
// but a lens parts it; a sowbug that is no scud's twin is not counted so, nor is what no
// catalog holds.
func TestStrangersNamedForTheirTwin(t *testing.T) {
	sound, catalog := keytest.Sound(t, "north-west-europe.toml")
	k := key.Compile(sound, catalog)
	got := tryStrangers(t, k, ConfirmingMethod, 30, catalog.Taxon("hyalellidae"))
	if got.WrongEnd == 0 || got.Twin != got.WrongEnd {
		t.Errorf("%d of %d small scuds named to an end point are named for their twin, not all", got.Twin, got.WrongEnd)
	}
	s := Setup{Key: k, Model: key.FileRates(catalog.Vocabulary())}
	for _, pair := range []Pair{{"asellidae", "gammaridae", 1}, {"", "gammaridae", 1}, {"perlidae", "perlodidae", 1}} {
		if n := s.twins([]Pair{pair}); n != 0 {
			t.Errorf("%v counts as named for a twin", pair)
		}
	}
}
