package main

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// Whatever is said that cannot be read ends with status 2 and one line that says why;
// nothing of it is shown as it came.
func TestSayingWhatCannotBeRead(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a while")
	}
	for _, row := range []struct{ why, words, says string }{
		{"unknown words", "purple monkey", "is not among the words known here"},
		{"unknown words beside known ones", "six legs, zorple, 12 mm", "The rest was understood: --observe legs=6 --length 12"},
		{"another script", "шесть ног", "is not among the words known here"},
		{"a script without blanks", "六本足", "is not among the words known here"},
		{"pictures alone", "🦐🦐", "nothing was said"},
		{"signs that turn the line round", "six \u202elegs", "no letters"},
		{"one word of 1,900 letters", strings.Repeat("legs", 475), "is not among the words known here"},
		{"hardly any", "hardly any tails", "may mean"},
		{"a state against itself", "ten legs, no tails, three tails", `"no tails, three tails" may mean several things`},
		{"10,000 letters", strings.Repeat("ten legs, ", 1000), "more than 2000 letters"},
		{"control characters", "ten legs\x1b[31m, pincers", "no letters"},
		{"no letters at all", "\xff\xfe", "no letters"},
		{"nothing", " , ", "nothing was said"},
	} {
		status, out, errs := call(t, "identify", "--no-save", "--see", row.words)
		if status != 2 || out != "" || !strings.Contains(errs, row.says) || strings.Contains(errs, "\x1b") || !utf8.ValidString(errs) {
			t.Errorf("%s: status %d, out %.200q, err %.300q", row.why, status, out, errs)
		}
	}
}
