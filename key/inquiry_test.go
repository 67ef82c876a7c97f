package key_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/taxa"
)

// single is the tolerance where likelihoods pass through 32-bit numbers.
const single = 1e-6

func model(t testing.TB, k *key.Key, rates key.Rates) *key.Model {
	t.Helper()
	m, err := k.Model(rates)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func fileModel(t testing.TB, k *key.Key) *key.Model {
	t.Helper()
	return model(t, k, key.FileRates(k.Catalog().Vocabulary()))
}

// closed is the model in which there is nothing but the key's end points.
func closed(t testing.TB, k *key.Key, rates key.Rates) *key.Model {
	t.Helper()
	m, err := k.ClosedModel(rates)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func closedModel(t testing.TB, k *key.Key) *key.Model {
	t.Helper()
	return closed(t, k, key.FileRates(k.Catalog().Vocabulary()))
}

func inquire(t testing.TB, m *key.Model, o key.Options) *key.Inquiry {
	t.Helper()
	q, err := m.Inquire(o)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// told is an inquiry that was told these things, as written in paths.
func told(t testing.TB, m *key.Model, things string) *key.Inquiry {
	t.Helper()
	q := inquire(t, m, key.DefaultOptions())
	for _, text := range strings.Fields(things) {
		if err := q.Say(text); err != nil {
			t.Fatal(err)
		}
	}
	return q
}

func probabilities(q *key.Inquiry) []float64 {
	var out []float64
	for _, s := range q.Probabilities() {
		out = append(out, s.Probability)
	}
	return out
}

func approxEqual(a, b []float64, within float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool { return math.Abs(x-y) <= within })
}

// By hand, for the four kinds of smallTaxa, flat prior. Legs are misread in 5 %,
// 1 % of answers are slips: six is read as six in 0.99 x 0.95 + 0.005 = 0.9455,
// and of a worm in 0.99 x 0.05 + 0.005 = 0.0545.
func TestOneAnswerByHand(t *testing.T) {
	q := told(t, closedModel(t, small(t)), "1a")
	sum := 3*0.9455 + 0.0545
	if want := []float64{0.0545 / sum, 0.9455 / sum, 0.9455 / sum, 0.9455 / sum}; !approxEqual(probabilities(q), want, single) {
		t.Errorf("%v, want %v", probabilities(q), want)
	}
	// 0.15 of what is truly there is as chance has it, so that legs are in half of
	// that what the kind has not: a worm has six legs in 0.075, the others in 0.925.
	// As much again would be what people mistake, and nobody mistakes legs here.
	wrong := 0.0545/sum*0.925*0.0545/(0.925*0.0545+0.075*0.9455) + 3*0.9455/sum*0.075*0.0545/(0.075*0.0545+0.925*0.9455)
	s := q.Suspects()
	if len(s) != 1 || s[0].Answer != "1a" || math.Abs(s[0].Probability-wrong) > single {
		t.Errorf("%+v, want 1a at %v", s, wrong)
	}
}

// What is told in different words must come to the same belief.
func TestTheSameInOtherWords(t *testing.T) {
	combined := compile(t, strings.Replace(smallKey, `traits = { legs = "6" }`, `traits = { legs = "6", tails = ["2", "3"] }`, 1))
	for _, row := range []struct{ why, one, other string }{
		{"a lead and what it stands for", "1a 2b", "legs=6 tails=2"},
		{"a lead that combines traits is an observation of each", "1a", "legs=6 tails=2,3"},
		{"a trait through two couplets is one observation", "3a 4a", "3a"},
		{"a trait through a lead and an observation is one observation", "2b tails=2", "2b"},
		{"a narrower reading replaces a wider one", "tails=2,3 tails=3", "tails=3"},
		{"what combines a trait and the trait alone are one observation", "1a 2b", "legs=6 tails=2"},
		{"two readings of one trait that cannot both be leave either", "tails=2 tails=3", "tails=2,3"},
		{"of three, none of which fits all, any may be right", "gills=yes tails=2 tails=3 tails=none", "gills=yes tails=2,3,none"},
		{"the last length counts", "length=3 length=12", "length=12"},
		{"can't tell says nothing of few answers", "1? legs=6 2?", "legs=6"},
	} {
		for name, k := range map[string]*key.Key{"plain": small(t), "combined": combined} {
			if name == "plain" && strings.Contains(row.why, "combines") {
				continue
			}
			if name == "combined" && strings.Contains(row.why, "a lead and what") {
				continue
			}
			m := fileModel(t, k)
			if a, b := probabilities(told(t, m, row.one)), probabilities(told(t, m, row.other)); !approxEqual(a, b, 1e-12) {
				t.Errorf("%s (%s key): %v, but %v", row.why, name, a, b)
			}
		}
	}
}

// Clinger and worm do not say whether they have gills.
func TestUnknownNeitherFavoursNorDisfavours(t *testing.T) {
	for _, seen := range []string{"gills=yes", "gills=no"} {
		p := probabilities(told(t, closedModel(t, small(t)), seen))
		if math.Abs(p[0]-0.25) > single || math.Abs(p[2]-0.25) > single {
			t.Errorf("%s: worm %v and clinger %v, want 0.25", seen, p[0], p[2])
		}
	}
}

func TestVerdicts(t *testing.T) {
	k := small(t)
	m := model(t, k, key.EvenRates(k.Catalog().Vocabulary(), 0))
	for _, row := range []struct {
		why, said string
		level     key.Level
		taxon     string
		class     taxa.Class
	}{
		{"nothing said", "", key.SetAside, "", ""},
		{"six legs: three kinds of two orders, all sensitive", "legs=6", key.ToClass, "", taxa.Sensitive},
		{"three tails: either mayfly", "legs=6 tails=3", key.ToGroup, "ephemeroptera", taxa.Sensitive},
		{"two tails, no gills", "legs=6 tails=2 gills=no", key.ToKind, "stonefly", taxa.Sensitive},
		{"no legs", "legs=0", key.ToKind, "worm", taxa.Tolerant},
		{"answers that fit nothing together", "legs=0 legs=6 tails=2 gills=no gills=yes", key.SetAside, "", ""},
	} {
		v := told(t, m, row.said).Verdict()
		if v.Level != row.level || v.Taxon != row.taxon || v.Class != row.class {
			t.Errorf("%s: %s %q %q, want %s %q %q; likeliest %s at %v", row.why, v.Level, v.Taxon, v.Class, row.level,
				row.taxon, row.class, v.Likeliest, v.LikeliestProbability)
		}
		if v.Taxon != "" && v.Probability < 0.9 || v.Class != "" && v.ClassProbability < 0.9 {
			t.Errorf("%s: less sure than required: %+v", row.why, v)
		}
	}
}

func TestRivalsAndWhatTellsThem(t *testing.T) {
	k := small(t)
	v := told(t, model(t, k, key.EvenRates(k.Catalog().Vocabulary(), 0.05)), "legs=6 tails=2").Verdict()
	if v.Likeliest != "stonefly" || len(v.Rivals) < 1 || v.Rivals[0].Taxon != "swimmer" {
		t.Fatalf("%+v", v)
	}
	if c := v.Rivals[0].Apart; c == nil || c.Trait.ID != "gills" {
		t.Errorf("a swimmer is told from a stonefly by %+v, want the gills", c)
	}
}

// snapshot is all that can be seen of an inquiry.
type snapshot struct {
	p        []float64
	path     string
	question string
	verdict  key.Verdict
}

func snap(q *key.Inquiry) snapshot {
	s := snapshot{probabilities(q), strings.Join(q.Path(), " "), "", q.Verdict()}
	if now := q.Question(); now != nil {
		s.question = string(now.Phase) + " " + now.ID()
	}
	return s
}

func (s snapshot) equal(o snapshot) bool {
	return slices.Equal(s.p, o.p) && s.path == o.path && s.question == o.question && s.verdict.Taxon == o.verdict.Taxon &&
		s.verdict.Probability == o.verdict.Probability
}

// step says one thing by chance.
func step(t testing.TB, q *key.Inquiry, r *rand.Rand) {
	t.Helper()
	traits := q.Model().Key().Catalog().Vocabulary().Traits()
	now := q.Question()
	var err error
	switch n := r.IntN(10); {
	case n == 0:
		trait := traits[r.IntN(len(traits))]
		err = q.Observe(trait.ID, trait.States[r.IntN(len(trait.States))].ID)
	case n == 1:
		err = q.ObserveLength(1 + 50*r.Float64())
	case now == nil:
		return
	case n == 2:
		err = q.CantTell()
	case now.Couplet != nil:
		err = q.Answer(now.Couplet.Leads[r.IntN(len(now.Couplet.Leads))].Letter)
	default:
		err = q.Answer(now.Trait.States[r.IntN(len(now.Trait.States))].ID)
	}
	if err != nil {
		t.Fatal(err)
	}
}

func TestInquiriesByChance(t *testing.T) {
	for name, k := range map[string]*key.Key{"small": small(t), "embedded": keytest.Key(t)} {
		m := fileModel(t, k)
		r := rand.New(rand.NewPCG(11, 4))
		for _, order := range []key.Order{key.AuthorsOrder, key.Shortest} {
			for range keytest.Times(25, 8) {
				o := key.DefaultOptions()
				o.Order, o.NoLens = order, r.IntN(2) == 0
				q := inquire(t, m, o)
				var trail []snapshot
				for range 12 {
					before := snap(q)
					trail = append(trail, before)
					asked := q.Question()
					step(t, q, r)
					sum := q.Verdict().OutsideKey
					for _, p := range probabilities(q) {
						sum += p
					}
					if math.Abs(sum-1) > 1e-9 {
						t.Fatalf("%s: %v sums to %v", name, q.Path(), sum)
					}
					if path := q.Path(); asked != nil && len(path) > 0 && strings.HasSuffix(path[len(path)-1], key.Unsure) &&
						!alike(before.p, probabilities(q)) {
						t.Fatalf("%s: can't tell changed the belief at %v", name, path)
					}
				}
				for range len(trail) - len(q.Path()) {
					trail = trail[:len(trail)-1] // nothing was asked any more, and nothing said
				}
				for i := len(q.Path()); i > 0; i-- {
					q.Back()
				}
				if !snap(q).equal(trail[0]) {
					t.Fatalf("%s: going all the way back is not the beginning", name)
				}
			}
		}
	}
}

// mostByCantTell is how many times as likely beside another "can't tell" may make a
// kind: it says nothing of the animal, but that its person hardly guesses.
const mostByCantTell = 2.5

// alike reports whether no kind became much likelier beside another.
func alike(before, after []float64) bool {
	least, most := math.Inf(1), 0.0
	for i := range before {
		if before[i] > 1e-12 {
			least, most = min(least, after[i]/before[i]), max(most, after[i]/before[i])
		}
	}
	return most <= mostByCantTell*least+1e-9
}

// Whoever can't tell rules nothing out: where nothing else was said nothing changes.
func TestCantTellAloneSaysNothing(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	if a, b := probabilities(told(t, m, "1? eyes? move?")), probabilities(told(t, m, "")); !approxEqual(a, b, 1e-12) {
		t.Errorf("%v, before %v", a, b)
	}
}

func TestBackUndoesOneThingExactly(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	r := rand.New(rand.NewPCG(2, 9))
	for range 40 {
		q := inquire(t, m, key.DefaultOptions())
		for range r.IntN(10) {
			step(t, q, r)
		}
		before, said := snap(q), len(q.Path())
		step(t, q, r)
		if len(q.Path()) == said {
			continue
		}
		if !q.Back() || !snap(q).equal(before) {
			t.Fatalf("back from %v gives %+v, want %+v", q.Path(), snap(q), before)
		}
	}
}

// Things told of different traits, in any order, come to the same belief.
func TestOrderDoesNotMatter(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	traits := m.Key().Catalog().Vocabulary().Traits()
	r := rand.New(rand.NewPCG(8, 8))
	for range 30 {
		var things []string
		for _, n := range r.Perm(len(traits))[:8] {
			things = append(things, traits[n].ID+"="+traits[n].States[r.IntN(len(traits[n].States))].ID)
		}
		want := probabilities(told(t, m, strings.Join(things, " ")))
		r.Shuffle(len(things), func(i, j int) { things[i], things[j] = things[j], things[i] })
		if got := probabilities(told(t, m, strings.Join(things, " "))); !approxEqual(got, want, 1e-9) {
			t.Fatalf("%v", things)
		}
	}
}

func TestReaskingKeepsTheRest(t *testing.T) {
	m := fileModel(t, small(t))
	for _, row := range []struct {
		why, said string
		at        int
		pick      string
		want      string
	}{
		{"another lead", "1a 2b 4b", 1, "a", "1a 2b/a 4b"},
		{"the first of several", "1b gills=no tails=2", 0, "a", "1b/a gills=no tails=2"},
		{"a state", "legs=6 tails=2", 1, "3", "legs=6 tails=2/3"},
		{"no longer sure", "1a 2b 4b", 1, "?", "1a 2? 4b"},
	} {
		q := told(t, m, row.said)
		if err := q.Reask(row.at, row.pick); err != nil {
			t.Fatal(err)
		}
		if got := strings.Join(q.Path(), " "); got != row.want {
			t.Errorf("%s: %s, want %s", row.why, got, row.want)
		}
		if want := probabilities(told(t, m, row.want)); !approxEqual(probabilities(q), want, 1e-12) {
			t.Errorf("%s: %v, want %v", row.why, probabilities(q), want)
		}
	}
	q := told(t, m, "1a")
	for _, row := range []struct {
		at   int
		pick string
	}{{-1, "a"}, {1, "a"}, {0, "z"}} {
		if q.Reask(row.at, row.pick) == nil {
			t.Errorf("answer %d was changed to %q", row.at, row.pick)
		}
	}
}

// By hand, all misread in 10 %: no legs is read of a six-legged animal in
// 0.99 x 0.1 + 0.005 = 0.104 and of a worm in 0.896; no gills likewise; two tails
// of two in 0.99 x 0.9 + 0.01/3 and of three in 0.99 x 0.05 + 0.01/3. A swimmer
// has two or three, and what is unknown of the worm counts as the mean. Of what
// legs truly are 0.15 is as chance has it.
func TestTheAnswerThatFitsTheRestLeastIsSuspectedFirst(t *testing.T) {
	two, three := 0.99*0.9+0.01/3, 0.99*0.05+0.01/3
	worm := 0.896 * (two + three) / 2 * 0.5
	others := 0.104*(two+three)/2*0.104 + 0.104*three*0.5 + 0.104*two*0.896
	k := small(t)
	q := told(t, closed(t, k, key.EvenRates(k.Catalog().Vocabulary(), 0.1)), "legs=0 tails=2 gills=no")
	wrongOfOthers, wrongOfWorm := 0.925*0.104/(0.925*0.104+0.075*0.896), 0.075*0.104/(0.075*0.104+0.925*0.896)
	if s, want := q.Suspects()[0], (others*wrongOfOthers+worm*wrongOfWorm)/(worm+others); s.Answer != "legs=0" ||
		math.Abs(s.Probability-want) > single {
		t.Errorf("%+v, want legs=0 at %v: whatever is no worm was misread there", s, want)
	}
}

func TestWhatIsRefused(t *testing.T) {
	m := fileModel(t, small(t))
	for _, row := range []struct{ said, want string }{
		{"1z", "no lead"},
		{"9a", "no answer"},
		{"tail=2", "no trait"},
		{"tails=9", "no state"},
		{"length=long", "no length"},
		{"length=-3", "cannot be"},
		{"length=NaN", "cannot be"},
		{"length=3x", "no length"},
		{"", "no answer"},
	} {
		q := inquire(t, m, key.DefaultOptions())
		before := snap(q)
		if err := q.Say(row.said); err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("%q: %v", row.said, err)
		}
		if !snap(q).equal(before) {
			t.Errorf("%q was refused, but changed something", row.said)
		}
	}
	for _, required := range []float64{0, 0.5, 1, math.NaN()} {
		o := key.DefaultOptions()
		o.Required = required
		if _, err := m.Inquire(o); err == nil {
			t.Errorf("a required probability of %v was taken", required)
		}
	}
}

func TestWithoutALensNoLensIsAskedFor(t *testing.T) {
	k := keytest.Key(t)
	m := fileModel(t, k)
	r := rand.New(rand.NewPCG(4, 4))
	for range 20 {
		o := key.DefaultOptions()
		o.NoLens = true
		q := inquire(t, m, o)
		for now := q.Question(); now != nil; now = q.Question() {
			for _, said := range asks(*now) {
				if k.Catalog().Vocabulary().Trait(said).Look == taxa.Lens {
					t.Fatalf("%s asks for %s", now.ID(), said)
				}
			}
			step(t, q, r)
		}
		taxon := q.Verdict().Taxon
		for _, set := range k.LensSets() {
			if slices.Contains(set.Taxa, taxon) {
				t.Errorf("%s was named without a lens", taxon)
			}
		}
	}
}

// asks are the traits that a question speaks of.
func asks(q key.Question) []string {
	if q.Trait != nil {
		return []string{q.Trait.ID}
	}
	var out []string
	for _, l := range q.Couplet.Leads {
		for _, c := range l.Conditions {
			out = append(out, c.Trait)
		}
	}
	return out
}

// After can't tell the engine asks by itself, and back in the key once one
// couplet is left.
func TestAuthorsOrderWhileItWorks(t *testing.T) {
	q := inquire(t, fileModel(t, small(t)), key.DefaultOptions())
	for _, row := range []struct{ asked, pick string }{{"keyed 1", "a"}, {"keyed 2", "?"}} {
		if got := snap(q).question; got != row.asked {
			t.Fatalf("%s is asked, want %s", got, row.asked)
		}
		if err := q.Answer(row.pick); err != nil {
			t.Fatal(err)
		}
	}
	if now := q.Question(); now == nil || now.Phase != key.Chosen || now.Gain <= 0 {
		t.Errorf("%+v is asked after can't tell, want a question the engine chose", now)
	}
}

func FuzzInquiry(f *testing.F) {
	m := fileModel(f, small(f))
	f.Add("1a,2b,4b", uint8(0))
	f.Add("legs=0,<,tails=2,tails=3,length=12,!a", uint8(1))
	f.Add("1?,gills=yes,stop,2a", uint8(2))
	f.Fuzz(func(t *testing.T, text string, how uint8) {
		o := key.DefaultOptions()
		if how&1 != 0 {
			o.Order = key.Shortest
		}
		o.NoLens = how&2 != 0
		q := inquire(t, m, o)
		for _, word := range strings.Split(text, ",") {
			switch {
			case word == "<":
				q.Back()
			case word == "stop":
				q.Stop()
			case strings.HasPrefix(word, "!"):
				_ = q.Reask(len(q.Path())-1, word[1:])
			default:
				_ = q.Say(word)
			}
		}
		q.Question()
		sum := q.Verdict().OutsideKey
		for _, p := range probabilities(q) {
			sum += p
		}
		if !(math.Abs(sum-1) < 1e-9) {
			t.Fatalf("%q sums to %v", text, sum)
		}
		for _, s := range q.Suspects() {
			if !(s.Probability >= 0 && s.Probability <= 1) {
				t.Fatalf("%q: %+v", text, s)
			}
		}
		if v := q.Verdict(); !(v.Probability >= 0 && v.Probability <= 1 && v.ClassProbability >= 0 && v.ClassProbability <= 1) {
			t.Fatalf("%q: %+v", text, v)
		}
	})
}
