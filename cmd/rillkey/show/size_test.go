package show

import (
	"testing"

	"rillkey/taxa"
)

// A length is judged where that tells something: of animals of very different lengths nearly any fits.
func TestALengthIsJudgedWhereItTells(t *testing.T) {
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		possible []string
		length   float64
		tells    bool
	}{
		{[]string{"perlidae"}, 20, true},
		{[]string{"perlidae"}, 2, true},
		{[]string{"perlidae", "elmidae-adult", "corydalidae"}, 9, false},
		{[]string{"perlidae", "elmidae-adult", "corydalidae"}, 200, true},
	} {
		if got := size(catalog, row.possible, row.length); (got != nil) != row.tells || got != nil && got.Remark == "" {
			t.Errorf("%v, %g mm: %+v", row.possible, row.length, got)
		}
	}
}
