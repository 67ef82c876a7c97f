package tray_test

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"rillkey/scoring/tray"
)

// doubtful is an animal of kind 0 or 1: what was seen of it fits the first so many
// times better.
func doubtful(times float64) tray.Name {
	return tray.Name{Kinds: []int{0, 1}, Likelihoods: []float64{times, 1}}
}

func certain(kind int) tray.Name { return tray.Name{Kinds: []int{kind}, Likelihoods: []float64{1}} }

func flat(kinds int) []float64 {
	out := make([]float64, kinds)
	for i := range out {
		out[i] = 1 / float64(kinds)
	}
	return out
}

func chanceOf(t *testing.T, name, kind int, of tray.Tray) float64 {
	t.Helper()
	j := of.Judge(0)
	for i, k := range of.Names[name].Kinds {
		if k == kind {
			return j.Chances[name][i]
		}
	}
	return 0
}

// What lies beside a name speaks for it or against it, and a name by itself is as
// likely as it was.
func TestTheTraySpeaks(t *testing.T) {
	alone := tray.Tray{Prior: flat(20), Samples: 1, Names: []tray.Name{doubtful(4)}}
	if p := chanceOf(t, 0, 0, alone); math.Abs(p-0.8) > 0.04 {
		t.Errorf("alone it is kind 0 with %v, want about 4 in 5", p)
	}
	beside := func(kind, animals int) float64 {
		of := alone
		for range animals {
			of.Names = append(of.Names, certain(kind))
		}
		return chanceOf(t, 0, 0, of)
	}
	if like, other := beside(0, 20), beside(1, 20); like < 0.98 || other > 0.2 {
		t.Errorf("beside twenty of its kind %v, beside twenty of the other %v", like, other)
	}
}

// No record confirms itself, and two that are misread alike confirm each other little:
// beside many of kind 1 they are more likely two of those.
func TestNoRecordConfirmsItself(t *testing.T) {
	of := tray.Tray{Prior: flat(100), Samples: 1}
	for range 40 {
		of.Names = append(of.Names, certain(1))
	}
	of.Names = append(of.Names, doubtful(30), doubtful(30))
	one := chanceOf(t, 40, 0, of)
	if one > 0.2 {
		t.Errorf("one of two is kind 0 with %v", one)
	}
}

// Those who count like animals together have parted the heaps of a sample: only
// other samples speak for a name.
func TestHeapsOfOneSampleAreApart(t *testing.T) {
	beside := func(heap bool, sample int) float64 {
		first := doubtful(4)
		first.Heap = heap
		of := tray.Tray{Prior: flat(20), Samples: 2, Names: []tray.Name{first}}
		for range 10 {
			n := certain(1)
			n.Heap, n.Sample = heap, sample
			of.Names = append(of.Names, n)
		}
		return chanceOf(t, 0, 0, of)
	}
	if heaps, animals := beside(true, 0), beside(false, 0); heaps < animals+0.3 {
		t.Errorf("beside heaps of its sample %v, beside animals %v", heaps, animals)
	}
	if heaps, animals := beside(true, 1), beside(false, 1); math.Abs(heaps-animals) > 0.05 {
		t.Errorf("beside heaps of another sample %v, beside its animals %v", heaps, animals)
	}
}

// People whose answers fit careless ones better are believed less.
func TestCarelessPeopleAreBelievedLess(t *testing.T) {
	of := tray.Tray{Prior: flat(20), Samples: 1, Names: []tray.Name{doubtful(50)}}
	usual := chanceOf(t, 0, 0, of)
	of.Half, of.Twice = -20, 10
	careless := chanceOf(t, 0, 0, of)
	of.Half, of.Twice = 10, -20
	if careful := chanceOf(t, 0, 0, of); !(careless < usual-0.01 && usual < careful) {
		t.Errorf("careless %v, usual %v, careful %v", careless, usual, careful)
	}
}

// The chances of any tray sum to 1, the draws have them, and one seed gives one answer.
func TestAnyTray(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 1))
	for range 10 {
		kinds := 2 + random.IntN(30)
		of := tray.Tray{Prior: flat(kinds), Samples: 3, Half: 5 * random.NormFloat64(), Twice: 5 * random.NormFloat64()}
		for range random.IntN(60) {
			n := tray.Name{Sample: random.IntN(3), Heap: random.IntN(4) == 0}
			for _, k := range random.Perm(kinds)[:1+random.IntN(min(kinds, 6))] {
				n.Kinds, n.Likelihoods = append(n.Kinds, k), append(n.Likelihoods, random.ExpFloat64())
			}
			of.Names = append(of.Names, n)
		}
		j := of.Judge(7)
		if !reflect.DeepEqual(j, of.Judge(7)) {
			t.Fatal("the same seed gives something else")
		}
		drawn := make([][]float64, len(of.Names))
		for i, n := range of.Names {
			drawn[i] = make([]float64, len(n.Kinds))
			drawn[i][j.First(i)] = 1
		}
		for at, i := range j.Open {
			clear(drawn[i])
			for d := range j.Draws {
				drawn[i][j.Drawn(d, at)] += 1 / float64(j.Draws)
			}
		}
		for i := range of.Names {
			sum := 0.0
			for k, p := range j.Chances[i] {
				sum += p
				if math.Abs(p-drawn[i][k]) > 0.12 {
					t.Errorf("name %d is its kind %d with %v, but in %v of the draws", i, k, p, drawn[i][k])
				}
			}
			if math.Abs(sum-1) > 1e-9 {
				t.Errorf("%v sum to %v", j.Chances[i], sum)
			}
		}
	}
}
