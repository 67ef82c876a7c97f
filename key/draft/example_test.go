package draft_test

import (
	"fmt"

	"rillkey/key/draft"
	"rillkey/taxa"
)

// A table of three animals and two traits becomes the cheapest key.
func ExampleNew() {
	legs := &taxa.Trait{ID: "legs", States: []taxa.State{{ID: "0"}, {ID: "6"}}}
	tails := &taxa.Trait{ID: "tails", States: []taxa.State{{ID: "2"}, {ID: "3"}}}
	traits := []draft.TableColumn{
		{Trait: legs, Effort: 1, Readings: draft.EvenReadings(legs)},
		{Trait: tails, Effort: 1, Readings: draft.EvenReadings(tails)},
	}
	table, err := draft.NewTable([]draft.TableRow{{ID: "worm", Weight: 3}, {ID: "mayfly", Weight: 1}, {ID: "stonefly", Weight: 1}}, traits)
	if err != nil {
		panic(err)
	}
	for row, states := range [][2][]int{{{0}, nil}, {{1}, {1}}, {{1}, {0}}} { // of a worm's tails nothing is known
		table.Set(row, 0, states[0], []float64{1})
		table.Set(row, 1, states[1], []float64{1})
	}
	key, err := draft.New(table, draft.Terms{})
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.1f questions for one animal; nothing is cheaper: %v\n", key.Cost, key.Exact)
	// Output:
	// 1.4 questions for one animal; nothing is cheaper: true
}
