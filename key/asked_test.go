package key_test

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
)

// askedFor are the traits that an inquiry asks for by themselves, of somebody
// who can tell nothing more than what was said.
func askedFor(t *testing.T, q *key.Inquiry) []string {
	t.Helper()
	var out []string
	for now := q.Question(); now != nil; now = q.Question() {
		if now.Trait != nil {
			out = append(out, now.Trait.ID)
		}
		if err := q.CantTell(); err != nil {
			t.Fatal(err)
		}
	}
	return out
}

func TestNothingThatFollowsFromAnAnswerIsAsked(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	for _, row := range []struct{ why, said, never string }{
		{"without legs there is no place for them", "legs=0", "leg-place leg-length forelegs hindlegs claws"},
		{"without a lid there are no lines on it", "shell=coil door=none", "lid"},
		{"a cap has no two halves, no lid and no spire", "shell=cap", "valves door lid"},
		{"without tails there is none that is long", "tails=none", "tail-length tail-hair tail-middle"},
		{"of two tails none is the middle one", "tails=2", "tail-middle"},
		{"a stonefly crawls about without a case", "legs=6 tails=2 claws=2 gills=none wings=pads",
			"case case-stuff case-shape case-bend case-lay"},
		{"without gills they have no form", "gills=none", "gill-form gill-row gill-mark"},
	} {
		o := key.DefaultOptions()
		o.Order, o.Most = key.Shortest, 1000
		q := inquire(t, m, o)
		for _, said := range strings.Fields(row.said) {
			if err := q.Say(said); err != nil {
				t.Fatal(err)
			}
		}
		for _, id := range askedFor(t, q) {
			if slices.Contains(strings.Fields(row.never), id) {
				t.Errorf("%s: after %s it asks %s", row.why, row.said, id)
			}
		}
	}
}

// Of a trait of which a couplet left several states only these are offered.
func TestOnlyWhatIsLeftIsOffered(t *testing.T) {
	r, narrowed := rand.New(rand.NewPCG(6, 1)), 0
	m := fileModel(t, keytest.Key(t))
	for range keytest.Times(150, 50) {
		q := inquire(t, m, key.DefaultOptions())
		left := map[string][]string{}
		for now := q.Question(); now != nil; now = q.Question() {
			if now.Trait == nil {
				step(t, q, r)
				given := q.Given()
				for _, c := range given[len(given)-1].Says {
					left[c.Trait] = append(left[c.Trait], c.States...)
				}
				continue
			}
			if seen := left[now.Trait.ID]; seen != nil {
				narrowed++
				for _, s := range now.States() {
					if !slices.Contains(seen, s) {
						t.Fatalf("after %v it offers %s of %s, of which %v is left", q.Path(), s, now.Trait.ID, seen)
					}
				}
			}
			if err := q.Answer(now.States()[r.IntN(len(now.States()))]); err != nil {
				t.Fatal(err)
			}
		}
	}
	if narrowed == 0 {
		t.Error("no trait was asked of which something was known; the test proves nothing")
	}
}

// traitsSaid counts the traits of which something was said.
func traitsSaid(q *key.Inquiry) int {
	said := map[string]bool{}
	for _, g := range q.Given() {
		for _, c := range g.Says {
			said[c.Trait] = true
		}
	}
	return len(said)
}

// The questions end when a name is as probable as was asked for, and where one
// kind is left, once something is known of three traits.
func TestANameAtTheAskedProbabilityEndsTheQuestions(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	m := fileModel(t, keytest.Key(t))
	asked := map[float64]int{}
	sures := []float64{0.6, 0.8, 0.95, 0.99}
	for _, sure := range sures {
		for _, order := range []key.Order{key.AuthorsOrder, key.Shortest} {
			r := rand.New(rand.NewPCG(9, 3))
			for range 8 {
				o := key.DefaultOptions()
				o.Order, o.Required, o.Settle = order, sure, sure
				q := inquire(t, m, o)
				for now := q.Question(); now != nil; now = q.Question() {
					if traitsSaid(q) < 3 {
						step(t, q, r)
						continue
					}
					if v := q.Verdict(); v.LikeliestProbability >= sure {
						t.Fatalf("%v: %s is named at %v, and %s is asked", sure, v.Taxon, v.Probability, now.ID())
					}
					if one := q.Possible(); len(one) == 1 && 1-q.Verdict().OutsideKey > max(0.95, sure) {
						t.Fatalf("%v: nothing but %s is possible, and %s is asked", sure, one[0].Taxon, now.ID())
					}
					step(t, q, r)
				}
			}
			for i, end := range m.Key().Ends() {
				if i%10 == 0 {
					o := key.DefaultOptions()
					o.Order, o.Required, o.Settle = order, sure, sure
					q := inquire(t, m, o)
					answers(t, q, end)
					asked[sure] += q.Questions()
				}
			}
		}
	}
	for i := range sures[1:] {
		if asked[sures[i]] >= asked[sures[i+1]] {
			t.Errorf("to be sure at %v takes %d questions, at %v %d", sures[i], asked[sures[i]], sures[i+1], asked[sures[i+1]])
		}
	}
}

// With one kind left none is asked: where something is, two kinds at least are called
// possible, or one and what the key does not lead to, which is likelier than any other kind.
func TestWithOneKindLeftNoneIsAsked(t *testing.T) {
	left, outside := 0, 0
	askOfEveryEnd(t, func(q *key.Inquiry, end string, now *key.Question, _ key.Options) {
		one := q.Possible()
		switch {
		case len(one) == 1 && now == nil:
			left++
		case len(one) == 1:
			outside++
			if q.Verdict().OutsideKey <= second(q) {
				t.Errorf("%s: nothing but %s is left, and %s is asked", end, one[0].Taxon, now.ID())
			}
		}
	})
	t.Logf("%d inquiries ended with one kind left; %d questions of one kind or what is not in the key", left, outside)
	if left == 0 {
		t.Error("no inquiry ended with one kind left")
	}
}

// askOfEveryEnd asks of an animal of every end point, as it is, by both keys and in both
// orders, and shows where the inquiry stands before each answer, and at its end with no question.
func askOfEveryEnd(t *testing.T, see func(q *key.Inquiry, end string, now *key.Question, o key.Options)) {
	t.Helper()
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	for _, file := range []string{"north-america.toml", "north-west-europe.toml"} {
		m := fileModel(t, key.Compile(keytest.Sound(t, file)))
		for _, order := range []key.Order{key.AuthorsOrder, key.Shortest} {
			for i, end := range m.Key().Ends() {
				if i%keytest.Thoroughly(1, 2) > 0 {
					continue
				}
				o := key.DefaultOptions()
				o.Order = order
				q := inquire(t, m, o)
				for now := q.Question(); now != nil; now = q.Question() {
					see(q, end.ID, now, o)
					next(t, q, end)
				}
				see(q, end.ID, nil, o)
			}
		}
	}
}

// second is the probability of the second likeliest end point.
func second(q *key.Inquiry) float64 {
	var all []float64
	for _, c := range q.Probabilities() {
		all = append(all, c.Probability)
	}
	slices.Sort(all)
	return all[len(all)-2]
}

// Where one kind of the key is as good as left, and has a name, what is asked can take
// that name away: nothing is asked that serves animals alone which the key
// leaves out.
func TestWhatCannotTakeANameAwayIsNotAsked(t *testing.T) {
	left, ended := 0, 0
	askOfEveryEnd(t, func(q *key.Inquiry, end string, now *key.Question, o key.Options) {
		one, p := nearly(q, o), q.Verdict().LikeliestProbability
		switch {
		case len(one) != 1 || p < o.Required:
		case now == nil && p < o.Settle:
			ended++
		case now != nil && traitsSaid(q) >= 3:
			left++
			if !takesAway(t, q, now, one[0].Taxon, o.Required) {
				t.Errorf("%s: nothing but %s is left, and %s is asked, which cannot change that", end, one[0].Taxon, now.ID())
			}
		}
	})
	t.Logf("%d questions with one kind as good as left, %d inquiries ended there", left, ended)
	if ended == 0 {
		t.Error("no inquiry ended because one kind was as good as left")
	}
}

// nearly are the kinds that hold the probability of a name together.
func nearly(q *key.Inquiry, o key.Options) []key.Candidate { return q.Likely(max(0.95, o.Settle)) }

// takesAway tells whether some answer to the present question takes its name from a kind.
func takesAway(t *testing.T, q *key.Inquiry, now *key.Question, kind string, required float64) bool {
	t.Helper()
	var picks []string
	switch {
	case now.Couplet != nil:
		for _, l := range now.Couplet.Leads {
			picks = append(picks, l.Letter)
		}
	case len(now.Left) > 0:
		picks = now.Left
	default:
		picks = now.Trait.StateIDs()
	}
	for _, pick := range picks {
		if err := q.Answer(pick); err != nil {
			t.Fatal(err)
		}
		v := q.Verdict()
		q.Back()
		if v.Likeliest != kind || v.LikeliestProbability < required {
			return true
		}
	}
	return false
}

// Whoever said unasked what strikes them has said what is easy: a couplet of what lies
// beneath, which the author has next, is not asked before what is seen at a glance. Who
// only answered, in another key too, is asked it.
func TestAfterWhatWasSaidUnaskedTheAuthorsCoupletMustBeWorthIt(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	q, asked := inquire(t, m, key.DefaultOptions()), inquire(t, m, key.DefaultOptions())
	for now := asked.Question(); now.Couplet == nil || now.Couplet.ID != "3"; now = asked.Question() {
		if err := asked.Answer("a"); err != nil {
			t.Fatal(err)
		}
	}
	for _, said := range []string{"legs=6", "tails=2"} {
		if err := q.Say(said); err != nil {
			t.Fatal(err)
		}
	}
	if now := q.Question(); now == nil || now.Trait == nil || !now.Trait.Glance {
		t.Errorf("asked %+v", now)
	}
	again := inquire(t, m, key.DefaultOptions())
	if err := asked.Retell(again); err != nil {
		t.Fatal(err)
	}
	if now := again.Question(); now == nil || now.Couplet == nil || now.Couplet.ID != "3" {
		t.Errorf("told again, asked %+v", now)
	}
}

// Whoever saw gills under the chest saw what they are like, before the shape of what nobody
// spoke of: it is asked though a lens helps.
func TestWhatAPartIsLikeIsAskedOfThoseWhoSawThePart(t *testing.T) {
	q := inquire(t, fileModel(t, keytest.Key(t)), key.DefaultOptions())
	for _, said := range []string{"gills=chest-belly", "wings=pads", "antennae=long", "length=38"} {
		if err := q.Say(said); err != nil {
			t.Fatal(err)
		}
	}
	for range 6 {
		now := q.Question()
		if now == nil {
			break
		}
		if now.Trait != nil && now.Trait.ID == "gill-form" {
			return
		}
		if err := q.CantTell(); err != nil {
			t.Fatal(err)
		}
	}
	t.Errorf("nobody asks what the gills are like; asked %v", q.Path())
}
