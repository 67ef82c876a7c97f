package plain_test

import (
	"slices"
	"testing"

	"rillkey/taxa/plain"
)

func TestSplitNames(t *testing.T) {
	for _, row := range []struct {
		list  string
		names []string
	}{
		{"", nil},
		{" , ", nil},
		{"Oona", []string{"Oona"}},
		{"Oona, Mags and Bo", []string{"Oona", "Mags", "Bo"}},
		{"Oona; Mags & Bo Anders", []string{"Oona", "Mags", "Bo Anders"}},
		{"Sandy, Andrea", []string{"Sandy", "Andrea"}},
	} {
		if got := plain.SplitNames(row.list); !slices.Equal(got, row.names) {
			t.Errorf("%q: %q", row.list, got)
		}
	}
}
