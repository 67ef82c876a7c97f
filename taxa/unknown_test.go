package taxa_test

import (
	"strings"
	"testing"

	"rillkey/taxa"
)

// Where an id belongs a name is told by the id that it means, also in the plural, in
// Latin and misspelt.
func TestUnknownTaxaAreToldByTheirNames(t *testing.T) {
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	for typed, want := range map[string]string{
		"mayflies":      `"ephemeroptera"`,
		"Ephemeroptera": `"ephemeroptera"`,
		"Ephemeropetra": `"ephemeroptera"`,
		"heptageniidea": `"heptageniidae"`,
		"Plecopterra":   `"plecoptera"`,
	} {
		problem, hint := catalog.Unknown(typed)
		if !strings.Contains(problem, typed) || !strings.Contains(hint, "did you mean") || !strings.Contains(hint, want) {
			t.Errorf("%s: %s (%s), want %s", typed, problem, hint, want)
		}
	}
}
