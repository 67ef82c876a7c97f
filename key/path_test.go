package key_test

import (
	"slices"
	"testing"

	"rillkey/key"
)

func TestPathAnswers(t *testing.T) {
	for _, row := range []struct {
		path    string
		answers []string
	}{
		{"", nil},
		{"1b", []string{"1b"}},
		{"1b,4a", []string{"1b", "4a"}},
		{"1b 77a, tails=2+3 hooks?", []string{"1b", "77a", "tails=2+3", "hooks?"}},
		{"tails = 2 + 3,\t4?", []string{"tails=2+3", "4?"}},
	} {
		if got := key.PathAnswers(row.path); !slices.Equal(got, row.answers) {
			t.Errorf("%q: %q", row.path, got)
		}
	}
}

func TestAnswersAlone(t *testing.T) {
	path := []string{"1b", "length=12", "tails=2", "length?"}
	if got := key.AnswersAlone(path); !slices.Equal(got, []string{"1b", "tails=2", "length?"}) || path[1] != "length=12" {
		t.Errorf("%q of %q", got, path)
	}
}
