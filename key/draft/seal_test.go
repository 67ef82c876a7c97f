package draft_test

import (
	"fmt"
	"strings"
	"testing"

	"rillkey/key/draft"
)

func TestWhatWasWrittenByHandIsKnown(t *testing.T) {
	const first, second = "[taxon.worm]\nrank = \"group\"\ntraits = { legs = \"0\" }\n",
		"[taxon.worm]\nrank = \"group\"\ntraits = { legs = \"none\" }\n"
	sealed := string(draft.Seal([]byte(first)))
	for _, row := range []struct{ why, old, want string }{
		{"as it was drafted", sealed, "[]"},
		{"with the line ends of another system", strings.ReplaceAll(sealed, "\n", "\r\n"), "[]"},
		{"a class added", strings.Replace(sealed, "rank", "class = \"tolerant\"\nrank", 1),
			"[{2 class = \"tolerant\"} {4 traits = { legs = \"0\" }}]"},
		{"a remark added", "# mine\n" + sealed, "[{1 # mine} {4 traits = { legs = \"0\" }}]"},
		{"a line taken out", strings.Replace(sealed, "rank = \"group\"\n", "", 1), "[{2 traits = { legs = \"0\" }}]"},
		{"never sealed, and all of it in the draft", second, "[]"},
		{"aligned otherwise, and all of it in the draft", strings.Replace(second, "rank =", "rank       =", 1), "[]"},
		{"never sealed", first, "[{3 traits = { legs = \"0\" }}]"},
	} {
		if got := fmt.Sprint(draft.ByHand([]byte(row.old), []byte(second))); got != row.want {
			t.Errorf("%s: %s, want %s", row.why, got, row.want)
		}
	}
}
