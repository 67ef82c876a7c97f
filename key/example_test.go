package key_test

import (
	"fmt"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
)

// One animal is named: what was seen at once, then whatever is still asked.
func ExampleInquiry() {
	catalog, err := taxa.Embedded()
	if err != nil {
		panic(err)
	}
	sound, err := couplets.Load(couplets.Embedded(), couplets.DefaultName, couplets.DefaultName, catalog)
	if err != nil {
		panic(err)
	}
	k := key.Compile(sound, catalog)
	model, err := k.Model(key.FileRates(catalog.Vocabulary()))
	if err != nil {
		panic(err)
	}
	q, err := model.Inquire(key.DefaultOptions())
	if err != nil {
		panic(err)
	}
	for _, seen := range [][2]string{{"legs", "10"}, {"forelegs", "pincers"}} {
		if err := q.Observe(seen[0], seen[1]); err != nil {
			panic(err)
		}
	}
	fmt.Println(q.Verdict().Taxon, "by", q.Path())
	// Output:
	// astacidea by [legs=10 forelegs=pincers]
}
