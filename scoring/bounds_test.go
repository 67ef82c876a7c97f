package scoring

import (
	"math/rand"
	"slices"
	"strings"
	"testing"

	"rillkey/scoring/chance"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
)

// every resolution of animals named too broadly is tried: each animal is any
// kind it may be, or none that the index counts if None is among them.
func everyValue(s grader, counts []int64, animals [][]int, meet func(chance.Ratio)) {
	if len(animals) == 0 {
		var found []scheme.KindCount
		for i, n := range counts {
			if n > 0 {
				found = append(found, scheme.KindCount{Index: i, Kind: s.Kinds[i], Count: n})
			}
		}
		if _, v := s.Value(found); v.Defined() {
			meet(v)
		}
		return
	}
	for _, k := range animals[0] {
		if k == scheme.None {
			everyValue(s, counts, animals[1:], meet)
			continue
		}
		counts[k]++
		everyValue(s, counts, animals[1:], meet)
		counts[k]--
	}
}

// TestBoundsAreWhatEveryResolutionReaches compares the bounds with all that can
// happen, for small tallies drawn with a fixed seed.
func TestBoundsAreWhatEveryResolutionReaches(t *testing.T) {
	r, draws := rules(t), 100
	if testing.Short() {
		draws = 25
	}
	for _, id := range []string{"fbi", "bmwp", "aspt", "bmwp-families", "presence", "weighted", "percent-dominant", "percent-ept"} {
		s := r.grader(id)
		random := rand.New(rand.NewSource(1))
		moved := 0
		for range draws {
			counts := make([]int64, len(s.Kinds))
			pool := random.Perm(len(s.Kinds))[:5]
			for _, k := range pool {
				counts[k] = int64(random.Intn(3))
			}
			var open []scheme.OpenCount
			var animals [][]int
			for range 1 + random.Intn(3) {
				o := scheme.OpenCount{Count: int64(1 + random.Intn(2)), Kinds: pick(random, pool), Sole: random.Intn(3) == 0}
				open = append(open, o)
				may := o.Kinds
				if !o.Sole {
					may = append([]int{scheme.None}, may...)
				}
				for range o.Count {
					animals = append(animals, may)
				}
			}
			from := sorted{open: open}
			for i, n := range counts {
				if n > 0 {
					from.found = append(from.found, scheme.KindCount{Index: i, Kind: s.Kinds[i], Count: n})
				}
			}
			got := s.sum(from)
			low, high := int64(1<<40), int64(-1)
			everyValue(s, counts, animals, func(v chance.Ratio) { low, high = min(low, v.Steps()), max(high, v.Steps()) })
			// Theirs hold all that can happen, and may be wider; so may those of sums over kinds that
			// something must be of.
			sole := slices.ContainsFunc(open, func(o scheme.OpenCount) bool { return o.Sole })
			wide := id == "weighted" || id == "percent-dominant" || sole && id != "fbi" && id != "percent-ept"
			exact := got.low.Steps() == low && got.high.Steps() == high
			if !got.bounded || !exact && !(wide && got.low.Steps() <= low && got.high.Steps() >= high) {
				t.Fatalf("%s: found %v, open %v: bounds %v to %v, but %s to %s can happen", id, counts, open, got.low,
					got.high, s.Text(low), s.Text(high))
			}
			if low < high {
				moved++
			}
		}
		if 3*moved < draws {
			t.Errorf("%s: only %d of %d tallies had anything to move", id, moved, draws)
		}
	}
}

func pick(random *rand.Rand, pool []int) (kinds []int) {
	for _, i := range random.Perm(len(pool))[:1+random.Intn(3)] {
		kinds = append(kinds, pool[i])
	}
	return kinds
}

func TestBoundsOfARecordNamedToOrder(t *testing.T) {
	y := newTray("riffle-families").sample("1", "riffle", 0)
	// 100 x 4 + 100 x 6 = 1000; 1000 / 200 = 5. Stoneflies of the list are worth 0
	// to 2: 100 more of 0 give 1000 / 300 = 3.33; none can raise the mean.
	y.animals("1", "baetidae", 100).animals("1", "simuliidae", 100).animals("1", "plecoptera", 40).animals("1", "plecoptera", 60)
	i := y.grade(t).Indices[0]
	if i.ID != "fbi" || *i.Value != 5 || i.Low == nil || *i.Low != 3.33 || *i.High != 5 {
		t.Fatalf("%+v", i)
	}
	said := strings.Join(i.Remarks, "\n")
	for _, want := range []string{"100 animals in 2 records, named too broadly to tell which kind they are: stonefly (100)",
		"between 3.33 (excellent) and 5.00 (good)"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q is missing from\n%s", want, said)
		}
	}
	if strings.Contains(said, "A closer name") {
		t.Errorf("said twice:\n%s", said)
	}
	y.animals("1", "jackalope", 1)
	if said := strings.Join(y.grade(t).Indices[0].Remarks, "\n"); !strings.Contains(said, "A closer name") {
		t.Errorf("the bounds do not speak of an animal without a known name:\n%s", said)
	}
	closed := newTray("riffle-families").sample("1", "riffle", 0).animals("1", "baetidae", 10).grade(t).Indices[0]
	if closed.Low != nil || closed.High != nil {
		t.Errorf("nothing is open, yet it could move: %+v", closed)
	}
}

func TestBoundsOfTheBestSample(t *testing.T) {
	r := rules(t)
	// Sample 1 is worth 5, and 3.33 if its ten stoneflies were of 0; sample 2 is
	// worth 6; sample 3 has no value yet, but its midges may be worth 6 or 8.
	y := newTray("riffle-families").riffles()
	y.animals("1", "baetidae", 10).animals("1", "simuliidae", 10).animals("1", "plecoptera", 10)
	y.animals("2", "simuliidae", 3).animals("3", "chironomidae", 5)
	s, of := r.grader("fbi"), r.Account(&y.v)
	got := s.best(s.evidence(of))
	if got.sample != "1" || s.Text(got.value.Steps()) != "5.00" || s.Text(got.low.Steps()) != "3.33" || s.Text(got.high.Steps()) != "5.00" {
		t.Errorf("the lowest value speaks best of a stream: %+v", got)
	}
	// By presence the highest counts: 3 x 1 for mayfly and stonefly, 2 x 1.
	p := r.grader("presence")
	if got := p.best(p.evidence(of)); got.sample != "1" || got.value.Steps() != 7 || got.bounded {
		t.Errorf("%+v", got)
	}
}

func TestAnOrderMayHideSeveralFamilies(t *testing.T) {
	r := rules(t)
	tests := []struct {
		label     string
		counts    map[string]int
		low, high int64
	}{
		{"one animal is one family at most", map[string]int{"simuliidae": 1, "plecoptera": 1}, 5, 15},
		{"three animals may be three", map[string]int{"simuliidae": 1, "plecoptera": 3}, 5, 35},
		{"families that are found do not count twice",
			map[string]int{"perlidae": 1, "perlodidae": 1, "leuctridae": 1, "capniidae": 1, "chloroperlidae": 1,
				"taeniopterygidae": 1, "plecoptera": 9}, 60, 67},
		{"families that the catalog lacks are known to be possible", map[string]int{"simuliidae": 1, "hirudinea": 2}, 5, 12},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			got := r.grader("bmwp").sum(r.grader("bmwp").sort(r.grader("bmwp").rows(r, records(tt.counts))))
			if got.low.Steps() != tt.low || got.high.Steps() != tt.high {
				t.Errorf("%v to %v, want %d to %d", got.low, got.high, tt.low, tt.high)
			}
		})
	}
}

func TestNoBoundsWhereTheFormulaCannotTell(t *testing.T) {
	r := rules(t)
	s := r.grader("shannon")
	got := s.sum(s.sort(s.rows(r, []visit.Record{{Identification: visit.Identification{Taxon: "diptera", Count: 3}}})))
	if got.bounded {
		t.Errorf("a logarithm of shares: %+v", got)
	}
}
