package account_test

import (
	"fmt"
	"math"
	"testing"

	"rillkey/scoring"
	"rillkey/scoring/account"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
)

// some is a fauna of a few kinds, each as common as the next.
func some(t *testing.T) func() *account.Fauna {
	t.Helper()
	weights := map[string]float64{}
	for _, id := range []string{"perlidae", "perlodidae", "nemouridae", "baetidae", "heptageniidae", "hydropsychidae",
		"elmidae", "chironomidae", "tipulidae", "asellidae"} {
		weights[id] = 1
	}
	f := account.NewFauna(catalog(t), weights)
	return func() *account.Fauna { return f }
}

func identified(taxon string, count int) visit.Identification {
	return visit.Identification{Sample: "1", Taxon: taxon, Count: count}
}

// doubtfulStonefly is keyed as one family with 0.9, and it may be another.
func doubtfulStonefly() visit.Identification {
	d := identified("perlidae", 1)
	d.Confidence, d.Also, d.Path = 0.9, []visit.Chance{{Taxon: "perlodidae", Probability: 0.1}}, []string{"1a"}
	return d
}

func together(t *testing.T, all ...visit.Identification) *account.Account {
	t.Helper()
	var tally visit.Tally
	tally.Samples = []visit.Taken{{Sample: visit.Sample{Label: "1"}}}
	for i, d := range all {
		tally.Records = append(tally.Records, visit.Record{ID: fmt.Sprint(i), Identification: d})
	}
	return account.New(&visit.Visit{}, tally, catalog(t)).JudgedAmong(some(t))
}

func sure(a *account.Account, record int, taxon string) (p float64) {
	for _, c := range a.Belief(&a.Records[record]) {
		if c.Taxon == taxon {
			p += c.Probability
		}
	}
	return p
}

// Beside thirty that are certainly another kind a name holds less, beside thirty of
// its own more; the name that was said stays.
func TestRecordsAreJudgedTogether(t *testing.T) {
	beside := func(taxon string) float64 {
		all := []visit.Identification{doubtfulStonefly()}
		for range 30 {
			all = append(all, identified(taxon, 1))
		}
		a := together(t, all...)
		if r := a.Records[0]; r.Taxon != "perlidae" || r.Confidence != 0.9 {
			t.Fatalf("the record was changed: %+v", r)
		}
		return sure(a, 0, "perlidae")
	}
	own, rival := beside("perlidae"), beside("perlodidae")
	if own < 0.97 || rival > 0.6 {
		t.Errorf("beside its own %v, beside the rival's %v", own, rival)
	}
	a := account.New(&visit.Visit{}, visit.Tally{Records: []visit.Record{{Identification: doubtfulStonefly()}}}, catalog(t))
	if p := sure(a, 0, "perlidae"); math.Abs(p-0.9) > 1e-12 {
		t.Errorf("without a fauna it holds with %v", p)
	}
}

// What nobody doubts is what it was said to be, whatever lies beside it; a taxon that
// the fauna lacks too.
func TestCertainNamesStay(t *testing.T) {
	for _, taxon := range []string{"perlidae", "dytiscidae", "jackalope"} {
		a := together(t, identified(taxon, 1), identified("perlodidae", 40), doubtfulStonefly())
		if b := a.Belief(&a.Records[0]); len(b) != 1 || b[0].Taxon != taxon || math.Abs(b[0].Probability-1) > 1e-9 {
			t.Errorf("%s is %v", taxon, b)
		}
	}
}

// A broad name may be what it holds, rather what else was found; of a heap of many
// animals some may be one and some another.
func TestABroadNameIsWhatItMayBe(t *testing.T) {
	a := together(t, identified("plecoptera", 40), identified("perlidae", 1), identified("perlidae", 1), identified("perlidae", 1))
	sum := 0.0
	for _, id := range []string{"perlidae", "perlodidae", "nemouridae"} {
		sum += sure(a, 0, id)
	}
	if p := sure(a, 0, "perlidae"); math.Abs(sum-1) > 1e-9 || p < 0.5 || p > 0.98 {
		t.Errorf("a stonefly is one of the three with %v, the family that was found with %v", sum, p)
	}
	s := fbi(t)
	c := s.Counting()
	ways, mixed := a.Ways(c, a.Rows(c)), 0
	counts := make([]int64, len(s.Kinds))
	for way := range ways.Number {
		ways.Counts(way, counts)
		total, kinds := int64(0), 0
		for _, n := range counts {
			if total += n; n > 0 {
				kinds++
			}
		}
		if total != 43 {
			t.Fatalf("way %d has %d animals", way, total)
		}
		if kinds > 1 {
			mixed++
		}
	}
	if mixed == 0 {
		t.Error("the heap is one kind in all ways")
	}
}

func fbi(t *testing.T) *scheme.Scheme {
	t.Helper()
	rules, err := scoring.EmbeddedRules(catalog(t))
	if err != nil {
		t.Fatal(err)
	}
	return rules.Scheme("fbi")
}

// The chances that a record keeps leave some over: it may be anything.
func TestWhatIsLeftOverMayBeAnything(t *testing.T) {
	d := doubtfulStonefly()
	d.Confidence = 0.85
	a := together(t, d)
	if p := sure(a, 0, "chironomidae"); p <= 0 || p > 0.05 {
		t.Errorf("a midge with %v", p)
	}
}

// Of several faunas that counts which knows most of the names.
func TestTheFaunaThatFits(t *testing.T) {
	other := account.NewFauna(catalog(t), map[string]float64{"corixidae": 1})
	all := []visit.Identification{doubtfulStonefly()}
	for range 10 {
		all = append(all, identified("perlodidae", 1))
	}
	a := together(t, all...)
	want := sure(a, 0, "perlidae")
	a = together(t, all...)
	a.JudgedAmong(func() *account.Fauna { return nil }, func() *account.Fauna { return other }, some(t), func() *account.Fauna {
		t.Error("a fauna was asked for behind one that knows all names")
		return nil
	})
	if got := sure(a, 0, "perlidae"); got != want {
		t.Errorf("%v, want %v", got, want)
	}
}

// Where a scheme counts all that a name may be as one kind there is one way, and it is
// that of the records judged together.
func TestOneKindWhateverItIsHasOneWay(t *testing.T) {
	a := together(t, identified("plecoptera", 40), identified("perlidae", 1), identified("baetidae", 2))
	rules, err := scoring.EmbeddedRules(catalog(t))
	if err != nil {
		t.Fatal(err)
	}
	s := rules.Scheme("presence")
	c := s.Counting()
	one := a.Ways(c, a.Rows(c))
	counts := make([]int64, len(s.Kinds))
	one.Counts(0, counts)
	of := func(taxon string) int64 { return counts[s.Nearest(taxon)] }
	if one.Number != 1 || of("plecoptera") != 41 || of("baetidae") != 2 {
		t.Errorf("%d ways, %v", one.Number, counts)
	}
	if by := a.Ways(fbi(t).Counting(), a.Rows(fbi(t).Counting())); by.Number < 2 {
		t.Errorf("the families that a stonefly may be are worth different things, and there is %d way", by.Number)
	}
}

// A kind of the fauna may hold several kinds of a scheme: a crane fly tears leaves unless it
// is of the genus that hunts. Nobody knows which it is, so it is either in half of the ways,
// and as likely as [account.Account.Outcomes] has it.
func TestAKindTooBroadForASchemeIsEachThatItMayBe(t *testing.T) {
	a := together(t, identified("tipulidae", 1), identified("nemouridae", 3))
	rules, err := scoring.EmbeddedRules(catalog(t))
	if err != nil {
		t.Fatal(err)
	}
	s := rules.Scheme("percent-shredders")
	c := s.Counting()
	ways, counts, hunters := a.Ways(c, a.Rows(c)), make([]int64, len(s.Kinds)), 0
	for way := range ways.Number {
		ways.Counts(way, counts)
		leaves, hunts := counts[s.Nearest("tipulidae")], counts[s.Nearest("dicranota")]
		if leaves+hunts != 1 || counts[s.Nearest("nemouridae")] != 3 {
			t.Fatalf("way %d: %v", way, counts)
		}
		hunters += int(hunts)
	}
	if share := float64(hunters) / float64(ways.Number); ways.Number < 100 || share < 0.4 || share > 0.6 {
		t.Errorf("it hunts in %v of %d ways", share, ways.Number)
	}
	for _, o := range a.Outcomes(c, &a.Records[0]) {
		if math.Abs(o.Chance-0.5) > 1e-9 {
			t.Errorf("kind %d with %v", o.Kind, o.Chance)
		}
	}
}
