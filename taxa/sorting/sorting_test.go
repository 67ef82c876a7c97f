package sorting

import (
	"cmp"
	"math/rand/v2"
	"slices"
	"testing"
)

// A list comes into the order that package slices gives it, what is equal as it stood.
func TestStableIsAsSlicesHasIt(t *testing.T) {
	t.Parallel()
	type thing struct {
		Size  int
		Place int
	}
	bySize := func(a, b thing) int { return cmp.Compare(a.Size, b.Size) }
	random := rand.New(rand.NewPCG(3, 9))
	for n := range 200 {
		list := make([]thing, n)
		for i := range list {
			list[i] = thing{random.IntN(1 + n/3), i}
		}
		want := slices.Clone(list)
		slices.SortStableFunc(want, bySize)
		if Stable(list, bySize); !slices.Equal(list, want) {
			t.Fatalf("%d things: got %v, want %v", n, list, want)
		}
	}
}

// What is in order costs one look at each neighbour.
func TestWhatIsInOrderIsSoonSeen(t *testing.T) {
	t.Parallel()
	list, looks := make([]int, 1000), 0
	for i := range list {
		list[i] = i / 7
	}
	if Stable(list, func(a, b int) int { looks++; return cmp.Compare(a, b) }); looks > 1100 {
		t.Errorf("%d looks at a thousand things in order", looks)
	}
}
