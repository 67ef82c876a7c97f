package taxa_test

import (
	"strings"
	"testing"
)

// A thing that everybody knows stands for a length; its range is memory.
func TestAThingStandsForALength(t *testing.T) {
	for _, row := range []struct {
		said, thing string
		mm          float64
		rest        string
	}{
		{"as big as a grain of rice", "grain of rice", 6, ""},
		{"brown, about as long as my thumbnail, six legs", "thumbnail", 13, "brown, six legs"},
		{"It is as long as my thumb and brown", "thumb", 51, "and brown"},
		{"the size of a pea", "pea", 8, ""},
		{"no bigger than a pea", "", 0, "no bigger than a pea"},
		{"longer than my fingernail", "longer than my fingernail", 18, ""},
		{"brown, a bit smaller than a pinhead", "a bit smaller than a pinhead", 0.8, "brown"},
		{"tails longer than my fingernail", "", 0, "tails longer than my fingernail"},
		{"longer than my thumbnail is wide", "", 0, "longer than my thumbnail is wide"},
		{"as long as my thumb top", "thumb top", 28, ""},
		{"as long as the top of my thumb, brown", "top of my thumb", 28, "brown"},
		{"as big as a peppercorn", "peppercorn", 6, ""},
		{"the size of a grapefruit", "grapefruit", 111, ""},
		{"half as big as a pea", "", 0, "half as big as a pea"},
		{"not as big as a pea", "", 0, "not as big as a pea"},
		{"as big as a pea pod", "", 0, "as big as a pea pod"},
		{"its feelers are as long as my thumbnail", "", 0, "its feelers are as long as my thumbnail"},
		{"as long as my thumbnail is wide", "", 0, "as long as my thumbnail is wide"},
		{"it is huge, like almost my whole pinky", "pinky", 51, "it is huge"},
		{"like my pinky", "", 0, "like my pinky"}, // of its shape
		{"as big as a peacock", "", 0, "as big as a peacock"},
		{"like a grain of rice", "", 0, "like a grain of rice"},
		{"as long as my finger", "finger", 63, ""},
		{"brown, about as wide as my fingernail", "fingernail", 13, "brown"}, // and not as long
		{"It is flat. It is as big as a pea", "pea", 8, "It is flat."},
		{"I found a house of sand with a worm in it. It is as big as a pea", "pea", 8, "I found a house of sand with a worm in it."},
		{"tails as long as its body", "", 0, "tails as long as its body"},
	} {
		got := vocabulary(t).SizeSaid(row.said)
		if got.Wide != strings.Contains(row.said, "wide as") || got.Shelter != "" {
			t.Errorf("%q: said of the %s, wide %v", row.said, got.Shelter, got.Wide)
		}
		if got.Thing != row.thing || got.MM() != row.mm || got.Rest != row.rest {
			t.Errorf("%q: %+v, %v mm; want %q, %v mm, %q", row.said, got, got.MM(), row.thing, row.mm, row.rest)
		}
	}
}

// What a house is as long as is not the animal's length.
func TestASizeSaidOfAHouseIsTheHouses(t *testing.T) {
	got := vocabulary(t).SizeSaid("I found a tiny house made of sand. It's about as long as my thumbnail. It walks")
	if got.Shelter != "house" {
		t.Errorf("%+v", got)
	}
}
