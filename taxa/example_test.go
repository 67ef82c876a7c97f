package taxa_test

import (
	"fmt"

	"rillkey/taxa"
)

// A name is looked up as people say it, and what they see is understood.
func Example() {
	catalog, err := taxa.Embedded()
	if err != nil {
		panic(err)
	}
	animal := catalog.Taxon("astacidea")
	fmt.Println(animal.Name(), "is", animal.Class)
	seen, _, err := catalog.Vocabulary().Understand("ten legs, pincers")
	if err != nil {
		panic(err)
	}
	for _, s := range seen {
		fmt.Printf("%q: %s=%s\n", s.Words, s.Trait.ID, s.States[0])
	}
	// Output:
	// crayfish is somewhat sensitive
	// "ten legs": legs=10
	// "pincers": forelegs=pincers
}
