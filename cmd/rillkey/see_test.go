package main

import (
	"encoding/json"
	"math"
	"reflect"
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
		{"unknown words near nothing", "purple monkey", "these marks would tell most:\nrillkey:   --observe said:"},
		{"unknown words beside known ones", "six legs, zorple, 12 mm", "The rest was understood: --observe said:legs=6 --length 12"},
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

// What was said in own words, once by --see and once as its path, is believed alike.
func TestOwnWordsTypedAgainAsAPath(t *testing.T) {
	t.Parallel()
	type told struct {
		Taxon, Class, Likeliest string
		Confidence              float64
		Path                    []string
	}
	identified := func(args ...string) (out told) {
		t.Helper()
		_, stdout, stderr := call(t, append([]string{"identify", "--no-save", "--json"}, args...)...)
		if err := json.Unmarshal([]byte(stdout), &out); err != nil {
			t.Fatalf("%v: %v %s", args, err, stderr)
		}
		return out
	}
	for _, words := range []string{"ten legs, lobster claws, 40 mm", "six legs, three tails, gills along the sides", "spiral shell, 5 mm"} {
		said := identified("--see", words)
		if !strings.HasPrefix(said.Path[0], "said:") {
			t.Errorf("%s: the path %q does not say that these are own words", words, said.Path)
		}
		for _, args := range [][]string{{"--answers", strings.Join(said.Path, ",")}, {"--answers", strings.Join(said.Path, " ")}} {
			if again := identified(args...); !reflect.DeepEqual(again, said) {
				t.Errorf("%s: %+v, and by %q %+v", words, said, args, again)
			}
		}
		var observed []string
		for _, one := range said.Path {
			if length, ok := strings.CutPrefix(one, "length="); ok {
				observed = append(observed, "--length", length)
			} else {
				observed = append(observed, "--observe", strings.ReplaceAll(one, "+", ","))
			}
		}
		if again := identified(observed...); again.Taxon != said.Taxon || math.Abs(again.Confidence-said.Confidence) > 1e-12 {
			t.Errorf("%s: %+v, and by %q %+v", words, said, observed, again)
		}
	}
}
