package bitset_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"rillkey/taxa/bitset"
)

func members(s bitset.Set) []int {
	out := []int{}
	s.Each(func(i int) { out = append(out, i) })
	return out
}

// The bits must do what a plain map of numbers does.
func TestSetsAgreeWithMaps(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		size := 1 + r.IntN(200)
		a, b := bitset.New(size), bitset.New(size)
		inA, inB := map[int]bool{}, map[int]bool{}
		for range r.IntN(size + 1) {
			i, j := r.IntN(size), r.IntN(size)
			a.Add(i)
			b.Add(j)
			inA[i], inB[j] = true, true
		}
		both, either := []int{}, []int{}
		for i := range size {
			if inA[i] && inB[i] {
				both = append(both, i)
			}
			if inA[i] || inB[i] {
				either = append(either, i)
			}
			if a.Has(i) != inA[i] {
				t.Fatalf("Has(%d) is %v", i, a.Has(i))
			}
		}
		and, or, rest := a.Clone(), a.Clone(), a.Clone()
		and.And(b)
		or.Or(b)
		rest.AndNot(b)
		if rest.Meets(b) || rest.Len() != len(inA)-len(both) || !rest.Subset(a) {
			t.Fatalf("%v less %v is %v", members(a), members(b), members(rest))
		}
		if !slices.Equal(members(and), both) || !slices.Equal(members(or), either) {
			t.Fatalf("and %v want %v, or %v want %v", members(and), both, members(or), either)
		}
		if a.Subset(b) != (len(both) == len(inA)) || !and.Subset(a) {
			t.Fatalf("%v within %v: %v", members(a), members(b), a.Subset(b))
		}
		if a.Meets(b) != (len(both) > 0) || a.Len() != len(inA) {
			t.Fatal("Meets or Len disagrees")
		}
		if bitset.Full(size).Len() != size {
			t.Fatal("Full is not full")
		}
	}
}
