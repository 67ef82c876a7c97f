package visit

import "testing"

func TestSamePerson(t *testing.T) {
	for _, row := range []struct {
		a, b string
		same bool
	}{
		{"Oona", " oona ", true}, {"Oona", "Mags", false},
		{"", "", false}, {" ", "", false}, {"Oona", "", false}, // nobody is named: nobody can tell
	} {
		if got := SamePerson(row.a, row.b); got != row.same {
			t.Errorf("%q and %q: %v", row.a, row.b, got)
		}
	}
}
