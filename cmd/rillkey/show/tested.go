package show

import (
	"fmt"

	"rillkey/key/practice"
	"rillkey/taxa/plain"
)

// TestKindWords says how animals are named in a test.
func TestKindWords(k practice.TestKind) string {
	switch k {
	case practice.OnSight:
		return "on sight"
	case practice.WithKey:
		return "with the key"
	}
	return "on sight or with the key"
}

// TestedWords says what came of a test, as the rest of a sentence without its full stop.
func TestedWords(t practice.Tested) string {
	if !t.Finished() {
		return fmt.Sprintf("left after %d of %s; how many were right is told of whole tests alone", t.Met, plain.Count(t.Animals, "animal"))
	}
	words := fmt.Sprintf("%d of %s named rightly", t.Right, plain.Count(t.Animals, "animal"))
	if t.Within > 0 {
		words += fmt.Sprintf(", and %d more as far as a group that is several kinds", t.Within)
	}
	return words
}
