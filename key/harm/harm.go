// Package harm is what befalls animals on their way into a tray: parts that are
// lost together, and what the half-grown do not have yet; and what people take for
// another part. It changes the states that an animal shows, one for each trait that can
// be seen.
package harm

import (
	"rillkey/taxa"
)

// Loss is traits that are lost together, with what is then seen of each; empty for
// what nobody can tell any more.
type Loss map[string]string

// LostParts are what animals lose in a net (common practice). Traits and states that a
// vocabulary does not have are passed over.
var LostParts = []Loss{
	{"tails": "none", "tail-length": "none", "tail-middle": "none", "tail-hair": "none"},
	{"gills": "none", "gill-form": "none", "gill-row": "none", "gill-mark": "none", "lids": "none"},
	{"antennae": "none", "feelers": "none"},
	{"legs": "", "claws": "", "leg-length": "", "forelegs": "", "hindlegs": "", "reach": "", "foot": "", "bands": ""},
	{"oars": "none", "hind": "plain"},
	{"side-arms": "none"},
	{"case": "none", "case-stuff": "none", "case-shape": "none", "case-bend": "none", "case-lay": "none", "case-face": "none",
		"case-side": "none", "case-held": "none"},
	{"hooks": "none", "hook-stalk": "none", "hook-size": "none", "end-plate": "none"},
}

// HalfGrown is what half-grown animals do not have yet: always the first, wing flaps,
// and each of the rest in half of them (common practice).
var HalfGrown = []Loss{
	{"wings": "none", "pads": "none"},
	{"gills": "none", "gill-form": "none", "gill-row": "none", "gill-mark": "none", "lids": "none"},
	{"pattern": "plain", "colour": "pale"},
	{"side-arms": "none"},
}

// Another is a part that people take for another one, all of its traits together: who
// counts the three plates of a damselfly as tails sees no plates.
type Another struct {
	Trait, State string // what animals with the part show
	First        string // the trait that says how often, by the table of what a kind shows
	Seen         Loss   // what is seen instead
}

// TakenForAnother are such parts (common practice). Traits and states that a vocabulary
// does not have are passed over.
var TakenForAnother = []Another{
	{"hind", "plates", "tails", Loss{
		"tails": "3", "tail-length": "short", "tail-middle": "equal", "tail-hair": "bare",
		"hind": "plain", "oars": "none", "gills": "none", "gill-form": "none", "gill-mark": "none",
	}},
}

// Shown reports whether there is anything of the part to lose in what an animal shows.
func (p Loss) Shown(shows map[string]string) bool {
	for trait, left := range p {
		if s, ok := shows[trait]; ok && s != left && s != "none" {
			return true
		}
	}
	return false
}

// Take takes the part from what an animal shows. What is noticed as lost is left
// open; else it is seen as if it had never been there.
func (p Loss) Take(shows map[string]string, noticed bool, v *taxa.Vocabulary) {
	for trait, left := range p {
		t := v.Trait(trait)
		if s, ok := shows[trait]; t == nil || !ok || s == "none" {
			continue
		}
		if noticed || left == "" {
			delete(shows, trait)
		} else if t.State(left) >= 0 {
			shows[trait] = left
		}
	}
}
