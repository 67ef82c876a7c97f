package key

import (
	"math"
	"slices"
	"testing"

	"rillkey/couplets"
	"rillkey/taxa"
)

func embedded(t *testing.T) *Model {
	t.Helper()
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	sound, err := couplets.Load(couplets.Embedded(), couplets.DefaultName, couplets.DefaultName, catalog)
	if err != nil {
		t.Fatal(err)
	}
	m, err := Compile(sound, catalog).Model(FileRates(catalog.Vocabulary()))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// Whoever cannot tell something can hardly tell what is harder to see, and less
// surely what is easier; whoever tells something can tell what is as easy.
func TestWhatAPersonCanTell(t *testing.T) {
	m := embedded(t)
	q, err := m.Inquire(DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	before := canBeTold(q)
	if err := q.Say("eyes?"); err != nil {
		t.Fatal(err)
	}
	after := canBeTold(q)
	for e := range after {
		if after[e] >= before[e] {
			t.Errorf("after can't tell what is of ease 1, ease %d has the chance %.2f, before it %.2f", e, after[e], before[e])
		}
	}
	if after[0]/before[0] <= after[1]/before[1] {
		t.Error("what is seen at a glance loses as much as what was asked")
	}
	q.Back()
	if err := q.Answer("a"); err != nil { // legs, which are seen at a glance
		t.Fatal(err)
	}
	if got := canBeTold(q); got[0] <= before[0] || got[3] != before[3] {
		t.Errorf("after the legs were told: %v, before %v", got, before)
	}
}

// What people seldom can tell when asked counts as harder to answer than what takes as much
// to see, be it a habit or the shape of the body.
func TestWhatIsSeldomToldIsAskedLess(t *testing.T) {
	m := embedded(t)
	q, err := m.Inquire(DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	if err := q.Say("eyes?"); err != nil {
		t.Fatal(err)
	}
	for _, id := range []string{"manner", "outline"} {
		i := slices.IndexFunc(m.asks, func(a ask) bool { return a.couplet == nil && a.trait.ID == id })
		asked := &m.asks[i]
		told := m.traits[asked.traits[0]].Told
		seldom := answerable(q, asked, canBeTold(q))
		usual := *m.traits[asked.traits[0]].Trait
		usual.Told = 0
		m.traits[asked.traits[0]].Trait = &usual
		if often := answerable(q, asked, canBeTold(q)); !(told > 0 && told < 1) || math.Abs(seldom-told*often) > 1e-9 {
			t.Errorf("%s: told %.2f times as often, can be answered in %.2f, otherwise in %.2f", id, told, seldom, often)
		}
	}
}

// With each "can't tell" behind another a question must promise more.
func TestCantTellsInARowEndTheQuestionsSooner(t *testing.T) {
	m := embedded(t)
	inRow, apart := tellsOf(t, m, "aa???"), tellsOf(t, m, "??a?a")
	if hoped := tooLittle * 3 / 5 * 1.1; !promisesTooLittle(inRow, hoped) || promisesTooLittle(apart, hoped) {
		t.Error("three in a row are not worse than three apart")
	}
}

// tellsOf is an inquiry after answers, "?" for what could not be told.
func tellsOf(t *testing.T, m *Model, answers string) *Inquiry {
	t.Helper()
	q, err := m.Inquire(DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	for _, pick := range answers {
		now, pick := q.Question(), string(pick)
		if pick != Unsure {
			pick = now.picks()[0]
		}
		if err := q.Answer(pick); err != nil {
			t.Fatal(err)
		}
	}
	return q
}

// Whoever cannot tell whether it has legs will hardly tell where they are, and tells
// its colour as before.
func TestWhatHangsOnWhatCannotBeTold(t *testing.T) {
	m := embedded(t)
	after := func(said string) func(trait string) float64 {
		q, err := m.Inquire(DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		if err := q.Say(said); err != nil {
			t.Fatal(err)
		}
		return func(trait string) float64 {
			n := slices.IndexFunc(m.asks, func(a ask) bool { return a.trait != nil && a.trait.ID == trait })
			return answerable(q, &m.asks[n], [4]float64{1, 1, 1, 1})
		}
	}
	legs, other := after("legs?"), after("pattern?")
	for id, want := range map[string]float64{"leg-place": unsureAgain, "claws": unsureAgain, "colour": 1} {
		if got := legs(id) / other(id); math.Abs(got-want) > 0.01 {
			t.Errorf("%s can be told %.2f times as often, want %.2f", id, got, want)
		}
	}
	if legs("skin") <= 0.2 || legs("wings") >= 0.7 {
		t.Errorf("skin can be told with the chance %.2f, and wings, which most have none of, with %.2f", legs("skin"), legs("wings"))
	}
}

// Nobody who cannot tell anything is asked for what takes a lens, three times in a
// row, or on and on.
func TestNoMarchOfQuestions(t *testing.T) {
	m := embedded(t)
	q, err := m.Inquire(DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	lenses := 0
	for now := q.Question(); now != nil; now = q.Question() {
		if m.needsLens(&m.asks[m.number(*now)]) {
			lenses++
		}
		if err := q.CantTell(); err != nil {
			t.Fatal(err)
		}
	}
	if lenses > 0 || q.Questions() > 12 {
		t.Errorf("%d questions, %d of them with a lens: %v", q.Questions(), lenses, q.Path())
	}
}
