package units_test

import (
	"testing"

	"rillkey/cmd/rillkey/units"
)

func TestNameAndCount(t *testing.T) {
	for _, row := range []struct {
		words []string
		name  string
		n     int // 0 for an error
	}{
		{[]string{"scud"}, "scud", 1},
		{[]string{"scud", "3"}, "scud", 3},
		{[]string{"3", "scud"}, "scud", 3},
		{[]string{"golden stonefly", "12"}, "golden stonefly", 12},
		{[]string{"golden", "stonefly"}, "golden stonefly", 1},
		{[]string{"scud", "3.5"}, "", 0},
		{[]string{"scud", "0"}, "", 0},
		{[]string{" "}, "", 1},
		{[]string{"7"}, "7", 1},
	} {
		name, n, err := units.NameAndCount(row.words)
		if name != row.name || n != row.n || (err != nil) != (row.n == 0) {
			t.Errorf("%q: %q, %d, %v", row.words, name, n, err)
		}
	}
}

func TestAnimalsOrNone(t *testing.T) {
	for _, row := range []struct {
		text string
		n    int // -1 for an error
	}{{"0", 0}, {"none", 0}, {"NIL", 0}, {"–", 0}, {"4", 4}, {"-4", -1}, {"few", -1}, {"", -1}} {
		n, err := units.AnimalsOrNone(row.text)
		if (err != nil) != (row.n < 0) || err == nil && n != row.n {
			t.Errorf("%q: %d, %v", row.text, n, err)
		}
	}
}
