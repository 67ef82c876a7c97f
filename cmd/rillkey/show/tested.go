package show

import (
	"rillkey/key/practice"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// TestKindWords says how animals are named in a test.
func TestKindWords(k practice.TestKind) string {
	switch k {
	case practice.OnSight:
		return wording.Text("on sight")
	case practice.WithKey:
		return wording.Text("with the key")
	}
	return wording.Text("on sight or with the key")
}

// TestedWords says what came of a test, as the rest of a sentence without its full stop.
func TestedWords(t practice.Tested) string {
	if !t.Finished() {
		return wording.Sprintf("left after %d of %s; how many were right is told of whole tests alone", t.Met,
			plain.Count(t.Animals, "animal"))
	}
	words := wording.Sprintf("%d of %s named rightly", t.Right, plain.Count(t.Animals, "animal"))
	if t.AsGroup > 0 {
		words += wording.Sprintf(", and %d more as far as a group that is several kinds", t.AsGroup)
	}
	return words
}
