package units_test

import (
	"strings"
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

// A count stands before or behind a name, and a name that is no word is no name.
func TestCountLast(t *testing.T) {
	for _, row := range []struct{ why, typed, want string }{
		{"behind it, as on the sheet", "golden stonefly 3", "golden stonefly 3"},
		{"before it, as people say it", "3 golden stonefly", "golden stonefly 3"},
		{"two numbers: a row and its count", "3 12", "3 12"},
		{"no animals of a row", "3 none", "3 none"},
		{"a dash for none", "3 -", "3 -"},
		{"a number alone", "3", "3"},
		{"nothing", "", ""},
	} {
		words := strings.Fields(row.typed)
		if got := strings.Join(units.CountLast(words), " "); got != row.want || strings.Join(words, " ") != row.typed {
			t.Errorf("%s: %q becomes %q, not %q, and what was given is %q", row.why, row.typed, got, row.want, words)
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
