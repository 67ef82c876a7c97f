package scheme_test

import (
	"testing"

	"rillkey/scoring/scheme"
	"rillkey/taxa/language"
	"rillkey/taxa/wording"
)

// What is told of a habitat can be typed back, in each language.
func TestAHabitatIsToldAndTakenInTheLanguageInUse(t *testing.T) {
	de, err := language.BuiltIn("de")
	if err != nil {
		t.Fatal(err)
	}
	wording.Use(de)
	defer wording.Use(nil)
	for _, row := range []struct{ file, told string }{
		{"riffle", "Rausche"}, {"leaf-pack", "Laubpaket"}, {"Gumpen am Wehr", "Gumpen am Wehr"},
	} {
		if told := scheme.HabitatWords(row.file); told != row.told || scheme.HabitatNamed(told) != row.file {
			t.Errorf("%s is told as %s, which is taken for %s", row.file, told, scheme.HabitatNamed(told))
		}
	}
	if scheme.HabitatNamed("rausche ") != "riffle" || scheme.HabitatNamed("riffle") != "riffle" {
		t.Error("a habitat of the program is not taken in small letters, or as files have it")
	}
}
