package show_test

import (
	"testing"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/visit"
	"rillkey/taxa/language"
	"rillkey/taxa/wording"
)

// What an amendment wants is told in the language in use, its values too.
func TestACorrectionIsToldInTheLanguageInUse(t *testing.T) {
	habitat, day, sorting := "leaf-pack", "2026-05-16", visit.Empty
	a := visit.Amendment{Change: visit.Change{Habitat: &habitat, Date: &day, Said: &sorting}, Reason: "..."}
	want := "habitat leaf-pack, day 16 May 2026, sorting empty (...)"
	if got := show.Correction(nil, a); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	german, err := language.BuiltIn("de")
	if err != nil {
		t.Fatal(err)
	}
	wording.Use(german)
	defer wording.Use(nil)
	want = "Lebensraum Laubpaket, Tag 16. Mai 2026, Sortieren leer (...)"
	if got := show.Correction(nil, a); got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
